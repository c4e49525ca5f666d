/** Widest line that an object or array is printed on as a whole. */
const LINE = 160

/**
 * JSON text of plain data for programs and people: what fits on a line stands on one, so that a point takes one
 * line and not four. Throws RangeError for NaN or infinity, which JSON would turn into null.
 */
export function jsonText(data: unknown): string {
  return `${laidOut(JSON.parse(JSON.stringify(data, finite)), '')}\n`
}

/** The same with every value on its own line, as schemas are published. */
export function indentedJson(data: unknown): string {
  return `${JSON.stringify(data, finite, 2)}\n`
}

/** The same on one line. */
export function jsonLine(data: unknown): string {
  return `${JSON.stringify(data, finite)}\n`
}

function laidOut(value: unknown, indent: string): string {
  const line = JSON.stringify(value)
  if (typeof value !== 'object' || value === null || indent.length + line.length <= LINE) return line
  const inner = `${indent}  `
  const parts = Array.isArray(value)
    ? value.map((part) => laidOut(part, inner))
    : Object.entries(value).map(([key, part]) => `${JSON.stringify(key)}: ${laidOut(part, inner)}`)
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{', '}']
  return `${open}\n${parts.map((part) => inner + part).join(',\n')}\n${indent}${close}`
}

function finite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`JSON output needs finite numbers, got ${key} = ${value}`)
  }
  return value
}
