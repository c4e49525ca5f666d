import { landLayerOf } from '../../board/lookup.ts'
import type { Package } from '../../board/packages.ts'
import type { FindingContext } from '../context.ts'
import { drawnDown, isBelow } from '../drawn.ts'
import type { Finding } from '../finding.ts'
import { metres } from '../measure.ts'
import { smallerOpening, tightFindings } from '../tightChannels.ts'
import { assumedLimits } from '../boardIndex.ts'

/**
 * Mask openings that come nearer to a trace than the fabricator allows, where the lands alone would let it
 * pass; and openings of neighbouring lands that leave a web of mask too narrow to stay.
 *
 * In a channel with the severity of a channel that is too narrow; the web a warning, as solder may bridge.
 */
export function maskTooNear(context: FindingContext): Finding[] {
  return [
    ...tightFindings(context, 'mask-too-near', 'mask', (tight) => smallerOpening(context, tight)),
    ...context.board.packages.flatMap((pack) => narrowWeb(context, pack)),
  ]
}

function narrowWeb({ board }: FindingContext, pack: Package): Finding[] {
  const pitch = Math.min(pack.pitch.x, pack.pitch.y)
  const web = pitch - pack.maskOpening
  const { maskWeb, source } = board.fabrication
  if (!isBelow(web, maskWeb)) return []
  const opening = drawnDown(board, pitch - maskWeb)
  return [
    {
      code: 'mask-too-near',
      severity: 'warning',
      subject: {
        kind: 'package',
        name: pack.name,
        layer: landLayerOf(board, pack),
        package: pack.name,
        alike: [],
      },
      measured: metres('web of mask between lands', web),
      limit: metres('at least', maskWeb),
      limitSource: source,
      remedies: isBelow(opening, pack.landDiameter)
        ? []
        : [
            {
              action: 'make the mask opening',
              value: metres('mask opening', opening),
              result: metres('web of mask', pitch - opening),
            },
          ],
      details: [metres('mask opening', pack.maskOpening), metres('land diameter', pack.landDiameter)],
      assumed: [
        ...pack.assumed.filter(({ path }) => path.endsWith('.mask_opening')),
        ...assumedLimits(board, 'mask_web'),
      ],
    },
  ]
}
