/** Which neck of a plan lies furthest from the target of its class, with what stands beside each. */
import type { Board } from './board/board.ts'
import { classOf, netOf } from './board/lookup.ts'
import type { NetClass } from './board/nets.ts'
import type { LineImpedance } from './impedance/estimate.ts'
import { alongStretch, classLine, gapAlong, neckWidth } from './impedance/neckLine.ts'
import { mainWidth } from './impedance/solvedMain.ts'
import { ifSolvable } from './numerics/ifSolvable.ts'
import { mainStretch } from './routes/mainStretch.ts'
import type { Route } from './routes/route.ts'
import type { Metres, Ohms, Ratio } from './units/quantity.ts'

/** The neck furthest from its target, in units of its class's tolerance. */
export interface WorstNeck {
  /** Line impedance of a single trace, differential of a pair. */
  readonly kind: 'line' | 'differential'
  readonly impedance: Ohms
  /** Half-width of the error band, as a fraction. */
  readonly band: Ratio
  readonly method: string
  /** Whether something stands beside it, which is then counted. */
  readonly between: 'among vias' | 'solid planes'
  readonly netClass: string
  readonly target: Ohms
  readonly tolerance: Ratio
  /** Off the target over the tolerance: 1 and −1 are its ends. */
  readonly tolerances: Ratio
  readonly layer: number
  readonly width: Metres
  readonly gap: Metres | null
  readonly net: string
  readonly ball: string
}

/** Judges necks of one board's stackup; what was computed for one plan is known for the next. */
export class NeckJudge {
  readonly #board: Board
  readonly #lines = new Map<string, LineImpedance | null>()

  constructor(board: Board) {
    this.#board = board
  }

  /**
   * The worst of all necks; null where none has an impedance: none leaves, or the stackup carries no such line.
   * @param variant Board of the plan: the stackup is that of the judge's board, its vias and classes may differ.
   */
  judge(variant: Board, routes: readonly Route[]): WorstNeck | null {
    let worst: WorstNeck | null = null
    for (const route of routes) {
      const neck = this.#neck(variant, classOf(variant, netOf(variant, route.net)), route)
      if (neck !== null && Math.abs(neck.tolerances) > Math.abs(worst?.tolerances ?? 0)) worst = neck
      else worst ??= neck
    }
    return worst
  }

  /** Width of the main route of a class on the signal layer where it is narrowest; null where none meets the target. */
  mainWidth(netClass: NetClass): Metres | null {
    const { copper } = this.#board.stackup
    const widths = copper
      .filter(({ role }) => role !== 'plane')
      .flatMap(({ number }) => this.mainWidthOn(netClass, number) ?? [])
    return widths.length === 0 ? null : Math.min(...widths)
  }

  /** The same on one layer. */
  mainWidthOn(netClass: NetClass, layer: number): Metres | null {
    return mainWidth(this.#board, netClass, layer)
  }

  #neck(variant: Board, netClass: NetClass, route: Route): WorstNeck | null {
    const { exitLayer: layer, net, ball } = route
    const stretch = mainStretch(route)
    if (stretch === undefined) return null
    const gap = gapAlong(route, stretch)
    const width = neckWidth(netClass, route.width, this.mainWidthOn(netClass, layer))
    const line = this.#line(netClass, layer, width, gap)
    if (line === null) return null
    const { loaded, runs: value } = alongStretch(variant, line, width, stretch)
    const { target, tolerance } = netClass
    return {
      kind: netClass.structure === 'pair' ? 'differential' : 'line',
      impedance: value.impedance,
      band: value.band,
      method: line.chosen.method.title,
      between: loaded === null ? 'solid planes' : 'among vias',
      netClass: netClass.name,
      target,
      tolerance,
      tolerances: (value.impedance - target) / (tolerance * target),
      layer,
      width,
      gap,
      net,
      ball,
    }
  }

  /** Null where the stackup cannot carry the line. */
  #line(netClass: NetClass, layer: number, width: Metres, gap: Metres | null): LineImpedance | null {
    const key = [netClass.structure, layer, width, gap].join('|')
    const known = this.#lines.get(key)
    if (known !== undefined) return known
    const asked = { layer, width, gap, coplanarGap: null }
    const line = ifSolvable(() => classLine(this.#board, netClass, asked).impedance)
    this.#lines.set(key, line)
    return line
  }
}
