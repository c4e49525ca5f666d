/**
 * Whether a name fits a pattern in which * stands for any run of characters and ? for one. Upper and
 * lower case count as equal when `anyCase` is set. Takes time of at most pattern times name: a failed
 * run is only ever widened at the last *.
 */
export function fitsPattern(name: string, pattern: string, anyCase = false): boolean {
  const [text, wanted] = anyCase ? [name.toUpperCase(), pattern.toUpperCase()] : [name, pattern]
  let [at, next, star, mark] = [0, 0, -1, 0]
  while (at < text.length) {
    if (wanted[next] === '*') {
      star = next
      mark = at
      next += 1
    } else if (next < wanted.length && (wanted[next] === '?' || wanted[next] === text[at])) {
      at += 1
      next += 1
    } else if (star >= 0) {
      mark += 1
      at = mark
      next = star + 1
    } else {
      return false
    }
  }
  while (wanted[next] === '*') next += 1
  return next === wanted.length
}
