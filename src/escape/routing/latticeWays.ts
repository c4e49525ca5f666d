import type { Metres, Point } from '../../units/quantity.ts'
import { closeArea, closeAround, closeInwards, NOBODY } from './closeWays.ts'
import type { ClosedArea } from './closeWays.ts'
import type { TraceRules } from './laneLines.ts'
import type { Lattice } from './lattice.ts'
import type { LayerGround } from './layerGround.ts'
import type { LaidTrace } from './laidTrace.ts'
import type { SiteLattice } from './siteLattice.ts'

/** Closes every way of a lattice on which a trace of the given width would come too near to what is there. */
export function closeOccupied(
  sites: SiteLattice,
  ground: LayerGround,
  starting: ReadonlySet<number>,
  laid: readonly LaidTrace[],
  areas: readonly ClosedArea[],
  rules: TraceRules,
  gapTo: (ball: number) => Metres,
): void {
  const { lattice, startOf } = sites
  const { width, gap, tolerance } = rules
  for (let ball = 0; ball < ground.own.length; ball += 1) {
    const reach = ground.own[ball] ?? 0
    const at = ground.starts[ball]
    if (reach === 0 || at === undefined) continue
    const spared = starting.has(ball) ? (startOf[ball] ?? NOBODY) : NOBODY
    closeAround(lattice, { from: at, to: at, distance: reach + width / 2 }, tolerance, spared)
  }
  for (const { at, reach } of ground.between) {
    closeAround(lattice, { from: at, to: at, distance: reach + width / 2 }, tolerance)
  }
  for (const bone of ground.bones) {
    closeAround(
      lattice,
      { from: bone.from, to: bone.to, distance: (bone.width + width) / 2 + gap },
      tolerance,
    )
  }
  closeIfFailed(sites, ground, starting, rules)
  for (const trace of laid) {
    const distance = (trace.width + width) / 2 + Math.max(gap, gapTo(trace.ball))
    closeAlong(lattice, trace.path, distance, tolerance)
  }
  for (const area of areas) closeArea(lattice, area, width / 2, tolerance)
}

function closeAlong(lattice: Lattice, path: readonly Point[], distance: Metres, tolerance: Metres): void {
  let from: Point | undefined
  for (const to of path) {
    if (from !== undefined) closeAround(lattice, { from, to, distance }, tolerance)
    from = to
  }
}

/** Where vias may come to stand, only the nets that would need them pass. */
function closeIfFailed(
  { lattice, startOf }: SiteLattice,
  ground: LayerGround,
  starting: ReadonlySet<number>,
  { width, gap, tolerance }: TraceRules,
): void {
  const { vias, bones } = ground.ifFailed
  for (let index = 0; index < vias.length; index += 1) {
    const via = vias[index]
    if (via === undefined) continue
    const obstructions = [{ from: via.at, to: via.at, distance: via.reach + width / 2 }]
    const bone = bones[index]
    if (bone !== undefined)
      obstructions.push({ from: bone.from, to: bone.to, distance: (bone.width + width) / 2 + gap })
    const start = starting.has(via.ball) ? (startOf[via.ball] ?? NOBODY) : NOBODY
    closeInwards(lattice, obstructions, tolerance, start)
  }
}
