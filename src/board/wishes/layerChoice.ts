import { formatPath, type Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import { signalLayer } from '../stackup/signalLayer.ts'
import type { WishScope } from './wishSurroundings.ts'

/** Numbers of signal layers in the order in which they are named, each once. Problems are noted. */
export function layerChoice(
  references: readonly (string | number)[],
  path: Path,
  scope: WishScope,
  notes: Notes,
): number[] {
  const chosen = new Set<number>()
  for (const [index, reference] of references.entries()) {
    const layer = signalLayer(reference, scope)
    if (typeof layer !== 'number') {
      notes.error([...path, index], layer)
    } else if (chosen.has(layer)) {
      const name = scope.layers.names[layer - 1] ?? String(reference)
      notes.error([...path, index], {
        found: `layer ${name} for the second time`,
        allowed: 'each layer once',
        message: `${formatPath(path)} names layer ${name} twice.`,
      })
    } else {
      chosen.add(layer)
    }
  }
  return [...chosen]
}

/** Warns of nets that ask for a layer which the package keeps closed: they cannot leave it. */
export function checkAskedLayers(
  chosen: readonly number[],
  path: Path,
  scope: WishScope,
  notes: Notes,
): void {
  const shut = [...scope.own.values()].filter(
    ({ exitLayer }) => exitLayer !== null && !chosen.includes(exitLayer),
  )
  const [first] = shut
  if (first === undefined) return
  const name = scope.layers.names[(first.exitLayer ?? 0) - 1] ?? ''
  const [nets, ask] = shut.length === 1 ? ['net', 'asks'] : ['nets', 'ask']
  notes.warn(path, {
    found: `no ${name}`,
    allowed: 'every layer that a net of the package asks for by exit_layer',
    message: `${shut.length} ${nets} of ${scope.name} ${ask} by exit_layer for a layer that ${formatPath(path)} leaves out, such as ${first.name} for ${name}; no net leaves ${scope.name} there.`,
  })
}
