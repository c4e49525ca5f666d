/**
 * Colours of the drawings. Each carries its own lightness, so that a grey print keeps them apart, and none
 * carries meaning alone: a pattern or a label always says the same.
 */
export const INK = {
  paper: '#ffffff',
  text: '#1d2226',
  quiet: '#545c63',
  rule: '#8b949b',
  faint: '#d5dade',
  shade: '#eef0f2',
  deepShade: '#dde1e5',
  accent: '#0b5c7a',
  accentTint: '#d3e6ee',
  metal: '#b5763f',
  metalTint: '#efdcc8',
  warn: '#8f3f00',
} as const

/** Sizes of type in a drawing, in user units (CSS pixels at natural size). */
export const TYPE = { small: 10, normal: 12, strong: 13 } as const

/** Typeface of a drawing that stands alone; inside a page it is the page's own family. */
export const FAMILY = "system-ui, 'Liberation Sans', 'Helvetica Neue', Arial, sans-serif"
