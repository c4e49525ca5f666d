import type { Surroundings } from '../../section/surroundings.ts'
import type { Metres, Ratio } from '../../units/quantity.ts'
import { gaussLegendre } from './gaussLegendre.ts'

/** A cut across the channel beside the vias: what is left of every round shape there. Zero where the cut misses it. */
export interface Station {
  /** Share of the via pitch that the cut stands for. */
  readonly share: Ratio
  readonly antipadBelow: Metres
  readonly antipadAbove: Metres
  readonly barrel: Metres
  readonly pad: Metres
}

/** Cuts where the number of round shapes stays the same. A chord ends like a square root, which a sine straightens. */
const CUTS = 2
const CUTS_OF_ONE_STRETCH = 3

/**
 * Cuts along one via pitch, from the vias' middle to halfway between them and so, by symmetry, for all of it.
 * Between the ends of the round shapes Gauss points of the angle that the outermost shape is seen under; the
 * solid remainder, where no shape reaches, is one cut without a chord.
 *
 * Antipads, pads and barrels that reach beyond half the pitch run into those of the next via.
 */
export function viaStations(surroundings: Surroundings): Station[] {
  const { viaPitch, planeBelow, planeAbove, grounded } = surroundings
  const radii = {
    antipadBelow: (planeBelow.antipad ?? 0) / 2,
    antipadAbove: (planeAbove?.antipad ?? 0) / 2,
    barrel: grounded ? (surroundings.barrel ?? 0) / 2 : 0,
    pad: grounded ? (surroundings.pad ?? 0) / 2 : 0,
  }
  const half = viaPitch / 2
  const ends = [...new Set(Object.values(radii).map((radius) => Math.min(radius, half)))]
    .filter((end) => end > 0)
    .sort((first, second) => first - second)
  const count = ends.length > 1 ? CUTS : CUTS_OF_ONE_STRETCH
  const cuts = ends.flatMap((end, index) => {
    const widest = Math.max(...Object.values(radii).filter((radius) => Math.min(radius, half) === end))
    return places(ends[index - 1] ?? 0, end, widest, count)
  })
  const reached = ends.at(-1) ?? 0
  return [
    ...cuts.map(({ place, length }) => ({
      share: length / half,
      antipadBelow: chord(radii.antipadBelow, place),
      antipadAbove: chord(radii.antipadAbove, place),
      barrel: chord(radii.barrel, place),
      pad: chord(radii.pad, place),
    })),
    ...(reached < half
      ? [{ share: 1 - reached / half, antipadBelow: 0, antipadAbove: 0, barrel: 0, pad: 0 }]
      : []),
  ]
}

function chord(radius: Metres, place: Metres): Metres {
  return place < radius ? 2 * Math.sqrt(radius * radius - place * place) : 0
}

/** Gauss points of arcsin(place / radius), with the lengths along the pitch that they stand for. */
function places(
  from: Metres,
  to: Metres,
  radius: Metres,
  count: number,
): { place: Metres; length: Metres }[] {
  const [start, end] = [Math.asin(from / radius), Math.asin(to / radius)]
  const { nodes, weights } = gaussLegendre(count)
  const found = nodes.map((node, index) => {
    const angle = (start + end) / 2 + (node * (end - start)) / 2
    return {
      place: radius * Math.sin(angle),
      length: (Number(weights[index]) * radius * Math.cos(angle) * (end - start)) / 2,
    }
  })
  // The rule integrates the cosine nearly; the lengths must add up to the stretch.
  const total = found.reduce((sum, { length }) => sum + length, 0)
  return found.map(({ place, length }) => ({ place, length: (length * (to - from)) / total }))
}
