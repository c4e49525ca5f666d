import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import { channelFits } from './channelFits.ts'
import { channelsPerLayer } from './channelsPerLayer.ts'
import { judgeClaim } from './claims.ts'
import type { PackageEscape, ViaTechnology } from './escape.ts'
import { layerRules } from './layerRules.ts'
import { planRings } from './planRings.ts'
import { ruleInput } from './ruleInput.ts'
import { signalCount } from './signalCount.ts'

const TECHNOLOGIES: readonly ViaTechnology[] = ['through', 'blind']

/**
 * What it takes to get the nets out from under one package: channels, layer counts by every rule, claims
 * judged, and a plan with each via technology. The chosen technology is that of the package's own via type.
 */
export function escapePackage(board: Board, pack: Package): PackageEscape {
  const chosen = chosenTechnology(board, pack)
  const signals = signalCount(pack)
  const rules = layerRules(ruleInput(board, pack, signals, chosen))
  const plans = TECHNOLOGIES.map((technology) => planRings(board, pack, technology))
  return {
    package: pack.name,
    channelsPerLayer: channelsPerLayer(pack.rows, pack.columns),
    signals,
    channels: channelFits(board, pack, chosen),
    rules,
    claims: board.claims
      .filter((claim) => claim.package === pack.name)
      .flatMap((claim) => {
        const plan = plans.find(({ technology }) => technology === claim.technology)
        return plan === undefined ? [] : [judgeClaim(claim, plan, rules)]
      }),
    plans,
    chosen,
  }
}

function chosenTechnology(board: Board, pack: Package): ViaTechnology {
  const own = board.vias.find(({ name }) => name === pack.via)
  return own === undefined || own.kind === 'through' ? 'through' : 'blind'
}
