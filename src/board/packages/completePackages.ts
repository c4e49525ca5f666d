import { NO_WISHES } from '../escapeWishes.ts'
import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import { suggestion } from '../nearestWord.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { Package } from '../packages.ts'
import type { PackageText } from '../schema/packageSchema.ts'
import type { Part } from '../schema/readPart.ts'
import type { ViaType } from '../vias.ts'
import { assignBalls } from './assignBalls.ts'
import { ballEntries, type Companion } from './ballEntries.ts'
import { ballPositions, type Positions } from './ballPositions.ts'
import { landSizes } from './landSizes.ts'

export interface PackageSurroundings {
  readonly companion: Companion
  /** Names of all vias described, those with faults too. */
  readonly viaNames: readonly string[]
  /** Vias that can be used. */
  readonly vias: readonly ViaType[]
  readonly planeNets: ReadonlySet<string>
}

/** Packages that can be used, with places, nets and sizes filled in, and what is wrong with the others. */
export function completePackages(
  parts: readonly Part<PackageText>[],
  surroundings: PackageSurroundings,
  context: ReadingContext,
): Completed<Package[]> {
  const notes = new Notes(context)
  const packages = parts.flatMap(({ text, path }) => {
    const pack = text === null ? null : notes.include(completePackage(text, path, surroundings, context))
    return pack === null ? [] : [pack]
  })
  return notes.keep(packages)
}

/** Its value is kept through errors as long as balls could be placed, so that nets can be checked too. */
function completePackage(
  text: PackageText,
  path: Path,
  { companion, viaNames, vias, planeNets }: PackageSurroundings,
  context: ReadingContext,
): Completed<Package | null> {
  const notes = new Notes(context)
  const map = ballEntries(text, path, companion, notes)
  const positions = ballPositions(text, map.entries, path, notes)
  const via = viaOf(text, viaNames, vias, path, notes)
  if (positions === null) return notes.keep(null)
  const { size, pitch, onGrid } = positions
  const value: Package = {
    name: text.name,
    part: text.part ?? null,
    placement: placementOf(text, path, notes),
    ...size,
    pitch,
    viaPitch: viaPitchOf(text, positions),
    ...assignBalls(text, positions, map, planeNets, path, notes),
    onGrid,
    ...landSizes(text, nearestNeighbours(text, positions), path, notes),
    via,
    viaPlacement: viaPlacementOf(text, via, vias, path, notes),
    // Wishes speak of nets: completeWishes fills them in when those are known.
    escape: NO_WISHES,
    assumed: notes.assumptions,
  }
  return notes.keep(value)
}

function placementOf(text: PackageText, path: Path, notes: Notes): Package['placement'] {
  const { side = 'top', at: [x, y] = [0, 0], rotation = 0 } = text
  const origin = formatLength(0, notes.context.displayUnit)
  const none = 'common practice, no source'
  if (text.side === undefined) notes.assume([...path, 'side'], `side of ${text.name}`, 'top', none)
  if (text.at === undefined)
    notes.assume([...path, 'at'], `place of ${text.name}`, `${origin}, ${origin}`, none)
  if (text.rotation === undefined)
    notes.assume([...path, 'rotation'], `rotation of ${text.name}`, '0 deg', none)
  // Rounded, since 90 deg in radians is not exactly a quarter turn.
  const rotationDegrees = Number(((rotation * 180) / Math.PI).toFixed(9))
  return { origin: { x, y }, side, rotationDegrees }
}

function viaPitchOf({ grid }: PackageText, { pitch }: Positions): Package['viaPitch'] {
  return {
    x: grid?.via_pitch_x ?? grid?.via_pitch ?? pitch.x,
    y: grid?.via_pitch_y ?? grid?.via_pitch ?? pitch.y,
  }
}

/** Smallest centre distance; in a staggered grid neighbours in the next row may be nearer than in the own one. */
function nearestNeighbours({ grid }: PackageText, { pitch }: Positions): Metres {
  const shift = Math.abs(grid?.stagger ?? 0) % pitch.x
  return Math.min(pitch.x, Math.hypot(Math.min(shift, pitch.x - shift), pitch.y))
}

function viaOf(
  text: PackageText,
  names: readonly string[],
  vias: readonly ViaType[],
  path: Path,
  notes: Notes,
): string {
  if (text.via !== undefined) {
    if (!names.includes(text.via)) {
      const allowed = names.length === 0 ? 'no via is described' : `one of ${names.join(', ')}`
      notes.error([...path, 'via'], {
        found: `"${text.via}"`,
        allowed,
        message: `Unknown via "${text.via}"; ${names.length === 0 ? 'the description has none' : `the description has ${names.join(', ')}`}${suggestion(text.via, names) || '.'}`,
      })
    }
    return text.via
  }
  const chosen = vias.find((via) => via.kind === 'through')?.name ?? names[0]
  if (chosen === undefined) {
    notes.error([...path, 'via'], {
      found: 'missing',
      allowed: 'the name of a via; the description has none',
    })
    return ''
  }
  notes.assume(
    [...path, 'via'],
    `via of ${text.name}`,
    chosen,
    'common practice: the first through via described, else the first via',
  )
  return chosen
}

function viaPlacementOf(
  text: PackageText,
  name: string,
  vias: readonly ViaType[],
  path: Path,
  notes: Notes,
): Package['viaPlacement'] {
  const via = vias.find((candidate) => candidate.name === name)
  if (text.via_placement === undefined) {
    const placement = via?.inPad === true ? 'in pad' : 'dog-bone'
    notes.assume(
      [...path, 'via_placement'],
      `place of the vias of ${text.name}`,
      placement,
      'as the via is described',
    )
    return placement
  }
  if (via !== undefined && text.via_placement === 'in pad' && !via.inPad) {
    notes.warn([...path, 'via_placement'], {
      found: 'in pad',
      allowed: `dog-bone, or in_pad: true on via "${name}"`,
      message: `Package ${text.name} puts its vias in the lands, but via "${name}" is not described with in_pad: true.`,
    })
  }
  return text.via_placement
}
