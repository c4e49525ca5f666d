import type { Board } from '../../board/board.ts'
import type { Fabrication } from '../../board/fabrication.ts'
import type { ViaType } from '../../board/vias.ts'
import type { Metres } from '../../units/quantity.ts'

/** Least holes that are invented, and the steps of their tools: common practice, no source. */
export const DRILL = { least: 200e-6, step: 50e-6 } as const
export const LASER = { least: 100e-6, step: 10e-6 } as const
/** Copper on the wall of a drilled hole: average of IPC-6012 class 3, from memory. */
export const WALL_PLATING: Metres = 25e-6
/** Deepest microvia, from its capture land to its target: IPC-T-50M, from memory. */
export const DEEPEST_MICROVIA: Metres = 250e-6

/** Shares of a step that rounding may lose. */
const ROUNDING = 1e-9

/** Smallest tool that keeps the aspect ratio at this depth. */
export function holeFor(
  depth: Metres,
  aspectRatio: number,
  tool: { readonly least: Metres; readonly step: Metres },
): Metres {
  const needed = Math.max(tool.least, depth / aspectRatio)
  return Math.ceil(needed / tool.step - ROUNDING) * tool.step
}

/**
 * Smallest pad that keeps the annular ring after layers and drill have shifted as far as stated:
 *
 *     drill + 2 (ring + registration)
 *
 * on inner layers from the drilled hole, on outer ones from the finished hole; the larger of the two for all.
 */
export function leastPad(
  { drilledDiameter, finishedDiameter }: Pick<ViaType, 'drilledDiameter' | 'finishedDiameter'>,
  { annularRing, registration }: Fabrication,
): Metres {
  return Math.max(
    drilledDiameter + 2 * (annularRing.internal + registration),
    finishedDiameter + 2 * (annularRing.external + registration),
  )
}

/** Opening in planes that keeps copper off the hole and off the pad. */
export function leastAntipad(
  drilled: Metres,
  pad: Metres,
  { drillToCopper, traceToPad }: Fabrication,
): Metres {
  return Math.max(drilled + 2 * drillToCopper, pad + 2 * traceToPad.inner)
}

/** From the upper face of one copper layer to the lower face of another, both included; order does not matter. */
export function depthBetween(board: Board, one: number, other: number): Metres {
  const [first, last] = one < other ? [one, other] : [other, one]
  let depth = 0
  let layer = 0
  for (const part of board.stackup.layers) {
    if (part.kind === 'copper') layer = part.number
    const inside = part.kind === 'copper' ? layer >= first && layer <= last : layer >= first && layer < last
    if (inside && part.kind !== 'mask') depth += part.thickness
  }
  return depth
}

/** Least distance that neighbouring holes leave between their walls; Infinity for a single place. */
export function wallToWall(pitch: { readonly x: Metres; readonly y: Metres }, drilled: Metres): Metres {
  return Math.min(pitch.x, pitch.y) - drilled
}
