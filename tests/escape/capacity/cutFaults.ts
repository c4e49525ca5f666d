import type { CutGate, LayerCapacity } from '../../../src/escape/capacity/layerCapacity.ts'
import type { LayerMap, Site } from '../../../src/escape/capacity/layerMap.ts'
import type { Point } from '../../../src/units/quantity.ts'

/**
 * What is wrong with a cut as a proof, looked at afresh: its sum, the traces of each gate, and that the gates enclose
 * every source that is not counted. A source is enclosed when a ray from it meets the gates an odd number of times.
 * Gates that turn at empty sites (`clear` larger than straight) are counted in `turning`: rays cannot judge them.
 */
export function cutFaults(map: LayerMap, capacity: LayerCapacity): { faults: string[]; turning: number } {
  if (!capacity.saturated) {
    const whole = capacity.atMost === map.sources.length && capacity.cut.length === 0
    return { faults: whole ? [] : ['a layer that limits nothing has a cut'], turning: 0 }
  }
  const faults = capacity.cut.flatMap((gate) => gateFaults(map, gate))
  const sum = capacity.cut.reduce((total, { traces }) => total + traces, capacity.onCut.length)
  if (sum !== capacity.atMost) faults.push(`${sum} are counted, ${capacity.atMost} stated`)
  const turning = capacity.cut.filter((gate) => gate.clear > straightClear(map, gate) + 1e-12).length
  const counted = new Set(capacity.onCut.map(({ row, column }) => `${row} ${column}`))
  if (turning > 0) return { faults, turning }
  for (const source of map.sources) {
    if (!counted.has(`${source.row} ${source.column}`) && !isEnclosed(map, capacity.cut, source)) {
      faults.push(`the source at ${source.row}, ${source.column} is not enclosed`)
    }
  }
  return { faults, turning }
}

function gateFaults(map: LayerMap, gate: CutGate): string[] {
  const tracks = (gate.clear + map.gap + map.tolerance) / (map.width + map.gap)
  const excess = tracks - gate.traces
  return [
    ...(gate.traces >= 0 && excess < 1 && (excess > -1e-8 || gate.traces === 0)
      ? []
      : [`${gate.traces} for ${tracks}`]),
    ...(gate.clear < straightClear(map, gate) - 1e-12 ? ['a gate is wider than it counts'] : []),
    ...(reachAt(map, gate.from) === 0 || reachAt(map, gate.to) === 0 ? ['a gate ends at nothing'] : []),
  ]
}

function pointOf(map: LayerMap, { row, column }: Site): Point {
  return { x: map.xs[column] ?? NaN, y: map.ys[row] ?? NaN }
}

function reachAt(map: LayerMap, { row, column }: Site): number {
  return map.reach[row]?.[column] ?? 0
}

function straightClear(map: LayerMap, { from, to }: CutGate): number {
  const [a, b] = [pointOf(map, from), pointOf(map, to)]
  return Math.hypot(a.x - b.x, a.y - b.y) - reachAt(map, from) - reachAt(map, to)
}

/** The ray leans by a slope that no two sites of a grid have, so that it meets no site. */
function isEnclosed(map: LayerMap, gates: readonly CutGate[], source: Site): boolean {
  const start = pointOf(map, source)
  const aside = ({ x, y }: Point): number => y - start.y - (x - start.x) * 0.0137508642
  return (
    gates.filter(({ from, to }) => {
      const [a, b] = [pointOf(map, from), pointOf(map, to)]
      const [above, below] = [aside(a), aside(b)]
      if (above > 0 === below > 0) return false
      return a.x + ((b.x - a.x) * above) / (above - below) > start.x
    }).length %
      2 ===
    1
  )
}
