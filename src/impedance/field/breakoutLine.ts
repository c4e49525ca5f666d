import { BoundedMemory } from '../../numerics/boundedMemory.ts'
import type { CrossSection } from '../../section/crossSection.ts'
import type { Surroundings } from '../../section/surroundings.ts'
import { SPEED_OF_LIGHT } from '../../units/constants.ts'
import type { FaradsPerMetre, HenriesPerMetre, Ohms, Ratio } from '../../units/quantity.ts'
import type { ModeConstants } from '../estimate.ts'
import { breakoutProblem } from './breakoutProblem.ts'
import { checkSection } from './checkSection.ts'
import { checkSurroundings } from './checkSurroundings.ts'
import type { Refinement } from './panels.ts'
import { type FieldModes, problemModes, problemVerdict, type VerdictMode } from './problemModes.ts'
import { type RelativePermittivity, sectionProblem } from './sectionProblem.ts'
import { viaStations } from './viaStations.ts'
import type { FieldProblem } from './wall.ts'

/** One mode of a line in its surroundings, as the mean along a via pitch. */
export interface LoadedMode {
  readonly capacitance: FaradsPerMetre
  readonly inductance: HenriesPerMetre
  readonly impedance: Ohms
  readonly effectivePermittivity: Ratio
  /** The same line between unbroken planes with nothing beside it. */
  readonly solid: ModeConstants
  /** Loaded over solid impedance: what both have in common, the errors of the solution included, drops out. */
  readonly ratio: Ratio
}

export type LoadedModes =
  | { readonly kind: 'single'; readonly line: LoadedMode }
  | { readonly kind: 'pair'; readonly even: LoadedMode; readonly odd: LoadedMode }

export interface BreakoutLine {
  readonly modes: LoadedModes
  /** Cuts solved, besides the unbroken section. */
  readonly cuts: number
  /** Of the largest cut. */
  readonly unknowns: number
}

/** Moves the ratio of loaded to solid impedance by less than 1e-3 against the converged solution. */
export const BREAKOUT_REFINEMENT: Refinement = { levels: 1, order: 2 }

/**
 * A single trace, or a pair, along the middle of a channel between two rows of vias.
 *
 * The line is cut across at Gauss points along one via pitch; capacitance and inductance of the cuts are averaged by
 * length, which holds where the pitch is short against the wavelength (a twentieth: 0.65 mm up to 12 GHz at a
 * permittivity of 4), and taken as if each cut were extruded: currents that run round an opening, and the field of
 * round barrels, are counted as they are in the plane of the cut. Three to six cuts of 120 to 350 unknowns.
 *
 * Throws RangeError when section or surroundings are no picture, as when a pad reaches the trace.
 */
export function breakoutLine(
  section: CrossSection,
  surroundings: Surroundings,
  relative: RelativePermittivity,
  refinement: Refinement = BREAKOUT_REFINEMENT,
): BreakoutLine {
  const { arrangement } = section
  const solve = (problem: FieldProblem): FieldModes => problemModes(problem, arrangement, refinement)
  const { solid, cuts } = solvedCuts(section, surroundings, relative, solve, solve)
  const loaded = (of: (solved: FieldModes) => ModeConstants): LoadedMode =>
    meanMode(
      cuts.map(({ share, solved }) => ({ share, mode: of(solved) })),
      of(solid),
    )
  return {
    modes:
      solid.modes.kind === 'single'
        ? { kind: 'single', line: loaded(({ modes }) => verdict(modes)) }
        : {
            kind: 'pair',
            even: loaded(({ modes }) => evenOf(modes)),
            odd: loaded(({ modes }) => verdict(modes)),
          },
    cuts: cuts.filter(({ solved }) => solved !== solid).length,
    unknowns: Math.max(...cuts.map(({ solved }) => solved.unknowns)),
  }
}

/**
 * The same of the one mode that a signal travels in: of a single trace, or the odd mode of a pair. Equal sections
 * between solid planes are solved once and remembered.
 */
export function breakoutVerdict(
  section: CrossSection,
  surroundings: Surroundings,
  relative: RelativePermittivity,
  refinement: Refinement = BREAKOUT_REFINEMENT,
): LoadedMode {
  const { arrangement } = section
  const solve = (problem: FieldProblem): VerdictMode => problemVerdict(problem, arrangement, refinement)
  const { solid, cuts } = solvedCuts(section, surroundings, relative, solve, (problem) =>
    solids.recall(JSON.stringify([arrangement, refinement, problem]), () => solve(problem)),
  )
  return meanMode(
    cuts.map(({ share, solved }) => ({ share, mode: solved.mode })),
    solid.mode,
  )
}

/** Sections whose surroundings are asked for in turn. */
const solids = new BoundedMemory<VerdictMode>(500)

function solvedCuts<Solved>(
  section: CrossSection,
  surroundings: Surroundings,
  relative: RelativePermittivity,
  solve: (problem: FieldProblem) => Solved,
  solveSolid: (problem: FieldProblem) => Solved,
): { solid: Solved; cuts: { share: Ratio; solved: Solved }[] } {
  checkSection(section, relative)
  checkSurroundings(section, surroundings)
  const solid = solveSolid(sectionProblem(section, relative))
  const cuts = viaStations(surroundings).map((station) => ({
    share: station.share,
    solved: hasShapes(station) ? solve(breakoutProblem(section, surroundings, station, relative)) : solid,
  }))
  return { solid, cuts }
}

function hasShapes(station: ReturnType<typeof viaStations>[number]): boolean {
  return Math.max(station.antipadBelow, station.antipadAbove, station.barrel, station.pad) > 0
}

function verdict(modes: FieldModes['modes']): ModeConstants {
  return modes.kind === 'single' ? modes.line : modes.odd
}

function evenOf(modes: FieldModes['modes']): ModeConstants {
  return modes.kind === 'single' ? modes.line : modes.even
}

function meanMode(cuts: readonly { share: Ratio; mode: ModeConstants }[], solid: ModeConstants): LoadedMode {
  const mean = (of: (mode: ModeConstants) => number): number =>
    cuts.reduce((sum, { share, mode }) => sum + share * of(mode), 0)
  const capacitance = mean(
    (mode) => Math.sqrt(mode.effectivePermittivity) / (SPEED_OF_LIGHT * mode.impedance),
  )
  const inductance = mean((mode) => (Math.sqrt(mode.effectivePermittivity) * mode.impedance) / SPEED_OF_LIGHT)
  const impedance = Math.sqrt(inductance / capacitance)
  return {
    capacitance,
    inductance,
    impedance,
    effectivePermittivity: capacitance * inductance * SPEED_OF_LIGHT ** 2,
    solid,
    ratio: impedance / solid.impedance,
  }
}
