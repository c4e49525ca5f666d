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
  /** Charge of each Legendre coefficient at each point. */
  readonly shares: Float64Array
}

/** A set for each step of FAR. `scale` is π over the distance of the planes, 0 where there is but one. */
export function panelCharges(panels: readonly Panel[], order: number, scale: number): PanelCharges[] {
  return FAR.map(({ more }) => chargesOf(panels, order, more, scale))
}

/** Which of the sets has the fewest points that do for a distance in half lengths, squared. */
export function stepFor(squared: number): number {
  let step = 0
  while (step < FAR.length - 1 && !(squared > Number(FAR[step]?.squared))) step += 1
  return step
}

function chargesOf(panels: readonly Panel[], order: number, more: number, scale: number): PanelCharges {
  const { nodes, weights, polynomials } = rule(order, order + more)
  const points = nodes.length
  const each = (of: (panel: Panel, point: number) => number): Float64Array =>
    Float64Array.from({ length: panels.length * points }, (_, index) => {
      const panel = panels[Math.floor(index / points)]
      return panel === undefined ? 0 : of(panel, index % points)
    })
  const x = each((panel, point) => panel.x + Number(nodes[point]) * panel.half * panel.dx)
  const y = each((panel, point) => panel.y + Number(nodes[point]) * panel.half * panel.dy)
  const grown = x.map((value) => Math.exp((scale * value) / 2))
  const shares = new Float64Array(panels.length * points * order)
  panels.forEach(({ half }, index) => {
    for (let point = 0; point < points; point += 1) {
      for (let k = 0; k < order; k += 1) {
        shares[(index * points + point) * order + k] =
          Number(weights[point]) * half * Number(polynomials[point]?.[k])
      }
    }
  })
  return {
    points,
    x,
    y,
    grown,
    decayed: grown.map((value) => 1 / value),
    cosine: y.map((value) => Math.cos((scale * value) / 2)),
    sine: y.map((value) => Math.sin((scale * value) / 2)),
    shares,
  }
}
