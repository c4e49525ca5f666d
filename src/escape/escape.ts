import type { Assumption } from '../units/assumption.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { Route } from '../routes/route.ts'

/** Everything the escape stage says of one package. */
export interface PackageEscape {
  readonly package: string
  /** 2 (rows − 1) + 2 (columns − 1): gaps on the four sides of the grid. */
  readonly channelsPerLayer: number
  readonly signals: SignalCount
  readonly channels: readonly ChannelFit[]
  readonly rules: readonly LayerRule[]
  readonly claims: readonly ClaimVerdict[]
  /** One plan for each technology; `chosen` is the one whose vias the description really has. */
  readonly plans: readonly EscapePlan[]
  readonly chosen: ViaTechnology
  /** Where the necks of the chosen plan widen into their main routes, and the nets that it lets out without that. */
  readonly mains: readonly MainStart[]
  readonly withoutMain: readonly WithoutMain[]
}

/** The beginning of a main route outside its package. */
export interface MainStart {
  readonly ball: string
  readonly layer: number
  /** The end of the neck's centre line beyond half a pitch outside, that makes room for the main route; empty where it has room at once. */
  readonly runOn: readonly Point[]
  readonly runOnLength: Metres
  readonly width: Metres
  /** From where the trace has its main width. */
  readonly path: readonly Point[]
}

/** A net that leaves, but whose main route is not drawn. */
export interface WithoutMain {
  readonly ball: string
  readonly net: string
  readonly layer: number
  /** No width: none that can be etched reaches the target on the layer. */
  readonly reason: 'no width' | 'too near'
  /** What the main route would come too near to, where it is that. */
  readonly fault: ClearanceFault | null
}

/** Blind covers laser microvias: a hole that ends on the layer where its net leaves. */
export type ViaTechnology = 'through' | 'blind'

export interface SignalCount {
  readonly count: number
  /** True where the count is a share of the balls because the map does not say which are signals. */
  readonly assumed: boolean
  /** Number of the deepest ring that holds a used signal ball, 1 at the edge. */
  readonly deepestRing: number
}

/** What one channel lets through, at one width and gap. */
export interface ChannelFit {
  readonly layer: number
  readonly obstacle: 'land' | 'via pad' | 'hole without pad'
  readonly direction: 'between columns' | 'between rows' | 'diagonal'
  readonly innerPads: 'kept' | 'removed'
  /** Net class whose neck is tried. */
  readonly netClass: string
  readonly width: Metres
  readonly traceGap: Metres
  /** Centre to centre of the two obstacles. */
  readonly span: Metres
  /** Each clearance rule on its own; the smallest `clear` governs. */
  readonly tests: readonly ChannelTest[]
  readonly governing: ChannelTest
  /** Whole traces that pass. */
  readonly traces: number
  /** Clear space less what `traces` (or one, where none fits) needs; negative when none fits. */
  readonly remainder: Metres
  /** Widest single trace, and widest of two equal ones, that pass; null where none does. */
  readonly widestOne: Metres | null
  readonly widestTwo: Metres | null
}

export interface ChannelTest {
  readonly rule: 'trace to pad' | 'mask opening to trace' | 'drill to copper'
  readonly obstacleDiameter: Metres
  readonly clearance: Metres
  /** span − obstacle diameter − 2 clearance. */
  readonly clear: Metres
}

export interface LayerRule {
  readonly id: 'rows' | 'signals to channels, up' | 'signals to channels, nearest' | 'rows over four'
  readonly technology: ViaTechnology | 'any'
  readonly tracesPerChannel: number
  /** What it was computed from, with numbers; where no layer count exists, why. */
  readonly basis: string
  /** Both null where no number of layers is enough: no trace passes the channel. */
  readonly unrounded: number | null
  readonly signalLayers: number | null
  readonly source: string
}

export interface ClaimVerdict {
  readonly technology: ViaTechnology
  readonly claimed: number
  readonly source: string
  /** Null where no number of layers is enough. */
  readonly computed: number | null
  readonly verdict: 'confirmed' | 'refuted'
  readonly reason: string
}

export interface EscapePlan {
  readonly package: string
  readonly technology: ViaTechnology
  readonly method: string
  readonly layers: readonly LayerPlan[]
  readonly routes: readonly Route[]
  readonly unescaped: readonly UnescapedBall[]
  /** Vias under power and ground balls: they stand in the way of the routes. */
  readonly supplies: readonly SupplyVia[]
  /** Copper from a land to its via on the layer of the lands, of every net; empty with vias in the lands. */
  readonly dogBones: readonly DogBone[]
  /** No plan gets every signal ball out on fewer signal layers; null where no number of layers is enough. */
  readonly atLeastLayers: number | null
  /** What the clearance check of the finished plan found: nothing, unless the planner is at fault. */
  readonly check: ClearanceCheck
  readonly assumed: readonly Assumption[]
}

export interface SupplyVia {
  readonly ball: string
  /** Names of the holes that follow one another, as in `Route.via`. */
  readonly via: string
  /** Copper layer on which the last of them ends for its net. */
  readonly endLayer: number
}

export interface DogBone {
  readonly ball: string
  readonly from: Point
  readonly to: Point
  readonly width: Metres
}

export interface ClearanceCheck {
  /** Pairs of shapes whose distance was compared with what the rules ask. */
  readonly compared: number
  readonly faults: readonly ClearanceFault[]
}

/** Two shapes of different nets nearer to each other than a rule allows. */
export interface ClearanceFault {
  readonly layer: number
  /** Ball whose copper it is, and what it comes too near to, e.g. `trace of B4`, with its ball; null of a keep-out. */
  readonly ball: string
  readonly other: string
  readonly otherBall: string | null
  readonly rule:
    | 'trace to trace'
    | 'trace to pad'
    | 'mask opening to trace'
    | 'drill to copper'
    | 'keep-out'
    | 'pad to pad'
  readonly found: Metres
  readonly needed: Metres
}

/** A land, a via pad or a bare hole on one layer of a finished plan. */
export interface Standing {
  readonly ball: string
  readonly at: Point
  readonly kind: 'land' | 'via pad' | 'hole'
  /** Of the copper, or of the drill where there is no pad. */
  readonly diameter: Metres
  /** From the centre to the nearest edge of a trace. */
  readonly reach: Metres
}

/**
 * What one layer can do for single nets while the vias then present stand: no plan of any shape lets more
 * than `atMost` of them out, because every way out passes one of the gates of the cut.
 */
export interface LayerBound {
  /** Signal balls that waited, and those that the plan lets out. */
  readonly waiting: number
  readonly escaped: number
  readonly atMost: number
  /** Trace width and gap that were counted with: the finest that waited. */
  readonly width: Metres
  readonly gap: Metres
  readonly cut: readonly Gate[]
}

/** The way between two neighbouring obstacles. */
export interface Gate {
  readonly from: Point
  readonly to: Point
  /** Balls that the two obstacles belong to. */
  readonly balls: readonly [string, string]
  readonly clear: Metres
  /** Whole traces that pass. */
  readonly traces: number
}

export interface LayerPlan {
  readonly layer: number
  readonly escaped: number
  /** Rings that are wholly out after this layer. */
  readonly ringsFreed: readonly number[]
  /** Vias that stand in the way on this layer, of every net. */
  readonly obstacles: number
  readonly tracesPerChannel: number
  readonly longestNeck: Metres | null
  readonly standing: readonly Standing[]
  /** Null where no net waited for the layer. */
  readonly bound: LayerBound | null
}

export interface UnescapedBall {
  readonly ball: string
  readonly net: string
  readonly ring: number
  readonly reason: string
}
