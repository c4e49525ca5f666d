import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import { channelFits } from './channelFits.ts'
import { channelsPerLayer } from './channelsPerLayer.ts'
import { judgeClaim } from './claims.ts'
import type { PackageEscape, ViaTechnology } from './escape.ts'
import { layerRules } from './layerRules.ts'
import { type MainWidth, withMains } from './mainStarts.ts'
import { planEscape } from './planEscape.ts'
import { ruleInput } from './ruleInput.ts'
import { signalCount } from './signalCount.ts'
import { goesThrough, viaChains } from './viaChain.ts'

/**
 * What it takes to get the nets out from under one package: channels, layer counts by every rule, claims
 * judged, and a plan with each via technology. The chosen technology is that of the package's own via type; main routes
 * begin outside each plan where `mainWidth` knows their width, and necks run on until they have room; without it nothing is
 * said of main routes.
 */
export function escapePackage(
  board: Board,
  pack: Package,
  mainWidth: MainWidth | null = null,
): PackageEscape {
  const chosen = chosenTechnology(board, pack)
  const signals = signalCount(pack)
  const rules = layerRules(ruleInput(board, pack, signals, chosen))
  const widened = plansOf(board, pack, mainWidth)
  const plans = widened.map(({ plan }) => plan)
  const own = widened.find(({ plan }) => plan.technology === chosen)
  return {
    package: pack.name,
    channelsPerLayer: channelsPerLayer(pack.rows, pack.columns),
    signals,
    channels: channelFits(board, pack, chosen),
    rules,
    claims: board.claims
      .filter((claim) => claim.package === pack.name)
      .flatMap((claim) => {
        const claimed = plans.find(({ technology }) => technology === claim.technology)
        return claimed === undefined ? [] : [judgeClaim(claim, claimed, rules)]
      }),
    plans,
    chosen,
    mains: own?.mains ?? [],
    withoutMain: own?.withoutMain ?? [],
  }
}

type Widened = ReturnType<typeof withMains>

/** Where no blind via starts at the package, the plan for blind vias is the one for through vias. */
function plansOf(board: Board, pack: Package, mainWidth: MainWidth | null): Widened[] {
  const planned = (technology: ViaTechnology): Widened => {
    const plan = planEscape(board, pack, technology)
    return mainWidth === null ? { plan, mains: [], withoutMain: [] } : withMains(board, pack, plan, mainWidth)
  }
  const through = planned('through')
  const blindWay = [...viaChains(board, pack, 'blind').values()].some((chain) => !goesThrough(chain))
  if (blindWay) return [through, planned('blind')]
  const method = `${through.plan.method}; no blind via starts at the lands of ${pack.name}: through vias go everywhere`
  return [through, { ...through, plan: { ...through.plan, technology: 'blind', method } }]
}

/** Of the package's own via type. */
export function chosenTechnology(board: Board, pack: Package): ViaTechnology {
  const own = board.vias.find(({ name }) => name === pack.via)
  return own === undefined || own.kind === 'through' ? 'through' : 'blind'
}
