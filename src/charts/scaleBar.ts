import { INK, TYPE } from './ink.ts'
import { label, segment } from './marks.ts'
import { element } from './svg.ts'

export interface ScaleBarSpec {
  readonly x: number
  readonly y: number
  /** In user units. */
  readonly length: number
  readonly text: string
  /** Upright where only heights are to scale: the bar then rises from its place. */
  readonly upright?: boolean
}

/** A bar of known length, so that a drawing to scale still says so after it was enlarged. */
export function scaleBar({ x, y, length, text, upright = false }: ScaleBarSpec): string {
  if (!(length > 0)) throw new RangeError(`a scale bar needs a length, got ${length}`)
  const end = upright ? { x, y: y - length } : { x: x + length, y }
  const cap = upright ? { x: 4, y: 0 } : { x: 0, y: 4 }
  const across = (at: { x: number; y: number }): string =>
    segment({ x: at.x - cap.x, y: at.y - cap.y }, { x: at.x + cap.x, y: at.y + cap.y })
  return element(
    'g',
    {},
    segment({ x, y }, end, { stroke: INK.text, 'stroke-width': 1.5 }),
    across({ x, y }),
    across(end),
    label(text, { x: Math.max(x, end.x) + 9, y: (y + end.y) / 2 + 3.5 }, { 'font-size': TYPE.small }),
  )
}
