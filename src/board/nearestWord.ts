/**
 * The word of a list that somebody most likely meant: fewest letters changed, left out, added or
 * swapped, at most a third of the word's length; upper and lower case count as equal. Null where
 * none is near.
 */
export function nearestWord(word: string, words: Iterable<string>): string | null {
  const wanted = word.toLowerCase()
  let best: string | null = null
  let fewest = Math.max(1, Math.floor(word.length / 3)) + 1
  for (const candidate of words) {
    if (Math.abs(candidate.length - word.length) >= fewest) continue
    const distance = editDistance(wanted, candidate.toLowerCase())
    if (distance < fewest) [best, fewest] = [candidate, distance]
  }
  return best
}

/** `; did you mean "prepreg"?`, or nothing. */
export function suggestion(word: string, words: Iterable<string>): string {
  const near = nearestWord(word, words)
  return near === null ? '' : `; did you mean "${near}"?`
}

/** Optimal string alignment: Levenshtein's distance with swaps of neighbours. */
function editDistance(a: string, b: string): number {
  const at = (row: readonly number[], column: number): number => row[column] ?? Infinity
  let before: readonly number[] = []
  let above: readonly number[] = Array.from({ length: b.length + 1 }, (_, column) => column)
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i]
    for (let j = 1; j <= b.length; j += 1) {
      const change = at(above, j - 1) + (a[i - 1] === b[j - 1] ? 0 : 1)
      const swapped = a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      const swap = swapped ? at(before, j - 2) + 1 : Infinity
      row.push(Math.min(change, swap, at(above, j) + 1, at(row, j - 1) + 1))
    }
    before = above
    above = row
  }
  return at(above, b.length)
}
