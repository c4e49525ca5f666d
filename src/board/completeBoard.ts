import type { Board, LayerClaim } from './board.ts'
import { completeAnalysis } from './completeAnalysis.ts'
import type { Path } from './document/path.ts'
import { completeFabrication } from './fabrication/completeFabrication.ts'
import { suggestion } from './nearestWord.ts'
import { completeClasses, UNCLASSIFIED, unclassified } from './nets/completeClasses.ts'
import { completeNets } from './nets/completeNets.ts'
import type { NetClass } from './nets.ts'
import { Notes, type Completed, type ReadingContext } from './notes.ts'
import type { Companion } from './packages/ballEntries.ts'
import { completePackages } from './packages/completePackages.ts'
import type { Part } from './schema/readPart.ts'
import type { Sections } from './schema/readSections.ts'
import type { LayerPart } from './schema/readLayers.ts'
import { completeStackup } from './stackup/completeStackup.ts'
import { layerDirectory } from './stackup/layerDirectory.ts'
import { checkSpans } from './vias/checkSpans.ts'
import { completeVias } from './vias/completeVias.ts'
import type { ViaType } from './vias.ts'

/** Fills in and cross-checks the sections, each stage on what the earlier ones left usable. */
export function completeBoard(
  sections: Sections,
  companion: Companion,
  context: ReadingContext,
): Completed<Board> {
  const notes = new Notes(context)
  checkUniqueNames(sections, notes)
  const stackup = notes.include(completeStackup(sections, context))
  const layers = layerDirectory(sections.layers)
  const made = notes.include(completeFabrication(sections.fabrication, context))
  if (made === null) return notes.complete<Board>(null)
  const { fabrication, capability } = made
  const vias = notes.include(completeVias(sections.vias, { layers, capability }, context)) ?? []
  checkViaSpans(sections, vias, layers.names, notes)
  const classes = notes.include(completeClasses(sections.classes, fabrication, context)) ?? []
  const planeNets = planeNetsOf(sections.layers)
  const viaNames = namesOf(sections.vias)
  const packages =
    notes.include(completePackages(sections.packages, { companion, viaNames, vias, planeNets }, context)) ??
    []
  const surroundings = {
    packages,
    classNames: [...namesOf(sections.classes)],
    classes,
    layers,
    roles: stackup?.copper.map(({ role }) => role) ?? [],
  }
  const nets = notes.include(completeNets(sections.nets, surroundings, context)) ?? []
  const claims = checkClaims(sections, notes)
  const analysis = notes.include(completeAnalysis(sections.analysis, context))
  const rest =
    nets.some((net) => net.class === UNCLASSIFIED) && !classes.some(({ name }) => name === UNCLASSIFIED)
  const general: NetClass | null = rest ? notes.include(unclassified(fabrication, context)) : null
  const { title } = sections
  if (title === null || stackup === null || analysis === null) return notes.complete<Board>(null)
  return notes.complete({
    title: title.title,
    revision: title.revision ?? null,
    author: title.author ?? null,
    date: title.date ?? null,
    displayUnit: context.displayUnit,
    packages,
    stackup,
    vias,
    fabrication,
    classes: general === null ? classes : [...classes, general],
    nets,
    claims,
    analysis,
    assumptions: notes.assumptions,
  })
}

function checkUniqueNames(sections: Sections, notes: Notes): void {
  for (const [words, parts] of [
    ['vias', sections.vias],
    ['packages', sections.packages],
    ['classes', sections.classes],
  ] as const) {
    const seen = new Set<string>()
    for (const { name, path } of parts) {
      if (name !== null && seen.has(name)) {
        notes.error([...path, 'name'], {
          found: `the name "${name}" for the second time`,
          allowed: 'a name of its own for each',
          message: `Two ${words} are called "${name}".`,
        })
      }
      if (name !== null) seen.add(name)
    }
  }
}

function namesOf(parts: readonly Part<unknown>[]): string[] {
  return parts.flatMap(({ name }) => (name === null ? [] : [name]))
}

/** Spans are judged only where the stackup's sequence is known. */
function checkViaSpans(
  sections: Sections,
  vias: readonly ViaType[],
  names: readonly string[],
  notes: Notes,
): void {
  const inner = sections.layers.filter(({ kind }) => kind !== 'mask')
  const dielectrics = inner.flatMap(({ kind }) => (kind === 'core' || kind === 'prepreg' ? [kind] : []))
  const alternate = inner.every(({ kind }, index) => (kind === 'copper') === (index % 2 === 0))
  if (!alternate || dielectrics.length !== names.length - 1) return
  const spans = vias.map((via) => ({
    name: via.name,
    path: placeOf(sections.vias, via.name),
    first: via.firstLayer,
    last: via.lastLayer,
    laser: via.kind === 'microvia',
  }))
  checkSpans(spans, dielectrics, names, notes)
}

function placeOf(parts: readonly Part<unknown>[], name: string): Path {
  const part = parts.find((candidate) => candidate.name === name)
  return part === undefined ? [] : [...part.path, 'layers']
}

function planeNetsOf(layers: readonly LayerPart[]): Set<string> {
  return new Set(
    layers.flatMap(({ text }) =>
      text?.kind === 'copper' && text.text.net !== undefined ? [text.text.net] : [],
    ),
  )
}

function checkClaims(sections: Sections, notes: Notes): LayerClaim[] {
  const names = namesOf(sections.packages)
  return sections.claims.flatMap(({ text, path }): LayerClaim[] => {
    if (text === null) return []
    if (!names.includes(text.package)) {
      notes.error([...path, 'package'], {
        found: `"${text.package}"`,
        allowed: names.join(', '),
        message: `Unknown package "${text.package}"; the description has ${names.join(', ')}${suggestion(text.package, names) || '.'}`,
      })
    }
    return [
      {
        package: text.package,
        technology: text.technology,
        signalLayers: text.signal_layers,
        source: text.source,
      },
    ]
  })
}
