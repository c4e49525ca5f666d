import type { Finding } from '../findings/finding.ts'

/** Severity from which a review counts as failed. */
export type FailOn = Finding['severity'] | 'never'

/** Gravest first. */
export const SEVERITIES: readonly Finding['severity'][] = ['error', 'warning', 'note']

/** True where a finding is at least as grave as asked. */
export function fails(findings: readonly Pick<Finding, 'severity'>[], failOn: FailOn): boolean {
  if (failOn === 'never') return false
  const grave = SEVERITIES.slice(0, SEVERITIES.indexOf(failOn) + 1)
  return findings.some(({ severity }) => grave.includes(severity))
}
