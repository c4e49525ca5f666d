import { INK, TYPE } from './ink.ts'
import { box, label, textWidth } from './marks.ts'
import { element } from './svg.ts'

export interface LegendEntry {
  readonly text: string
  /** Drawn inside a box of 16 × 12 user units whose corner is at the origin; left out for a plain swatch. */
  readonly mark?: string
  readonly fill?: string
}

const SWATCH = { width: 16, height: 12 }

/** Entries in rows, as many in each as the width holds. Returns the drawing and the height it takes. */
export function legend(
  entries: readonly LegendEntry[],
  at: { readonly x: number; readonly y: number; readonly width: number },
): { readonly drawing: string; readonly height: number } {
  let x = at.x
  let y = at.y
  const drawn = entries.map((entry) => {
    const width = SWATCH.width + 6 + textWidth(entry.text, TYPE.small) + 16
    if (x > at.x && x + width > at.x + at.width) {
      x = at.x
      y += 18
    }
    const swatch =
      entry.mark ??
      box(
        { x: 0, y: 0, ...SWATCH },
        { fill: entry.fill ?? INK.paper, stroke: INK.quiet, 'stroke-width': 0.75 },
      )
    const item = element(
      'g',
      { transform: `translate(${Math.round(x)} ${Math.round(y)})` },
      swatch,
      label(entry.text, { x: SWATCH.width + 6, y: 10 }, { 'font-size': TYPE.small }),
    )
    x += width
    return item
  })
  return { drawing: drawn.join(''), height: entries.length === 0 ? 0 : y - at.y + SWATCH.height }
}
