/**
 * Whether a name fits a pattern in which * stands for any run of characters and ? for one. Takes time of at
 * most pattern times name: a failed run is only ever widened at the last *.
 */
export function fitsPattern(name: string, pattern: string): boolean {
  let [at, next, star, mark] = [0, 0, -1, 0]
  while (at < name.length) {
    if (pattern[next] === '*') {
      star = next
      mark = at
      next += 1
    } else if (next < pattern.length && (pattern[next] === '?' || pattern[next] === name[at])) {
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
  while (pattern[next] === '*') next += 1
  return next === pattern.length
}
