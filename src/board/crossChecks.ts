import type { LayerClaim } from './board.ts'
import type { Path } from './document/path.ts'
import { suggestion } from './nearestWord.ts'
import type { Notes } from './notes.ts'
import type { Part } from './schema/readPart.ts'
import type { Sections } from './schema/readSections.ts'
import { checkSpans } from './vias/checkSpans.ts'
import { holesOf } from './vias/holesOf.ts'
import type { ViaType } from './vias.ts'

/** Vias, packages and classes are referred to by name, so each name stands once. */
export function checkUniqueNames(sections: Sections, notes: Notes): void {
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

/** Names of all parts, of those with faults too. */
export function namesOf(parts: readonly Part<unknown>[]): string[] {
  return parts.flatMap(({ name }) => (name === null ? [] : [name]))
}

/** Spans are judged only where the stackup's sequence is known. */
export function checkViaSpans(
  sections: Sections,
  vias: readonly ViaType[],
  names: readonly string[],
  notes: Notes,
): void {
  const inner = sections.layers.filter(({ kind }) => kind !== 'mask')
  const dielectrics = inner.flatMap(({ kind }) => (kind === 'core' || kind === 'prepreg' ? [kind] : []))
  const alternate = inner.every(({ kind }, index) => (kind === 'copper') === (index % 2 === 0))
  if (!alternate || dielectrics.length !== names.length - 1) return
  const spans = vias.flatMap((via) =>
    holesOf(via).map((span) => ({ ...span, name: via.name, path: placeOf(sections.vias, via.name) })),
  )
  checkSpans(spans, dielectrics, names, notes)
}

function placeOf(parts: readonly Part<unknown>[], name: string): Path {
  const part = parts.find((candidate) => candidate.name === name)
  return part === undefined ? [] : [...part.path, 'layers']
}

/** Claims about packages that are described. */
export function checkClaims(sections: Sections, notes: Notes): LayerClaim[] {
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
