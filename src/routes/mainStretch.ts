import type { NeckStretch, Route } from './route.ts'

/** The stretch that speaks for a neck: where a pair runs side by side, or else the longest; undefined without any. */
export function mainStretch({ stretches }: Pick<Route, 'stretches'>): NeckStretch | undefined {
  return (
    stretches.find(({ coupled }) => coupled) ??
    stretches.reduce<NeckStretch | undefined>(
      (longest, each) => (longest === undefined || each.length > longest.length ? each : longest),
      undefined,
    )
  )
}
