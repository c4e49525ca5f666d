import { formatBitRate, formatLength, formatOhms, formatPercent, formatTime } from '../../units/format.ts'
import type { Path } from '../document/path.ts'
import type { Fabrication } from '../fabrication.ts'
import { suggestion } from '../nearestWord.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { DataRate, Edge, NetClass } from '../nets.ts'
import type { ClassText } from '../schema/classSchema.ts'
import type { Part } from '../schema/readPart.ts'
import { dataRateOf, EDGE_FROM_RATE_SOURCE, edgeFromRate, edgeOf } from './edges.ts'
import { INTERFACE_NAMES, interfacePreset, structuresOf, type Preset } from './interfaces.ts'

/** Class of the nets that no entry gives one. */
export const UNCLASSIFIED = 'unclassified'

/** Net classes that can be used, with what their interface and common practice give for the rest. */
export function completeClasses(
  parts: readonly Part<ClassText>[],
  fabrication: Fabrication,
  context: ReadingContext,
): Completed<NetClass[]> {
  const notes = new Notes(context)
  const classes = parts.flatMap(({ text, path }) => {
    const netClass = text === null ? null : notes.include(completeClass(text, path, fabrication, context))
    return netClass === null ? [] : [netClass]
  })
  return notes.keep(classes)
}

/** Single 50 ohm, ± 10 %, edge 1 ns: what a net gets that no class is given for. */
export function unclassified(fabrication: Fabrication, context: ReadingContext): Completed<NetClass | null> {
  return completeClass({ name: UNCLASSIFIED, interface: 'generic-slow' }, ['classes'], fabrication, context)
}

function completeClass(
  text: ClassText,
  path: Path,
  fabrication: Fabrication,
  context: ReadingContext,
): Completed<NetClass | null> {
  const notes = new Notes(context)
  const structure = structureOf(text, path, notes)
  const preset = presetOf(text, structure, path, notes)
  const fill = new ClassFilling(text, preset, path, notes)
  const target = fill.target()
  if (target === null) return notes.complete<NetClass>(null)
  const rate = fill.rate()
  return notes.complete({
    name: text.name,
    interface: text.interface ?? null,
    structure,
    target,
    tolerance: fill.take('tolerance', 'tolerance of the impedance', percent) ?? fill.tolerance(fabrication),
    edge: fill.edge(rate),
    dataRate: rate,
    neck: neckGeometry(text),
    main: mainRoute(text, structure, fabrication, path, notes),
    sourceImpedance: fill.end('source_impedance', 'source impedance', target),
    loadImpedance: fill.end('load_impedance', 'load impedance', target),
    neckAllowance: fill.allowance(),
    reflectionLimit: text.reflection_limit ?? null,
    pairSkewLimit: fill.take('pair_skew_limit', 'skew limit inside a pair', formatTime),
    groupSkewLimit: fill.take('group_skew_limit', 'skew limit inside a group', formatTime),
    assumed: notes.assumptions,
  })
}

function neckGeometry({ neck }: ClassText): NetClass['neck'] {
  return { width: neck?.width ?? null, gap: neck?.gap ?? null }
}

const percent = (value: number): string => `± ${formatPercent(value, 0)}`

function structureOf(text: ClassText, path: Path, notes: Notes): 'single' | 'pair' {
  if (text.structure !== undefined) return text.structure
  const [only, second] = structuresOf(text.interface ?? '')
  if (only !== undefined && second === undefined) return only
  notes.assume(
    [...path, 'structure'],
    `structure of class ${text.name}`,
    'single',
    'common practice, no source',
  )
  return 'single'
}

function presetOf(text: ClassText, structure: 'single' | 'pair', path: Path, notes: Notes): Preset | null {
  if (text.interface === undefined) return null
  const preset = interfacePreset(text.interface, structure)
  if (preset !== null) return preset
  const known = structuresOf(text.interface)
  const [other] = known
  notes.error([...path, 'interface'], {
    found: `"${text.interface}"`,
    allowed: other === undefined ? INTERFACE_NAMES.join(', ') : `structure: ${other}`,
    message:
      other === undefined
        ? `Unknown interface "${text.interface}" of class ${text.name}; there are ${INTERFACE_NAMES.join(', ')}${suggestion(text.interface, INTERFACE_NAMES) || '.'}`
        : `Interface ${text.interface} has no values for structure ${structure}, only for ${other}.`,
  })
  return null
}

/** Takes each value from the description, else from the interface, where it counts as assumed. */
class ClassFilling {
  readonly #text: ClassText
  readonly #preset: Preset | null
  readonly #path: Path
  readonly #notes: Notes

  constructor(text: ClassText, preset: Preset | null, path: Path, notes: Notes) {
    this.#text = text
    this.#preset = preset
    this.#path = path
    this.#notes = notes
  }

  take(
    key: 'target' | 'tolerance' | 'pair_skew_limit' | 'group_skew_limit',
    words: string,
    print: (value: number) => string,
  ): number | null {
    const stated = this.#text[key]
    if (stated !== undefined) return stated
    const preset = this.#preset?.values[key]
    if (preset === undefined) return null
    this.#assume(key, words, print(preset), this.#sourceOf(key))
    return preset
  }

  /** Length that the interface's guide allows; carries its source with it. */
  allowance(): NetClass['neckAllowance'] {
    return this.#text.neck_allowance ?? this.#preset?.values.neck_allowance ?? null
  }

  target(): number | null {
    const target = this.take('target', 'target impedance', formatOhms)
    if (target === null && (this.#text.interface === undefined || this.#preset !== null)) {
      this.#notes.error([...this.#path, 'target'], {
        found: 'missing',
        allowed: 'a target impedance, or the interface it follows from',
        message: `Class ${this.#text.name} has neither a target impedance nor an interface to take it from.`,
      })
    }
    return target
  }

  tolerance({ impedanceTolerance }: Fabrication): number {
    this.#assume(
      'tolerance',
      'tolerance of the impedance',
      percent(impedanceTolerance),
      'impedance tolerance of the fabricator',
    )
    return impedanceTolerance
  }

  rate(): DataRate | null {
    const { data_rate: stated, edge } = this.#text
    if (stated !== undefined) return dataRateOf(stated)
    const preset = this.#preset?.values.data_rate
    if (preset === undefined) return null
    const rate = dataRateOf(preset)
    const from = edge === undefined ? 'data rate, which gives the Nyquist frequency' : 'data rate'
    this.#assume('data_rate', from, formatBitRate(rate.bitRate), this.#sourceOf('data_rate'))
    return rate
  }

  /** As stated; else from a stated rate; else of the interface; else from its rate; else a slow one. */
  edge(rate: DataRate | null): Edge {
    const { edge: stated, data_rate: statedRate } = this.#text
    if (stated !== undefined) return edgeOf(stated)
    const preset = this.#preset?.values.edge
    if (preset !== undefined && statedRate === undefined) {
      const edge = edgeOf(preset)
      this.#assume('edge', 'edge', edge.basis, this.#sourceOf('edge'))
      return edge
    }
    const edge = rate === null ? SLOW_EDGE : edgeFromRate(rate)
    this.#assume(
      'edge',
      'edge',
      edge.basis,
      rate === null ? 'common practice, no source' : EDGE_FROM_RATE_SOURCE,
    )
    return edge
  }

  /** Of the driver or receiver; matched where it is not given. */
  end(key: 'source_impedance' | 'load_impedance', words: string, target: number): number {
    const stated = this.#text[key]
    if (stated !== undefined) return stated
    this.#assume(key, words, formatOhms(target), 'common practice: matched to the target')
    return target
  }

  #sourceOf(key: string): string {
    return `interface ${this.#preset?.interface ?? ''}: ${this.#preset?.sources[key] ?? 'no source'}`
  }

  #assume(key: string, words: string, value: string, source: string): void {
    this.#notes.assume([...this.#path, key], `${words} of class ${this.#text.name}`, value, source)
  }
}

const SLOW_EDGE: Edge = edgeOf(interfacePreset('generic-slow', 'single')?.values.edge ?? { rise: 1e-9 })

/** A pair's main gap is that of its neck, else the smallest that the fabricator makes on every layer. */
function mainRoute(
  { name, main = {}, neck = {} }: ClassText,
  structure: 'single' | 'pair',
  { traceGap }: Fabrication,
  path: Path,
  notes: Notes,
): NetClass['main'] {
  const route = {
    width: main.width ?? null,
    length: main.length ?? null,
    coplanarGap: main.coplanar_gap ?? null,
  }
  if (structure === 'single' || main.gap !== undefined) return { ...route, gap: main.gap ?? null }
  const gap = neck.gap ?? Math.max(traceGap.outer, traceGap.inner)
  const source =
    neck.gap === undefined ? 'smallest gap that the fabricator makes on every layer' : 'gap of the neck'
  notes.assume(
    [...path, 'main', 'gap'],
    `gap of the main route of class ${name}`,
    formatLength(gap, notes.context.displayUnit),
    source,
  )
  return { ...route, gap }
}
