import { BALL_NAME_RULE, ballName, parseBallName, type GridPlace } from '../ballName.ts'
import { parseQuantity } from '../../units/parse.ts'
import type { Metres } from '../../units/quantity.ts'
import { referenceValue } from '../referenceValue.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { GridPitch } from '../packages.ts'
import type { PackageText } from '../schema/packageSchema.ts'
import { reportEntry, type BallEntry } from './ballEntries.ts'
import { allPlaces, extentOf, isTooLarge, placesOf, type GridSize } from './ballSet.ts'

/** A ball at its place, nothing said of its net yet. */
export interface PlacedBall extends GridPlace {
  readonly name: string
  readonly x: Metres
  readonly y: Metres
}

export interface Positions {
  readonly size: GridSize
  readonly pitch: GridPitch
  readonly balls: readonly PlacedBall[]
  readonly onGrid: boolean
}

/** Balls no farther than this from their place in the grid are on it. */
const ON_GRID: Metres = referenceValue('1 um', 'length')

/**
 * Where the balls are. From a grid: rows and columns (or as far as the named balls reach) less those
 * missing. From coordinates: those of `balls`, or of the ball map where there is no grid. Null with
 * an error noted where neither is complete.
 */
export function ballPositions(
  text: PackageText,
  entries: ReadonlyMap<string, BallEntry>,
  path: Path,
  notes: Notes,
): Positions | null {
  if (text.missing !== undefined && text.only !== undefined) {
    notes.error([...path, 'only'], { found: 'missing and only', allowed: 'one of the two' })
  }
  if (text.balls !== undefined) {
    const listed = text.balls.map(({ name, x, y }, index) => ({
      name,
      x,
      y,
      path: [...path, 'balls', index],
    }))
    return fromCoordinates(listed, text, path, notes)
  }
  const mapped = text.grid === undefined ? coordinatesOf(entries, notes) : []
  if (mapped === null) return null
  return mapped.length > 0 ? fromCoordinates(mapped, text, path, notes) : fromGrid(text, entries, path, notes)
}

function fromGrid(
  text: PackageText,
  entries: ReadonlyMap<string, BallEntry>,
  path: Path,
  notes: Notes,
): Positions | null {
  const size = gridSize(text, entries, path, notes)
  const pitch = statedPitch(text)
  if (pitch === null) {
    notes.error([...path, 'grid', 'pitch'], {
      found: 'missing',
      allowed: 'the distance between neighbouring balls, such as 0.8 mm',
    })
  }
  if (size === null || pitch === null) return null
  const left = placesOf(text.missing ?? [], size, [...path, 'missing'], notes)
  const only = text.only === undefined ? null : placesOf(text.only, size, [...path, 'only'], notes)
  const stagger = text.grid?.stagger ?? 0
  const balls = allPlaces(size).flatMap((place): PlacedBall[] => {
    const name = ballName(place)
    if (left.has(name) || only?.has(name) === false) return []
    const { x, y } = gridPoint(place, size, pitch)
    return [{ name, ...place, x: place.row % 2 === 1 ? x + stagger : x, y }]
  })
  return { size, pitch, balls, onGrid: stagger === 0 }
}

/** Origin in the middle, row A on top, column 1 on the left. */
function gridPoint(
  { row, column }: GridPlace,
  { rows, columns }: GridSize,
  pitch: GridPitch,
): { x: Metres; y: Metres } {
  return { x: (column - (columns - 1) / 2) * pitch.x, y: ((rows - 1) / 2 - row) * pitch.y }
}

function gridSize(
  text: PackageText,
  entries: ReadonlyMap<string, BallEntry>,
  path: Path,
  notes: Notes,
): GridSize | null {
  const { rows, columns } = text.grid ?? {}
  if (rows !== undefined && columns !== undefined) return { rows, columns }
  const names = [...entries.keys(), ...(text.only ?? []).flatMap((entry) => entry.split(':'))]
  const reach = extentOf(names.map(parseBallName).filter((place) => place !== null))
  const size = { rows: rows ?? reach.rows, columns: columns ?? reach.columns }
  if (reach.rows === 0) {
    notes.error([...path, 'grid', 'rows'], {
      found: 'neither rows and columns nor named balls',
      allowed: 'rows and columns, a ball map, or balls with coordinates',
      message: `Package ${text.name} does not say where its balls are: give grid rows and columns, a ball map, or balls with coordinates.`,
    })
    return null
  }
  if (isTooLarge(size)) {
    notes.error([...path, 'grid'], {
      found: `${size.rows} rows and ${size.columns} columns`,
      allowed: 'at most 100 of each',
    })
    return null
  }
  const words = `rows and columns of ${text.name}`
  notes.assume(
    [...path, 'grid'],
    words,
    `${size.rows} × ${size.columns}`,
    'the farthest ball that the map names',
  )
  return size
}

function statedPitch({ grid, pitch }: PackageText): GridPitch | null {
  const x = grid?.pitch_x ?? grid?.pitch ?? pitch
  const y = grid?.pitch_y ?? grid?.pitch ?? pitch
  return x === undefined || y === undefined ? null : { x, y }
}

interface Coordinates {
  readonly name: string
  readonly x: Metres
  readonly y: Metres
  readonly path: Path
}

/** Of every mapped ball; null where one is no length, none where the map has no coordinates. */
function coordinatesOf(entries: ReadonlyMap<string, BallEntry>, notes: Notes): Coordinates[] | null {
  const all = [...entries.values()]
  if (!all.some(({ x, y }) => x !== null && y !== null)) return []
  const read = all.map((entry): Coordinates | null => {
    const [x, y] = [coordinate(entry, entry.x, notes), coordinate(entry, entry.y, notes)]
    const path = 'path' in entry.origin ? entry.origin.path : []
    return x === null || y === null ? null : { name: entry.ball, x, y, path }
  })
  const found = read.filter((place) => place !== null)
  return found.length < read.length ? null : found
}

function coordinate(entry: BallEntry, text: string | null, notes: Notes): Metres | null {
  const reading = parseQuantity(text ?? '', 'length', null)
  if (reading.ok) return reading.value
  const { found, allowed } = reading
  const message = `Ball ${entry.ball} has the coordinate ${found}; allowed: ${allowed}.`
  reportEntry(entry, { found, allowed, message }, notes)
  return null
}

/**
 * Coordinates in the package frame. Where all of them lie on the grid that their names and the pitch
 * span, they are shifted so that its middle is the origin; else they stay as given.
 */
function fromCoordinates(
  list: readonly Coordinates[],
  text: PackageText,
  path: Path,
  notes: Notes,
): Positions | null {
  const placed = placeAll(list, notes)
  const [first] = placed
  if (first === undefined) return null
  const size = extentOf(placed)
  if (isTooLarge(size)) {
    notes.error(path, {
      found: `${size.rows} rows and ${size.columns} columns`,
      allowed: 'at most 100 of each',
    })
    return null
  }
  const pitch = statedPitch(text) ?? measuredPitch(placed)
  if (pitch === null) {
    notes.error([...path, 'pitch'], {
      found: 'missing, and not to be had from the coordinates',
      allowed: 'the distance between neighbouring balls, such as 0.8 mm',
    })
    return null
  }
  const offsets = placed.map((ball) => {
    const { x, y } = gridPoint(ball, size, pitch)
    return { x: ball.x - x, y: ball.y - y }
  })
  const shift = offsets[0] ?? { x: 0, y: 0 }
  const onGrid = offsets.every(
    ({ x, y }) => Math.abs(x - shift.x) <= ON_GRID && Math.abs(y - shift.y) <= ON_GRID,
  )
  if (!onGrid) return { size, pitch, balls: placed, onGrid }
  return { size, pitch, onGrid, balls: placed.map((ball) => ({ ...ball, ...gridPoint(ball, size, pitch) })) }
}

function placeAll(list: readonly Coordinates[], notes: Notes): PlacedBall[] {
  const seen = new Set<string>()
  return list.flatMap(({ name, x, y, path }): PlacedBall[] => {
    const place = parseBallName(name)
    if (place === null) {
      notes.error([...path, 'name'], { found: `"${name}"`, allowed: BALL_NAME_RULE })
      return []
    }
    const plain = ballName(place)
    if (seen.has(plain)) {
      notes.error([...path, 'name'], {
        found: `ball ${plain} for the second time`,
        allowed: 'each ball once',
      })
      return []
    }
    seen.add(plain)
    return [{ name: plain, ...place, x, y }]
  })
}

/** From the outermost rows and columns; null where there is only one of either or they run backwards. */
function measuredPitch(balls: readonly PlacedBall[]): GridPitch | null {
  const along = (place: 'row' | 'column', at: 'x' | 'y', sign: number): Metres | null => {
    const ends = balls.reduce(
      ([low, high], ball) =>
        [ball[place] < low[place] ? ball : low, ball[place] > high[place] ? ball : high] as const,
      [balls[0], balls[0]] as readonly [PlacedBall, PlacedBall],
    )
    const steps = ends[1][place] - ends[0][place]
    const pitch = (sign * (ends[1][at] - ends[0][at])) / steps
    return pitch > ON_GRID ? pitch : null
  }
  const [x, y] = [along('column', 'x', 1), along('row', 'y', -1)]
  if (x !== null && y !== null) return { x, y }
  const either = x ?? y
  return either === null ? null : { x: either, y: either }
}
