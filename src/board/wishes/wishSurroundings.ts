import type { Net } from '../nets.ts'
import type { Package } from '../packages.ts'
import type { LayerRoles } from '../stackup/signalLayer.ts'

/** What the wishes of a package may refer to. */
export interface WishSurroundings extends LayerRoles {
  /** Packages that can be used. */
  readonly packages: readonly Package[]
  readonly nets: readonly Net[]
  /** Names of all classes described, those with faults too, and of the one that is filled in where nets have none. */
  readonly classNames: readonly string[]
  /** Match groups that entries of `nets` name, each once. */
  readonly groupNames: readonly string[]
}

/** The same for one package. */
export interface WishScope extends WishSurroundings {
  readonly name: string
  /** Null where the package cannot be used: then nobody knows its nets, and only references are checked. */
  readonly pack: Package | null
  /** Signal nets that have a ball of it, in the order of its ball map. */
  readonly own: ReadonlyMap<string, Net>
  readonly ownGroups: ReadonlySet<string>
}

export function wishScope(name: string, pack: Package | null, surroundings: WishSurroundings): WishScope {
  const own = surroundings.nets.filter(({ pins }) => pins.some((pin) => pin.package === name))
  return {
    ...surroundings,
    name,
    pack,
    own: new Map(own.map((net) => [net.name, net])),
    ownGroups: new Set(own.flatMap(({ matchGroup }) => (matchGroup === null ? [] : [matchGroup]))),
  }
}
