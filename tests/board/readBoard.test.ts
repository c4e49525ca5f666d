import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { EXAMPLE_TEXT, exampleBoard, exampleText, readText } from './exampleBoard.ts'

type Change = readonly [old: string, replacement: string]

const WITH_MAP: Change = ['    nets:\n      A1: DQ0', '    ball_map: u1.csv\n    nets:\n      A1: DQ0']

async function problemsOf(
  text: string | Uint8Array,
  companions: Record<string, string | Uint8Array> = {},
  file = 'board.yaml',
): Promise<string[]> {
  const { board, issues } = await readText(text, companions, file)
  const failed = issues.some(({ severity }) => severity === 'error')
  expect(board === null).toBe(failed)
  return issues.map(({ file: where, line, path, message }) => `${where}:${String(line)} ${path} | ${message}`)
}

/** Line on which a piece of the changed example stands, one-based. */
function lineOf(text: string, piece: string): number {
  return text.slice(0, text.indexOf(piece)).split('\n').length
}

describe('a good description', () => {
  it('is read without an issue', async () => {
    const { board, issues } = await readText(EXAMPLE_TEXT)
    expect(issues).toEqual([])
    expect(board).toMatchObject({
      title: 'Example board',
      revision: 'A',
      author: null,
      date: null,
      displayUnit: 'mm',
    })
    expect(board?.claims).toEqual([
      { package: 'U1', technology: 'through', signalLayers: 4, source: 'example' },
    ])
  })

  it('is in metres, seconds, ohms and fractions', async () => {
    const board = await exampleBoard()
    expect(board.vias[0]).toMatchObject({ firstLayer: 1, lastLayer: 8, drilledDiameter: 0.2e-3 })
    expect(board.vias[0]?.finishedDiameter).toBeCloseTo(0.15e-3, 12)
    expect(board.analysis).toMatchObject({
      frequency: 1e9,
      comparisonTolerance: 0.5e-6,
      reflectionLimit: 0.05,
    })
  })

  it('reads the same twice', async () => {
    expect(await readText(EXAMPLE_TEXT)).toEqual(await readText(EXAMPLE_TEXT))
  })

  it('reads the same from bytes, with Windows line ends and a byte order mark', async () => {
    const { board } = await readText(EXAMPLE_TEXT)
    const windows = new TextEncoder().encode(`\uFEFF${EXAMPLE_TEXT.replaceAll('\n', '\r\n')}`)
    expect((await readText(windows)).board).toEqual(board)
  })

  it('reads the same as JSON, by ending or by its first character', async () => {
    const { parse } = await import('yaml')
    const json = JSON.stringify(parse(EXAMPLE_TEXT), null, '\t')
    const { board } = await readText(EXAMPLE_TEXT)
    expect((await readText(json, {}, 'board.json')).board).toEqual(board)
    expect((await readText(json, {}, 'board')).board).toEqual(board)
  })

  it('may do arithmetic, which is loaded when it is met', async () => {
    const plain = await exampleBoard([['land: 0.40 mm', 'land: 0.35 mm']])
    const sum = await exampleBoard([['land: 0.40 mm', 'land: 0.8 mm - 0.45 mm']])
    expect(sum.packages[0]?.landDiameter).toBeCloseTo(plain.packages[0]?.landDiameter ?? 0, 12)
    expect(await problemsOf(exampleText([['land: 0.40 mm', 'land: 0.8 mm - 45 ps']]))).toHaveLength(1)
  })

  it('prints what it assumed in mil where the board is in mil', async () => {
    const board = await exampleBoard([
      ['units: mm', 'units: mil'],
      [', plating: 25 um, pad: 0.42 mm', ', pad: 0.42 mm'],
    ])
    const plating = board.assumptions.find(({ path }) => path === 'vias[0].plating')
    expect([board.displayUnit, plating?.value]).toEqual(['mil', '0.98 mil'])
  })

  it('lists all it assumed in the order of the description, each with value and source', async () => {
    const board = await exampleBoard([['    ball_diameter: 0.45 mm\n', '']])
    const parts = [
      ...board.stackup.layers,
      ...[
        board.stackup,
        ...board.vias,
        board.fabrication,
        ...board.packages,
        ...board.classes,
        board.analysis,
      ],
    ]
    const own = parts.flatMap(({ assumed }) => assumed)
    expect(board.assumptions).toEqual(expect.arrayContaining(own))
    const sections = board.assumptions.map(({ path }) => path.split(/[.[]/)[0])
    const order = ['stackup', 'vias', 'fabrication', 'packages', 'classes', 'nets', 'analysis']
    const indices = sections.map((section) => order.indexOf(section ?? ''))
    expect(indices).toEqual([...indices].sort((a, b) => a - b))
    expect(indices).not.toContain(-1)
    for (const { value, source, quantity } of board.assumptions) {
      expect([value, source, quantity].every((text) => text.length > 0)).toBe(true)
    }
  })

  it('uses the usual settings where it gives none, and says so', async () => {
    const start = EXAMPLE_TEXT.indexOf('\nanalysis:')
    const { board } = await readText(EXAMPLE_TEXT.slice(0, start))
    expect(board?.analysis).toMatchObject({
      frequency: 1e9,
      comparisonTolerance: 0.5e-6,
      reflectionLimit: 0.05,
    })
    expect(board?.analysis.electricalLengthLimit).toBeCloseTo(1 / 6, 12)
    expect(board?.analysis.crosstalkLimit).toBe(0.05)
    expect(board?.analysis.assumed).toHaveLength(5)
  })
})

describe('a bad description gets one clear message, with file, line and path:', () => {
  it.each<[string, Change[], string, string]>([
    [
      'a unit in the wrong letters',
      [['land: 0.40 mm', 'land: 0.40 MM']],
      'packages[0].land',
      'write mm, not MM',
    ],
    ['a unit of another kind', [['land: 0.40 mm', 'land: 0.40 ps']], 'packages[0].land', 'which is a time'],
    ['a number without its unit', [['pad: 0.42 mm', 'pad: 0.42']], 'vias[0].pad', 'the unit must be said'],
    ['a negative size', [['drilled: 0.2 mm', 'drilled: -0.2 mm']], 'vias[0].drilled', 'above zero'],
    ['a size of zero', [['land: 0.40 mm', 'land: 0 mm']], 'packages[0].land', 'above zero'],
    [
      'an unknown layer',
      [['kind: through,', 'kind: through, layers: [L1, L13],']],
      'vias[0].layers[1]',
      'Unknown layer L13; the stackup has L1 … L8.',
    ],
    [
      'a pad smaller than its hole',
      [['pad: 0.42 mm', 'pad: 0.18 mm']],
      'vias[0].pad',
      'is not larger than its drilled hole, 0.200 mm',
    ],
    [
      'no plane',
      [
        ['role: plane', 'role: signal'],
        ['role: mixed', 'role: signal'],
      ],
      'stackup.layers',
      'The stackup has no plane',
    ],
    [
      'a ball outside the grid',
      [['A2: DQ1', 'A12: DQ1']],
      'packages[0].nets.A12',
      'which goes from A1 to H8',
    ],
    ['a pair without partner', [['D1: TX0_N', 'D1: TX1_N']], 'nets[2].class', 'has no partner'],
    [
      'an unknown key',
      [['role: signal, thickness: 40 um', 'rol: signal, thickness: 40 um']],
      'stackup.layers[15].rol',
      'did you mean "role"?',
    ],
    ['an unknown key at the top', [['units: mm', 'unit: mm']], 'unit', 'did you mean "units"?'],
    [
      'an unknown key deep inside',
      [['trace_width: {outer: 80 um', 'trace_width: {outr: 80 um']],
      'fabrication.trace_width.outr',
      'did you mean "outer"?',
    ],
    [
      'an unknown kind of layer',
      [['{core: core 1', '{cor: core 1']],
      'stackup.layers[4]',
      'did you mean "core"?',
    ],
    [
      'a word that is not on the list',
      [['kind: through', 'kind: thru']],
      'vias[0].kind',
      'allowed: through, blind, buried or microvia',
    ],
    ['a number for a name', [['title: Example board', 'title: 5']], 'title', 'a text; in quotes, "5"'],
    [
      'a list for a group',
      [['{outer: 80 um, inner: 75 um}', '[80 um, 75 um]']],
      'fabrication.trace_width',
      'is a list of 2',
    ],
    [
      'a claim about no package',
      [['{package: U1, tech', '{package: U2, tech']],
      'claims[0].package',
      'Unknown package "U2"; the description has U1',
    ],
    [
      'two classes of one name',
      [
        ['{name: serial', '{name: strobe'],
        ['class: serial', 'class: strobe'],
      ],
      'classes[2].name',
      'Two classes are called "strobe"',
    ],
    [
      'a key twice',
      [['revision: A', 'revision: A\nrevision: B']],
      '',
      'the key revision for the second time',
    ],
    [
      'a syntax error',
      [['title: Example board', 'title: Example: board']],
      '',
      'a second "key: value" on the line of a first one',
    ],
    ['a bracket left open', [['missing: [D4:E5]', 'missing: [D4:E5']], '', 'every [ or { closed'],
    ['a second document', [['\nvias:', '\n---\nvias:']], '', 'a second document'],
    ['an unknown tag', [['revision: A', 'revision: !rev A']], '', 'a tag (a word after !) that is not known'],
  ])('%s', async (_, changes, path, message) => {
    const text = exampleText(changes)
    const found = await problemsOf(text)
    const errors = found.filter((problem) => !problem.includes('fits no signal net'))
    expect(errors).toHaveLength(1)
    expect(errors[0]).toContain(message)
    expect(errors[0]).toMatch(/^board\.yaml:\d+ /)
    expect(errors[0]).toContain(` ${path} | `)
  })

  it.each<[string, Change, string]>([
    ['a value', ['land: 0.40 mm', 'land: 0 mm'], 'land: 0 mm'],
    ['a flow group', ['pad: 0.42 mm', 'pad: 0.18 mm'], 'pad: 0.18'],
    ['an inline net', ['A2: DQ1', 'A12: DQ1'], 'A12: DQ1'],
    ['a doubled key', ['units: mm', 'units: mm\nrevision: B'], 'revision: B'],
  ])('the line is that of %s', async (_, change, piece) => {
    const text = exampleText([change])
    const [problem = ''] = await problemsOf(text)
    expect(problem).toContain(`board.yaml:${lineOf(text, piece)} `)
  })

  it.each<[string, string | Uint8Array, string]>([
    ['ten megabytes', `title: ${'x'.repeat(10_000_000)}`, 'is a file of 10.0 MB; allowed: less than 10 MB'],
    [
      'five thousand nested lists',
      `title: ${'['.repeat(5000)}${']'.repeat(5000)}`,
      'nested more than 24 deep',
    ],
    [
      'an alias bomb',
      `a: &a [x, x]\n${'bcdefgh'.replace(/./g, (name) => `${name}: &${name} [${`*${String.fromCharCode(name.charCodeAt(0) - 1)}, `.repeat(9)}]\n`)}`,
      'more than 200 aliases',
    ],
    ['UTF-16', Uint8Array.from([0xff, 0xfe, 0x74, 0, 0x69, 0]), 'is text in UTF-16; allowed: text in UTF-8'],
    [
      'Latin-1',
      Uint8Array.from(Array.from('title: Gehäuse', (letter) => letter.charCodeAt(0))),
      'another encoding than UTF-8 (byte 11)',
    ],
    ['nothing in it', '', 'is empty; allowed: a group of keys'],
    ['a list on top', '- a\n- b\n', 'is a list of 2'],
    ['a text on top', 'hello', 'is "hello"'],
  ])('%s', async (_, text, message) => {
    const found = await problemsOf(text)
    expect(found).toHaveLength(1)
    expect(found[0]).toContain(message)
  })

  it('a description of the largest size that is read is read to its end', async () => {
    const remark = `# ${'x'.repeat(70)}\n`
    const filler = remark.repeat(Math.floor((10_000_000 - 1 - EXAMPLE_TEXT.length) / remark.length))
    expect(await problemsOf(EXAMPLE_TEXT + filler)).toEqual([])
  })

  it.each<[string, string | Uint8Array, string]>([
    ['in UTF-16', Uint8Array.from([0xff, 0xfe, 0x62, 0]), 'u1.csv:null  | u1.csv is text in UTF-16'],
    [
      'in Latin-1',
      Uint8Array.from(Array.from('ball,net\nA1,Ü\n', (letter) => letter.charCodeAt(0))),
      'u1.csv:2  | u1.csv is text in another encoding',
    ],
    ['with a ball twice', 'ball,net\nA1,DQ0\nA1,DQ0\n', 'u1.csv:3  | u1.csv line 3 lists ball A1 again'],
    [
      'with a ball outside the grid',
      'ball,net\nA1,DQ0\nT1,DQ9\n',
      'u1.csv:3  | Ball T1 lies outside the grid',
    ],
  ])('a ball map %s, under its own name', async (_, map, message) => {
    const found = await problemsOf(exampleText([WITH_MAP]), { 'u1.csv': map })
    expect(found).toHaveLength(1)
    expect(found[0]).toContain(message)
  })

  it('a ball map that is not there', async () => {
    const found = await problemsOf(exampleText([WITH_MAP]))
    expect(found).toEqual([expect.stringContaining('The ball map "u1.csv" is not found beside board.yaml')])
  })
})

describe('several faults', () => {
  it('are all reported at once, in the order of their lines', async () => {
    const text = exampleText([
      ['{core: core 1, thickness: 100 um', '{core: core 1, thickness: -100 um'],
      ['pad: 0.42 mm', 'pad: 0.18 mm'],
      ['class: advanced', 'class: advenced'],
      ['land: 0.40 mm', 'land: 0.40 s'],
      ['A2: DQ1', 'M2: DQ1'],
      ['D1: TX0_N', 'D1: TX1_N'],
      ['target: 50 ohm', 'target: 50 mm'],
      ['class: data, group', 'class: dta, grup'],
    ])
    const found = await problemsOf(text)
    expect(found.map((problem) => problem.split(' | ')[0]?.split(' ')[1])).toEqual([
      ...['stackup.layers[4].thickness', 'vias[0].pad', 'fabrication.class', 'packages[0].land'],
      ...['packages[0].nets.M2', 'classes[0].target', 'nets[0].class', 'nets[0].grup', 'nets[2].class'],
    ])
    const lines = found.map((problem) => Number(/:(\d+) /.exec(problem)?.[1]))
    expect(lines).toEqual([...lines].sort((a, b) => a - b))
  })

  it('beyond five hundred are counted', async () => {
    const nets = Array.from({ length: 700 }, (_, index) => `  - {name: NONE${index}, class: data}`).join('\n')
    const found = await problemsOf(exampleText([['  - {match: "DQ?"', `${nets}\n  - {match: "DQ?"`]]))
    expect(found).toHaveLength(501)
    expect(found.at(-1)).toContain('There are 200 more problems.')
  })
})

describe('whatever the text', () => {
  const lines = EXAMPLE_TEXT.split('\n')
  const pieces = [
    '0 mm',
    '-1',
    '{',
    '[]',
    '"',
    '*x',
    '&x',
    'null',
    'L99',
    '1e400 mm',
    '~',
    '!!int',
    ': ',
    '\t',
    'NaN',
    '[1, 2]',
  ]

  it('the reading ends in a board or in errors, never in an exception or a number that is none', async () => {
    const slip = fc.record({
      line: fc.nat(lines.length - 1),
      at: fc.nat(120),
      cut: fc.nat(30),
      put: fc.constantFrom(...pieces, ''),
    })
    await fc.assert(
      fc.asyncProperty(fc.array(slip, { minLength: 1, maxLength: 3 }), async (slips) => {
        const text = slips
          .reduce((all, { line, at, cut, put }) => {
            const old = all[line] ?? ''
            return all.with(line, old.slice(0, at) + put + old.slice(at + cut))
          }, lines)
          .join('\n')
        const { board, issues } = await readText(text)
        expect(board === null).toBe(issues.some(({ severity }) => severity === 'error'))
        expect(
          JSON.stringify(board, (_, value: unknown) =>
            Number.isNaN(value) || value === Infinity ? 'bad' : value,
          ),
        ).not.toContain('"bad"')
      }),
      { seed: 5, numRuns: 150 },
    )
  }, 60_000)
})
