import type { EscapeWishes } from '../escapeWishes.ts'
import type { Path } from '../document/path.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { Package } from '../packages.ts'
import type { EscapeText } from '../schema/escapeSchema.ts'
import type { PackageText } from '../schema/packageSchema.ts'
import type { Part } from '../schema/readPart.ts'
import { exitSides } from './exitSides.ts'
import { groupsApart } from './groupsApart.ts'
import { keepOuts } from './keepOuts.ts'
import { checkAskedLayers, layerChoice } from './layerChoice.ts'
import { priorityLayersOf, priorityNets } from './priorityNets.ts'
import { wishScope, type WishScope, type WishSurroundings } from './wishSurroundings.ts'

/**
 * The packages with what the description prefers for their escape. A stage of its own after the nets, which come out
 * of the packages and are what most wishes speak of. Wishes of packages that cannot be used are checked as far as
 * they can be.
 */
export function completeWishes(
  parts: readonly Part<PackageText>[],
  surroundings: WishSurroundings,
  context: ReadingContext,
): Completed<Package[]> {
  const notes = new Notes(context)
  const usable = new Map(surroundings.packages.map((pack) => [pack.name, pack]))
  const wishes = new Map<string, Pick<Package, 'escape' | 'assumed'>>()
  for (const { text, path } of parts) {
    if (text?.escape === undefined) continue
    const scope = wishScope(text.name, usable.get(text.name) ?? null, surroundings)
    const { value, ...noted } = wishesOf(text.escape, [...path, 'escape'], scope, context)
    wishes.set(text.name, { escape: notes.include({ value, ...noted }), assumed: noted.assumptions })
  }
  const packages = surroundings.packages.map((pack) => {
    const own = wishes.get(pack.name)
    return own === undefined ? pack : { ...pack, ...own, assumed: [...pack.assumed, ...own.assumed] }
  })
  return notes.keep(packages)
}

function wishesOf(
  text: EscapeText,
  path: Path,
  scope: WishScope,
  context: ReadingContext,
): Completed<EscapeWishes> {
  const notes = new Notes(context)
  const { layers = [] } = text
  const layerOrder = layerChoice(layers, [...path, 'layers'], scope, notes)
  // Of a list with faults nobody knows what it leaves out.
  const isChosen = layers.length > 0 && layerOrder.length === layers.length
  if (isChosen) checkAskedLayers(layerOrder, [...path, 'layers'], scope, notes)
  const priority = priorityNets(text, [...path, 'priority'], scope, notes)
  return notes.keep({
    layerOrder,
    priority,
    priorityLayers: priorityLayersOf(text, priority, [...path, 'priority_layers'], scope, notes),
    exitSides: exitSides(text, [...path, 'sides'], scope, notes),
    keepOuts: keepOuts(text, [...path, 'keep_outs'], scope, notes),
    apart: groupsApart(text, [...path, 'apart'], scope, notes),
  })
}
