/**
 * A large board for timing: 2,500 balls, 1,500 nets, 26 classes, twelve layers. Invented, and the
 * same for the same seed.
 */
export interface LargeBoard {
  readonly file: string
  readonly text: string
  companion(name: string): Uint8Array | null
}

const SIDE = 50
const SIGNALS = 1500
const ROW_LETTERS = 'ABCDEFGHJKLMNPRTUVWY'
const MAP_FILE = 'large-board.csv'

const SINGLE_CLASSES = 18
const PAIR_CLASSES = 8

/** Mulberry32: 32-bit state, enough for test data. */
function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (state + 0x6d2b79f5) >>> 0
    let mixed = Math.imul(state ^ (state >>> 15), state | 1)
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61)
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** JEDEC row name: twenty letters, counted like digits without a zero. */
function rowName(row: number): string {
  const last = ROW_LETTERS.charAt(row % ROW_LETTERS.length)
  return row < ROW_LETTERS.length ? last : rowName(Math.floor(row / ROW_LETTERS.length) - 1) + last
}

interface Place {
  readonly row: number
  readonly column: number
  readonly ring: number
}

function placeNumber({ row, column }: Place): number {
  return row * SIDE + column
}

function ringOf(row: number, column: number): number {
  return 1 + Math.min(row, column, SIDE - 1 - row, SIDE - 1 - column)
}

/** Places in the order in which they become signals: outer rings first, one in seven kept for supplies. */
function signalPlaces(random: () => number): Place[] {
  const places = Array.from({ length: SIDE * SIDE }, (_, index): Place => {
    const row = Math.floor(index / SIDE)
    const column = index % SIDE
    return { row, column, ring: ringOf(row, column) }
  })
  return places
    .toSorted((a, b) => a.ring - b.ring)
    .filter(() => random() > 1 / 7)
    .slice(0, SIGNALS)
    .toSorted((a, b) => placeNumber(a) - placeNumber(b))
}

const twoDigits = (value: number): string => String(value).padStart(2, '0')

/** Neighbours along a row make pairs; what is left over is single. */
function netNames(places: readonly Place[]): string[] {
  const names: string[] = []
  for (let index = 0; index < places.length; index += 1) {
    const place = places[index]
    const next = places[index + 1]
    const neighbours = place?.row === next?.row && (place?.column ?? 0) + 1 === next?.column
    const block = Math.floor(index / 60)
    if (neighbours && block % 3 === 0) {
      const stem = `PAIR${twoDigits(block % PAIR_CLASSES)}_LANE${index}`
      names.push(`${stem}_P`, `${stem}_N`)
      index += 1
    } else {
      names.push(`BUS${twoDigits(block % SINGLE_CLASSES)}_BIT${index}`)
    }
  }
  return names
}

function ballMap(seed: number): string {
  const random = seeded(seed)
  const places = signalPlaces(random)
  const names = netNames(places)
  const netAt = new Map(places.map((place, index) => [placeNumber(place), names[index] ?? '']))
  const lines = Array.from({ length: SIDE * SIDE }, (_, index) => {
    const ball = `${rowName(Math.floor(index / SIDE))}${(index % SIDE) + 1}`
    return `${ball},${netAt.get(index) ?? (random() < 0.6 ? 'GND' : 'VDD_CORE')}`
  })
  return ['ball,net', ...lines, ''].join('\n')
}

function layers(): string {
  const copper = (name: string, role: string): string =>
    `    - {copper: ${name}, role: ${role}, foil: 0.5 oz}`
  const sheet = (kind: string, name: string, thickness: number): string =>
    `    - {${kind}: ${name}, thickness: ${thickness} um, permittivity: 3.7, loss_tangent: 0.008, at: 1 GHz}`
  const roles = ['signal', 'plane', 'signal', 'plane', 'signal', 'plane']
  const thickness = [65, 100, 110, 120, 130, 210, 130, 120, 110, 100, 65]
  const lines = ['    - {mask: top mask}']
  for (let layer = 1; layer <= 12; layer += 1) {
    const role = roles[layer <= 6 ? layer - 1 : 12 - layer] ?? 'signal'
    lines.push(copper(`L${layer}`, role === 'plane' ? 'plane, net: GND' : role))
    const depth = thickness[layer - 1]
    if (depth !== undefined)
      lines.push(sheet(layer % 2 === 0 ? 'core' : 'prepreg', `dielectric ${layer}`, depth))
  }
  return [...lines, '    - {mask: bottom mask}'].join('\n')
}

function classes(): string {
  const single = Array.from(
    { length: SINGLE_CLASSES },
    (_, index) => `  - name: bus ${index}
    structure: single
    target: ${40 + index} ohm
    tolerance: 10 %
    edge: ${80 + 20 * index} ps
    neck: {width: ${75 + index / 4} um}
    main: {width: ${95 + 3 * index} um, length: ${30 + index} mm}`,
  )
  const pair = Array.from(
    { length: PAIR_CLASSES },
    (_, index) => `  - name: lane ${index}
    structure: pair
    target: ${84 + 2 * index} ohm
    tolerance: 10 %
    edge: ${40 + 10 * index} ps
    data_rate: {rate: ${8 - index / 2} Gb/s}
    neck: {width: ${75 + index / 4} um, gap: ${75 + 5 * index} um}
    main: {width: ${90 + 5 * index} um, gap: ${120 + 5 * index} um, length: ${40 + index} mm}
    pair_skew_limit: 2 ps`,
  )
  return [...single, ...pair].join('\n')
}

function netRules(): string {
  const rule = (stem: string, name: string) => (_: unknown, index: number) =>
    `  - {match: "${stem}${twoDigits(index)}_*", class: ${name} ${index}, group: ${name} ${index}}`
  return [
    ...Array.from({ length: SINGLE_CLASSES }, rule('BUS', 'bus')),
    ...Array.from({ length: PAIR_CLASSES }, rule('PAIR', 'lane')),
  ].join('\n')
}

/** The description and its ball map, ready for `readBoard`. */
export function largeBoard(seed = 1): LargeBoard {
  const text = `title: Large board for timing
stackup:
  layers:
${layers()}
vias:
  - {name: through via, kind: through, drilled: 0.2 mm, pad: 0.4 mm, antipad: 0.6 mm, unconnected_inner_pads: removed}
fabrication:
  class: advanced
  trace_width: 75 um
  trace_gap: 75 um
  trace_to_pad: 75 um
packages:
  - name: U1
    side: top
    at: [60 mm, 60 mm]
    grid: {rows: ${SIDE}, columns: ${SIDE}, pitch: 0.8 mm}
    ball_diameter: 0.45 mm
    land: 0.4 mm
    mask_opening: 0.5 mm
    via: through via
    via_placement: dog-bone
    ball_map: ${MAP_FILE}
    power: ["VDD*"]
    ground: [GND]
classes:
${classes()}
nets:
${netRules()}
`
  const map = new TextEncoder().encode(ballMap(seed))
  return { file: 'large-board.yaml', text, companion: (name) => (name === MAP_FILE ? map : null) }
}
