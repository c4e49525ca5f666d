import { FAR, rule } from './influence.ts'
import type { Panel } from './panels.ts'

/** Line charges in place of each panel: Gauss points, as many for each as the rule has. */
export interface PanelCharges {
  readonly points: number
  readonly x: Float64Array
  readonly y: Float64Array
  /** exp(±π x / 2 lid), cos and sin of π y / 2 lid. */
  readonly grown: Float64Array
  readonly decayed: Float64Array
  readonly cosine: Float64Array
  readonly sine: Float64Array
  /** Charges of each Legendre coefficient at the points, coefficient after coefficient. */
  readonly shares: Float64Array
}

/** A set for each step of FAR. `scale` is π over the distance of the planes, 0 where there is but one. */
export function panelCharges(panels: readonly Panel[], order: number, scale: number): PanelCharges[] {
  return FAR.map(({ more }) => chargesOf(panels, order, more, scale))
}

const STEPS = FAR.map(({ squared }) => squared)

/** Which of the sets has the fewest points that do for a distance in half lengths, squared. */
export function stepFor(squared: number): number {
  let step = 0
  while (step < STEPS.length - 1 && !(squared > (STEPS[step] ?? NaN))) step += 1
  return step
}

function chargesOf(panels: readonly Panel[], order: number, more: number, scale: number): PanelCharges {
  const { nodes, weights, polynomials } = rule(order, order + more)
  const points = nodes.length
  const count = panels.length * points
  const charges = {
    points,
    x: new Float64Array(count),
    y: new Float64Array(count),
    grown: new Float64Array(count),
    decayed: new Float64Array(count),
    cosine: new Float64Array(count),
    sine: new Float64Array(count),
    shares: new Float64Array(count * order),
  }
  panels.forEach((panel, index) => {
    for (let point = 0; point < points; point += 1) {
      placeCharge(charges, index * points + point, panel, nodes[point] ?? NaN, scale)
      for (let k = 0; k < order; k += 1) {
        charges.shares[(index * order + k) * points + point] =
          (weights[point] ?? NaN) * panel.half * (polynomials[point]?.[k] ?? NaN)
      }
    }
  })
  return charges
}

/** A line charge of a panel at its coordinate `along` from −1 to 1. */
function placeCharge(charges: PanelCharges, at: number, panel: Panel, along: number, scale: number): void {
  const x = panel.x + along * panel.half * panel.dx
  const y = panel.y + along * panel.half * panel.dy
  const grown = Math.exp((scale * x) / 2)
  charges.x[at] = x
  charges.y[at] = y
  charges.grown[at] = grown
  charges.decayed[at] = 1 / grown
  charges.cosine[at] = Math.cos((scale * y) / 2)
  charges.sine[at] = Math.sin((scale * y) / 2)
}
