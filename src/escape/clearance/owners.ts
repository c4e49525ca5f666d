import type { Board } from '../../board/board.ts'
import { classOf } from '../../board/lookup.ts'
import type { Net } from '../../board/nets.ts'
import type { Ball, Package } from '../../board/packages.ts'
import type { Route } from '../../routes/route.ts'
import type { Metres } from '../../units/quantity.ts'
import type { EscapePlan } from '../escape.ts'
import { copperLimit } from './limit.ts'
import type { Limit } from './limit.ts'
import type { Owner } from './shape.ts'

/**
 * Owner of the copper of every ball, by its name. Balls of one net are one piece of copper; balls without a net
 * count as different nets, since nothing says that they are one.
 */
export function ownersOf(
  board: Board,
  pack: Package,
  plan: Pick<EscapePlan, 'routes'>,
): ReadonlyMap<string, Owner> {
  const routes = new Map(plan.routes.map((route) => [route.ball, route]))
  const numbers = new NetNumbers()
  const gaps = new Gaps(board)
  const nets = new Map(board.nets.map((net) => [net.name, net]))
  return new Map(
    pack.balls.map((ball, order) => {
      const route = routes.get(ball.name)
      const name = netNameOf(ball, route)
      const net = name === null ? undefined : nets.get(name)
      const owner: Owner = {
        name: ball.name,
        order,
        net: name === null ? numbers.anonymous() : numbers.of(name),
        partner: net === undefined || net.partner === null ? -1 : numbers.of(net.partner),
        ...gaps.of(net),
        coupledGap: gaps.inPair(route),
        mainGap: gaps.betweenMains(net),
        matchGroup: net?.matchGroup ?? null,
      }
      return [ball.name, owner]
    }),
  )
}

/** Keep-outs belong to nobody and compare with traces only; they are numbered behind the balls. */
export function keepOutOwner(board: Board, pack: Package, name: string, index: number): Owner {
  const order = pack.balls.length + index
  const gaps = new Gaps(board).of(undefined)
  return {
    name,
    order,
    net: -2 - index,
    partner: -1,
    ...gaps,
    coupledGap: null,
    mainGap: null,
    matchGroup: null,
  }
}

function netNameOf(ball: Ball, route: Route | undefined): string | null {
  return ball.net ?? route?.net ?? null
}

class NetNumbers {
  private readonly numbers = new Map<string, number>()
  private next = 0

  of(name: string): number {
    const known = this.numbers.get(name)
    if (known !== undefined) return known
    const made = this.anonymous()
    this.numbers.set(name, made)
    return made
  }

  anonymous(): number {
    return this.next++
  }
}

/** Gaps by their size, so that nets of one class share theirs. */
class Gaps {
  private readonly board: Board
  private readonly limits = new Map<Metres, Limit>()

  constructor(board: Board) {
    this.board = board
  }

  /** Gap of the net's class, or what the fabricator makes on the layer. */
  of(net: Net | undefined): Pick<Owner, 'outerGap' | 'innerGap'> {
    const stated = net === undefined ? null : classOf(this.board, net).neck.gap
    const { outer, inner } = this.board.fabrication.traceGap
    return { outerGap: this.limit(stated ?? outer), innerGap: this.limit(stated ?? inner) }
  }

  inPair(route: Route | undefined): Limit | null {
    return route === undefined || route.gap === null ? null : this.limit(route.gap)
  }

  betweenMains(net: Net | undefined): Limit | null {
    const stated = net === undefined ? null : classOf(this.board, net).main.gap
    return stated === null ? null : this.limit(stated)
  }

  private limit(gap: Metres): Limit {
    const known = this.limits.get(gap)
    if (known !== undefined) return known
    const made = copperLimit('trace to trace', gap, this.board.analysis.comparisonTolerance)
    this.limits.set(gap, made)
    return made
  }
}
