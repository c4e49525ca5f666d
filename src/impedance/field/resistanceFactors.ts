import type { CrossSection } from '../../section/crossSection.ts'
import { MAGNETIC_CONSTANT, SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { Metres } from '../../units/quantity.ts'
import type { ModeConstants } from '../estimate.ts'
import { checkSection } from './checkSection.ts'
import type { Refinement } from './panels.ts'
import { problemModes } from './problemModes.ts'
import { recededProblem } from './recededProblem.ts'
import { sectionProblem } from './sectionProblem.ts'
import type { FieldProblem } from './wall.ts'

/** Resistance per length over surface resistance, 1/m, of one trace with its return: in a single line or either mode. */
export type ResistanceFactors =
  | { readonly kind: 'single'; readonly line: number }
  | { readonly kind: 'pair'; readonly even: number; readonly odd: number }

/** Depth of the step over the shortest face of metal. */
const STEP = 0.02

/**
 * Conductor loss where the skin is thin, by the rule of incremental inductance on the solved field: R = Rs/µ0 · ∂L/∂n,
 * every metal face, planes and coplanar ground included, receding by n. With the surface impedance (1 + j) Rs the
 * internal inductance is R/ω besides. Dielectrics play no part.
 *
 * Source: H. A. Wheeler, "Formulas for the skin effect", Proc. IRE 30, 1942, pp. 412–424. Holds where the skin depth
 * is small against every thickness and radius; sharp corners are as sharp as drawn.
 *
 * Throws as `fieldModes` does.
 */
export function resistanceFactors(section: CrossSection, refinement: Refinement): ResistanceFactors {
  const inAir = (): number => 1
  checkSection(section, inAir)
  return problemResistanceFactors(sectionProblem(section, inAir), section.arrangement, refinement)
}

/** The same of any symmetric picture whose conductors have a thickness. */
export function problemResistanceFactors(
  problem: FieldProblem,
  arrangement: CrossSection['arrangement'],
  refinement: Refinement,
): ResistanceFactors {
  const depth = STEP * shortestFace(problem)
  const outer = problemModes(recededProblem(problem, depth), arrangement, refinement).modes
  const inner = problemModes(recededProblem(problem, -depth), arrangement, refinement).modes
  // In air L = Z / c.
  const slope = (more: ModeConstants, less: ModeConstants): number =>
    (more.impedance - less.impedance) / (SPEED_OF_LIGHT * 2 * depth * MAGNETIC_CONSTANT)
  if (outer.kind === 'single' && inner.kind === 'single') {
    return { kind: 'single', line: slope(outer.line, inner.line) }
  }
  if (outer.kind === 'pair' && inner.kind === 'pair') {
    return { kind: 'pair', even: slope(outer.even, inner.even), odd: slope(outer.odd, inner.odd) }
  }
  throw new RangeError('both steps must have the same modes')
}

function shortestFace({ walls }: FieldProblem): Metres {
  const faces = walls.filter((wall) => wall.conductor !== null)
  return Math.min(...faces.map(({ from, to }) => Math.hypot(to.x - from.x, to.y - from.y)))
}
