import type { Board } from '../board/board.ts'
import type { Package } from '../board/packages.ts'
import { groupBy } from '../numerics/groupBy.ts'
import { checkMains } from './clearance/checkMains.ts'
import type { ClearanceFault, EscapePlan, MainStart } from './escape.ts'

export interface KeptMains {
  readonly kept: readonly MainStart[]
  /** By ball, for each of the others: what it would come too near to. */
  readonly faults: ReadonlyMap<string, ClearanceFault>
}

/**
 * Those beginnings of main routes that can stand together. One that comes too near to the plan itself goes by that alone;
 * of two that come too near to each other only one does: the one that is in the way of fewer stays.
 */
export function keptMains(
  board: Board,
  pack: Package,
  plan: EscapePlan,
  starts: readonly MainStart[],
): KeptMains {
  const faults = new Map<string, ClearanceFault>()
  for (const fault of checkMains(board, pack, plan, starts, 'plan')) {
    const known = faults.get(fault.ball)
    if (known === undefined || missing(fault) > missing(known)) faults.set(fault.ball, fault)
  }
  const free = starts.filter(({ ball }) => !faults.has(ball))
  for (const fault of withoutRivals(checkMains(board, pack, plan, free, 'each other'))) {
    faults.set(fault.ball, fault)
  }
  return { kept: free.filter(({ ball }) => !faults.has(ball)), faults }
}

function missing({ needed, found }: ClearanceFault): number {
  return needed - found
}

/**
 * For each start that has to go, its fault with one that stays. What is in the way of the fewest stays first, and what it
 * is in the way of goes, until nothing is left: no start goes for one that does not stay, and where no start has rivals in
 * a circle, no choice keeps more of them.
 */
function withoutRivals(faults: readonly ClearanceFault[]): ClearanceFault[] {
  const gone: ClearanceFault[] = []
  let left = faults.flatMap((fault) => [fault, fromOtherSide(fault)])
  while (left.length > 0) {
    const rivals = [...groupBy(left, ({ ball }) => ball)]
    const [stays] = rivals.reduce((least, each) => (each[1].length < least[1].length ? each : least))
    const going = left.filter(({ otherBall }) => otherBall === stays)
    const settled = new Set([stays, ...going.map(({ ball }) => ball)])
    gone.push(...going)
    left = left.filter(({ ball, otherBall }) => !settled.has(ball) && !settled.has(otherBall ?? ''))
  }
  return gone
}

function fromOtherSide(fault: ClearanceFault): ClearanceFault {
  const { ball, otherBall } = fault
  return { ...fault, ball: otherBall ?? '', other: `main route of ${ball}`, otherBall: ball }
}
