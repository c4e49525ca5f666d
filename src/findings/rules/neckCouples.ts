import { bracketRoot } from '../../numerics/bracketRoot.ts'
import type { NeckCoupling, NeighbourNoise } from '../../signal/neckCoupling.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import { assumedOfLine, boardIndex } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, drawnUp, isAbove } from '../drawn.ts'
import { folded, type Weighed } from '../folded.ts'
import type { Finding, Measure, Remedy } from '../finding.ts'
import { count, fraction, metres, ohms, words } from '../measure.ts'

/**
 * A neck to whose near end the traces beside it together send more of their swing than allowed. A warning and no
 * error, because all are taken to switch at the worst instant. Necks of one class, package and layer are one finding.
 */
export function neckCouples(context: FindingContext): Finding[] {
  const keys = new Map<Weighed['finding'], string>()
  const found = context.couplings.flatMap((coupling) => {
    const [worst] = coupling.neighbours
    if (worst === undefined || !isAbove(coupling.nearEnd, coupling.limit)) return []
    const finding = findingOn(context, coupling, worst)
    keys.set(finding, [coupling.class, coupling.package, coupling.layer].join('|'))
    const remedies = (): Remedy[] => [...widerGap(context, coupling), ...shorterRun(context, coupling, worst)]
    return [{ finding, remedies, weight: coupling.nearEnd / coupling.limit, name: nameOf(coupling) }]
  })
  return folded(found, (finding) => keys.get(finding) ?? '')
}

function nameOf({ net, partner }: NeckCoupling): string {
  return partner === null ? net : `${net} and ${partner}`
}

function findingOn(
  context: FindingContext,
  coupling: NeckCoupling,
  worst: NeighbourNoise,
): Weighed['finding'] {
  const { layer, neighbours } = coupling
  return {
    code: 'neck-couples',
    severity: 'warning',
    subject: {
      kind: coupling.partner === null ? 'net' : 'pair',
      name: nameOf(coupling),
      layer,
      package: coupling.package,
      alike: [],
    },
    measured: fraction('near-end noise, of the swing of the traces beside it,', coupling.nearEnd),
    limit: fraction('at most', coupling.limit),
    limitSource: coupling.limitSource,
    details: [
      words(`most of it from ${worst.net}`),
      fraction('from there', worst.nearEnd),
      metres('smallest gap to it', worst.smallestGap),
      metres('side by side', worst.length),
      fraction('backward coefficient', worst.backward),
      fraction('noise that runs on to the far end', coupling.farEnd),
      fraction('error band, of the noise', coupling.band),
      count('neighbours', neighbours.length),
      ...impedances(worst),
    ],
    assumed: assumedOf(context, coupling),
  }
}

function impedances({ impedance }: NeighbourNoise): Measure[] {
  if (impedance === null) return []
  return [
    ohms('impedance while that switches with it', impedance.withIt),
    ohms('and against it', impedance.againstIt),
  ]
}

function assumedOf(context: FindingContext, coupling: NeckCoupling): Finding['assumed'] {
  const { class: netClass, layer, package: pack, gap, neighbours } = coupling
  const { classes } = boardIndex(context)
  const line = context.lines.neck(netClass, layer, pack, gap)?.impedance ?? null
  const edges = [...new Set(neighbours.map((neighbour) => neighbour.class))].flatMap(
    (name) => classes.get(name)?.assumed.filter(({ path }) => path.endsWith('.edge')) ?? [],
  )
  return [
    ...context.board.analysis.assumed.filter(({ path }) => path === 'analysis.crosstalk_limit'),
    ...edges,
    ...(line === null ? [] : assumedOfLine(line.section)),
  ]
}

/** Each trial is this much wider than the one before. */
const WIDER: Ratio = 1.25
const WIDEST: Ratio = 10
/** Half a step of what is drawn. */
const NEAR_ENOUGH: Metres = 0.5e-6

/** The smallest gap to every neighbour, as drawn, at which the sum passes. */
function widerGap(context: FindingContext, coupling: NeckCoupling): Remedy[] {
  const noiseAt = (gap: Metres): Ratio | null => context.rerun.nearEnd(coupling, { what: 'gap', gap })
  const over = (gap: Metres): number => (noiseAt(gap) ?? Infinity) - coupling.limit
  const start = Math.min(...coupling.neighbours.map(({ smallestGap }) => smallestGap))
  let [low, high] = [start, start * WIDER]
  while (over(high) > 0) {
    if (high > start * WIDEST) return []
    ;[low, high] = [high, high * WIDER]
  }
  const found = over(low) > 0 ? bracketRoot(over, low, high, { tolerance: NEAR_ENOUGH }) : low
  const step = drawnUp(context.board, found + 2 * NEAR_ENOUGH)
  return passing(coupling, noiseAt(step), {
    action: 'keep the traces beside it at a gap of',
    value: metres('gap', step),
  })
}

/** The longest stretch beside the strongest neighbour, the others shortened alike, at which the sum passes. */
function shorterRun(context: FindingContext, coupling: NeckCoupling, worst: NeighbourNoise): Remedy[] {
  const noiseAt = (share: Ratio): Ratio | null => context.rerun.nearEnd(coupling, { what: 'length', share })
  const over = (share: Ratio): number => (noiseAt(share) ?? Infinity) - coupling.limit
  const share = bracketRoot(over, 0, 1, { tolerance: NEAR_ENOUGH / worst.length })
  const length = drawnDown(context.board, worst.length * share - NEAR_ENOUGH)
  if (!(length > 0)) return []
  return passing(coupling, noiseAt(length / worst.length), {
    action: `let ${worst.net}, and the others in proportion, run beside it for no more than`,
    value: metres('length', length),
  })
}

function passing(
  { limit }: NeckCoupling,
  noise: Ratio | null,
  deed: Pick<Remedy, 'action' | 'value'>,
): Remedy[] {
  if (noise === null || isAbove(noise, limit)) return []
  return [{ ...deed, result: fraction('near-end noise', noise) }]
}
