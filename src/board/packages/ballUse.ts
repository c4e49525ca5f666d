import { fitsPattern } from '../namePattern.ts'
import type { BallUse } from '../packages.ts'

/** Names that mean ground, supply or no connection where the description gives no patterns; common practice, no source. */
const GROUND_NAME = /^(A|D|P|MGTA?|RSVD)?(GND|VSS)|[_.](GND|VSS)\d*$/i
const POWER_NAME = /^(A|D|P|MGTA?)?(VCC|VDD|VTT|VPP|VBAT|VREF)|^[+P]?\d+V\d*(_|$)|^\+V/i
const UNUSED_NAME = /^(N\.?C\.?|N\/C|DNU|NO.?CONNECT)\d*$|^(NC|DNU)_/i

export interface UsePatterns {
  readonly power: readonly string[] | null
  readonly ground: readonly string[] | null
  /** Nets of planes of the stackup: no signals. */
  readonly planeNets: ReadonlySet<string>
}

export interface UseOf {
  readonly use: BallUse
  /** True where the description does not say so. */
  readonly assumed: boolean
}

/**
 * What a ball with a net, or at least a function, is: by the description's patterns, by common names
 * where it has none, by being on a plane, else a signal.
 */
export function useOfNamed(net: string | null, pinFunction: string | null, patterns: UsePatterns): UseOf {
  const names = [net, pinFunction].filter((name) => name !== null && name !== '')
  const listed = (list: readonly string[] | null): boolean =>
    (list ?? []).some((pattern) => names.some((name) => name !== null && fitsPattern(name, pattern)))
  const known = (rule: RegExp): boolean => names.some((name) => name !== null && rule.test(name))
  if (listed(patterns.ground)) return { use: 'ground', assumed: false }
  if (listed(patterns.power)) return { use: 'power', assumed: false }
  if (patterns.ground === null && known(GROUND_NAME)) return { use: 'ground', assumed: true }
  if (patterns.power === null && known(POWER_NAME)) return { use: 'power', assumed: true }
  if (net !== null && patterns.planeNets.has(net))
    return { use: known(GROUND_NAME) ? 'ground' : 'power', assumed: true }
  if (known(UNUSED_NAME)) return { use: 'unused', assumed: true }
  return { use: 'signal', assumed: false }
}
