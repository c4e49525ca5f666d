import type { Path } from '../document/path.ts'
import { suggestion } from '../nearestWord.ts'
import type { Notes } from '../notes.ts'
import type { Net, NetClass, NetPin } from '../nets.ts'
import type { NetText } from '../schema/netSchema.ts'
import { UNCLASSIFIED } from './completeClasses.ts'
import { findPartner, polarityByName, type PartnerFound } from './pairPartner.ts'

/** A net while the entries are applied to it. */
export interface NetDraft {
  readonly name: string
  readonly pins: readonly NetPin[]
  /** What the entries said, the last word on each thing. */
  text: NetText
  /** Where they said it. */
  places: Readonly<Record<string, Path>>
  exitLayer?: number
}

/** Joins the nets of pair classes two by two, and refuses those that cannot be. */
export function joinPairs(
  drafts: ReadonlyMap<string, NetDraft>,
  classes: readonly NetClass[],
  notes: Notes,
): Net[] {
  const pairClasses = new Set(classes.filter(({ structure }) => structure === 'pair').map(({ name }) => name))
  const stated = new Map<string, string>()
  for (const { name, text } of drafts.values()) {
    if (text.partner !== undefined && drafts.has(text.partner)) stated.set(name, text.partner)
  }
  for (const [name, partner] of [...stated]) if (!stated.has(partner)) stated.set(partner, name)
  const lonely = new Map<string, string[]>()
  const nets = [...drafts.values()].map((draft): Net => {
    const netClass = draft.text.class ?? UNCLASSIFIED
    checkStated(draft, pairClasses.has(netClass), drafts, stated, notes)
    if (!pairClasses.has(netClass)) return netOf(draft, netClass, null)
    const found = partnerOf(draft, drafts, stated)
    if (found === null) lonely.set(netClass, [...(lonely.get(netClass) ?? []), draft.name])
    else checkClass(draft, netClass, found, drafts, notes)
    return netOf(draft, netClass, found)
  })
  for (const [netClass, names] of lonely) reportLonely(netClass, names, drafts, notes)
  return nets
}

function netOf(draft: NetDraft, netClass: string, found: PartnerFound | null): Net {
  const { text } = draft
  return {
    name: draft.name,
    class: netClass,
    pins: draft.pins,
    partner: found?.partner ?? null,
    partnerBasis: found?.basis ?? null,
    polarity: found?.polarity ?? null,
    matchGroup: text.group ?? null,
    packageDelay: text.package_delay ?? null,
    mainLength: text.length ?? null,
    exitLayer: draft.exitLayer ?? null,
    assumed: [],
  }
}

/** Stated partners first; by name only among nets that state none. */
function partnerOf(
  draft: NetDraft,
  drafts: ReadonlyMap<string, NetDraft>,
  stated: ReadonlyMap<string, string>,
): PartnerFound | null {
  const partner = stated.get(draft.name)
  if (partner === undefined) return findPartner(draft.name, (name) => drafts.has(name) && !stated.has(name))
  const byName = polarityByName(draft.name, partner)
  // Where names do not tell, the net that names its partner is the positive one.
  const polarity =
    byName ?? (draft.text.partner !== undefined && !(draft.name > partner) ? 'positive' : 'negative')
  return { partner, polarity, basis: 'stated' }
}

function checkStated(
  { name, text, places }: NetDraft,
  isPair: boolean,
  drafts: ReadonlyMap<string, NetDraft>,
  stated: ReadonlyMap<string, string>,
  notes: Notes,
): void {
  if (text.partner === undefined) return
  const place = places['partner'] ?? ['nets']
  if (!drafts.has(text.partner) || text.partner === name) {
    notes.error(place, {
      found: `net ${text.partner}`,
      allowed: 'another signal net of some package',
      message:
        text.partner === name
          ? `Net ${name} is given as its own partner.`
          : `The partner of ${name} is given as ${text.partner}, but no ball has that net${suggestion(text.partner, drafts.keys()) || '.'}`,
    })
  } else if (stated.get(text.partner) !== name) {
    notes.error(place, {
      found: `partner ${text.partner}`,
      allowed: 'partners that name each other',
      message: `Net ${name} has the partner ${text.partner}, whose own partner is ${stated.get(text.partner) ?? 'none'}.`,
    })
  }
  if (!isPair) {
    notes.warn(place, {
      found: 'a partner on a net whose class is no pair',
      allowed: 'a partner where the class has structure: pair',
      message: `Net ${name} has a partner, but its class "${text.class ?? UNCLASSIFIED}" is not of structure pair; the partner is not used.`,
    })
  }
}

/** Both halves of a pair have the same class; said once, at the half that comes first by name. */
function checkClass(
  draft: NetDraft,
  netClass: string,
  { partner }: PartnerFound,
  drafts: ReadonlyMap<string, NetDraft>,
  notes: Notes,
): void {
  const other = drafts.get(partner)?.text.class ?? UNCLASSIFIED
  if (other === netClass) return
  notes.error(draft.places['class'] ?? ['nets'], {
    found: `${draft.name} in "${netClass}" and ${partner} in "${other}"`,
    allowed: 'both nets of a pair in the same class',
    message: `Nets ${draft.name} and ${partner} are a pair, but the first is in class "${netClass}" and the other in "${other}".`,
  })
}

function reportLonely(
  netClass: string,
  names: readonly string[],
  drafts: ReadonlyMap<string, NetDraft>,
  notes: Notes,
): void {
  for (const name of names) {
    notes.error(drafts.get(name)?.places['class'] ?? ['nets'], {
      found: `net ${name} without a partner`,
      allowed: 'names that differ by _P/_N, +/-, P/N, or _T/_C, or partner: the name of the other net',
      message: `Net ${name} is in the pair class "${netClass}" but has no partner: no net differs from it by the mark of a pair alone, and none is stated.`,
    })
  }
}
