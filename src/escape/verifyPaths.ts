import { distanceBetweenPaths, distanceToPath } from '../routes/pathDistance.ts'
import type { Metres, Point } from '../units/quantity.ts'
import type { Ground } from './ground.ts'

export interface DrawnTrace {
  readonly ball: number
  readonly path: readonly Point[]
  readonly width: Metres
  /** To a trace of another net; the gap inside a pair may be smaller. */
  readonly traceGap: Metres
  readonly mate: { readonly ball: number; readonly gap: Metres } | null
}

/**
 * Balls whose traces, as drawn, come too near to what stands on the layer or to a trace accepted before. On a
 * regular grid the lanes rule this out; where balls lie off the grid it must be looked at.
 */
export function tooNear(ground: Ground, traces: readonly DrawnTrace[]): Set<number> {
  const refused = new Set<number>()
  const accepted: DrawnTrace[] = []
  for (const trace of traces) {
    if (hitsObstacle(ground, trace) || accepted.some((other) => hitsTrace(ground, trace, other))) {
      refused.add(trace.ball)
      if (trace.mate !== null) refused.add(trace.mate.ball)
    } else accepted.push(trace)
  }
  return refused
}

function hitsObstacle(ground: Ground, trace: DrawnTrace): boolean {
  const { sites, reach, between } = ground
  return (
    sites.some((site, ball) => ball !== trace.ball && blocks(ground, trace, site, reach[ball] ?? 0)) ||
    (between?.sites.some((site, ball) => blocks(ground, trace, site, between.reach[ball] ?? 0)) ?? false)
  )
}

function blocks(ground: Ground, trace: DrawnTrace, site: Point, reach: Metres): boolean {
  return reach > 0 && distanceToPath(site, trace.path) < reach + trace.width / 2 - ground.tolerance
}

function hitsTrace(ground: Ground, one: DrawnTrace, other: DrawnTrace): boolean {
  const gap = one.mate?.ball === other.ball ? one.mate.gap : Math.max(one.traceGap, other.traceGap)
  const needed = (one.width + other.width) / 2 + gap - ground.tolerance
  return (
    !apart(one.path, other.path, needed, ({ x }) => x) &&
    !apart(one.path, other.path, needed, ({ y }) => y) &&
    distanceBetweenPaths(one.path, other.path) < needed
  )
}

/** True where the two lie further apart than `needed` along one axis already. */
function apart(
  one: readonly Point[],
  other: readonly Point[],
  needed: Metres,
  axis: (point: Point) => Metres,
): boolean {
  const a = one.map(axis)
  const b = other.map(axis)
  return Math.max(...a) + needed < Math.min(...b) || Math.max(...b) + needed < Math.min(...a)
}
