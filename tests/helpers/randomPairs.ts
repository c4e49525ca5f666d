import type { CrossSection, DielectricSheet } from '../../src/section/crossSection.ts'
import { randomSections, STRUCTURES, type Structure } from './randomSections.ts'

/** Seeded cross-sections of pairs: those of randomSections.ts with a partner beside, or face to face. */
export const PAIR_STRUCTURES = [...STRUCTURES, 'broadside'] as const

export type PairStructure = (typeof PAIR_STRUCTURES)[number]

/** Gap or separation over the distance to the plane, and thickness over it at most. */
const GAPS = [0.5, 0.8, 1.3, 2, 3.2, 5] as const
const THICKEST_IN_GAP = 0.75

export function randomPairs(structure: PairStructure, count: number, seed: number): CrossSection[] {
  if (structure === 'broadside') return randomSections('stripline', count, seed).map(faceToFace)
  return randomSections(structure satisfies Structure, count, seed).map(beside)
}

function beside(section: CrossSection, index: number): CrossSection {
  const ratio = GAPS[index % GAPS.length] ?? 1
  const gap = Math.max(ratio * heightOf(section.below), section.trace.thickness / THICKEST_IN_GAP)
  return { ...section, arrangement: 'edge pair', gap }
}

/** Between the strips a sheet of the lower dielectric's permittivity, at least 0.6 and at most 2.8 widths apart. */
function faceToFace(section: CrossSection, index: number): CrossSection {
  const [below] = section.below
  if (below === undefined) throw new RangeError('a stripline needs a sheet below')
  const { width, thickness } = section.trace
  const apart = Math.max(Math.min((GAPS[index % GAPS.length] ?? 1) * 60e-6, 2.6 * width), 1.1 * thickness)
  const sheet: DielectricSheet = { ...below, name: 'between', thickness: apart }
  return { ...section, arrangement: 'broadside pair', broadside: { layer: 2, sheets: [sheet] } }
}

function heightOf(sheets: readonly DielectricSheet[]): number {
  return sheets.reduce((sum, { thickness }) => sum + thickness, 0)
}
