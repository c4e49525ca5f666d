import type { z } from 'zod'
import type { Arithmetic } from '../../units/parse.ts'
import type { ReadingContext } from '../notes.ts'
import type { Issue } from '../issue.ts'
import {
  boardSchemas,
  type AnalysisText,
  type BoardSchemas,
  type ClaimText,
  type TopText,
} from './boardSchema.ts'
import type { ClassText } from './classSchema.ts'
import { describe } from './explain.ts'
import type { FabricationText } from './fabricationSchema.ts'
import { leavesWith } from './leaves.ts'
import type { NetText } from './netSchema.ts'
import type { PackageText } from './packageSchema.ts'
import { readPart, SectionNotes, type Part } from './readPart.ts'
import { readLayers, type LayerPart } from './readLayers.ts'
import type { StackupHeader } from './stackupSchema.ts'
import type { ViaText } from './viaSchema.ts'

/** A description by sections, quantities in SI, nothing filled in yet. */
export interface Sections {
  readonly title: Pick<TopText, 'title' | 'revision' | 'author' | 'date'> | null
  readonly stackup: Omit<StackupHeader, 'layers'> | null
  readonly layers: readonly LayerPart[]
  readonly vias: readonly Part<ViaText>[]
  readonly fabrication: FabricationText | null
  readonly packages: readonly Part<PackageText>[]
  readonly classes: readonly Part<ClassText>[]
  readonly nets: readonly Part<NetText>[]
  readonly claims: readonly Part<ClaimText>[]
  readonly analysis: AnalysisText | null
}

export interface SectionReading {
  readonly sections: Sections
  readonly issues: readonly Issue[]
  /** True where some quantity is arithmetic and no `Arithmetic` was at hand. */
  readonly needsArithmetic: boolean
}

/** Plain values to sections, each part on its own, so that all slips are found in one go. */
export function readSections(
  value: unknown,
  arithmetic: Arithmetic | null,
  context: ReadingContext,
): SectionReading {
  const schemas = boardSchemas(leavesWith(arithmetic))
  const notes = new SectionNotes(context)
  const top = isGroup(value) ? value : {}
  if (!isGroup(value)) {
    const allowed = 'a group of keys: title, stackup, vias, packages …'
    notes.error([], { found: describe(value), allowed })
  }
  const title = isGroup(value) ? readPart(schemas.top, value, [], notes) : null
  const header = isGroup(value) ? readStackup(schemas, top['stackup'], notes) : { stackup: null, layers: [] }
  const list = <T>(key: string, schema: z.ZodType<T>): Part<T>[] =>
    itemsOf(top[key]).map((item, index) => ({
      path: [key, index],
      name: nameOf(item),
      text: readPart(schema, item, [key, index], notes),
    }))
  const sections: Sections = {
    title,
    ...header,
    vias: list('vias', schemas.via),
    fabrication:
      top['fabrication'] === undefined
        ? {}
        : readPart(schemas.fabrication, top['fabrication'], ['fabrication'], notes),
    packages: list('packages', schemas.package),
    classes: list('classes', schemas.class),
    nets: list('nets', schemas.net),
    claims: list('claims', schemas.claim),
    analysis:
      top['analysis'] === undefined ? {} : readPart(schemas.analysis, top['analysis'], ['analysis'], notes),
  }
  return { sections, issues: notes.issues, needsArithmetic: notes.needsArithmetic }
}

function readStackup(
  schemas: BoardSchemas,
  value: unknown,
  notes: SectionNotes,
): Pick<Sections, 'stackup' | 'layers'> {
  // That it is missing has been said with the other keys of the description.
  if (value === undefined) return { stackup: null, layers: [] }
  const stackup = readPart(schemas.layer.header, value, ['stackup'], notes)
  const items = isGroup(value) ? itemsOf(value['layers']) : []
  return { stackup, layers: readLayers(schemas.layer, items, notes) }
}

function isGroup(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

function itemsOf(value: unknown): unknown[] {
  return Array.isArray(value) ? (value as unknown[]) : []
}

function nameOf(item: unknown): string | null {
  return isGroup(item) && typeof item['name'] === 'string' ? item['name'].trim() : null
}
