/** How a name tells its partner: what marks the two, and where in the name. */
interface Rule {
  readonly basis: string
  /** Splits a name into what stands before the mark, the mark, and what stands after. */
  readonly pattern: RegExp
  readonly marks: readonly (readonly [positive: string, negative: string])[]
}

const P_N = [['P', 'N']] as const

/** From the plainest to the most daring; the first that leads to a net that exists counts. */
const RULES: readonly Rule[] = [
  { basis: '_P / _N at the end', pattern: /^(.*[_.])([PN])()$/i, marks: P_N },
  { basis: '+ / - at the end', pattern: /^(.*)([+-])()$/, marks: [['+', '-']] },
  {
    basis: '_DP / _DM or _DN at the end',
    pattern: /^(.*[_.]?)(DP|DM|DN)()$/i,
    marks: [
      ['DP', 'DM'],
      ['DP', 'DN'],
    ],
  },
  { basis: '_T / _C at the end', pattern: /^(.*[_.])([TC])()$/i, marks: [['T', 'C']] },
  { basis: '_POS / _NEG at the end', pattern: /^(.*[_.])(POS|NEG)()$/i, marks: [['POS', 'NEG']] },
  { basis: '_P_ / _N_ within', pattern: /^(.*[_.])([PN])([_.].*)$/i, marks: P_N },
  { basis: 'P / N at the end', pattern: /^(.*[A-Z0-9])([PN])()$/i, marks: P_N },
  { basis: 'P / N before a number at the end', pattern: /^(.*[A-Z0-9_])([PN])(\d+)$/i, marks: P_N },
  {
    basis: '+ / - before brackets or a number',
    pattern: /^(.*)([+-])([[(<_]?\d+[\])>]?)$/,
    marks: [['+', '-']],
  },
  { basis: 'P / N before _ within', pattern: /^(.*?[A-Z0-9])([PN])(_.*)$/i, marks: P_N },
  { basis: 'P / N before a number and _ within', pattern: /^(.*?[A-Z0-9_])([PN])(\d+_.*)$/i, marks: P_N },
]

export interface PartnerFound {
  readonly partner: string
  readonly polarity: 'positive' | 'negative'
  readonly basis: string
}

/** The net whose name differs by the mark of a pair alone, among the names that exist. */
export function findPartner(name: string, exists: (name: string) => boolean): PartnerFound | null {
  for (const { basis, pattern, marks } of RULES) {
    const [, before = '', mark = '', after = ''] = pattern.exec(name) ?? []
    if (mark === '') continue
    for (const [positive, negative] of marks) {
      const polarity = polarityOf(mark, positive, negative)
      if (polarity === null) continue
      const other = sameCase(polarity === 'positive' ? negative : positive, mark)
      const partner = before + other + after
      if (exists(partner)) return { partner, polarity, basis: `by name: ${basis}` }
    }
  }
  return null
}

/** Polarity by the name alone, for partners that are stated; null where the name says nothing. */
export function polarityByName(name: string, partner: string): 'positive' | 'negative' | null {
  return findPartner(name, (candidate) => candidate === partner)?.polarity ?? null
}

function polarityOf(mark: string, positive: string, negative: string): 'positive' | 'negative' | null {
  if (mark.toUpperCase() === positive) return 'positive'
  return mark.toUpperCase() === negative ? 'negative' : null
}

function sameCase(text: string, like: string): string {
  return like === like.toLowerCase() ? text.toLowerCase() : text
}
