/** An integer maximum flow, and the cut that proves it. */
export interface MaximumFlow {
  readonly value: number
  /** Net flow along an arc as `addArc` numbered it; negative where more runs back than forth. */
  readonly flowOn: (arc: number) => number
  /**
   * 1 for each node that could still receive flow from the source. The arcs out of this set are a minimum cut, and
   * no minimum cut has a smaller set: it depends on the network alone, not on the flow that was found.
   */
  readonly sourceSide: Uint8Array
}

/**
 * A network of arcs with whole capacities, and its maximum flow by Dinic's method: shortest ways only, all of one
 * length in one phase, without recursion. Capacities are exact up to 2⁵³.
 *
 * Source: E. A. Dinic, "Algorithm for solution of a problem of maximum flow in a network with power estimation",
 * Soviet Mathematics Doklady 11, 1970, pp. 1277–1280.
 */
export class FlowNetwork {
  private readonly nodes: number
  private arcs = 0
  // Arc a of the caller is the pair 2a (forth) and 2a + 1 (back); the partner of i is i ^ 1.
  private heads = new Int32Array(64)
  private capacities = new Float64Array(64)

  /** Throws RangeError unless `nodes` is a whole number of at least 2. */
  constructor(nodes: number) {
    if (!(Number.isSafeInteger(nodes) && nodes >= 2)) {
      throw new RangeError(`a flow network needs at least 2 nodes, got ${nodes}`)
    }
    this.nodes = nodes
  }

  /**
   * Adds an arc, which may carry `back` against its direction as well, and returns its number.
   *
   * Throws RangeError for an unknown node or a capacity that is not a whole number from 0.
   */
  addArc(from: number, to: number, capacity: number, back = 0): number {
    this.assertNode(from)
    this.assertNode(to)
    assertCapacity(capacity)
    assertCapacity(back)
    const forth = 2 * this.arcs
    if (forth === this.heads.length) this.grow()
    this.heads[forth] = to
    this.heads[forth + 1] = from
    this.capacities[forth] = capacity
    this.capacities[forth + 1] = back
    return this.arcs++
  }

  /** Throws RangeError unless source and sink are two nodes of the network. */
  solve(source: number, sink: number): MaximumFlow {
    this.assertNode(source)
    this.assertNode(sink)
    if (source === sink) throw new RangeError(`source and sink must differ, got node ${source} twice`)
    const heads = this.heads.subarray(0, 2 * this.arcs)
    const capacities = this.capacities.slice(0, 2 * this.arcs)
    const search = new Search(this.nodes, heads, capacities.slice())
    let value = 0
    while (search.level(source, sink)) value += search.block(source, sink)
    return {
      value,
      flowOn: (arc) => {
        const capacity = capacities[2 * arc]
        if (capacity === undefined) throw new RangeError(`there is no arc ${arc}`)
        return capacity - (search.residual[2 * arc] ?? 0)
      },
      sourceSide: search.reachable(source),
    }
  }

  private assertNode(node: number): void {
    if (!(Number.isInteger(node) && node >= 0 && node < this.nodes)) {
      throw new RangeError(`a node is a whole number from 0 to ${this.nodes - 1}, got ${node}`)
    }
  }

  private grow(): void {
    const heads = new Int32Array(2 * this.heads.length)
    heads.set(this.heads)
    this.heads = heads
    const capacities = new Float64Array(heads.length)
    capacities.set(this.capacities)
    this.capacities = capacities
  }
}

function assertCapacity(capacity: number): void {
  if (!(Number.isSafeInteger(capacity) && capacity >= 0)) {
    throw new RangeError(`the capacity of an arc must be a whole number from 0, got ${capacity}`)
  }
}

/** The residual network while it is searched. Typed arrays are read with `?? 0` only to please the checker. */
class Search {
  readonly residual: Float64Array
  private readonly heads: Int32Array
  /** Arcs out of node n are out[first[n]] to out[first[n + 1] − 1]. */
  private readonly first: Int32Array
  private readonly out: Int32Array
  /** Arcs between a node and the sink on the shortest way; −1 where there is none. */
  private readonly distance: Int32Array
  private readonly next: Int32Array
  private readonly queue: Int32Array
  private readonly path: Int32Array

  constructor(nodes: number, heads: Int32Array, residual: Float64Array) {
    this.heads = heads
    this.residual = residual
    this.first = new Int32Array(nodes + 1)
    for (let arc = 0; arc < heads.length; arc += 1) bump(this.first, (heads[arc ^ 1] ?? 0) + 1, 1)
    for (let node = 0; node < nodes; node += 1) bump(this.first, node + 1, this.first[node] ?? 0)
    this.out = new Int32Array(heads.length)
    const filled = this.first.slice()
    for (let arc = 0; arc < heads.length; arc += 1) {
      const from = heads[arc ^ 1] ?? 0
      this.out[filled[from] ?? 0] = arc
      bump(filled, from, 1)
    }
    this.distance = new Int32Array(nodes)
    this.next = new Int32Array(nodes)
    this.queue = new Int32Array(nodes)
    this.path = new Int32Array(nodes)
  }

  /** Measures how far every node is from the sink, as far as the source needs; false where the source is cut off. */
  level(source: number, sink: number): boolean {
    const { distance, queue, first, out, heads, residual } = this
    distance.fill(-1)
    distance[sink] = 0
    queue[0] = sink
    let filled = 1
    for (let read = 0; read < filled && distance[source] === -1; read += 1) {
      const node = queue[read] ?? 0
      const beyond = (distance[node] ?? 0) + 1
      const end = first[node + 1] ?? 0
      for (let place = first[node] ?? 0; place < end; place += 1) {
        const arc = out[place] ?? 0
        const neighbour = heads[arc] ?? 0
        if (distance[neighbour] !== -1 || residual[arc ^ 1] === 0) continue
        distance[neighbour] = beyond
        queue[filled] = neighbour
        filled += 1
      }
    }
    return distance[source] !== -1
  }

  /** Fills all shortest ways until each has a full arc; returns how much went through. */
  block(source: number, sink: number): number {
    const { next, first, out, path, heads } = this
    next.set(first.subarray(0, next.length))
    let sent = 0
    let length = 0
    let node = source
    for (;;) {
      if (node === sink) {
        const augmented = this.augment(length)
        sent += augmented.amount
        length = augmented.keep
        node = length === 0 ? source : (heads[path[length - 1] ?? 0] ?? 0)
      }
      const place = this.advance(node)
      if (place !== -1) {
        const arc = out[place] ?? 0
        path[length] = arc
        length += 1
        node = heads[arc] ?? 0
        continue
      }
      if (length === 0) return sent
      // A dead end: step back and never take the arc that led here again in this phase.
      length -= 1
      node = heads[(path[length] ?? 0) ^ 1] ?? 0
      bump(next, node, 1)
    }
  }

  /** Nodes that the source still reaches. */
  reachable(source: number): Uint8Array {
    const { first, out, heads, residual, queue } = this
    const reached = new Uint8Array(this.distance.length)
    reached[source] = 1
    queue[0] = source
    let filled = 1
    for (let read = 0; read < filled; read += 1) {
      const node = queue[read] ?? 0
      const end = first[node + 1] ?? 0
      for (let place = first[node] ?? 0; place < end; place += 1) {
        const arc = out[place] ?? 0
        const neighbour = heads[arc] ?? 0
        if (reached[neighbour] === 1 || residual[arc] === 0) continue
        reached[neighbour] = 1
        queue[filled] = neighbour
        filled += 1
      }
    }
    return reached
  }

  /** Place of the next arc out of a node that leads one step nearer to the sink; −1 where none is left. */
  private advance(node: number): number {
    const { next, first, out, heads, residual, distance } = this
    const nearer = (distance[node] ?? 0) - 1
    const end = first[node + 1] ?? 0
    let place = next[node] ?? 0
    while (place < end) {
      const arc = out[place] ?? 0
      if (residual[arc] !== 0 && distance[heads[arc] ?? 0] === nearer) break
      place += 1
    }
    next[node] = place
    return place < end ? place : -1
  }

  /** Sends what fits along the path; the part before its first full arc stays. */
  private augment(length: number): { amount: number; keep: number } {
    const { path, residual } = this
    let amount = Infinity
    for (let step = 0; step < length; step += 1) amount = Math.min(amount, residual[path[step] ?? 0] ?? 0)
    let keep = -1
    for (let step = 0; step < length; step += 1) {
      const arc = path[step] ?? 0
      bump(residual, arc, -amount)
      bump(residual, arc ^ 1, amount)
      if (keep === -1 && residual[arc] === 0) keep = step
    }
    return { amount, keep }
  }
}

function bump(array: Int32Array | Float64Array, index: number, by: number): void {
  array[index] = (array[index] ?? 0) + by
}
