/** One thing wrong with a description. All of them are reported at once. */
export interface Issue {
  readonly severity: 'error' | 'warning'
  /** File name as the user gave it. */
  readonly file: string
  /** Place in the description, e.g. `stackup.layers[3].thickness`; empty for the whole file. */
  readonly path: string
  /** One-based; null where the place has no line. */
  readonly line: number | null
  readonly column: number | null
  /** What was found. */
  readonly found: string
  /** What is allowed. */
  readonly allowed: string
  /** One sentence, complete on its own. */
  readonly message: string
}
