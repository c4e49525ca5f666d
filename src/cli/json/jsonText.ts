/** JSON text of plain data, indented. Throws RangeError for NaN or infinity, which JSON would turn into null. */
export function jsonText(data: unknown): string {
  return `${JSON.stringify(data, finite, 2)}\n`
}

/** The same on one line. */
export function jsonLine(data: unknown): string {
  return `${JSON.stringify(data, finite)}\n`
}

function finite(key: string, value: unknown): unknown {
  if (typeof value === 'number' && !Number.isFinite(value)) {
    throw new RangeError(`JSON output needs finite numbers, got ${key} = ${value}`)
  }
  return value
}
