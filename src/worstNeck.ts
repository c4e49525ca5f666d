/** Which neck of a plan lies furthest from the target of its class: a line for each distinct section, and no more. */
import type { Board } from './board/board.ts'
import { classOf, netOf } from './board/lookup.ts'
import type { NetClass } from './board/nets.ts'
import type { Package } from './board/packages.ts'
import type { LineImpedance } from './impedance/estimate.ts'
import { estimateLine, uncoupledPair } from './impedance/estimateLine.ts'
import { runningValue } from './impedance/lineTable.ts'
import { solveWidth } from './impedance/solveWidth.ts'
import { neckAmongVias } from './impedance/tabulateLines.ts'
import type { Route } from './routes/route.ts'
import { deriveSection } from './section/deriveSection.ts'
import type { Metres, Ohms, Ratio } from './units/quantity.ts'

/** The neck furthest from its target, in units of its class's tolerance. */
export interface WorstNeck {
  /** Line impedance of a single trace, differential of a pair. */
  readonly kind: 'line' | 'differential'
  readonly impedance: Ohms
  /** Half-width of the error band, as a fraction. */
  readonly band: Ratio
  readonly method: string
  /** Whether the vias that stand beside it are counted, or planes taken as solid. */
  readonly between: 'among vias' | 'solid planes'
  readonly netClass: string
  readonly target: Ohms
  readonly tolerance: Ratio
  /** Off the target over the tolerance: 1 and −1 are its ends. */
  readonly tolerances: Ratio
  readonly layer: number
  readonly width: Metres
  readonly gap: Metres | null
  /** One of the nets that run so. */
  readonly net: string
  readonly ball: string
}

export interface JudgedNecks {
  /** Null where no neck has an impedance: none leaves, or the stackup carries no such line. */
  readonly worst: WorstNeck | null
  /** Layers below the lands on which vias stand beside necks but are not counted: the package's own via does not pass there. */
  readonly solidOn: readonly number[]
}

/** Judges necks of one board's stackup; what was computed for one plan is known for the next. */
export class NeckJudge {
  readonly #board: Board
  readonly #lines = new Map<string, LineImpedance | null>()
  readonly #mains = new Map<string, Metres | null>()

  constructor(board: Board) {
    this.#board = board
  }

  /**
   * The worst of all necks, one for each distinct section.
   * @param variant Board of the plan: the stackup is that of the judge's board, its vias and classes may differ.
   */
  judge(variant: Board, pack: Package, routes: readonly Route[]): JudgedNecks {
    const seen = new Set<string>()
    const solidOn = new Set<number>()
    let worst: WorstNeck | null = null
    for (const route of routes) {
      const netClass = classOf(variant, netOf(variant, route.net))
      const key = [netClass.name, route.exitLayer, route.width, route.gap].join('|')
      if (seen.has(key)) continue
      seen.add(key)
      const neck = this.#neck(variant, pack, netClass, route)
      if (neck?.between === 'solid planes' && route.via !== null) solidOn.add(neck.layer)
      if (neck !== null && Math.abs(neck.tolerances) > Math.abs(worst?.tolerances ?? 0)) worst = neck
      else worst ??= neck
    }
    return { worst, solidOn: [...solidOn].toSorted((a, b) => a - b) }
  }

  /** Width of the main route of a class on the signal layer where it is narrowest; null where none meets the target. */
  mainWidth(netClass: NetClass): Metres | null {
    const { copper } = this.#board.stackup
    const widths = copper
      .filter(({ role }) => role !== 'plane')
      .flatMap(({ number }) => this.#mainOn(netClass, number) ?? [])
    return widths.length === 0 ? null : Math.min(...widths)
  }

  #neck(variant: Board, pack: Package, netClass: NetClass, route: Route): WorstNeck | null {
    const { exitLayer: layer, gap, net, ball } = route
    // A neck that takes what the channel gives is not wider than its main route.
    const most = netClass.neck.width === null ? (this.#mainOn(netClass, layer) ?? Infinity) : Infinity
    const width = Math.min(route.width, most)
    const single = this.#line(layer, width, gap)
    if (single === null) return null
    const line = netClass.structure === 'pair' ? uncoupledPair(single) : single
    const loaded = neckAmongVias(variant, pack.name, line)
    const value = runningValue(line, loaded)
    if (value === null) return null
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
  #line(layer: number, width: Metres, gap: Metres | null): LineImpedance | null {
    const key = [layer, width, gap].join('|')
    const known = this.#lines.get(key)
    if (known !== undefined) return known
    const request = { layer, width, gap, coplanarGap: null, broadsideLayer: null }
    const line = unlessRefused(() =>
      estimateLine(deriveSection(this.#board.stackup, request), this.#board.analysis.frequency),
    )
    this.#lines.set(key, line)
    return line
  }

  #mainOn(netClass: NetClass, layer: number): Metres | null {
    const { width, coplanarGap } = netClass.main
    if (width !== null) return width
    const gap = netClass.structure === 'pair' ? netClass.main.gap : null
    const key = [layer, netClass.target, gap, coplanarGap].join('|')
    const known = this.#mains.get(key)
    if (known !== undefined) return known
    const request = { layer, width: 0, gap, coplanarGap, broadsideLayer: null }
    const { stackup, analysis } = this.#board
    const solved = unlessRefused(() => solveWidth(stackup, request, netClass.target, analysis.frequency))
    this.#mains.set(key, solved?.width ?? null)
    return solved?.width ?? null
  }
}

/** The stages refuse what a stackup cannot carry with a RangeError: here that is an answer. */
function unlessRefused<T>(run: () => T | null): T | null {
  try {
    return run()
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}
