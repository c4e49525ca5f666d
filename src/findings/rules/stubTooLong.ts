import { betweenMiddles } from '../../board/copperFaces.ts'
import { holesNamed, landLayerOf } from '../../board/lookup.ts'
import type { NetClass } from '../../board/nets.ts'
import type { StubSignal } from '../../signal/netSignal.ts'
import type { Metres } from '../../units/quantity.ts'
import { boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, isAbove } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { isOffTarget } from '../lineRemedies.ts'
import { count, hertz, layer, metres } from '../measure.ts'
import { neckGroups, otherNets, worstBy, type NeckEnd } from '../neckEnds.ts'

/**
 * A barrel that hangs beyond its exit layer by more than the rule of thumb accepts at the class's data rate: a
 * warning; an error if its quarter-wave null lies at or below Nyquist. Without a data rate nothing is said.
 */
export function stubTooLong(context: FindingContext): Finding[] {
  return neckGroups(context).flatMap((group) => {
    const over = group.filter(({ end }) => end.stub !== null && isTooLong(end.stub))
    const worst = worstBy(over, (end) => end.stub?.length ?? 0)
    const stub = worst?.end.stub ?? null
    if (worst === undefined || stub === null || stub.lengthLimit === null) return []
    return [findingOn(context, worst, over, stub, stub.lengthLimit)]
  })
}

function isTooLong(stub: StubSignal): boolean {
  return stub.lengthLimit !== null && isAbove(stub.length, stub.lengthLimit)
}

function findingOn(
  context: FindingContext,
  worst: NeckEnd,
  over: readonly NeckEnd[],
  stub: StubSignal,
  limit: Metres,
): Finding {
  const { signal, end, netClass } = worst
  const { nyquist, nullFrequency } = stub
  return {
    code: 'stub-too-long',
    severity: nyquist !== null && nullFrequency <= nyquist ? 'error' : 'warning',
    subject: {
      kind: 'net',
      name: signal.net,
      layer: end.layer,
      package: end.package,
      alike: otherNets(over, worst),
    },
    measured: metres('stub', stub.length),
    limit: metres('at most', limit),
    limitSource: stub.limitSource,
    remedies: [...deeperLayer(context, worst, limit), ...drilledBack(context, stub, limit)],
    details: [
      hertz('quarter-wave null', nullFrequency),
      count('permittivity raised for pads and planes by', stub.loading),
      ...(nyquist === null ? [] : [hertz('Nyquist', nyquist)]),
    ],
    assumed: netClass.assumed.filter(({ path }) => path.endsWith('.data_rate')),
  }
}

/** The layer nearest to the present one from which little enough barrel hangs, and where the main route keeps its tolerance. */
function deeperLayer(context: FindingContext, { signal, end, netClass }: NeckEnd, limit: Metres): Remedy[] {
  const index = boardIndex(context)
  const pack = index.packages.get(end.package)
  const route = context.routes.find(
    (each) => each.net === signal.net && each.ball === end.ball && each.package === end.package,
  )
  const via = holesNamed(context.board, route?.via ?? null).at(-1)
  if (pack === undefined || via === undefined || via.backdrill !== null) return []
  const downwards = landLayerOf(context.board, pack) <= end.layer
  const farEnd = downwards ? via.lastLayer : via.firstLayer
  const deeper = context.board.stackup.copper
    .map((copper) => copper.number)
    .filter((number) =>
      downwards
        ? number > end.layer && number <= via.lastLayer
        : number < end.layer && number >= via.firstLayer,
    )
    .filter((number) => isOnTarget(context, netClass, number))
    .map((number) => ({ number, stub: betweenMiddles(context.board.stackup, number, farEnd) }))
    .filter(({ stub }) => stub <= limit)
    .sort((a, b) => Math.abs(a.number - end.layer) - Math.abs(b.number - end.layer))
  const [nearest] = deeper
  if (nearest === undefined) return []
  return [{ action: 'leave on', value: layer('layer', nearest.number), result: metres('stub', nearest.stub) }]
}

/** Where the main route would miss its target, one fault would take the place of another. */
function isOnTarget({ lines }: FindingContext, netClass: NetClass, number: number): boolean {
  const main = lines.main(netClass.name, number)?.runs
  return !!main && !isOffTarget(netClass, main.impedance)
}

function drilledBack({ board }: FindingContext, stub: StubSignal, limit: Metres): Remedy[] {
  const left = drawnDown(board, limit)
  return [
    {
      action: 'drill back, or take a blind via, to leave no more than',
      value: metres('stub', left),
      // A quarter wave: twice the length, half the frequency.
      result: hertz('quarter-wave null', (stub.nullFrequency * stub.length) / left),
    },
  ]
}
