import { formatLength, formatNumber, formatPercent } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import { suggestion } from '../nearestWord.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { AnnularRing, Fabrication, OuterInner } from '../fabrication.ts'
import type { FabricationText } from '../schema/fabricationSchema.ts'
import { CAPABILITY_NAMES, capabilityClass, type CapabilityClass } from './capabilityClasses.ts'

/** The class taken where none is stated. */
const DEFAULT_CLASS = 'standard'

export interface FabricationReading {
  readonly fabrication: Fabrication
  readonly capability: CapabilityClass
}

/**
 * Limits of the fabricator: as described, and what is left out from the capability class. With a
 * stated class its published values count as stated; those without a source, and all of them where
 * the class itself is a guess, are noted as assumed.
 */
export function completeFabrication(
  text: FabricationText | null,
  context: ReadingContext,
): Completed<FabricationReading> {
  const notes = new Notes(context)
  const described = text ?? {}
  const capability = chooseClass(described, notes)
  const fill = new Filling(described, capability, notes)
  const fabrication: Fabrication = {
    className: capability.name,
    source: described.source ?? capability.source,
    date: described.date ?? capability.date,
    traceWidth: fill.sides('trace_width', 'smallest trace width'),
    traceGap: fill.sides('trace_gap', 'smallest gap between traces'),
    traceToPad: fill.sides('trace_to_pad', 'smallest gap from trace to pad'),
    maskOpeningToTrace: fill.length('mask_opening_to_trace', 'mask opening to trace'),
    drillToCopper: fill.length('drill_to_copper', 'hole wall to copper of another net'),
    holeWallToHoleWall: fill.length('hole_to_hole', 'hole wall to hole wall'),
    annularRing: annularRing(described, capability, fill),
    aspectRatio: aspectRatio(described, capability, fill),
    maxStackedMicrovias: fill.number('stacked_microvias', 'microvias stacked on each other', String),
    registration: fill.length('registration', 'layer-to-layer misregistration'),
    widthTolerance: fill.number('width_tolerance', 'tolerance of the trace width', percent),
    widthToleranceFloor: fill.length('width_tolerance_floor', 'least tolerance of the trace width'),
    impedanceTolerance: fill.number('impedance_tolerance', 'tolerance of the impedance', percent),
    minDielectric: fill.length('minimum_dielectric', 'thinnest dielectric'),
    maskWeb: fill.length('mask_web', 'narrowest web of mask'),
    drawnWidthExcess: fill.length('drawn_width_excess', 'drawn width less finished width'),
    assumed: notes.assumptions,
  }
  return notes.keep({ fabrication, capability })
}

const percent = (value: number): string => `± ${formatPercent(value, 0)}`

function chooseClass(text: FabricationText, notes: Notes): CapabilityClass {
  const wanted = text.class ?? DEFAULT_CLASS
  const found = capabilityClass(wanted)
  if (text.class === undefined) {
    notes.assume(
      ['fabrication', 'class'],
      'capability class',
      DEFAULT_CLASS,
      'common practice, no source: no class is stated',
    )
  }
  if (found !== null) return found
  notes.error(['fabrication', 'class'], {
    found: `"${wanted}"`,
    allowed: CAPABILITY_NAMES.join(', '),
    message: `Unknown capability class "${wanted}"; there are ${CAPABILITY_NAMES.join(', ')}${suggestion(wanted, CAPABILITY_NAMES) || '.'}`,
  })
  const fallback = capabilityClass(DEFAULT_CLASS)
  if (fallback === null) throw new RangeError(`there is no capability class ${DEFAULT_CLASS}`)
  return fallback
}

type LengthKey = {
  [K in keyof FabricationText]-?: NonNullable<FabricationText[K]> extends number ? K : never
}[keyof FabricationText]
type SidesKey = 'trace_width' | 'trace_gap' | 'trace_to_pad'

/** Takes each value from the description, else from the class. */
class Filling {
  readonly #text: FabricationText
  readonly #capability: CapabilityClass
  readonly #notes: Notes

  constructor(text: FabricationText, capability: CapabilityClass, notes: Notes) {
    this.#text = text
    this.#capability = capability
    this.#notes = notes
  }

  length(key: LengthKey, words: string): Metres {
    return this.number(key, words, this.print)
  }

  number(key: LengthKey, words: string, print: (value: number) => string): number {
    const stated = this.#text[key]
    return stated ?? this.fromClass([key], words, present(this.#capability.limits[key], key), print)
  }

  sides(key: SidesKey, words: string): OuterInner {
    const stated = bothSides(this.#text[key])
    const base = bothSides(this.#capability.limits[key])
    const side = (name: 'outer' | 'inner'): Metres =>
      stated[name] ??
      this.fromClass([key, name], `${words}, ${name} layers`, present(base[name], key), this.print)
    return { outer: side('outer'), inner: side('inner') }
  }

  fromClass(keys: readonly string[], words: string, value: number, print: (value: number) => string): number {
    const { sources, source: general } = this.#capability
    const source = sources[keys.join('.')] ?? sources[keys[0] ?? ''] ?? general
    const unsourced = /common practice|from memory/.test(source)
    if (this.#text.class === undefined || unsourced) {
      this.#notes.assume(
        ['fabrication', ...keys],
        words,
        print(value),
        `class ${this.#capability.name}: ${source}`,
      )
    }
    return value
  }

  readonly print = (value: Metres): string => formatLength(value, this.#notes.context.displayUnit)
}

function bothSides(value: FabricationText[SidesKey]): {
  outer?: number | undefined
  inner?: number | undefined
} {
  return typeof value === 'number' ? { outer: value, inner: value } : (value ?? {})
}

function annularRing(
  text: FabricationText,
  { limits, sources }: CapabilityClass,
  fill: Filling,
): AnnularRing {
  const [stated, base] = [text.annular_ring ?? {}, limits.annular_ring ?? {}]
  const given = stated.external !== undefined || stated.internal !== undefined
  return {
    ipcClass: stated.ipc_class ?? present(base.ipc_class, 'annular_ring.ipc_class'),
    external:
      stated.external ??
      fill.fromClass(
        ['annular_ring', 'external'],
        'annular ring outside',
        present(base.external, 'external'),
        fill.print,
      ),
    internal:
      stated.internal ??
      fill.fromClass(
        ['annular_ring', 'internal'],
        'annular ring inside',
        present(base.internal, 'internal'),
        fill.print,
      ),
    source: stated.source ?? (given ? 'as stated in the description' : (sources['annular_ring'] ?? 'none')),
  }
}

function aspectRatio(
  text: FabricationText,
  { limits }: CapabilityClass,
  fill: Filling,
): Fabrication['aspectRatio'] {
  const [stated, base] = [bothRatios(text.aspect_ratio), bothRatios(limits.aspect_ratio)]
  const ratio = (name: 'drilled' | 'microvia', words: string): number =>
    stated[name] ??
    fill.fromClass(['aspect_ratio', name], words, present(base[name], name), (value) =>
      formatNumber(value, 2),
    )
  return {
    drilled: ratio('drilled', 'depth over diameter of drilled holes'),
    microvia: ratio('microvia', 'depth over diameter of microvias'),
  }
}

/** One number speaks for drilled holes; microvias have a limit of their own. */
function bothRatios(value: FabricationText['aspect_ratio']): {
  drilled?: number | undefined
  microvia?: number | undefined
} {
  return typeof value === 'number' ? { drilled: value } : (value ?? {})
}

function present<T>(value: T | undefined, key: string): T {
  if (value === undefined) throw new RangeError(`capability class has no ${key}`)
  return value
}
