import { formatLength } from '../../units/format.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { KeepOut } from '../escapeWishes.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { Package } from '../packages.ts'
import type { EscapeText } from '../schema/escapeSchema.ts'
import { signalLayers } from '../stackup/signalLayer.ts'
import { layerChoice } from './layerChoice.ts'
import type { WishScope } from './wishSurroundings.ts'

type KeepOutText = NonNullable<EscapeText['keep_outs']>[number]

/** A rectangle narrower than this has no area: what is left of a difference of equal lengths is far below. */
const SMALLEST: Metres = 1e-9

/** Rectangles that no trace may touch; on all signal layers where none are named. Problems are noted. */
export function keepOuts(
  { keep_outs: entries = [] }: EscapeText,
  path: Path,
  scope: WishScope,
  notes: Notes,
): KeepOut[] {
  return entries.map((text, index): KeepOut => {
    const place = [...path, index]
    const layers =
      text.layers === undefined
        ? signalLayers(scope)
        : layerChoice(text.layers, [...place, 'layers'], scope, notes)
    const area = areaOf(text)
    const isArea = checkArea(text, area, place, notes)
    if (isArea && scope.pack !== null) checkReach(text, area, scope.pack, place, notes)
    return { name: text.name, layers, ...area }
  })
}

type Area = Pick<KeepOut, 'low' | 'high'>

/** Any two opposite corners will do. */
function areaOf({ from: [x, y], to: [otherX, otherY] }: KeepOutText): Area {
  return {
    low: { x: Math.min(x, otherX), y: Math.min(y, otherY) },
    high: { x: Math.max(x, otherX), y: Math.max(y, otherY) },
  }
}

function checkArea({ name }: KeepOutText, { low, high }: Area, path: Path, notes: Notes): boolean {
  const equal = (['x', 'y'] as const).filter((axis) => high[axis] - low[axis] < SMALLEST)
  const [axis] = equal
  if (axis === undefined) return true
  const at = `${axis} = ${formatLength(low[axis], notes.context.displayUnit)}`
  notes.error([...path, 'to'], {
    found: equal.length === 2 ? 'the same place as from' : `a corner with the same ${axis} as from`,
    allowed: 'the opposite corner of the rectangle',
    message:
      equal.length === 2
        ? `The two corners of keep-out ${name} coincide.`
        : `Keep-out ${name} has no area: both corners lie at ${at}.`,
  })
  return false
}

/** A breakout ends half a pitch outside the last row; a rectangle further out is most likely in the board's frame. */
function checkReach({ name }: KeepOutText, area: Area, pack: Package, path: Path, notes: Notes): void {
  if (pack.balls.length === 0) return
  const { low, high } = extentOf(pack)
  const meets = (['x', 'y'] as const).every(
    (axis) =>
      area.low[axis] <= high[axis] + pack.pitch[axis] && area.high[axis] >= low[axis] - pack.pitch[axis],
  )
  if (meets) return
  const print = ({ x, y }: Point): string =>
    [x, y].map((value) => formatLength(value, notes.context.displayUnit)).join(', ')
  const extent = `from ${print(low)} to ${print(high)}`
  notes.warn(path, {
    found: `a rectangle from ${print(area.low)} to ${print(area.high)}`,
    allowed: `one that meets the balls of ${pack.name}, ${extent}`,
    message: `Keep-out ${name} lies beside the breakout of ${pack.name}, whose balls reach ${extent} in the package's own frame; it has no effect.`,
  })
}

function extentOf({ balls }: Package): Area {
  // Not spread into Math.min: a package may have ten thousand balls.
  return balls.reduce<Area>(
    ({ low, high }, { x, y }) => ({
      low: { x: Math.min(low.x, x), y: Math.min(low.y, y) },
      high: { x: Math.max(high.x, x), y: Math.max(high.y, y) },
    }),
    { low: { x: Infinity, y: Infinity }, high: { x: -Infinity, y: -Infinity } },
  )
}
