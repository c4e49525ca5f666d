import type { CrossSection, DielectricSheet, MaskCoat } from '../../section/crossSection.ts'
import type { Ratio } from '../../units/quantity.ts'
import { type Assembly, assemble } from './assemble.ts'
import { checkSection } from './checkSection.ts'
import { meshProblem, type Refinement } from './panels.ts'
import { MODE_CHARGES } from './problemModes.ts'
import { type RelativePermittivity, sectionProblem } from './sectionProblem.ts'
import { solveProblem } from './solveProblem.ts'
import type { FieldProblem } from './wall.ts'

/** A dielectric of a section with its part of the electric energy: of a single line, or of either mode of a pair. */
export interface EnergyShare {
  readonly dielectric: DielectricSheet | MaskCoat
  readonly shares: Readonly<Partial<Record<'line' | 'even' | 'odd', Ratio>>>
}

/** Step of ln εr: the error of a central difference falls with the square of it. */
const STEP = 1e-3
/** Keeps interfaces between equal dielectrics in the picture, so that all steps are taken on the same panels. */
const APART = 1e-9

/**
 * Share of the electric energy in every sheet and in the mask, ∂ ln C / ∂ ln εr by central differences on one
 * assembly. What they lack of one is in the air. A slab beside a trace counts with the sheet that fills it.
 *
 * Source: perturbation of the stored energy, R. F. Harrington, Time-Harmonic Electromagnetic Fields, 1961,
 * section 7-3 (from memory). Throws as `fieldModes` does.
 */
export function energyShares(
  section: CrossSection,
  relative: RelativePermittivity,
  refinement: Refinement,
): EnergyShare[] {
  checkSection(section, relative)
  const dielectrics = dielectricsOf(section)
  const stepped = (chosen: EnergyShare['dielectric'] | null, factor: Ratio): FieldProblem =>
    sectionProblem(section, (sheet) => {
      const index = dielectrics.findIndex((each) => each === sheet)
      return relative(sheet) * (1 + APART * (index + 1)) * (sheet === chosen ? factor : 1)
    })
  const base = stepped(null, 1)
  const assembly = assemble(base, meshProblem(base, refinement))
  const logarithms = (problem: FieldProblem): number[] => {
    const refilled = withWalls(assembly, problem)
    return MODE_CHARGES[section.arrangement].map(({ parity, of }) =>
      Math.log(of(solveProblem(refilled, parity, false).capacitances)),
    )
  }
  return dielectrics.map((dielectric) => {
    const more = logarithms(stepped(dielectric, 1 + STEP))
    const less = logarithms(stepped(dielectric, 1 - STEP))
    const width = Math.log(1 + STEP) - Math.log(1 - STEP)
    const shares = MODE_CHARGES[section.arrangement].map(({ name }, mode) => [
      name,
      (Number(more[mode]) - Number(less[mode])) / width,
    ])
    return { dielectric, shares: Object.fromEntries(shares) as EnergyShare['shares'] }
  })
}

function dielectricsOf({ below, above, broadside, mask }: CrossSection): EnergyShare['dielectric'][] {
  return [...new Set([...below, ...above, ...(broadside?.sheets ?? []), ...(mask === null ? [] : [mask])])]
}

/** The same geometry with other permittivities: influences are those of the panels alone. */
function withWalls(assembly: Assembly, problem: FieldProblem): Assembly {
  const walls = new Map(assembly.problem.walls.map((wall, index) => [wall, problem.walls[index] ?? wall]))
  const panels = assembly.mesh.panels.map((panel) => ({
    ...panel,
    wall: walls.get(panel.wall) ?? panel.wall,
  }))
  return { ...assembly, problem, mesh: { ...assembly.mesh, panels } }
}
