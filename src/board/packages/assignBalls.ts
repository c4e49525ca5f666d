import table from '../../../reference/materials/lands.json' with { type: 'json' }
import { formatPercent } from '../../units/format.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import type { Ball, BallUse } from '../packages.ts'
import { sourced } from '../referenceValue.ts'
import type { PackageText } from '../schema/packageSchema.ts'
import { reportEntry, type BallEntries } from './ballEntries.ts'
import type { PlacedBall, Positions } from './ballPositions.ts'
import { isInside, outsideGrid, type GridSize } from './ballSet.ts'
import { useOfNamed, type UseOf, type UsePatterns } from './ballUse.ts'
import { parseBallName } from '../ballName.ts'

const SIGNAL_SHARE = sourced(table.signal_share, 'ratio')

export interface Assignment {
  readonly balls: readonly Ball[]
  readonly signalShare: number
  readonly signalsAssumed: boolean
}

/** Gives every ball its net and its use. */
export function assignBalls(
  text: PackageText,
  positions: Positions,
  map: BallEntries,
  planeNets: ReadonlySet<string>,
  path: Path,
  notes: Notes,
): Assignment {
  checkEntries(positions, map, notes)
  const signalShare = text.signal_share ?? SIGNAL_SHARE.value
  if (!map.present && text.unlisted === undefined) {
    if (text.signal_share === undefined) {
      notes.assume(
        [...path, 'signal_share'],
        `share of the balls of ${text.name} that are signals`,
        formatPercent(signalShare, 0),
        SIGNAL_SHARE.source,
      )
    }
    return { balls: shareSignals(positions, signalShare), signalShare, signalsAssumed: true }
  }
  const patterns: UsePatterns = { power: text.power ?? null, ground: text.ground ?? null, planeNets }
  const useOf = rememberedUse(patterns)
  const named = positions.balls.map((ball) => assignNamed(ball, map, useOf))
  const rest = useOfRest(text, named, path, notes)
  const balls = positions.balls.map((ball, index): Ball => {
    return named[index] ?? { ...ball, net: null, use: rest.use, pinFunction: null, useAssumed: rest.assumed }
  })
  noteGuessedSupplies(text, named, path, notes)
  return { balls, signalShare, signalsAssumed: false }
}

/** Every entry must be a ball that is there. */
function checkEntries({ size, balls }: Positions, { entries }: BallEntries, notes: Notes): void {
  const present = new Set(balls.map(({ name }) => name))
  for (const entry of entries.values()) {
    if (present.has(entry.ball)) continue
    const place = parseBallName(entry.ball)
    const outside = place !== null && !isInside(place, size)
    reportEntry(entry, outside ? outsideGrid(entry.ball, size) : absentBall(entry.ball), notes)
  }
}

function absentBall(ball: string): { found: string; allowed: string; message: string } {
  return {
    found: `ball ${ball}`,
    allowed: 'a ball that the package has',
    message: `Ball ${ball} has a net but the package has no such ball: it is missing, or not among those listed.`,
  }
}

type UseRule = (net: string | null, pinFunction: string | null) => UseOf

/** Hundreds of balls share a supply net; each name is looked at once. */
function rememberedUse(patterns: UsePatterns): UseRule {
  const known = new Map<string, UseOf>()
  return (net, pinFunction) => {
    const key = `${net ?? ''}\n${pinFunction ?? ''}`
    const use = known.get(key) ?? useOfNamed(net, pinFunction, patterns)
    known.set(key, use)
    return use
  }
}

/** Null for a ball that the map says nothing of. */
function assignNamed(ball: PlacedBall, { entries }: BallEntries, useOf: UseRule): Ball | null {
  const { net = null, pinFunction = null } = entries.get(ball.name) ?? {}
  if (net === null && (pinFunction === null || pinFunction === '')) return null
  const { use, assumed } = useOf(net, pinFunction)
  // A function alone says what a ball could be; without a net no signal comes out of it.
  const unconnected = use === 'signal' && net === null
  return { ...ball, net, pinFunction, use: unconnected ? 'unused' : use, useAssumed: assumed || unconnected }
}

/** What balls without a net are: as stated, else supplies where the map names none, else not connected. */
function useOfRest(
  text: PackageText,
  named: readonly (Ball | null)[],
  path: Path,
  notes: Notes,
): { use: BallUse; assumed: boolean } {
  if (text.unlisted !== undefined) return { use: text.unlisted, assumed: false }
  const count = named.filter((ball) => ball === null).length
  const suppliesNamed = named.some((ball) => ball?.use === 'ground' || ball?.use === 'power')
  const use: BallUse = suppliesNamed ? 'unused' : 'ground'
  if (count > 0) {
    const [value, source] = suppliesNamed
      ? ['not connected', 'common practice: the map names the supplies, so these are none']
      : ['power or ground', 'common practice: the map names no supply, so it lists signals only']
    notes.assume([...path, 'unlisted'], `${count} balls of ${text.name} without a net`, value, source)
  }
  return { use, assumed: true }
}

function noteGuessedSupplies(
  text: PackageText,
  named: readonly (Ball | null)[],
  path: Path,
  notes: Notes,
): void {
  for (const use of ['power', 'ground'] as const) {
    const guessed = named.filter((ball) => ball?.use === use && ball.useAssumed)
    if (guessed.length === 0) continue
    const nets = [...new Set(guessed.map((ball) => ball?.net ?? ball?.pinFunction ?? ''))]
    const shown =
      nets.length > 5 ? `${nets.slice(0, 5).join(', ')} and ${nets.length - 5} more` : nets.join(', ')
    notes.assume(
      [...path, use],
      `${use} nets of ${text.name}`,
      shown,
      'common practice: by their names, or because a plane carries them',
    )
  }
}

/** Signals from the outermost ring inwards, evenly spread over the ring that is only partly used. */
function shareSignals({ balls, size }: Positions, share: number): Ball[] {
  const rings = new Map<number, PlacedBall[]>()
  for (const ball of balls) {
    const ring = ringOf(ball, size)
    rings.set(ring, [...(rings.get(ring) ?? []), ball])
  }
  let left = Math.round(share * balls.length)
  const signals = new Set<string>()
  for (const ring of [...rings.keys()].sort((a, b) => a - b)) {
    const members = rings.get(ring) ?? []
    const taken = Math.min(left, members.length)
    for (let index = 0; index < taken; index += 1) {
      signals.add(members[Math.floor((index * members.length) / taken)]?.name ?? '')
    }
    left -= taken
  }
  return balls.map((ball) => {
    const use: BallUse = signals.has(ball.name) ? 'signal' : 'ground'
    return { ...ball, net: null, use, pinFunction: null, useAssumed: true }
  })
}

function ringOf({ row, column }: PlacedBall, { rows, columns }: GridSize): number {
  return Math.min(row, column, rows - 1 - row, columns - 1 - column)
}
