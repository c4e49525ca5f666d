import type { MaskCoat } from '../../section/crossSection.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import type { Bump } from './bump.ts'

/** A stretch of mask raised by copper: where its flanks meet the level over the laminate and over the copper. */
interface Hump {
  readonly leftFloor: Metres
  readonly leftRoof: Metres
  readonly rightRoof: Metres
  readonly rightFloor: Metres
}

/**
 * Outer face of a mask that follows the copper, from the left side of the picture to its right one: level over
 * the laminate, up along the side walls as thick as over the trace, level over the copper. Gaps that the mask
 * closes, and traces that it buries, come out level.
 */
export function maskOutline(bumps: readonly Bump[], coat: MaskCoat, left: Metres, right: Metres): Point[] {
  const laminate = Math.min(...bumps.map((bump) => bump.y))
  const copper = Math.max(...bumps.map((bump) => bump.y + bump.thickness))
  const floor = laminate + coat.overLaminate
  const roof = copper + coat.overTrace
  const at = (x: Metres, y: Metres): Point => ({ x, y })
  if (!(floor < roof)) return [at(left, floor), at(right, floor)]
  const humps = mergeTouching(
    bumps
      .map((bump) => humpOver(bump, coat.overTrace, floor, roof))
      .sort((first, second) => first.leftFloor - second.leftFloor),
  )
  const startsHigh = humps.some((hump) => hump.leftFloor <= left)
  const endsHigh = humps.some((hump) => hump.rightFloor >= right)
  const flanks = humps.flatMap((hump) => [
    ...(hump.leftFloor > left ? [at(hump.leftFloor, floor), at(hump.leftRoof, roof)] : []),
    ...(hump.rightFloor < right ? [at(hump.rightRoof, roof), at(hump.rightFloor, floor)] : []),
  ])
  return [at(left, startsHigh ? roof : floor), ...flanks, at(right, endsHigh ? roof : floor)]
}

/** Flanks run parallel to the side walls, one coat further out. */
function humpOver(bump: Bump, coat: Metres, floor: Metres, roof: Metres): Hump {
  const flank = (low: Metres, high: Metres, outwards: 1 | -1) => {
    const slope = (high - low) / bump.thickness
    return (height: Metres): Metres =>
      low + slope * (height - bump.y) + outwards * coat * Math.hypot(1, slope)
  }
  const leftFlank = flank(bump.lowLeft, bump.highLeft, -1)
  const rightFlank = bump.endless ? () => Infinity : flank(bump.lowRight, bump.highRight, 1)
  return {
    leftFloor: leftFlank(floor),
    leftRoof: leftFlank(roof),
    rightRoof: rightFlank(roof),
    rightFloor: rightFlank(floor),
  }
}

function mergeTouching(humps: readonly Hump[]): Hump[] {
  const merged: Hump[] = []
  for (const hump of humps) {
    const before = merged.at(-1)
    if (before !== undefined && hump.leftFloor <= before.rightFloor) {
      merged[merged.length - 1] = { ...before, rightRoof: hump.rightRoof, rightFloor: hump.rightFloor }
    } else merged.push(hump)
  }
  return merged
}
