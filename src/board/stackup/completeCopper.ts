import copperTable from '../../../reference/materials/copper.json' with { type: 'json' }
import { formatLength, formatPercent } from '../../units/format.ts'
import type { Metres, OhmMetres, Ratio } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import { sourced } from '../referenceValue.ts'
import type { CopperText, LayerKind } from '../schema/stackupSchema.ts'
import type { CopperLayer } from '../stackup.ts'
import { nominalFinishedCopper, processingLoss } from './finishedCopper.ts'

const { defaults } = copperTable
const FOIL = sourced(defaults.foil, 'copper thickness')
const PLATING = sourced(defaults.plating, 'length')
const SIDEWALL = sourced(defaults.sidewall, 'angle')
const ROUGHNESS = sourced(defaults.roughness, 'length')
const TOLERANCE = sourced(defaults.thickness_tolerance, 'ratio')

/** What a copper layer's completion needs to know of its surroundings. */
export interface CopperPlace {
  readonly path: Path
  /** 1 at the top. */
  readonly number: number
  /** Copper layers of the stackup. */
  readonly count: number
  /** Of the copper of the whole board. */
  readonly resistivity: OhmMetres
  readonly above: LayerKind | null
  readonly below: LayerKind | null
}

/** A copper layer as described, with finished thickness, foot side and side walls filled in. */
export function completeCopper(
  text: CopperText,
  place: CopperPlace,
  context: ReadingContext,
): Completed<CopperLayer | null> {
  const notes = new Notes(context)
  const { path, number, count } = place
  const outer = number === 1 || number === count
  const role = roleOf(text, path, notes)
  const foil = foilOf(text, path, notes)
  const plating = platingOf(text, foil, outer, path, notes)
  const value: CopperLayer = {
    kind: 'copper',
    name: text.copper,
    number,
    position: number === 1 ? 'top' : number === count ? 'bottom' : 'inner',
    role,
    planeNet: role === 'signal' ? null : (text.net ?? null),
    ...thicknessOf(text, foil, plating, outer, context),
    startingFoil: foil,
    plating,
    bondedTo: bondedTo(text, place, notes),
    sidewallSlope: sidewallSlope(text, path, notes),
    roughness: text.roughness ?? assumedRoughness(text.copper, path, notes),
    resistivity: place.resistivity,
    thicknessTolerance: text.thickness_tolerance ?? assumedTolerance(text.copper, path, notes),
    assumed: notes.assumptions,
  }
  return notes.complete(value)
}

/** Copper with a net is a plane unless it says otherwise. */
function roleOf(text: CopperText, path: Path, notes: Notes): CopperLayer['role'] {
  if (text.role !== undefined) return text.role
  const role = text.net === undefined ? 'signal' : 'plane'
  const why = text.net === undefined ? 'no net is given for it' : 'a net is given for it'
  notes.assume([...path, 'role'], `role of ${text.copper}`, role, `common practice: ${why}`)
  return role
}

function foilOf(text: CopperText, path: Path, notes: Notes): Metres | null {
  if (text.foil !== undefined) return text.foil
  if (text.thickness !== undefined) return null
  const { value, source } = FOIL
  notes.assume(
    [...path, 'foil'],
    `starting foil of ${text.copper}`,
    formatLength(value, notes.context.displayUnit),
    source,
  )
  return value
}

/** Outer layers are plated with the holes; inner ones only where the description says so. */
function platingOf(
  text: CopperText,
  foil: Metres | null,
  outer: boolean,
  path: Path,
  notes: Notes,
): Metres | null {
  if (text.plating !== undefined) return text.plating
  if (foil === null || text.thickness !== undefined) return null
  if (!outer) return 0
  const { value, source } = PLATING
  notes.assume(
    [...path, 'plating'],
    `plating on ${text.copper}`,
    formatLength(value, notes.context.displayUnit),
    source,
  )
  return value
}

function thicknessOf(
  text: CopperText,
  foil: Metres | null,
  plating: Metres | null,
  outer: boolean,
  { displayUnit }: ReadingContext,
): Pick<CopperLayer, 'thickness' | 'thicknessBasis'> {
  if (text.thickness !== undefined)
    return { thickness: text.thickness, thicknessBasis: 'finished, as stated' }
  if (foil === null) throw new RangeError(`copper ${text.copper} has neither thickness nor foil`)
  const added = plating ?? 0
  const parts = [`foil ${formatLength(foil, displayUnit)}`]
  if (added > 0) parts.push(`plus plating ${formatLength(added, displayUnit)}`)
  parts.push(`less ${formatLength(processingLoss(foil, outer || added > 0), displayUnit)} by processing`)
  return { thickness: nominalFinishedCopper(foil, added, outer), thicknessBasis: parts.join(' ') }
}

/**
 * Side that the foil was bonded to before etching. A core brings its copper along. Foil laid on
 * prepreg in pressing lies on the dielectric that is nearer the centre of the board: the stack is
 * built from the centre outwards.
 */
function bondedTo(text: CopperText, place: CopperPlace, notes: Notes): CopperLayer['bondedTo'] {
  const { path, number, count, above, below } = place
  const bond = above === 'core' ? 'above' : below === 'core' ? 'below' : null
  const outside = number === 1 ? 'below' : number === count ? 'above' : null
  const forced = outside ?? bond
  if (text.bonded_to !== undefined) {
    if (forced !== null && text.bonded_to !== forced) {
      const why =
        outside === null
          ? `the core ${forced} it brings this copper along`
          : `nothing lies ${text.bonded_to} it`
      notes.error([...path, 'bonded_to'], {
        found: text.bonded_to,
        allowed: forced,
        message: `Copper ${text.copper} cannot be bonded to the dielectric ${text.bonded_to} it: ${why}.`,
      })
    }
    return text.bonded_to
  }
  if (forced !== null) return forced
  const side = 2 * number <= count + 1 ? 'below' : 'above'
  notes.assume(
    [...path, 'bonded_to'],
    `dielectric that ${text.copper} is bonded to`,
    `the one ${side} it`,
    'common practice, no source: foil is laid on prepreg from the centre outwards',
  )
  return side
}

/**
 * Narrowing of each side wall per unit of thickness: 1/tan(angle at the foot) = 1/etch factor, the
 * etch factor being thickness over undercut on one side.
 */
function sidewallSlope(text: CopperText, path: Path, notes: Notes): Ratio {
  if (text.sidewall !== undefined && text.etch_factor !== undefined) {
    notes.error([...path, 'etch_factor'], {
      found: 'sidewall and etch_factor',
      allowed: 'one of the two',
      message: `Copper ${text.copper} has both sidewall and etch_factor; they say the same thing, so give one.`,
    })
  }
  if (text.etch_factor !== undefined) return 1 / text.etch_factor
  if (text.sidewall !== undefined) return slopeAt(text.sidewall)
  notes.assume([...path, 'sidewall'], `side wall of ${text.copper}`, defaults.sidewall.value, SIDEWALL.source)
  return slopeAt(SIDEWALL.value)
}

/** 1/tan(angle), zero and not a rounding error at a right angle. */
function slopeAt(angle: number): Ratio {
  return angle === Math.PI / 2 ? 0 : 1 / Math.tan(angle)
}

function assumedRoughness(name: string, path: Path, notes: Notes): Metres {
  const { value, source } = ROUGHNESS
  notes.assume(
    [...path, 'roughness'],
    `root-mean-square roughness of ${name}`,
    formatLength(value, notes.context.displayUnit),
    source,
  )
  return value
}

function assumedTolerance(name: string, path: Path, notes: Notes): Ratio {
  const { value, source } = TOLERANCE
  notes.assume(
    [...path, 'thickness_tolerance'],
    `tolerance of the thickness of ${name}`,
    `± ${formatPercent(value, 0)}`,
    source,
  )
  return value
}
