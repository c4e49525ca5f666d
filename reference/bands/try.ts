/**
 * Tries the bands of the closed forms on fresh sections of the fine-line regime and lists every outlier:
 *
 *     node --import tsx reference/bands/try.ts 2000 7
 *
 * The arguments are how many sections and the seed.
 */
import { missesOf } from './measure.ts'
import { FINE, KINDS, randomLines } from './sections.ts'

const [count, seed] = [Number(process.argv[2] ?? 2000), Number(process.argv[3] ?? 1)]
const each = Math.ceil(count / KINDS.length)
let tried = 0
let answers = 0
let outliers = 0
let unsolved = 0
let fullest = 0
for (const kind of KINDS) {
  for (const section of randomLines(kind, FINE, each, seed)) {
    const found = missesOf(section)
    tried += 1
    if (found === null) unsolved += 1
    for (const { estimate, error } of found?.misses ?? []) {
      answers += 1
      const share = error / (estimate.claimedError + (found?.band ?? 0))
      fullest = Math.max(fullest, share)
      if (share <= 1) continue
      outliers += 1
      console.log(
        `${estimate.method.id}: off by ${error}, claims ${estimate.claimedError}`,
        JSON.stringify(section),
      )
    }
  }
}
console.log(
  `${tried} sections, ${answers} answers of closed forms, ${outliers} outside their band, ${unsolved} without field solution; the fullest band was used to ${(100 * fullest).toFixed(0)} %`,
)
