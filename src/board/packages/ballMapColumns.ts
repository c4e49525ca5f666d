/** Which column of a ball map holds what; null where it has none. */
export interface Columns {
  readonly ball: number
  readonly net: number | null
  readonly pinFunction: number | null
  readonly bank: number | null
  readonly x: number | null
  readonly y: number | null
  /** Of bare numbers in x and y: as the heading says, else mm. */
  readonly lengthUnit: string
}

/** Headings without case, blanks and marks. The earlier alias wins where two columns fit. */
const ALIASES = {
  ball: [
    'ball',
    'ballname',
    'ballnumber',
    'ballno',
    'pin',
    'pinnumber',
    'pinno',
    'position',
    'number',
    'location',
  ],
  net: ['net', 'netname', 'signal', 'signalname'],
  pinFunction: ['pinfunction', 'function', 'pinname', 'name', 'description'],
  bank: ['bank', 'iobank'],
  x: ['x', 'xcoord', 'xcoordinate', 'xposition'],
  y: ['y', 'ycoord', 'ycoordinate', 'yposition'],
} as const

const UNIT = /[([_\s](mm|mil|um|in)[)\]]?$/i

/** The columns of a row of headings; null where the row is none. */
export function findColumns(cells: readonly string[]): Columns | null {
  const plain = cells.map((cell) => {
    const bare = cell.trim().replace(UNIT, '')
    return bare.toLowerCase().replace(/[^a-z]/g, '')
  })
  const column = (names: readonly string[]): number | null =>
    names.map((name) => plain.indexOf(name)).find((index) => index >= 0) ?? null
  const ball = column(ALIASES.ball)
  const net = column(ALIASES.net)
  const pinFunction = column(ALIASES.pinFunction)
  const [x, y] = [column(ALIASES.x), column(ALIASES.y)]
  if (ball === null || (net === null && pinFunction === null)) return null
  const unit = UNIT.exec((cells[x ?? -1] ?? '').trim())?.[1]?.toLowerCase()
  return { ball, net, pinFunction, bank: column(ALIASES.bank), x, y, lengthUnit: unit ?? 'mm' }
}
