import type { Board } from '../../board/board.ts'
import type { PackageEscape, WithoutMain } from '../../escape/escape.ts'
import { layerName } from './layerName.ts'
import { paragraph } from './table.ts'

/** Nets of one kind that are named. */
const SHOWN_NETS = 12

/** How many main routes of the chosen plan begin, and which nets leave without one, by layer and reason. */
export function mainsText(board: Board, { mains, withoutMain }: PackageEscape): string {
  if (mains.length + withoutMain.length === 0) return ''
  if (withoutMain.length === 0) return '    every net that is out has the start of its main route\n'
  const kinds = new Map<string, string[]>()
  for (const each of withoutMain) {
    const kind = `on ${layerName(board, each.layer)}, ${whyText(each)}`
    kinds.set(kind, [...(kinds.get(kind) ?? []), each.net])
  }
  return [
    `    ${withoutMain.length} of ${mains.length + withoutMain.length} out without the start of a main route\n`,
    ...[...kinds].map(([kind, nets]) => {
      const rest = nets.length - SHOWN_NETS
      const named = nets.slice(0, SHOWN_NETS).join(', ') + (rest > 0 ? ` and ${rest} more` : '')
      return paragraph(named, 4, 2) + paragraph(`why: ${kind}`, 6, 2)
    }),
  ].join('')
}

function whyText({ reason, fault }: WithoutMain): string {
  if (reason === 'no width') return 'no width that can be etched meets its target'
  return fault === null ? 'no room' : `too near by ${fault.rule}`
}
