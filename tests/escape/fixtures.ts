import { NO_WISHES } from '../../src/board/escapeWishes.ts'
import type { Board } from '../../src/board/board.ts'
import type { Fabrication } from '../../src/board/fabrication.ts'
import type { Net, NetClass } from '../../src/board/nets.ts'
import type { Ball, BallUse, Package } from '../../src/board/packages.ts'
import type { CopperLayer } from '../../src/board/stackup.ts'
import type { ViaType } from '../../src/board/vias.ts'
import { copper, dielectric, plane, stackup } from '../helpers/stackup.ts'

/** Boards for tests of the escape stage, built from a drawing of the ball grid. Lengths in micrometres. */
export const um = (value: number): number => value * 1e-6

export function fabrication(change: Partial<Fabrication> = {}): Fabrication {
  const both = (value: number): Fabrication['traceWidth'] => ({ outer: um(value), inner: um(value) })
  return {
    className: 'test',
    source: 'invented',
    date: '2026-01-01',
    traceWidth: both(75),
    traceGap: both(100),
    traceToPad: both(100),
    maskOpeningToTrace: um(25),
    drillToCopper: um(150),
    holeWallToHoleWall: um(200),
    annularRing: { ipcClass: 2, external: um(50), internal: um(25), source: 'invented' },
    aspectRatio: { drilled: 10, microvia: 0.8 },
    maxStackedMicrovias: 2,
    registration: um(75),
    widthTolerance: 0.2,
    widthToleranceFloor: um(10),
    impedanceTolerance: 0.1,
    minDielectric: um(50),
    maskWeb: um(80),
    drawnWidthExcess: 0,
    assumed: [],
    ...change,
  }
}

export function via(name: string, change: Partial<ViaType> = {}): ViaType {
  const made: ViaType = {
    name,
    kind: 'through',
    firstLayer: 1,
    lastLayer: 12,
    drilledDiameter: um(200),
    finishedDiameter: um(150),
    stated: 'drilled',
    padDiameters: [],
    unconnectedInnerPads: 'kept',
    antipadDiameter: um(600),
    backdrill: null,
    inPad: false,
    filled: false,
    capped: false,
    arrangement: null,
    assumed: [],
    ...change,
  }
  return made.padDiameters.length > 0
    ? made
    : { ...made, padDiameters: padsOf(made.lastLayer - made.firstLayer + 1, 450) }
}

export function padsOf(layers: number, diameterUm: number): number[] {
  return new Array<number>(layers).fill(um(diameterUm))
}

export function netClass(name: string, change: Partial<NetClass> = {}): NetClass {
  return {
    name,
    interface: null,
    structure: 'single',
    target: 50,
    tolerance: 0.1,
    edge: { riseTime: 100e-12, shape: 'gaussian', basis: 'stated' },
    dataRate: null,
    neck: { width: um(100), gap: null },
    main: { width: null, gap: null, length: null, coplanarGap: null },
    sourceImpedance: 50,
    loadImpedance: 50,
    neckAllowance: null,
    reflectionLimit: null,
    pairSkewLimit: null,
    groupSkewLimit: null,
    assumed: [],
    ...change,
  }
}

export function netOf(name: string, className = 'single', change: Partial<Net> = {}): Net {
  return {
    name,
    class: className,
    pins: [],
    partner: null,
    partnerBasis: null,
    polarity: null,
    matchGroup: null,
    packageDelay: null,
    mainLength: null,
    exitLayer: null,
    assumed: [],
    ...change,
  }
}

/** Both nets of a pair, each other's partner. */
export function pairOf(one: string, other: string, className = 'pair', change: Partial<Net> = {}): Net[] {
  return [
    netOf(one, className, { partner: other, polarity: 'positive', ...change }),
    netOf(other, className, { partner: one, polarity: 'negative', ...change }),
  ]
}

const USES: Readonly<Record<string, BallUse>> = { s: 'signal', p: 'power', g: 'ground', u: 'unused' }

/**
 * A package from one text a row: `s` a signal of its own net, `p` power, `g` ground, `u` unused, `.` no ball.
 * The ball in row 0, column 0 is `0,0`, and its net is `0,0` as well where it is a signal.
 */
export function packageOf(drawing: readonly string[], change: Partial<Package> = {}): Package {
  const rows = drawing.length
  const columns = Math.max(0, ...drawing.map((row) => row.length))
  const pitch = change.pitch ?? { x: um(800), y: um(800) }
  const balls = drawing.flatMap((text, row) =>
    Array.from(text).flatMap((letter, column): Ball[] => {
      const use = USES[letter]
      if (use === undefined) return []
      const name = `${row},${column}`
      const net = { signal: name, power: 'VDD', ground: 'GND', unused: null }[use]
      return [
        {
          name,
          row,
          column,
          x: (column - (columns - 1) / 2) * pitch.x,
          y: ((rows - 1) / 2 - row) * pitch.y,
          net,
          use,
          pinFunction: null,
          useAssumed: false,
        },
      ]
    }),
  )
  return {
    name: 'U1',
    part: null,
    placement: { origin: { x: 0, y: 0 }, side: 'top', rotationDegrees: 0 },
    rows,
    columns,
    pitch,
    viaPitch: pitch,
    balls,
    onGrid: true,
    ballDiameter: um(450),
    landDiameter: um(400),
    maskOpening: um(450),
    via: 'through',
    viaPlacement: 'dog-bone',
    escape: NO_WISHES,
    signalShare: 0.6,
    signalsAssumed: false,
    assumed: [],
    ...change,
  }
}

/** `layers` copper layers of which those numbered in `planes` are ground planes. */
export function copperStack(layers: number, planes: readonly number[] = []): Board['stackup'] {
  const drafts = Array.from({ length: layers }, (_, index) => [
    planes.includes(index + 1) ? plane(`L${index + 1}`) : copper(`L${index + 1}`),
    ...(index + 1 < layers ? [dielectric(`dielectric ${index + 1}`, 100, 3.6)] : []),
  ])
  return stackup(...drafts.flat())
}

export function copperLayer(board: Board, number: number): CopperLayer {
  const layer = board.stackup.copper[number - 1]
  if (layer === undefined) throw new RangeError(`no copper layer ${number}`)
  return layer
}

/** A board around one package: nets of class `single` for every signal ball unless nets are given. */
export function boardOf(pack: Package, change: Partial<Board> = {}): Board {
  const nets = pack.balls.flatMap(({ net, use }) => (net !== null && use === 'signal' ? [netOf(net)] : []))
  const stack = change.stackup ?? copperStack(12)
  return {
    title: 'test',
    revision: null,
    author: null,
    date: null,
    displayUnit: 'mm',
    packages: [pack],
    stackup: stack,
    vias: [via('through', { lastLayer: stack.copper.length })],
    fabrication: fabrication(),
    classes: [
      netClass('single'),
      netClass('pair', { structure: 'pair', neck: { width: um(75), gap: um(100) } }),
    ],
    nets,
    claims: [],
    analysis: {
      frequency: 1e9,
      comparisonTolerance: um(0.5),
      reflectionLimit: 0.05,
      electricalLengthLimit: 1 / 6,
      crosstalkLimit: 0.05,
      assumed: [],
    },
    assumptions: [],
    ...change,
  }
}

/** `size` rows of `size` signal balls, or of what `letterAt` says. */
export function square(
  size: number,
  letterAt: (row: number, column: number) => string = () => 's',
): string[] {
  return Array.from({ length: size }, (_, row) =>
    Array.from({ length: size }, (_unused, column) => letterAt(row, column)).join(''),
  )
}
