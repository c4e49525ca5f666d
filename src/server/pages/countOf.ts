import type { FindingCount } from '../../report/pages/homePage.ts'
import type { Review } from '../../review.ts'

export function countOf({ findings }: Review): FindingCount {
  const count = (wanted: string): number => findings.filter(({ severity }) => severity === wanted).length
  return { errors: count('error'), warnings: count('warning') }
}
