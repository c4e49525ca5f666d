/** Keys and zero-based indices from the top of a description down to one place. */
export type Path = readonly (string | number)[]

/** `stackup.layers[3].thickness`; keys that are no plain words are quoted: `nets["A 1"]`. */
export function formatPath(path: Path): string {
  return path.reduce<string>((text, step) => {
    if (typeof step === 'number') return `${text}[${step}]`
    if (!/^[\w-]+$/.test(step)) return `${text}[${JSON.stringify(step)}]`
    return text === '' ? step : `${text}.${step}`
  }, '')
}
