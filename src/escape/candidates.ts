import type { Board } from '../board/board.ts'
import type { Net, NetClass } from '../board/nets.ts'
import type { Package } from '../board/packages.ts'
import { ringOf } from './field.ts'
import type { Candidate, Unit } from './routing/waiting.ts'

/** Signal balls that have a net of the board, in the order of the package. */
export function candidatesOf(board: Board, pack: Package): Candidate[] {
  const nets = new Map(board.nets.map((net) => [net.name, net]))
  const classes = new Map(board.classes.map((netClass) => [netClass.name, netClass]))
  const { escape } = pack
  const ranks = new Map(escape.priority.flatMap((nets, rank) => nets.map((name) => [name, rank])))
  const kept = new Set(escape.apart.flatMap(({ groups }) => groups))
  return pack.balls.flatMap((ball, index) => {
    const net = ball.use === 'signal' && ball.net !== null ? nets.get(ball.net) : undefined
    const netClass = net && classes.get(net.class)
    if (net === undefined || netClass === undefined) return []
    const ring = ringOf(ball.row, ball.column, pack.rows, pack.columns)
    return [
      {
        ball: index,
        name: ball.name,
        net: net.name,
        ring,
        netClass,
        exitLayer: net.exitLayer,
        side: escape.exitSides.get(net.name) ?? null,
        group: net.matchGroup !== null && kept.has(net.matchGroup) ? net.matchGroup : null,
        rank: ranks.get(net.name) ?? Infinity,
      },
    ]
  })
}

/** Pairs whose two balls are both here are one unit, everything else is its own. Outer rings first, pairs before singles. */
export function unitsOf(board: Board, candidates: readonly Candidate[]): Unit[] {
  const partners = new Map(board.nets.map((net: Net) => [net.name, net.partner]))
  const byNet = new Map<string, Candidate[]>()
  for (const candidate of candidates) {
    byNet.set(candidate.net, [...(byNet.get(candidate.net) ?? []), candidate])
  }
  const paired = new Set<Candidate>()
  const units: Unit[] = []
  for (const candidate of candidates) {
    if (paired.has(candidate)) continue
    const partner = partnerOf(candidate, partners, byNet)
    const members = partner === null ? [candidate] : [candidate, partner]
    for (const member of members) paired.add(member)
    units.push({
      members,
      ring: Math.max(...members.map(({ ring }) => ring)),
      asked: candidate.exitLayer,
      side: candidate.side,
      rank: Math.min(...members.map(({ rank }) => rank)),
    })
  }
  return units.toSorted((a, b) => (a.ring === b.ring ? b.members.length - a.members.length : a.ring - b.ring))
}

/** The class that most signal balls of the package belong to, the first described among equals; null without signals. */
export function mainClassOf(board: Board, candidates: readonly Candidate[]): NetClass | null {
  const counts = new Map<NetClass, number>()
  for (const { netClass } of candidates) counts.set(netClass, (counts.get(netClass) ?? 0) + 1)
  return board.classes.reduce<NetClass | null>(
    (most, netClass) =>
      (counts.get(netClass) ?? 0) > (most === null ? 0 : (counts.get(most) ?? 0)) ? netClass : most,
    null,
  )
}

/** Both nets must be of one pair class, have one ball each here, and not be asked for on different layers or sides. */
function partnerOf(
  candidate: Candidate,
  partners: ReadonlyMap<string, string | null>,
  byNet: ReadonlyMap<string, readonly Candidate[]>,
): Candidate | null {
  const name = partners.get(candidate.net) ?? null
  if (name === null || partners.get(name) !== candidate.net || candidate.netClass.structure !== 'pair')
    return null
  const other = onlyBall(byNet, name)
  if (other === null || other === candidate || onlyBall(byNet, candidate.net) === null) return null
  const alike =
    other.netClass === candidate.netClass &&
    other.exitLayer === candidate.exitLayer &&
    other.side === candidate.side &&
    other.group === candidate.group
  return alike ? other : null
}

function onlyBall(byNet: ReadonlyMap<string, readonly Candidate[]>, net: string): Candidate | null {
  const [ball, ...more] = byNet.get(net) ?? []
  return ball !== undefined && more.length === 0 ? ball : null
}
