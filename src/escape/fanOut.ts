import { spreadApart } from '../numerics/spreadApart.ts'
import type { Metres } from '../units/quantity.ts'

/** The end of a neck on one side of a package. */
export interface Exit {
  /** Along the side. */
  readonly place: Metres
  /** To the next exit along the side, centre line to centre line: what necks must keep, and what main routes must. */
  readonly necksApart: Metres
  readonly mainsApart: Metres
}

/** How a neck runs on until its main route has room: straight, then at 45° to one side, then straight again. */
export interface RunOn {
  readonly straight: Metres
  /** Along the side; negative against it. */
  readonly sideways: Metres
  /** From the end of the neck to where it widens, away from the package. */
  readonly outwards: Metres
}

/**
 * Makes room for main routes beside each other outside one side of a package. Exits come in their order along the side;
 * none moves farther than the least squares of all moves ask. Of neighbours that move the same way the one in front
 * goes first, and the next follows as soon as their slanted pieces keep apart. Neighbours that make room for each other
 * widen together, when the last of them is in its place.
 */
export function fanOut(exits: readonly Exit[]): RunOn[] {
  const places = exits.map(({ place }) => place)
  const found = spreadApart(
    places,
    exits.slice(0, -1).map(({ mainsApart }) => mainsApart),
  )
  const sideways = found.map((place, index) => {
    const move = place - (places[index] ?? place)
    return Math.abs(move) < LEAST_MOVE ? 0 : move
  })
  const straight = waits(exits, sideways)
  const runs = exits.map((_, index) => ({ straight: straight[index] ?? 0, sideways: sideways[index] ?? 0 }))
  return together(exits, found).flatMap(([first, end]): RunOn[] => {
    const group = runs.slice(first, end)
    if (group.every((run) => run.sideways === 0)) return group.map((run) => ({ ...run, outwards: 0 }))
    const last = group.reduce((most, run) => Math.max(most, run.straight + Math.abs(run.sideways)), 0)
    // So far from the last slanted piece that no main route begins beside it.
    const clear = exits.slice(first, end).reduce((most, { mainsApart }) => Math.max(most, mainsApart), 0)
    return group.map((run) => ({ ...run, outwards: last + clear }))
  })
}

/** How far each goes straight, so that it keeps from the one in front of it on the slant. */
function waits(exits: readonly Exit[], sideways: readonly Metres[]): Metres[] {
  const straight = exits.map((): Metres => 0)
  const wait = (own: number, front: number, direction: 1 | -1): void => {
    const [here, ahead] = [exits[own], exits[front]]
    const moves = [own, front].every((index) => direction * (sideways[index] ?? 0) > 0)
    if (here === undefined || ahead === undefined || !moves) return
    const spacing = Math.abs(ahead.place - here.place)
    const { necksApart } = own < front ? here : ahead
    straight[own] = Math.max(0, (straight[front] ?? 0) + Math.SQRT2 * necksApart - spacing)
  }
  for (let own = exits.length - 2; own >= 0; own -= 1) wait(own, own + 1, 1)
  for (let own = 1; own < exits.length; own += 1) wait(own, own - 1, -1)
  return straight
}

/** Runs of exits that are now as near to each other as they may be: the first of each, and the first behind it. */
function together(exits: readonly Exit[], found: readonly Metres[]): [number, number][] {
  const groups: [number, number][] = []
  for (const [index, place] of found.entries()) {
    const group = groups.at(-1)
    const before = index - 1
    const room = place - (found[before] ?? -Infinity) - (exits[before]?.mainsApart ?? 0)
    if (group !== undefined && room < LEAST_MOVE) group[1] = index + 1
    else groups.push([index, index + 1])
  }
  return groups
}

/** Less is left over by rounding. */
const LEAST_MOVE: Metres = 1e-9
