import type { CrossSection } from '../../section/crossSection.ts'
import type { Metres, Point } from '../../units/quantity.ts'
import { assemble } from './assemble.ts'
import { type Equipotential, equipotentials, type FieldGrid } from './equipotentials.ts'
import { meshProblem } from './panels.ts'
import { type PictureWindow, pictureWindow } from './pictureWindow.ts'
import { type Potential, potentialOf } from './potential.ts'
import { type RelativePermittivity, sectionProblem } from './sectionProblem.ts'
import { solveProblem } from './solveProblem.ts'
import { type FieldProblem, GROUNDED, type Wall } from './wall.ts'

/** The field of a line in its own cross-section, as it lies there: the lower plane at y = 0, the axis at x = 0. */
export interface FieldPicture {
  readonly window: PictureWindow
  /** Share of the voltage between the trace and the planes; a pair has the opposite on its other trace. */
  readonly lines: readonly Equipotential[]
  readonly copper: readonly Copper[]
  /** Outer face of the dielectric, to the air, across the whole picture; null where there is no air. */
  readonly surface: readonly Point[] | null
  readonly unknowns: number
}

export interface Copper {
  readonly role: 'trace' | 'ground'
  readonly corners: readonly Point[]
}

/** Coarser than for an impedance: 1e-3 of the voltage is less than the width of a drawn line. */
const REFINEMENT = { levels: 1, order: 3 }
/** Cells of the grid across half of the window, and at least in its height. */
const CELLS = 44
const FEWEST_ROWS = 24
/** Lines may stray by this share of the window's width. */
const THINNING = 8e-4
/** Tenths of the voltage. */
const STEPS = 10

/**
 * Lines of equal potential in the mode that the signal travels in: a single trace at one volt, the traces of
 * a pair at one volt and minus one.
 *
 * Throws SolverError when the equations are singular to working precision.
 */
export function fieldPicture(section: CrossSection, relative: RelativePermittivity): FieldPicture {
  const problem = sectionProblem(section, relative)
  const parity = section.arrangement === 'edge pair' ? 'odd' : 'even'
  const solution = solveProblem(assemble(problem, meshProblem(problem, REFINEMENT)), parity, false)
  const voltages = section.arrangement === 'broadside pair' ? [1, -1] : [1]
  const potential = potentialOf(problem, parity, solution, voltages)
  const window = pictureWindow(section)
  const half = sampled(potential, problem, window)
  const grid = mirrored(half, parity === 'odd' ? -1 : 1)
  const tolerance = THINNING * 2 * window.halfWidth
  const tenths = Array.from({ length: STEPS - 1 }, (_, index) => (index + 1) / STEPS)
  const opposite = section.arrangement === 'single' ? [] : tenths.map((level) => 0 - level)
  return {
    window,
    lines: [
      ...equipotentials(grid, [...tenths, ...opposite], tolerance),
      ...zeroLine(section, grid, window, tolerance),
    ],
    copper: copperOf(problem.walls),
    surface: surfaceOf(problem.walls, window.halfWidth),
    unknowns: solution.unknowns,
  }
}

/** The right half. Lines of the grid run through every corner, so that kinks at faces and interfaces are kept. */
function sampled(potential: Potential, { walls }: FieldProblem, window: PictureWindow): FieldGrid {
  const { halfWidth, bottom, top } = window
  const corners = walls.flatMap((wall) => [wall.from, wall.to])
  const cell = halfWidth / CELLS
  const xs = gridLines(
    corners.map((corner) => corner.x),
    [0, halfWidth],
    cell,
  )
  const ys = gridLines(
    corners.map((corner) => corner.y),
    [bottom, top],
    Math.min(cell, (top - bottom) / FEWEST_ROWS),
  )
  return { xs, ys, values: ys.flatMap((y) => xs.map((x) => potential(x, y))) }
}

function gridLines(wanted: readonly Metres[], [from, to]: readonly [Metres, Metres], cell: Metres): Metres[] {
  const inside = wanted
    .filter((line) => line > from + cell / 4 && line < to - cell / 4)
    .sort((first, second) => first - second)
  const lines = [from]
  for (const line of [...inside, to]) {
    const before = lines.at(-1) ?? from
    if (line - before < cell / 4) continue
    const parts = Math.ceil((line - before) / cell - 1e-9)
    for (let part = 1; part <= parts; part += 1) lines.push(before + ((line - before) * part) / parts)
  }
  return lines
}

function mirrored({ xs, ys, values }: FieldGrid, sign: 1 | -1): FieldGrid {
  const rows = ys.map((_, row) => values.slice(row * xs.length, (row + 1) * xs.length))
  const turned = xs
    .slice(1)
    .reverse()
    .map((x) => 0 - x)
  return {
    xs: [...turned, ...xs],
    ys,
    values: rows.flatMap((row) => [
      ...row
        .slice(1)
        .reverse()
        .map((value) => sign * value),
      ...row,
    ]),
  }
}

/** Between the traces of a pair: the axis where they stand side by side. */
function zeroLine(
  { arrangement }: CrossSection,
  grid: FieldGrid,
  window: PictureWindow,
  tolerance: Metres,
): Equipotential[] {
  if (arrangement === 'single') return []
  if (arrangement === 'edge pair') {
    const ends = [grid.ys[0] ?? 0, grid.ys.at(-1) ?? 0]
    return [{ level: 0, points: ends.map((y) => ({ x: 0, y })) }]
  }
  // What does not cross the axis is where the field has died away.
  return equipotentials(withoutPlanes(grid, window), [0], tolerance).filter(
    ({ points }) => points.some(({ x }) => x < 0) && points.some(({ x }) => x > 0),
  )
}

/** Planes have no volts either: left out, the line of no volts between the traces of a pair is the only one. */
function withoutPlanes({ xs, ys, values }: FieldGrid, { endsAtPlane }: PictureWindow): FieldGrid {
  const from = endsAtPlane.below ? 1 : 0
  const to = endsAtPlane.above ? ys.length - 1 : ys.length
  return { xs, ys: ys.slice(from, to), values: values.slice(from * xs.length, to * xs.length) }
}

/**
 * Faces of one conductor follow each other round it; of one on the axis they run from axis to axis, and of one
 * that runs out of the picture they leave out the end there.
 */
function copperOf(walls: readonly Wall[]): Copper[] {
  const faces = walls.filter((wall) => wall.conductor !== null)
  const outlines: { role: Copper['role']; corners: Point[] }[] = []
  let before: Wall | null = null
  for (const face of faces) {
    const { from, to, conductor } = face
    if (before?.conductor !== conductor || before.to.x !== from.x) {
      outlines.push({ role: conductor === GROUNDED ? 'ground' : 'trace', corners: [from] })
    } else if (before.to.y !== from.y) outlines.at(-1)?.corners.push(from)
    outlines.at(-1)?.corners.push(to)
    before = face
  }
  return outlines.flatMap(({ role, corners }) => {
    const opposite = corners.map(({ x, y }) => ({ x: 0 - x, y })).reverse()
    const [first, last] = [corners[0], corners.at(-1)]
    if (first?.x === 0 && last?.x === 0) return [{ role, corners: [...corners, ...opposite.slice(1, -1)] }]
    return [
      { role, corners },
      { role, corners: opposite },
    ]
  })
}

/** Interfaces to the air, as far as they form one line from the axis to the edge of the window. */
function surfaceOf(walls: readonly Wall[], halfWidth: Metres): Point[] | null {
  const open = walls.filter((wall) => wall.conductor === null && wall.left === 1)
  const right = open.flatMap((wall, index) => (index === 0 ? [wall.from, wall.to] : [wall.to]))
  const inside: Point[] = []
  for (const point of right) {
    const before = inside.at(-1)
    if (point.x <= halfWidth || before === undefined) {
      inside.push(point)
      continue
    }
    const share = (halfWidth - before.x) / (point.x - before.x)
    inside.push({ x: halfWidth, y: before.y + share * (point.y - before.y) })
    break
  }
  if (inside.length < 2) return null
  return [...inside.map(({ x, y }) => ({ x: 0 - x, y })).reverse(), ...inside]
}
