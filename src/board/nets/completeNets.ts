import { formatPath, type Path } from '../document/path.ts'
import { nearestWord, suggestion } from '../nearestWord.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import { fitsPattern } from '../namePattern.ts'
import type { Net, NetClass, NetPin } from '../nets.ts'
import type { Package } from '../packages.ts'
import { NONE_OF_THEM } from '../schema/explain.ts'
import type { Part } from '../schema/readPart.ts'
import type { NetText } from '../schema/netSchema.ts'
import { signalLayer, type LayerRoles } from '../stackup/signalLayer.ts'
import { UNCLASSIFIED } from './completeClasses.ts'
import { joinPairs, type NetDraft } from './joinPairs.ts'

export interface NetSurroundings extends LayerRoles {
  readonly packages: readonly Package[]
  /** Names of all classes described, those with faults too. */
  readonly classNames: readonly string[]
  /** Classes that can be used. */
  readonly classes: readonly NetClass[]
}

/**
 * Every signal net of the ball maps, with what the entries of `nets` say of it. Entries apply in
 * order: what a later one says replaces what an earlier one said of the same thing.
 */
export function completeNets(
  parts: readonly Part<NetText>[],
  surroundings: NetSurroundings,
  context: ReadingContext,
): Completed<Net[]> {
  const notes = new Notes(context)
  const { signals, supplies } = netsOfPackages(surroundings.packages)
  const drafts = new Map<string, NetDraft>()
  for (const [name, pins] of signals) drafts.set(name, { name, pins, text: {}, places: {} })
  for (const part of parts) {
    if (part.text !== null) applyEntry(part.text, part.path, drafts, supplies, surroundings, notes)
  }
  const open = [...drafts.values()].filter((draft) => draft.text.class === undefined)
  if (open.length > 0) {
    notes.assume(
      ['nets'],
      `class of ${open.length} nets that no entry gives one`,
      UNCLASSIFIED,
      'common practice, no source',
    )
  }
  const nets = joinPairs(drafts, surroundings.classes, notes)
  return notes.keep(nets)
}

interface PackageNets {
  readonly signals: ReadonlyMap<string, NetPin[]>
  /** Power and ground nets, and the package that says so. */
  readonly supplies: ReadonlyMap<string, string>
}

/** A net that is a supply on any package is no signal on another. */
function netsOfPackages(packages: readonly Package[]): PackageNets {
  const signals = new Map<string, NetPin[]>()
  const supplies = new Map<string, string>()
  for (const pack of packages) {
    for (const { name, net, use } of pack.balls) {
      if (net === null || use === 'unused') continue
      if (use !== 'signal') {
        supplies.set(net, pack.name)
        continue
      }
      const pins = signals.get(net) ?? []
      pins.push({ package: pack.name, ball: name })
      signals.set(net, pins)
    }
  }
  for (const name of supplies.keys()) signals.delete(name)
  return { signals, supplies }
}

function applyEntry(
  text: NetText,
  path: Path,
  drafts: Map<string, NetDraft>,
  supplies: ReadonlyMap<string, string>,
  surroundings: NetSurroundings,
  notes: Notes,
): void {
  checkReferences(text, path, surroundings, notes)
  for (const draft of entryTargets(text, path, drafts, supplies, notes)) {
    const stated = Object.entries(text).filter(([key]) => key !== 'match' && key !== 'name')
    draft.text = { ...draft.text, ...Object.fromEntries(stated) }
    for (const [key] of stated) draft.places = { ...draft.places, [key]: [...path, key] }
    const layer = text.exit_layer === undefined ? null : signalLayer(text.exit_layer, surroundings)
    if (typeof layer === 'number') draft.exitLayer = layer
  }
}

function entryTargets(
  text: NetText,
  path: Path,
  drafts: ReadonlyMap<string, NetDraft>,
  supplies: ReadonlyMap<string, string>,
  notes: Notes,
): NetDraft[] {
  if ((text.match === undefined) === (text.name === undefined)) {
    notes.error(path, {
      found: text.match === undefined ? NONE_OF_THEM : 'match and name',
      allowed: 'match: a pattern such as "DQ*", or name: one net',
      message: `An entry of nets names its nets by match or by name; ${formatPath(path)} has ${text.match === undefined ? 'neither' : 'both'}.`,
    })
    return []
  }
  if (text.name !== undefined) return namedNet(text.name, path, drafts, supplies, notes)
  const pattern = text.match ?? ''
  const found = [...drafts.values()].filter(({ name }) => fitsPattern(name, pattern))
  if (found.length === 0) {
    notes.warn([...path, 'match'], {
      found: `"${pattern}"`,
      allowed: 'a pattern that fits at least one signal net',
      message: `The pattern "${pattern}" fits no signal net of any package.`,
    })
  }
  return found
}

function namedNet(
  name: string,
  path: Path,
  drafts: ReadonlyMap<string, NetDraft>,
  supplies: ReadonlyMap<string, string>,
  notes: Notes,
): NetDraft[] {
  const draft = drafts.get(name)
  if (draft !== undefined) return [draft]
  const supplier = supplies.get(name)
  if (supplier !== undefined) {
    notes.error([...path, 'name'], {
      found: `the supply net ${name}`,
      allowed: 'a signal net',
      message: `Net ${name} is power or ground by the ball map of ${supplier}; only signals have entries in nets.`,
    })
    return []
  }
  notes.error([...path, 'name'], {
    found: `net ${name}`,
    allowed: 'a net that a ball of some package has',
    message: `No ball has the net ${name}${suggestion(name, drafts.keys()) || '.'}`,
  })
  return []
}

function checkReferences(text: NetText, path: Path, surroundings: NetSurroundings, notes: Notes): void {
  const { classNames } = surroundings
  if (text.class !== undefined && !classNames.includes(text.class)) {
    const near = nearestWord(text.class, classNames)
    const known = classNames.length === 0 ? 'none' : classNames.join(', ')
    notes.error([...path, 'class'], {
      found: `"${text.class}"`,
      allowed: known,
      message: `Unknown class "${text.class}"; the description has ${known}${near === null ? '.' : `; did you mean "${near}"?`}`,
    })
  }
  if (text.exit_layer === undefined) return
  const layer = signalLayer(text.exit_layer, surroundings)
  if (typeof layer !== 'number') notes.error([...path, 'exit_layer'], layer)
}
