import { describe, expect, it } from 'vitest'
import { reportContext } from '../../../src/report/viewModel/context.ts'
import { dielectricSection } from '../../../src/report/viewModel/sections/dielectric.ts'
import { discontinuitiesSection } from '../../../src/report/viewModel/sections/discontinuities.ts'
import { formulasSection, limitsText } from '../../../src/report/viewModel/sections/formulas.ts'
import { impedanceSection, unusedLinesTable } from '../../../src/report/viewModel/sections/impedance.ts'
import { inputsSection } from '../../../src/report/viewModel/sections/inputs.ts'
import { layerCountSection } from '../../../src/report/viewModel/sections/layerCount.ts'
import { packagesSection } from '../../../src/report/viewModel/sections/packages.ts'
import { questionsSection } from '../../../src/report/viewModel/sections/questions.ts'
import { sourcesSection } from '../../../src/report/viewModel/sections/sources.ts'
import { stackupSection } from '../../../src/report/viewModel/sections/stackup.ts'
import { everySkewTable, timingSection } from '../../../src/report/viewModel/sections/timing.ts'
import type { Section } from '../../../src/report/viewModel/section.ts'
import type { Table } from '../../../src/report/viewModel/table.ts'
import type { Review } from '../../../src/review.ts'
import { assumption } from '../fixtures/stackup.ts'
import { sampleReview } from '../fixtures/review.ts'

const context = reportContext(sampleReview)

function tableOf(section: Section, id: string): Table {
  const table = section.tables.find((each) => each.id === id)
  if (table === undefined) throw new Error(`no table ${id}`)
  return table
}

/** Each row as one text, marks, verdicts and notes included. */
function rows(table: Table): string[] {
  return table.rows.map((row) =>
    row.cells
      .map((cell) => [cell.text, cell.mark, cell.verdict?.text, ...cell.notes].filter(Boolean).join(' / '))
      .join(' | ')
      .replaceAll('\u00a0', ' ')
      .replaceAll('\u200b', ''),
  )
}

describe('the impedance table', () => {
  const lines = rows(tableOf(impedanceSection(context), 'impedance-table'))

  it('marks necks as not controlled and off every coupon, and main routes as on one', () => {
    const necks = lines.filter((line) => line.includes('neck at'))
    const mains = lines.filter((line) => line.includes('main route'))
    expect(necks.length + mains.length).toBe(lines.length)
    for (const line of necks) expect(line).toMatch(/not controlled.*\| no$/)
    for (const line of mains) expect(line).toMatch(/\| yes$/)
  })

  it('gives target, references with nets, starting width, impedance with band, and method', () => {
    expect(lines[1]).toBe(
      'L3 | memory data / not controlled / neck at U1 | single | 40.0 ohm ± 10 % | L2 (GND), L4 (GND) | 0.095 mm / widest that fits the channel | – | 47.9 ohm ± 1.0 % / 19.8 % above target / Stripline of finite thickness, Wheeler | no',
    )
    expect(
      tableOf(impedanceSection(context), 'impedance-table').columns.map((column) => column.title),
    ).toContain('Width, starting value')
  })

  it('refuses a main route off its target, and only watches a neck', () => {
    const tones = tableOf(impedanceSection(context), 'impedance-table').rows.flatMap((row) =>
      row.cells.flatMap((cell) => cell.verdict?.tone ?? []),
    )
    expect(new Set(tones)).toEqual(new Set(['watch', 'pass']))
    const off = {
      ...sampleReview,
      board: {
        ...sampleReview.board,
        classes: sampleReview.board.classes.map((each) => ({ ...each, target: 60 })),
      },
    }
    const verdicts = rows(tableOf(impedanceSection(reportContext(off)), 'impedance-table'))
    expect(verdicts.filter((line) => line.includes('main route')).join()).toContain('33.3 % below target')
  })

  it('passes only what lies inside the tolerance with its whole band', () => {
    // 92.2 ohm is 8.5 % above 85 ohm: inside 10 % with the 1 % band of the formula, and not inside 9 %.
    const at = (tolerance: number): string => {
      const classes = sampleReview.board.classes.map((each) => ({ ...each, tolerance }))
      return (
        rows(
          tableOf(
            impedanceSection(reportContext({ ...sampleReview, board: { ...sampleReview.board, classes } })),
            'impedance-table',
          ),
        )[6] ?? ''
      )
    }
    expect(at(0.1)).toContain('8.5 % above target / Stripline')
    expect(at(0.09)).toContain('8.5 % above target, limit within the band')
  })

  it('leaves lines that no route uses to the appendix, with the reason where there is none', () => {
    expect(rows(unusedLinesTable(context)).join()).toContain(
      'no width between 0.050 mm and 1.000 mm reaches 40.0 ohm',
    )
    expect(lines.join()).not.toContain('L10')
  })
})

describe('the table of discontinuities', () => {
  const section = discontinuitiesSection(context)
  const table = tableOf(section, 'discontinuities-table')

  it('keeps electrical length, reflection and allowance apart, each with its own verdict', () => {
    expect(table.columns.slice(4).map((column) => column.title)).toEqual([
      'Electrical length',
      'Reflection',
      'Published allowance',
    ])
    for (const row of table.rows)
      expect(row.cells.slice(4, 6).every((cell) => cell.verdict !== null)).toBe(true)
  })

  it('shows both the exact and the short-section reflection', () => {
    for (const line of rows(table))
      expect(line).toMatch(
        /exact [+-][\d.]+ %, short-section [+-][\d.]+ % .*before [\d.]+ ohm: exact [+-][\d.]+ %, short-section/,
      )
  })

  it('counts every neck once', () => {
    const counted = rows(table).reduce((sum, line) => sum + Number(/(\d+) necks?,/.exec(line)?.[1] ?? NaN), 0)
    expect(counted).toBe(sampleReview.signals.reduce((sum, signal) => sum + signal.ends.length, 0))
  })

  it('never puts a long neck and a short one, or a passing and a failing one, in one row', () => {
    const long = rows(table).filter((line) => line.includes('electrically long'))
    const short = rows(table).filter((line) => line.includes('/ short /'))
    expect(long.length + short.length).toBe(table.rows.length)
    expect(long.length).toBeGreaterThan(0)
    expect(short.length).toBeGreaterThan(0)
  })

  it('says once where limits and allowances come from', () => {
    expect(table.notes.join(' ').replaceAll('\u00a0', ' ')).toContain(
      'Published allowances: 12.700 mm, Invented memory guide, Table 3.',
    )
  })
})

describe('the channel table', () => {
  it('names every class in one row of the geometry', () => {
    const lines = rows(tableOf(packagesSection(context), 'channels-u1'))
    expect(lines).toHaveLength(3)
    expect(lines[0]).toContain('1 of 0.095 mm, remainder 0.165 mm: memory data')
    expect(rows(tableOf(packagesSection(context), 'channels-u2'))[0]).toContain(
      'none of 0.095 mm, too narrow by 0.005 mm: memory data',
    )
  })

  it('draws the tightest channel of each kind of obstacle', () => {
    expect(packagesSection(context).figures.map((figure) => figure.id)).toEqual([
      'grid-u1',
      'channel-u1-land',
      'channel-u1-via-pad',
      'channel-u1-hole-without-pad',
      'grid-u2',
      'channel-u2-land',
    ])
  })
})

describe('timing', () => {
  it('shows what exceeds its limit by name and the rest by number', () => {
    const within = { ...(sampleReview.skews[1] ?? fail()), skew: 0.2e-12 }
    const section = timingSection(
      reportContext({
        ...sampleReview,
        skews: [...sampleReview.skews, within, { ...within, name: 'other', skew: 0.3e-12 }],
      }),
    )
    const lines = rows(tableOf(section, 'skew-table'))
    expect(lines).toHaveLength(3)
    expect(lines[0]).toContain('over the limit')
    expect(lines[1]).toContain('to be compensated in the main route')
    expect(lines[2]).toMatch(/^2 pairs within the limit \/ largest: other/)
    expect(everySkewTable([within]).rows).toHaveLength(1)
  })

  it('says whether delays inside the package count', () => {
    expect(timingSection(context).paragraphs[0]).toContain('not described')
    const nets = sampleReview.board.nets.map((net) => ({ ...net, packageDelay: 1e-12 }))
    expect(
      timingSection(reportContext({ ...sampleReview, board: { ...sampleReview.board, nets } })).paragraphs[0],
    ).toContain('counts the delay inside the package')
  })
})

function fail(): never {
  throw new Error('the sample has no second skew')
}

describe('layer counts', () => {
  const section = layerCountSection(context)

  it('give each rule unrounded and rounded, with its source', () => {
    expect(rows(tableOf(section, 'layer-rules'))[2]).toBe(
      'Signals over channels, rounded up | U1 | Any via | 1 | 133 signals over 60 channels | 2.22 | 3 | AMD UG1099, chapter 2',
    )
  })

  it('hold a claim against the plan', () => {
    expect(rows(tableOf(section, 'layer-claims'))[0]).toContain('2 | 3 | refuted')
  })

  it('say where no number of layers is enough', () => {
    const escapes = sampleReview.escapes.map((escape) => ({
      ...escape,
      rules: escape.rules.map((rule) => ({ ...rule, unrounded: null, signalLayers: null })),
    }))
    expect(
      rows(tableOf(layerCountSection(reportContext({ ...sampleReview, escapes })), 'layer-rules'))[0],
    ).toContain('– | none is enough')
  })
})

describe('formulas', () => {
  it('are listed with limits, band and the number of lines that each was chosen for', () => {
    const lines = rows(tableOf(formulasSection(context), 'formulas-table'))
    expect(lines[0]).toMatch(/^Stripline of finite thickness, Wheeler \|.*8 lines/)
    expect(lines[1]).toMatch(/^Coated microstrip, own fit \/ own fit \|/)
    expect(lines[2]).toMatch(/left here at width\/height = /)
  })

  it.each([
    [[], 'no limit stated'],
    [[{ quantity: 'w/h', min: 0.1, max: 2.5 }], 'w/h 0.100 to 2.50'],
    [[{ quantity: 't/b', min: 0, max: 0 }], 't/b = 0'],
    [[{ quantity: 'w/h', min: 1, max: Infinity }], 'w/h from 1.00'],
    [[{ quantity: 'w/h', min: -Infinity, max: 2 }], 'w/h up to 2.00'],
  ])('print the limits %j', (limits, text) => {
    expect(limitsText(limits)).toBe(text)
  })
})

describe('inputs and questions', () => {
  const alike = ['core 1', 'core 2', 'core 3'].map((name, index) =>
    assumption(
      `stackup.layers[${index}].permittivity_tolerance`,
      `tolerance of the permittivity of ${name}`,
      '± 5 %',
    ),
  )
  const review: Review = { ...sampleReview, board: { ...sampleReview.board, assumptions: alike } }

  it('put the same assumption about one part after another in one row and one question', () => {
    expect(rows(tableOf(inputsSection(reportContext(review)), 'assumptions-table'))).toEqual([
      'tolerance of the permittivity of core 1 / and tolerance of the permittivity of core 2 and tolerance of the permittivity of core 3 | ± 5 % | common practice, no source | stackup.layers[0].permittivity_tolerance / and 2 further places',
    ])
    const asked = questionsSection(reportContext({ ...review, findings: [] })).points.filter((point) =>
      point.startsWith('Please confirm'),
    )
    expect(asked).toHaveLength(1)
  })

  it('ask the fabricator about what they know, and not about the interface', () => {
    const asked = questionsSection(context).points.join(' ')
    expect(asked).toContain('relative permittivity of core 2')
    expect(asked).not.toContain('rise time of memory data')
  })

  it('ask what a finding leaves open', () => {
    expect(questionsSection(context).points.join(' ')).toContain(
      'Which residual stub can backdrilling hold? The barrel left hanging',
    )
  })

  it('always ask for finished width, test method, permission and coupon', () => {
    const asked = questionsSection(reportContext({ ...review, findings: [] })).points.join(' ')
    for (const word of ['finished width', 'test method', 'who has to agree', 'IPC-TM-650 2.5.5.7'])
      expect(asked).toContain(word)
  })

  it('mark assumed capability figures where they stand', () => {
    expect(
      rows(tableOf(inputsSection(context), 'fabrication-table')).find((line) =>
        line.includes('registration'),
      ),
    ).toContain('± 0.075 mm / assumed')
  })
})

describe('the other sections', () => {
  it('give the stackup with the basis of each thickness', () => {
    const lines = rows(tableOf(stackupSection(context), 'stackup-table'))
    expect(lines).toHaveLength(sampleReview.board.stackup.layers.length)
    expect(lines[1]).toContain('0.5 oz foil, plated 0.025 mm, less processing')
    expect(lines[2]).toContain('1 ply 1067, less resin fill')
  })

  it('give the thickness with its window, or the reason why there is none', () => {
    const lines = rows(tableOf(dielectricSection(context), 'thickness-table'))
    expect(lines[0]).toContain('| none | – | the trace is too narrow')
    expect(lines[1]).toContain('0.081 mm | 0.063 to 0.108 mm | 85.0 ohm ± 2.0 %')
  })

  it('list sources once each with all their uses, and no limit of the description itself', () => {
    const lines = rows(tableOf(sourcesSection(context), 'sources-table'))
    expect(new Set(lines).size).toBe(lines.length)
    expect(lines.join()).toContain('Invented memory guide, Table 3 | neck allowance of memory data')
    expect(lines.join()).not.toMatch(/common practice|analysis settings|class memory/)
  })
})
