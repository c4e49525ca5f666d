import type { ViaType } from '../../board/vias.ts'
import { assumedLimits, assumedOfVia, usedVias } from '../boardIndex.ts'
import type { FindingContext } from '../context.ts'
import type { Finding } from '../finding.ts'
import { count, metres } from '../measure.ts'
import { aspectLimit, holesOf } from '../viaChecks.ts'

/** IPC-T-50M, Terms and Definitions, 2015: a microvia is blind, no deeper than wide and no deeper than 0.25 mm. */
const DEEPEST_MICROVIA = 0.25e-3
const MICROVIA_SOURCE =
  'IPC-T-50M, definition of a microvia: at most 0.25 mm from its capture to its target land'

/**
 * Microvias that cannot be built as described: more stacked on each other than the fabricator stacks, an
 * error; or one deeper than a microvia may be, a warning. Spans that no order of lamination makes are
 * refused when the description is read.
 */
export function spanUnbuildable(context: FindingContext): Finding[] {
  return usedVias(context)
    .filter((via) => via.kind === 'microvia')
    .flatMap((via) => [...stackedTooHigh(context, via), ...tooDeep(context, via)])
}

function stackedTooHigh({ board }: FindingContext, via: ViaType): Finding[] {
  const stacked = Math.abs(via.lastLayer - via.firstLayer)
  const { maxStackedMicrovias, source } = board.fabrication
  if (via.arrangement !== 'stacked' || stacked <= maxStackedMicrovias) return []
  return [
    {
      ...about(via),
      severity: 'error',
      measured: count('microvias on each other', stacked),
      limit: count('at most', maxStackedMicrovias),
      limitSource: source,
      remedies: [
        {
          action: 'stagger them, which leaves on each other',
          value: count('microvias', 1),
          result: count('microvias on each other', 1),
        },
      ],
      details: [],
      assumed: [...assumedOfVia(via, 'arrangement'), ...assumedLimits(board, 'stacked_microvias')],
    },
  ]
}

function tooDeep({ board }: FindingContext, via: ViaType): Finding[] {
  const [deepest] = holesOf(board, via).sort((a, b) => b.depth - a.depth)
  if (deepest === undefined || deepest.depth <= DEEPEST_MICROVIA) return []
  return [
    {
      ...about(via),
      severity: 'warning',
      measured: metres('depth of the microvia', deepest.depth),
      limit: metres('at most', DEEPEST_MICROVIA),
      limitSource: MICROVIA_SOURCE,
      remedies: [
        {
          action: 'make the layers that it passes add up to',
          value: metres('depth', DEEPEST_MICROVIA),
          result: count('depth over drilled diameter', DEEPEST_MICROVIA / via.drilledDiameter),
        },
      ],
      details: [count('aspect ratio that the fabricator plates', aspectLimit(board, via))],
      assumed: assumedOfVia(via, 'layers'),
    },
  ]
}

function about(via: ViaType): Pick<Finding, 'code' | 'subject'> {
  return {
    code: 'span-unbuildable',
    subject: { kind: 'via', name: via.name, layer: null, package: null, alike: [] },
  }
}
