import type { Assumption } from '../units/assumption.ts'
import type { Board } from './board.ts'
import { completeAnalysis } from './completeAnalysis.ts'
import { checkClaims, checkUniqueNames, checkViaSpans, namesOf } from './crossChecks.ts'
import { completeFabrication } from './fabrication/completeFabrication.ts'
import { completeClasses, UNCLASSIFIED, unclassified } from './nets/completeClasses.ts'
import { completeNets } from './nets/completeNets.ts'
import type { Net } from './nets.ts'
import { Notes, type Completed, type ReadingContext } from './notes.ts'
import type { Companion } from './packages/ballEntries.ts'
import { completePackages } from './packages/completePackages.ts'
import type { Sections } from './schema/readSections.ts'
import type { LayerPart } from './schema/readLayers.ts'
import { completeStackup } from './stackup/completeStackup.ts'
import { layerDirectory } from './stackup/layerDirectory.ts'
import { completeVias } from './vias/completeVias.ts'
import { completeWishes } from './wishes/completeWishes.ts'

/** Fills in and cross-checks the sections, each stage on what the earlier ones left usable. */
export function completeBoard(
  sections: Sections,
  companion: Companion,
  context: ReadingContext,
): Completed<Board | null> {
  const notes = new Notes(context)
  checkUniqueNames(sections, notes)
  const stackup = notes.include(completeStackup(sections, context))
  const layers = layerDirectory(sections.layers)
  const { fabrication, capability } = notes.include(completeFabrication(sections.fabrication, context))
  const vias = notes.include(completeVias(sections.vias, { layers, capability }, context))
  checkViaSpans(sections, vias, layers.names, notes)
  const stated = notes.include(completeClasses(sections.classes, fabrication, context))
  const places = {
    companion,
    viaNames: namesOf(sections.vias),
    vias,
    planeNets: planeNetsOf(sections.layers),
  }
  const placed = notes.include(completePackages(sections.packages, places, context))
  const classNames = namesOf(sections.classes)
  const roles = stackup === null ? [] : stackup.copper.map(({ role }) => role)
  const nets = notes.include(
    completeNets(sections.nets, { packages: placed, classNames, classes: stated, layers, roles }, context),
  )
  const isGeneral = isGeneralNeeded(nets, classNames)
  const names = {
    classNames: isGeneral ? [...classNames, UNCLASSIFIED] : classNames,
    groupNames: groupsOf(sections),
  }
  const packages = notes.include(
    completeWishes(sections.packages, { packages: placed, nets, layers, roles, ...names }, context),
  )
  const claims = checkClaims(sections, notes)
  const analysis = notes.include(completeAnalysis(sections.analysis, context))
  const general = isGeneral ? notes.include(unclassified(fabrication, context)) : null
  const classes = general === null ? stated : [...stated, general]
  if (sections.title === null || stackup === null) return notes.complete<Board>(null)
  return notes.complete({
    ...identityOf(sections.title),
    displayUnit: context.displayUnit,
    packages,
    stackup,
    vias,
    fabrication,
    classes,
    nets,
    claims,
    analysis,
    assumptions: inDescriptionOrder(notes.assumptions),
  })
}

type Identity = Pick<Board, 'title' | 'revision' | 'author' | 'date'>

function identityOf({ title, revision, author, date }: NonNullable<Sections['title']>): Identity {
  return { title, revision: revision ?? null, author: author ?? null, date: date ?? null }
}

function isGeneralNeeded(nets: readonly Net[], classNames: readonly string[]): boolean {
  return !classNames.includes(UNCLASSIFIED) && nets.some((net) => net.class === UNCLASSIFIED)
}

/** Match groups that entries of `nets` name, whether or not they fit a net. */
function groupsOf({ nets }: Sections): string[] {
  return [...new Set(nets.flatMap(({ text }) => (text?.group === undefined ? [] : [text.group])))]
}

function planeNetsOf(layers: readonly LayerPart[]): Set<string> {
  return new Set(
    layers.flatMap(({ text }) =>
      text?.kind === 'copper' && text.text.net !== undefined ? [text.text.net] : [],
    ),
  )
}

const SECTIONS = ['stackup', 'vias', 'fabrication', 'packages', 'classes', 'nets', 'analysis']

/** By section, then by place in its list; within one part as they were made. */
function inDescriptionOrder(assumptions: readonly Assumption[]): Assumption[] {
  const keyed = assumptions.map((assumption) => {
    const [section = ''] = assumption.path.split(/[.[]/)
    const index = Number(/\[(\d+)\]/.exec(assumption.path)?.[1] ?? -1)
    return { assumption, section: SECTIONS.indexOf(section), index }
  })
  return keyed
    .sort((a, b) => (a.section === b.section ? a.index - b.index : a.section - b.section))
    .map(({ assumption }) => assumption)
}
