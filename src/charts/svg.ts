/** Attributes of an SVG element. Numbers are written with two decimals at most. */
export type Attributes = Readonly<Record<string, string | number>>

/** Text made safe between tags and inside quoted attributes. */
export function escapeText(text: string): string {
  return text
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')
    .replaceAll("'", '&#39;')
}

/**
 * A coordinate as text with two decimals at most: finer than any screen or printer shows, and short.
 *
 * Throws RangeError for NaN and Infinity, which SVG would drop in silence.
 */
export function coordinate(value: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`a coordinate must be finite, got ${value}`)
  const rounded = Math.round(value * 100) / 100
  return String(Object.is(rounded, -0) ? 0 : rounded)
}

/**
 * One SVG element as text. Children are markup and go in as they are; text goes through `escapeText` first.
 *
 * Throws RangeError for a `style` attribute: the pages that carry figures forbid inline style.
 */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  if ('style' in attributes)
    throw new RangeError(`<${name}> asks for a style attribute; use presentation attributes`)
  const written = Object.entries(attributes)
    .map(([key, value]) => ` ${key}="${typeof value === 'number' ? coordinate(value) : escapeText(value)}"`)
    .join('')
  return children.length === 0 ? `<${name}${written}/>` : `<${name}${written}>${children.join('')}</${name}>`
}
