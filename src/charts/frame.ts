import { FAMILY, INK, TYPE } from './ink.ts'
import { element, escapeText } from './svg.ts'

export interface FrameSpec {
  /** Unique on the page; every id inside the figure starts with it. Lower-case letters, digits and hyphens. */
  readonly id: string
  /** Short name, read out first. */
  readonly title: string
  /** What the drawing shows, with its figures, for those who do not see it. */
  readonly description: string
  readonly width: number
  readonly height: number
  /** Patterns, clip paths. */
  readonly definitions?: readonly string[]
  readonly body: readonly string[]
}

/**
 * The outer `<svg>` of a figure: an image with a name and a description, white paper, and no style of its own,
 * so that it reads the same on screen, in print and as a file.
 *
 * Throws RangeError for an id that could clash or break a reference, and for an empty area.
 */
export function frame(spec: FrameSpec): string {
  const { id, width, height } = spec
  if (!/^[a-z][a-z0-9-]*$/.test(id))
    throw new RangeError(`a figure id is lower-case words and hyphens, got "${id}"`)
  if (!(width > 0 && height > 0)) throw new RangeError(`a figure needs an area, got ${width} × ${height}`)
  const definitions = spec.definitions ?? []
  return element(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      role: 'img',
      'aria-labelledby': `${id}-title ${id}-desc`,
      width,
      height,
      viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`,
      'font-family': FAMILY,
      'font-size': TYPE.normal,
      fill: INK.text,
    },
    element('title', { id: `${id}-title` }, escapeText(spec.title)),
    element('desc', { id: `${id}-desc` }, escapeText(spec.description)),
    ...(definitions.length > 0 ? [element('defs', {}, ...definitions)] : []),
    element('rect', { width, height, fill: INK.paper }),
    ...spec.body,
  )
}
