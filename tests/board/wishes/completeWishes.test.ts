import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { NO_WISHES, type EscapeWishes } from '../../../src/board/escapeWishes.ts'
import { fitsPattern } from '../../../src/board/namePattern.ts'
import { exampleBoard, exampleText, readText } from '../exampleBoard.ts'

type Change = readonly [old: string, replacement: string]

const PLACE = '    via_placement: dog-bone\n'

/** The example board whose package has these wishes, each on a line of its own. */
const withWishes = (...lines: string[]): Change => [
  PLACE,
  `${PLACE}    escape:\n${lines.map((line) => `      ${line}\n`).join('')}`,
]

async function wishesOf(lines: string[], changes: Change[] = []): Promise<EscapeWishes> {
  const board = await exampleBoard([withWishes(...lines), ...changes])
  return board.packages[0]?.escape ?? NO_WISHES
}

interface Problem {
  readonly severity: string
  readonly place: string
  readonly message: string
  /** The text of the line that the problem points at. */
  readonly line: string
}

async function problemsOf(lines: string[], changes: Change[] = []): Promise<Problem[]> {
  const text = exampleText([withWishes(...lines), ...changes])
  const { board, issues } = await readText(text)
  expect(board === null).toBe(issues.some(({ severity }) => severity === 'error'))
  return issues.map(({ severity, path, line, message }) => ({
    severity,
    place: path.replace('packages[0].escape.', ''),
    message,
    line: (text.split('\n')[(line ?? 0) - 1] ?? '').trim(),
  }))
}

const BYTE = ['DQ0', 'DQ1', 'DQ2', 'DQ3', 'DQ4', 'DQ5', 'DQ6', 'DQ7']
const SECOND_BYTE: Change = ['  - {match: "DQS_*"', '  - {name: DQ7, group: byte 1}\n  - {match: "DQS_*"']

describe('a package without wishes', () => {
  it('prefers nothing, and nothing is assumed of it', async () => {
    const plain = await exampleBoard()
    expect(plain.packages[0]?.escape).toEqual(NO_WISHES)
    expect(plain.assumptions.filter(({ path }) => path.includes('escape'))).toEqual([])
  })

  it('is the same with an empty group of wishes', async () => {
    const empty = await exampleBoard([[PLACE, `${PLACE}    escape: {}\n`]])
    expect(empty).toEqual(await exampleBoard())
  })
})

describe('the layers that carry nets out', () => {
  it('keep the order in which they are named, by name or number', async () => {
    expect((await wishesOf(['layers: [L8, 3, L1]'])).layerOrder).toEqual([8, 3, 1])
  })

  it('are warned of where a net asks for one that is left out', async () => {
    const asking: Change = [
      '{match: "TX0_*", class: serial,',
      '{match: "TX0_*", class: serial, exit_layer: L6,',
    ]
    expect(await problemsOf(['layers: [L1, L3]'], [asking])).toEqual([
      {
        severity: 'warning',
        place: 'layers',
        message:
          '2 nets of U1 ask by exit_layer for a layer that packages[0].escape.layers leaves out, such as TX0_P for L6; no net leaves U1 there.',
        line: 'layers: [L1, L3]',
      },
    ])
    expect(await problemsOf(['layers: [L1, L6]'], [asking])).toEqual([])
  })
})

describe('nets of priority', () => {
  it('are those of patterns, names, classes and groups, most important first, each once, equals together', async () => {
    const { priority } = await wishesOf([
      'priority: ["TX0_*", {name: DQ3}, {class: strobe}, {group: byte 0}, {match: RESET}, {class: unclassified}]',
    ]).catch(() => ({ priority: [] }))
    expect(priority).toEqual([
      ['TX0_P', 'TX0_N'],
      ['DQ3'],
      ['DQS_P', 'DQS_N'],
      BYTE.filter((name) => name !== 'DQ3'),
      ['RESET'],
    ])
  })

  it('are only signals that have a ball of the package', async () => {
    const second =
      '  - {name: U2, grid: {rows: 2, columns: 2, pitch: 1 mm}, nets: {A1: DQ0, A2: OTHER, B1: GND}, escape: {priority: ["*"]}}\n\nclasses:'
    const board = await exampleBoard([
      withWishes('priority: ["*"]'),
      ['\nclasses:', second],
      ['claims:\n', 'claims:\n'],
    ])
    const [first, other] = board.packages.map(({ escape }) => escape.priority)
    expect(other).toEqual([['DQ0', 'OTHER']])
    expect(first).toEqual([[...BYTE, 'DQS_P', 'DQS_N', 'TX0_P', 'RESET', 'TX0_N']])
  })

  it('take shallow layers first unless the description says deep, and that is said to be assumed', async () => {
    const board = await exampleBoard([withWishes('priority: [RESET]')])
    const note = {
      path: 'packages[0].escape.priority_layers',
      quantity: 'layers that nets of priority of U1 are tried on first',
      value: 'shallow',
    }
    expect(board.packages[0]?.escape.priorityLayers).toBe('shallow')
    expect(board.packages[0]?.assumed).toContainEqual(expect.objectContaining(note))
    expect(board.assumptions).toContainEqual(expect.objectContaining(note))

    const deep = await exampleBoard([withWishes('priority: [RESET]', 'priority_layers: deep')])
    expect(deep.packages[0]?.escape.priorityLayers).toBe('deep')
    expect(deep.assumptions.map(({ path }) => path)).not.toContain(note.path)
  })

  it('partition what their entries fit, whatever the entries are', async () => {
    const all = (await exampleBoard()).nets.map(({ name }) => name)
    const pieces = fc.array(fc.constantFrom(...Array.from('DQSTX0_PN*?')), { minLength: 1, maxLength: 5 })
    const patterns = fc.array(
      pieces.map((letters) => letters.join('')),
      { minLength: 1, maxLength: 5 },
    )
    await fc.assert(
      fc.asyncProperty(patterns, async (entries) => {
        const { priority } = await wishesOf([`priority: ${JSON.stringify(entries)}`])
        const ranked = priority.flat()
        expect(new Set(ranked).size).toBe(ranked.length)
        expect([...ranked].sort()).toEqual(
          all.filter((name) => entries.some((entry) => fitsPattern(name, entry))).sort(),
        )
        // The first entry that fits a net says where it stands.
        const firstOf = (name: string): number => entries.findIndex((entry) => fitsPattern(name, entry))
        const places = priority.map((names) => names.map(firstOf))
        expect(places.every((same) => new Set(same).size === 1)).toBe(true)
        expect(places.flat()).toEqual([...places.flat()].sort((a, b) => a - b))
      }),
      { seed: 4, numRuns: 25 },
    )
  })
})

describe('exit sides', () => {
  it('hold for every net that an entry means; the last word on a net counts', async () => {
    const { exitSides } = await wishesOf([
      'sides:',
      '  - {group: byte 0, side: left}',
      '  - {class: serial, side: right}',
      '  - {match: "DQ?", side: bottom}',
      '  - {name: DQ3, side: top}',
    ])
    expect(Object.fromEntries(exitSides)).toEqual({
      ...Object.fromEntries(BYTE.map((name) => [name, 'bottom'])),
      DQ3: 'top',
      DQS_P: 'left',
      DQS_N: 'left',
      TX0_P: 'right',
      TX0_N: 'right',
    })
  })

  it.each([
    [
      ['sides:', '  - {class: strobe, side: left}', '  - {name: DQS_P, side: top}'],
      'sides[1]',
      'packages[0].escape.sides[1] parts a pair of U1, whose nets stay together only through one side: DQS_P (top) and DQS_N (left).',
    ],
    [
      ['sides:', '  - {match: "*_P", side: left}', '  - {match: "*_N", side: right}'],
      'sides[1]',
      'packages[0].escape.sides[1] parts 2 pairs of U1, whose nets stay together only through one side: the first is DQS_N (right) and DQS_P (left).',
    ],
  ])('that part a pair are warned of, once: %j', async (lines, place, message) => {
    const found = await problemsOf(lines)
    expect(found).toEqual([{ severity: 'warning', place, message, line: lines.at(-1)?.trim() }])
  })

  it('hold for both nets of a pair where an entry means one of them', async () => {
    const lines = ['sides:', '  - {match: "*_P", side: left}', '  - {name: TX0_N, side: top}']
    const { exitSides } = await wishesOf(lines.slice(0, 2))
    expect(Object.fromEntries(exitSides)).toEqual({
      ...{ DQS_P: 'left', DQS_N: 'left' },
      ...{ TX0_P: 'left', TX0_N: 'left' },
    })
    // What is said of the other net itself counts more.
    const parted = await wishesOf(lines)
    expect(Object.fromEntries(parted.exitSides)).toEqual({
      ...{ DQS_P: 'left', DQS_N: 'left' },
      ...{ TX0_P: 'left', TX0_N: 'top' },
    })
  })

  it('may be given twice to a pair as long as both nets end up on one', async () => {
    const lines = ['sides:', '  - {name: DQS_P, side: left}', '  - {class: strobe, side: top}']
    expect(await problemsOf(lines)).toEqual([])
  })
})

describe('keep-outs', () => {
  it('lie on the layers they name, else on all signal layers', async () => {
    const { keepOuts } = await wishesOf([
      'keep_outs:',
      '  - {name: C12, layers: [L6, 1], from: [0 mm, 0 mm], to: [1 mm, 0.5 mm]}',
      '  - {name: C13, from: [0 mm, 0 mm], to: [1 mm, 0.5 mm]}',
    ])
    expect(keepOuts.map(({ name, layers }) => [name, layers])).toEqual([
      ['C12', [6, 1]],
      ['C13', [1, 3, 6, 8]],
    ])
  })

  it('are in metres, and the same from any two opposite corners', async () => {
    const corners = [
      'from: [-1 mm, 10 mil], to: [2 mm, 1 mm]',
      'from: [2 mm, 1 mm], to: [-1 mm, 10 mil]',
      'from: [-1 mm, 1 mm], to: [2 mm, 10 mil]',
      'from: [2 mm, 10 mil], to: [-1 mm, 1 mm]',
    ]
    const { keepOuts } = await wishesOf([
      'keep_outs:',
      ...corners.map((text, index) => `  - {name: C${index}, ${text}}`),
    ])
    expect(keepOuts).toHaveLength(4)
    for (const { low, high } of keepOuts) {
      expect([low.x, low.y, high.x, high.y]).toEqual([-1e-3, 0.254e-3, 2e-3, 1e-3])
    }
  })

  // The balls of the example reach 3.5 pitches of 0.8 mm from the middle, 2.8 mm; one pitch further is 3.6 mm.
  it('are warned of where they lie beside the breakout, most likely in the frame of the board', async () => {
    const line = (x: string): string => `keep_outs: [{name: C12, from: [${x}, 0 mm], to: [4 mm, 1 mm]}]`
    expect(await problemsOf([line('3.55 mm')])).toEqual([])
    expect(await problemsOf([line('3.65 mm')])).toEqual([
      {
        severity: 'warning',
        place: 'keep_outs[0]',
        message:
          "Keep-out C12 lies beside the breakout of U1, whose balls reach from -2.800 mm, -2.800 mm to 2.800 mm, 2.800 mm in the package's own frame; it has no effect.",
        line: line('3.65 mm'),
      },
    ])
  })
})

describe('groups that are kept apart', () => {
  it('are named by two match groups and a gap', async () => {
    const { apart } = await wishesOf(['apart: [{groups: [byte 0, byte 1], gap: 0.3 mm}]'], [SECOND_BYTE])
    expect(apart).toEqual([{ groups: ['byte 0', 'byte 1'], gap: 0.3e-3 }])
  })
})

describe('a mistake in the wishes gets one message, at its line:', () => {
  it.each<[string, string[], string, string]>([
    ['an unknown layer', ['layers: [L1, L9]'], 'layers[1]', 'Unknown layer L9; the stackup has L1 … L8.'],
    [
      'a plane',
      ['layers: [L1, L2]'],
      'layers[1]',
      'Layer L2 is a plane and carries no traces; signal layers are L1, L3, L6, L8.',
    ],
    [
      'a layer twice',
      ['layers: [L3, L1, 3]'],
      'layers[2]',
      'packages[0].escape.layers names layer L3 twice.',
    ],
    ['no layer at all', ['layers: []'], 'layers', 'at least 1 in the list'],
    [
      'an unknown key of an entry',
      ['priority: [{clas: data}]'],
      'priority[0].clas',
      'There is no key "clas" here; did you mean "class"?',
    ],
    [
      'a number for a name',
      ['sides: [{name: 5, side: top}]'],
      'sides[0].name',
      'allowed: a text; in quotes, "5"',
    ],
    ['a number for a pattern', ['priority: [5]'], 'priority[0]', 'in quotes, "5"'],
    [
      'two ways to mean nets',
      ['priority: [{match: "DQ*", class: data}]'],
      'priority[0]',
      'An entry says which nets it means by one of match, name, class or group; packages[0].escape.priority[0] has match and class.',
    ],
    [
      'no way to mean nets',
      ['sides: [{side: top}]'],
      'sides[0]',
      'packages[0].escape.sides[0] has none of them.',
    ],
    [
      'a net that no ball has',
      ['priority: [{name: DQ9}]'],
      'priority[0].name',
      'No ball of U1 has the net DQ9; did you mean "DQ0"?',
    ],
    [
      'a supply',
      ['sides: [{name: VDD, side: top}]'],
      'sides[0].name',
      'Net VDD is no signal; only signals are taken out of U1 one by one.',
    ],
    [
      'an unknown class',
      ['priority: [{class: dat}]'],
      'priority[0].class',
      'Unknown class "dat"; the description has data, strobe, serial, unclassified; did you mean "data"?',
    ],
    [
      'an unknown group',
      ['sides: [{group: lane 7, side: top}]'],
      'sides[0].group',
      'Unknown match group "lane 7"; the description has byte 0.',
    ],
    ['layers that are neither', ['priority_layers: middle'], 'priority_layers', 'shallow or deep'],
    [
      'an unknown side',
      ['sides: [{match: "DQ*", side: north}]'],
      'sides[0].side',
      'top, bottom, left or right',
    ],
    ['a net without its side', ['sides: [{match: "DQ*"}]'], 'sides[0].side', 'missing'],
    [
      'a keep-out without a name',
      ['keep_outs: [{from: [0 mm, 0 mm], to: [1 mm, 1 mm]}]'],
      'keep_outs[0].name',
      'missing',
    ],
    [
      'a corner without a unit',
      ['keep_outs: [{name: C12, from: [0 mm, 1], to: [1 mm, 2 mm]}]'],
      'keep_outs[0].from[1]',
      'the unit must be said',
    ],
    [
      'a corner of three coordinates',
      ['keep_outs: [{name: C12, from: [0 mm, 1 mm, 2 mm], to: [1 mm, 2 mm]}]'],
      'keep_outs[0].from',
      'at most 2 in the list',
    ],
    [
      'corners that coincide',
      ['keep_outs: [{name: C12, from: [1 mm, 1 mm], to: [1 mm, 1 mm]}]'],
      'keep_outs[0].to',
      'The two corners of keep-out C12 coincide.',
    ],
    [
      'corners above each other',
      ['keep_outs: [{name: C12, from: [0.3 mm, 1 mm], to: [0.1 mm + 0.2 mm, 2 mm]}]'],
      'keep_outs[0].to',
      'Keep-out C12 has no area: both corners lie at x = 0.300 mm.',
    ],
    [
      'a keep-out on a plane',
      ['keep_outs: [{name: C12, layers: [L5], from: [0 mm, 0 mm], to: [1 mm, 2 mm]}]'],
      'keep_outs[0].layers[0]',
      'Layer L5 is a plane',
    ],
    ['a negative gap', ['apart: [{groups: [byte 0, byte 1], gap: -0.3 mm}]'], 'apart[0].gap', 'above zero'],
    ['a gap of nothing', ['apart: [{groups: [byte 0, byte 1], gap: 0 mm}]'], 'apart[0].gap', 'above zero'],
    ['one group', ['apart: [{groups: [byte 0], gap: 0.3 mm}]'], 'apart[0].groups', 'at least 2 in the list'],
    [
      'the same group twice',
      ['apart: [{groups: [byte 0, byte 0], gap: 0.3 mm}]'],
      'apart[0].groups[1]',
      'packages[0].escape.apart[0].groups names "byte 0" twice; a gap is kept between two groups.',
    ],
    [
      'an unknown group to keep apart',
      ['apart: [{groups: [byte 0, byte 9], gap: 0.3 mm}]'],
      'apart[0].groups[1]',
      'Unknown match group "byte 9"; the description has byte 0, byte 1',
    ],
    [
      'an unknown wish',
      ['keep_out: []'],
      'keep_out',
      'There is no key "keep_out" here; did you mean "keep_outs"?',
    ],
  ])('%s', async (_, lines, place, message) => {
    const changes = lines[0]?.startsWith('apart') === true ? [SECOND_BYTE] : []
    // Something right before it, so that the line is not that of the group.
    const found = await problemsOf(
      ['layers: [L1, L8, L3]', ...lines].slice(lines[0]?.startsWith('layers') === true ? 1 : 0),
      changes,
    )
    expect(found).toEqual([
      { severity: 'error', place, message: expect.stringContaining(message) as string, line: lines[0] },
    ])
  })

  it('the same two groups twice, in either order', async () => {
    const lines = [
      'apart:',
      '  - {groups: [byte 0, byte 1], gap: 0.3 mm}',
      '  - {groups: [byte 1, byte 0], gap: 0.4 mm}',
    ]
    expect(await problemsOf(lines, [SECOND_BYTE])).toEqual([
      {
        severity: 'error',
        place: 'apart[1].groups',
        message:
          'The gap between "byte 1" and "byte 0" is given twice, here and in packages[0].escape.apart[0].',
        line: '- {groups: [byte 1, byte 0], gap: 0.4 mm}',
      },
    ])
  })
})

describe('a wish that has no effect is warned of, at its line:', () => {
  it.each<[string, string, string, string]>([
    [
      'a pattern that fits no net',
      'priority: [RESET, "XY*"]',
      'priority[1]',
      'The pattern "XY*" fits no signal net of U1.',
    ],
    [
      'a pattern of a side that fits no net',
      'sides: [{match: "VDD*", side: top}]',
      'sides[0].match',
      'The pattern "VDD*" fits no signal net of U1.',
    ],
    [
      'a class without nets here',
      'priority: [{class: spare}]',
      'priority[0].class',
      'No signal net of U1 is in the class "spare".',
    ],
    [
      'a group without nets here',
      'sides: [{group: elsewhere, side: top}]',
      'sides[0].group',
      'No signal net of U1 is in the match group "elsewhere".',
    ],
    [
      'a group without nets here to keep apart',
      'apart: [{groups: [byte 0, elsewhere], gap: 0.3 mm}]',
      'apart[0].groups[1]',
      'No signal net of U1 is in the match group "elsewhere".',
    ],
    [
      'nets that are all named before',
      'priority: ["DQ*", {name: DQ3}]',
      'priority[1]',
      'packages[0].escape.priority[1] has no effect: entries before it name all its nets, and the first counts.',
    ],
    [
      'layers for priority without nets of priority',
      'priority_layers: deep',
      'priority_layers',
      'packages[0].escape.priority_layers is deep, but U1 has no nets of priority that it could speak of.',
    ],
  ])('%s', async (_, line, place, message) => {
    const found = await problemsOf(
      [line],
      [
        [
          '  - {name: serial, interface: pcie-gen3}',
          '  - {name: serial, interface: pcie-gen3}\n  - {name: spare, interface: generic-slow}',
        ],
        [
          '\nclasses:',
          '  - {name: U2, grid: {rows: 2, columns: 2, pitch: 1 mm}, nets: {A1: OTHER}}\n\nclasses:',
        ],
        ['\nclaims:', '  - {name: OTHER, group: elsewhere}\n\nclaims:'],
      ],
    )
    expect(found).toEqual([{ severity: 'warning', place, message, line }])
  })
})

describe('all mistakes are reported at once', () => {
  it('across the wishes, and beside those of the rest of the board', async () => {
    const found = await problemsOf(
      [
        'layers: [L1, L12]',
        'priority: [{name: DQ9}]',
        'sides: [{class: dat, side: top}]',
        'keep_outs: [{name: C12, from: [1 mm, 1 mm], to: [1 mm, 1 mm]}]',
        'apart: [{groups: [byte 0, byte 0], gap: 1 mm}]',
      ],
      [['length: 42 mm', 'length: 42 mm, exit_layer: L2']],
    )
    expect(found.map(({ place }) => place)).toEqual([
      ...['layers[1]', 'priority[0].name', 'sides[0].class', 'keep_outs[0].to', 'apart[0].groups[1]'],
      'nets[2].exit_layer',
    ])
  })

  it('even where the package itself cannot be used, as far as they can be told', async () => {
    const found = await problemsOf(
      ['layers: [L2]', 'priority: ["DQ*", {class: dat}, {name: DQ9}]'],
      [['grid: {rows: 8, columns: 8, pitch: 0.8 mm}', 'grid: {rows: 8, columns: 8}']],
    )
    const errors = found.filter(({ severity }) => severity === 'error').map(({ place }) => place)
    expect(errors).toEqual(['packages[0].grid.pitch', 'layers[0]', 'priority[1].class'])
    expect(found.map(({ place }) => place)).not.toContain('priority[0]')
  })
})
