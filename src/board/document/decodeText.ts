/** Text of a file, or why it is none. */
export type Decoding =
  | { readonly ok: true; readonly text: string }
  | {
      readonly ok: false
      /** One-based; null where the whole file is meant. */
      readonly line: number | null
      readonly found: string
      readonly allowed: string
    }

const MEGABYTE = 1_000_000

/**
 * Reads bytes as UTF-8, with or without a byte order mark. Other encodings are named where their
 * first bytes give them away, and refused: a guess would turn µ and Ω into other letters. Too large
 * a file is refused before anything of it is read.
 */
export function decodeText(source: string | Uint8Array, maxBytes: number): Decoding {
  if (source.length >= maxBytes) {
    return {
      ok: false,
      line: null,
      found: `a file of ${(source.length / MEGABYTE).toFixed(1)} MB`,
      allowed: `less than ${maxBytes / MEGABYTE} MB`,
    }
  }
  if (typeof source === 'string') return fromText(source)
  const other = otherEncoding(source)
  if (other !== null) return refuse(other)
  try {
    return fromText(new TextDecoder('utf-8', { fatal: true }).decode(source))
  } catch {
    const bad = firstBadByte(source)
    const line = source.subarray(0, bad).reduce((count, byte) => count + (byte === NEWLINE ? 1 : 0), 1)
    return refuse(`text in another encoding than UTF-8 (byte ${bad}), such as Latin-1 or Windows-1252`, line)
  }
}

function fromText(text: string): Decoding {
  const plain = text.startsWith('\uFEFF') ? text.slice(1) : text
  const nul = plain.indexOf('\u0000')
  return nul < 0
    ? { ok: true, text: plain }
    : refuse(`a zero character at position ${nul}, as in a binary file`)
}

const NEWLINE = 0x0a

function refuse(found: string, line: number | null = null): Decoding {
  return { ok: false, line, found, allowed: 'text in UTF-8; save the file again in that encoding' }
}

/** UTF-32 is tried before UTF-16: its little-endian mark begins with the other's. */
const MARKS: readonly (readonly [name: string, bytes: readonly number[]])[] = [
  ['text in UTF-32', [0xff, 0xfe, 0, 0]],
  ['text in UTF-32', [0, 0, 0xfe, 0xff]],
  ['text in UTF-16', [0xff, 0xfe]],
  ['text in UTF-16', [0xfe, 0xff]],
  ['a zip archive or spreadsheet', [0x50, 0x4b, 3, 4]],
  ['compressed data (gzip)', [0x1f, 0x8b]],
]

function otherEncoding(bytes: Uint8Array): string | null {
  const marked = MARKS.find(([, mark]) => mark.every((byte, index) => bytes[index] === byte))
  if (marked !== undefined) return marked[0]
  const head = bytes.subarray(0, 1000)
  const zeros = head.reduce((count, byte) => count + (byte === 0 ? 1 : 0), 0)
  return zeros > head.length / 4 ? 'text in UTF-16' : null
}

/**
 * One-based. Halving finds where decoding as a stream first fails; the character that fails there may
 * have begun up to three bytes earlier.
 */
function firstBadByte(bytes: Uint8Array): number {
  let [good, bad] = [0, bytes.length]
  while (bad - good > 1) {
    const middle = Math.floor((good + bad) / 2)
    if (decodes(bytes.subarray(0, middle), true)) good = middle
    else bad = middle
  }
  const whole = [bad - 1, bad - 2, bad - 3, bad - 4].find(
    (end) => end <= 0 || decodes(bytes.subarray(0, end), false),
  )
  return Math.max(0, whole ?? 0) + 1
}

function decodes(prefix: Uint8Array, stream: boolean): boolean {
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(prefix, { stream })
    return true
  } catch {
    return false
  }
}
