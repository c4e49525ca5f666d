import type { PackageEscape, WithoutMain } from '../../../escape/escape.ts'
import { chosenPlan } from '../context.ts'
import type { ReportContext } from '../context.ts'
import { slug } from '../section.ts'
import { groupBy, table } from '../table.ts'
import type { CellText, Table } from '../table.ts'
import { ABSENT, count, lengthRange, someOf } from '../words.ts'

/** Balls of one row that are named. */
const NAMED = 8

/** Where necks widen: what is drawn, what has to run on for it, and how many nets go without. */
export function mainNotes(escape: PackageEscape, { length }: ReportContext): string[] {
  const { mains, withoutMain } = escape
  if ((chosenPlan(escape)?.routes ?? []).length === 0) return []
  const later = mains.filter(({ runOn }) => runOn.length > 0)
  const farthest = later.reduce((most, { runOnLength }) => Math.max(most, runOnLength), 0)
  const runOn =
    later.length === 0
      ? 'right where their necks end'
      : `${later.length} of them after the neck has run on to make room, by up to ${length(farthest)}, which counts as neck`
  const rest = withoutMain.length === 0 ? '' : ` ${count(withoutMain.length, 'net')} without, listed below.`
  return [`Main routes that begin: ${mains.length}${mains.length === 0 ? '' : `, ${runOn}`}.${rest}`]
}

/** Nets that leave but whose main route is not drawn, alike ones in one row; no table where there are none. */
export function withoutMainTable(
  { package: name, withoutMain }: PackageEscape,
  context: ReportContext,
): Table[] {
  if (withoutMain.length === 0) return []
  const { layerName, length, review } = context
  const overlap = withoutMain.some(({ fault }) => fault !== null && fault.found < 0)
  return [
    table({
      id: `without-main-${slug(name)}`,
      caption: `Nets of ${name} that leave, but whose main route is not drawn`,
      columns: ['Balls', '#Number', 'Layer', '>Why', '#Found', '#Needed'],
      rows: groupBy(withoutMain, sameReason).map((group): CellText[] => {
        const faults = group.flatMap(({ fault }) => fault ?? [])
        const found = faults.map((fault) => fault.found)
        return [
          someOf(
            group.map((each) => `${each.ball} (${each.net})`),
            NAMED,
          ),
          String(group.length),
          layerName(group[0].layer),
          whyText(group),
          faults.length === 0
            ? ABSENT
            : lengthRange(Math.min(...found), Math.max(...found), review.board.displayUnit),
          faults[0] === undefined ? ABSENT : length(faults[0].needed),
        ]
      }),
      notes: overlap ? ['Found below zero: by how much the two would overlap.'] : [],
    }),
  ]
}

function sameReason({ layer, fault }: WithoutMain): string {
  return JSON.stringify([layer, fault && [thing(fault), fault.rule, fault.needed]])
}

type Fault = NonNullable<WithoutMain['fault']>

/** What it comes too near to without the ball, e.g. `via pad`, or a keep-out with its name. */
function thing({ other, otherBall }: Fault): string {
  return otherBall === null ? other : other.slice(0, other.lastIndexOf(` of ${otherBall}`))
}

function whyText(group: readonly [WithoutMain, ...WithoutMain[]]): string {
  const { fault } = group[0]
  if (fault === null) return 'no width that can be etched reaches the target on this layer'
  const balls = [...new Set(group.flatMap((each) => each.fault?.otherBall ?? []))]
  if (balls.length === 0) return `would come too near to ${fault.other}`
  return `would come too near to the ${thing(fault)}${balls.length === 1 ? '' : 's'} of ${someOf(balls)}`
}
