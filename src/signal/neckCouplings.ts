import type { Board } from '../board/board.ts'
import type { Net, NetClass } from '../board/nets.ts'
import { COUPLING_BAND } from '../impedance/neighbourCoupling.ts'
import type { LineTable } from '../impedance/lineTable.ts'
import { groupBy } from '../numerics/groupBy.ts'
import { parallelRuns, type ParallelRun } from '../routes/parallelRuns.ts'
import type { Route } from '../routes/route.ts'
import type { Metres } from '../units/quantity.ts'
import { NeckSections } from './neckSections.ts'
import type { NeckCoupling, NeighbourNoise, StretchBeside } from './neckCoupling.ts'
import { neighbourNoise, type NoiseOf } from './neighbourNoise.ts'

/**
 * The noise of neighbouring traces on every neck that has one within reach, in the order of the routes; a pair counts
 * as one. Only what runs beside the neck on its exit layer is seen: not dog-bones, vias, nor main routes.
 */
export function neckCouplings(board: Board, routes: readonly Route[], lines: LineTable): NeckCoupling[] {
  const sections = new NeckSections(board)
  const owners = ownersOf(board)
  const runs = parallelRuns(routes, {
    reach: (layer) => sections.reach(layer),
    partnerOf: (net) => owners.get(net)?.net.partner ?? null,
  })
  const layers = new Map(routes.map((route) => [placeKey(route.package, route.net), route.exitLayer]))
  /** Null as well where the partner leaves on another layer: the neck is then that of one trace. */
  const mateOf = (route: Route): string | null => {
    const partner = owners.get(route.net)?.net.partner ?? null
    return partner !== null && layers.get(placeKey(route.package, partner)) === route.exitLayer
      ? partner
      : null
  }
  const necks = groupBy(runs, ({ route }) => neckKey(route, mateOf(route)))
  return [...necks.values()].flatMap((group) => {
    const [first] = group
    const owner = owners.get(first?.route.net ?? '')
    if (first === undefined || owner === undefined) return []
    const neck = neckOf(board, lines, first.route, owner, mateOf(first.route))
    const found = [...groupBy(group, ({ neighbour }) => neighbour).entries()].map(([neighbour, beside]) => ({
      net: neighbour.net,
      noise: noise(sections, neck, neighbour, owners.get(neighbour.net), beside),
    }))
    const neighbours = found.flatMap((each) => each.noise ?? []).sort((a, b) => b.nearEnd - a.nearEnd)
    const unsolved = found.flatMap((each) => (each.noise === null ? [each.net] : []))
    return [{ ...neck.about, neighbours, unsolved, ...summed(neighbours), ...limitOf(board) }]
  })
}

interface Owner {
  readonly net: Net
  readonly netClass: NetClass
}

function ownersOf(board: Board): Map<string, Owner> {
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  return new Map(
    board.nets.flatMap((net) => {
      const netClass = classes.get(net.class)
      return netClass === undefined ? [] : [[net.name, { net, netClass }] as const]
    }),
  )
}

/** Both of a pair on one layer make one neck. */
function neckKey(route: Route, partner: string | null): string {
  const names = partner === null ? [route.net] : [route.net, partner].sort()
  return JSON.stringify([route.package, route.exitLayer, ...names])
}

function placeKey(packageName: string, net: string): string {
  return JSON.stringify([packageName, net])
}

interface Neck extends NoiseOf {
  readonly about: Pick<
    NeckCoupling,
    'net' | 'partner' | 'class' | 'structure' | 'package' | 'layer' | 'width' | 'gap'
  >
}

function neckOf(
  board: Board,
  lines: LineTable,
  route: Route,
  { net, netClass }: Owner,
  mate: string | null,
): Neck {
  const line = lines.neck(netClass.name, route.exitLayer, route.package, route.gap)
  const turned = net.polarity === 'negative' && mate !== null
  const about = {
    net: turned ? mate : net.name,
    partner: turned ? net.name : mate,
    class: netClass.name,
    structure: netClass.structure,
    package: route.package,
    layer: route.exitLayer,
    width: route.width,
    gap: route.gap,
  }
  return { about, ...about, impedance: line?.runs?.impedance ?? null, frequency: board.analysis.frequency }
}

function noise(
  sections: NeckSections,
  neck: Neck,
  { net, width }: Route,
  owner: Owner | undefined,
  runs: readonly ParallelRun[],
): NeighbourNoise | null {
  if (owner === undefined) return null
  const { netClass } = owner
  const stretches = merged(runs.map((run) => ({ gap: run.gap, length: run.length, coupled: isCoupled(run) })))
  return neighbourNoise(sections, neck, { net, netClass, width, stretches })
}

/** Whether the neck's own pair is side by side in the middle of a run. */
function isCoupled({ route, at }: ParallelRun): boolean {
  let end = 0
  for (const { coupled, length } of route.stretches) {
    end += length
    if (at <= end) return coupled
  }
  return route.stretches.at(-1)?.coupled ?? false
}

/** Gaps are told apart to this; centre lines carry rounding. */
const SAME_GAP: Metres = 1e-7

function merged(stretches: readonly StretchBeside[]): StretchBeside[] {
  const key = ({ gap, coupled }: StretchBeside): string => `${Math.round(gap / SAME_GAP)}|${coupled}`
  return [...groupBy(stretches, key).values()].flatMap((group) =>
    group.slice(0, 1).map((first) => ({
      ...first,
      length: group.reduce((sum, { length }) => sum + length, 0),
    })),
  )
}

function summed(neighbours: readonly NeighbourNoise[]): Pick<NeckCoupling, 'nearEnd' | 'farEnd' | 'band'> {
  const nearEnd = neighbours.reduce((sum, each) => sum + each.nearEnd, 0)
  return {
    nearEnd,
    farEnd: neighbours.reduce((sum, { farEnd }) => sum + Math.abs(farEnd), 0),
    // What comes back from the disturbed trace to the one that disturbs is left out: of the order of the square.
    band: COUPLING_BAND + nearEnd ** 2,
  }
}

function limitOf({ analysis }: Board): Pick<NeckCoupling, 'limit' | 'limitSource'> {
  const assumed = analysis.assumed.find(({ path }) => path === 'analysis.crosstalk_limit')
  return {
    limit: analysis.crosstalkLimit,
    limitSource: assumed?.source ?? 'analysis settings of the description',
  }
}
