import { formatLength } from '../../units/format.ts'
import type { LengthUnit, Metres } from '../../units/quantity.ts'
import type { Net, NetClass } from '../../board/nets.ts'
import type { Package } from '../../board/packages.ts'
import type { EscapePlan, PackageEscape } from '../../escape/escape.ts'
import type { Review } from '../../review.ts'

/** A review with the look-ups and words that every section needs. */
export interface ReportContext {
  readonly review: Review
  readonly unit: LengthUnit
  /** A length in the board's unit. */
  readonly length: (metres: Metres) => string
  /** The stackup's name of a copper layer. */
  readonly layerName: (number: number) => string
  readonly classNamed: (name: string) => NetClass | undefined
  readonly netNamed: (name: string) => Net | undefined
  readonly packageNamed: (name: string) => Package | undefined
}

export function reportContext(review: Review): ReportContext {
  const { board } = review
  const unit = board.displayUnit
  const layers = new Map(board.stackup.copper.map((layer) => [layer.number, layer.name]))
  const classes = new Map(board.classes.map((each) => [each.name, each]))
  const nets = new Map(board.nets.map((each) => [each.name, each]))
  const packages = new Map(board.packages.map((each) => [each.name, each]))
  return {
    review,
    unit,
    length: (metres) => formatLength(metres, unit),
    layerName: (number) => layers.get(number) ?? `layer ${number}`,
    classNamed: (name) => classes.get(name),
    netNamed: (name) => nets.get(name),
    packageNamed: (name) => packages.get(name),
  }
}

/** The plan with the vias that the description really has. */
export function chosenPlan(escape: PackageEscape): EscapePlan | undefined {
  return escape.plans.find((plan) => plan.technology === escape.chosen)
}

/** Layers on which a plan lets nets leave. */
export function signalLayers(plan: EscapePlan): number[] {
  return plan.layers.filter((layer) => layer.escaped > 0).map((layer) => layer.layer)
}
