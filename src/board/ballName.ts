/** Row letters of ball designators: I, O, Q, S, X and Z are left out (JEDEC Publication 95, from memory). */
const LETTERS = 'ABCDEFGHJKLMNPRTUVWY'
const BASE = LETTERS.length

export interface GridPlace {
  /** Zero-based: row A is 0, column 1 is 0. */
  readonly row: number
  readonly column: number
}

/**
 * `AA14` for row 20, column 13. Rows count A … Y, then AA, AB … AY, BA …: digits of base 20 without
 * a zero. Throws RangeError unless both are whole numbers from 0.
 */
export function ballName({ row, column }: GridPlace): string {
  if (!Number.isInteger(column) || !(column >= 0)) {
    throw new RangeError(`column must be a whole number from 0, got ${column}`)
  }
  return `${rowLetters(row)}${column + 1}`
}

/** Letters of a zero-based row. Throws RangeError unless it is a whole number from 0. */
function rowLetters(row: number): string {
  if (!Number.isInteger(row) || !(row >= 0))
    throw new RangeError(`row must be a whole number from 0, got ${row}`)
  const last = LETTERS[row % BASE] ?? ''
  return row < BASE ? last : rowLetters(Math.floor(row / BASE) - 1) + last
}

/** Place of a designator in the grid; null where it is none, such as I3, A0 or A01. Lower case is read as upper. */
export function parseBallName(name: string): GridPlace | null {
  const match = /^([A-Z]{1,3})([1-9]\d{0,3})$/.exec(name.trim().toUpperCase())
  if (match === null) return null
  const [, letters = '', digits = ''] = match
  const values = Array.from(letters, (letter) => LETTERS.indexOf(letter) + 1)
  if (values.includes(0)) return null
  return { row: values.reduce((sum, value) => sum * BASE + value, 0) - 1, column: Number(digits) - 1 }
}

/** What a designator looks like, for messages. */
export const BALL_NAME_RULE = 'a row letter without I, O, Q, S, X, Z and a column from 1, such as A1 or AA14'
