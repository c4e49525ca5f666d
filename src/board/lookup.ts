import type { Board } from './board.ts'
import type { Net, NetClass } from './nets.ts'
import type { Ball, Package } from './packages.ts'
import type { ViaType } from './vias.ts'

interface Index {
  readonly classes: ReadonlyMap<string, NetClass>
  readonly vias: ReadonlyMap<string, ViaType>
  readonly packages: ReadonlyMap<string, Package>
  readonly nets: ReadonlyMap<string, Net>
}

/** Made once a board, at its first lookup. */
const indices = new WeakMap<Board, Index>()
const balls = new WeakMap<Package, ReadonlyMap<string, Ball>>()

function byName<T extends { readonly name: string }>(list: readonly T[]): Map<string, T> {
  return new Map(list.map((entry) => [entry.name, entry]))
}

function indexOf(board: Board): Index {
  const known = indices.get(board)
  if (known !== undefined) return known
  const index = {
    classes: byName(board.classes),
    vias: byName(board.vias),
    packages: byName(board.packages),
    nets: byName(board.nets),
  }
  indices.set(board, index)
  return index
}

function found<T>(value: T | undefined, what: string, name: string | number): T {
  if (value === undefined) throw new RangeError(`there is no ${what} ${name}`)
  return value
}

/** Class of a net. Throws RangeError where the board has none of that name. */
export function classOf(board: Board, net: Net): NetClass {
  return found(indexOf(board).classes.get(net.class), 'class', net.class)
}

/** Via type of that name. Throws RangeError where there is none. */
export function viaOf(board: Board, name: string): ViaType {
  return found(indexOf(board).vias.get(name), 'via', name)
}

/** Package of that name. Throws RangeError where there is none. */
export function packageOf(board: Board, name: string): Package {
  return found(indexOf(board).packages.get(name), 'package', name)
}

/** Net of that name. Throws RangeError where there is none. */
export function netOf(board: Board, name: string): Net {
  return found(indexOf(board).nets.get(name), 'net', name)
}

/** Ball of that designator. Throws RangeError where there is none. */
export function ballOf(pack: Package, name: string): Ball {
  const known = balls.get(pack) ?? byName(pack.balls)
  balls.set(pack, known)
  return found(known.get(name), `ball of ${pack.name} called`, name)
}

/** Copper layer that a package's lands are on. */
export function landLayerOf(board: Board, pack: Package): number {
  return pack.placement.side === 'top' ? 1 : board.stackup.copper.length
}

/** Holes that a route runs through, from its land inwards: they are named together, joined by plus signs, where there are several. */
export function holesNamed(board: Board, name: string | null): ViaType[] {
  if (name === null) return []
  const { vias } = indexOf(board)
  const whole = vias.get(name)
  return whole === undefined ? name.split(' + ').flatMap((part) => vias.get(part) ?? []) : [whole]
}
