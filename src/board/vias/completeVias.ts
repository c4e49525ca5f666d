import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import type { CapabilityClass } from '../fabrication/capabilityClasses.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import { referenceValue } from '../referenceValue.ts'
import type { Part } from '../schema/readPart.ts'
import type { ViaText } from '../schema/viaSchema.ts'
import type { LayerDirectory } from '../stackup/layerDirectory.ts'
import type { Backdrill, ViaType } from '../vias.ts'
import { viaAntipad } from './viaAntipad.ts'
import { viaHole } from './viaHole.ts'
import { viaPads } from './viaPads.ts'
import { viaSpan, type LayerSpan } from './viaSpan.ts'

/** What is taken for a back-drilled hole that is not described in full. */
const BACKDRILL_EXCESS = referenceValue('0.2 mm', 'length')
const BACKDRILL_STUB = referenceValue('0.2 mm', 'length')
const BACKDRILL_SOURCE = 'common practice, no source'

export interface ViaSurroundings {
  readonly layers: LayerDirectory
  readonly capability: CapabilityClass
}

/** Via types that can be used, with holes, pads and treatment filled in, and what is wrong with the others. */
export function completeVias(
  parts: readonly Part<ViaText>[],
  surroundings: ViaSurroundings,
  context: ReadingContext,
): Completed<ViaType[]> {
  const notes = new Notes(context)
  const vias = parts.flatMap(({ text, path }) => {
    const via = text === null ? null : notes.include(completeVia(text, path, surroundings, context))
    return via === null ? [] : [via]
  })
  return notes.keep(vias)
}

function completeVia(
  text: ViaText,
  path: Path,
  { layers, capability }: ViaSurroundings,
  context: ReadingContext,
): Completed<ViaType | null> {
  const notes = new Notes(context)
  const span = viaSpan(text, path, layers, notes)
  const hole = viaHole(text, path, notes)
  if (span === null || hole === null) return notes.complete<ViaType>(null)
  const drilled = hole.drilledDiameter
  const padDiameters = viaPads(text, { path, ...span, drilled, layers, capability }, notes)
  const unconnectedInnerPads = text.unconnected_inner_pads ?? assumedInnerPads(text, path, notes)
  const via: ViaType = {
    name: text.name,
    kind: text.kind,
    ...span,
    ...hole,
    padDiameters,
    unconnectedInnerPads,
    antipadDiameter: viaAntipad(
      text,
      { path, drilled, padDiameters, unconnectedInnerPads, capability },
      notes,
    ),
    backdrill: backdrill(text, drilled, path, notes),
    ...treatment(text, path, notes),
    arrangement: arrangement(text, span, path, notes),
    assumed: notes.assumptions,
  }
  return notes.complete(via)
}

function assumedInnerPads(text: ViaText, path: Path, notes: Notes): 'kept' {
  notes.assume(
    [...path, 'unconnected_inner_pads'],
    `inner pads of via "${text.name}" on layers where it is not connected`,
    'kept',
    'common practice, no source: the safe side, since kept pads leave less room',
  )
  return 'kept'
}

function backdrill(text: ViaText, drilled: Metres, path: Path, notes: Notes): Backdrill | null {
  if (text.backdrill === undefined) return null
  const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
  const place = [...path, 'backdrill']
  const { diameter, from, residual_stub: stub } = text.backdrill
  if (text.kind === 'microvia') {
    notes.error(place, {
      found: 'backdrill',
      allowed: 'no backdrill on a microvia',
      message: `Via "${text.name}" is a microvia, which leaves no stub to drill back.`,
    })
  }
  if (diameter !== undefined && !(diameter > drilled)) {
    notes.error([...place, 'diameter'], {
      found: print(diameter),
      allowed: `more than the drilled hole, ${print(drilled)}`,
      message: `The backdrill of via "${text.name}", ${print(diameter)}, is not larger than the hole it drills out, ${print(drilled)}.`,
    })
  }
  const assume = (key: string, words: string, value: string): void => {
    notes.assume([...place, key], `${words} via "${text.name}"`, value, BACKDRILL_SOURCE)
  }
  if (diameter === undefined) assume('diameter', 'backdrill diameter of', print(drilled + BACKDRILL_EXCESS))
  if (from === undefined) assume('from', 'side of the backdrill of', 'bottom')
  if (stub === undefined)
    assume('residual_stub', 'barrel left beyond the exit layer by the backdrill of', print(BACKDRILL_STUB))
  return {
    diameter: diameter ?? drilled + BACKDRILL_EXCESS,
    from: from ?? 'bottom',
    residualStub: stub ?? BACKDRILL_STUB,
  }
}

/** A via in a land is filled and capped, or solder runs into it. */
function treatment(text: ViaText, path: Path, notes: Notes): Pick<ViaType, 'inPad' | 'filled' | 'capped'> {
  const inPad = text.in_pad ?? false
  if (text.in_pad === undefined) assumeFlag('in_pad', 'in a land', false)
  if (text.filled === undefined) assumeFlag('filled', 'filled', inPad)
  if (text.capped === undefined) assumeFlag('capped', 'capped with copper', inPad)
  return { inPad, filled: text.filled ?? inPad, capped: text.capped ?? inPad }

  function assumeFlag(key: string, words: string, value: boolean): void {
    notes.assume(
      [...path, key],
      `via "${text.name}" ${words}`,
      value ? 'yes' : 'no',
      'common practice, no source',
    )
  }
}

/**
 * A microvia over several dielectrics is a ladder of holes of one dielectric each where it has an
 * arrangement, and one hole that skips a layer where it has none.
 */
function arrangement(text: ViaText, span: LayerSpan, path: Path, notes: Notes): ViaType['arrangement'] {
  if (text.arrangement !== undefined && text.kind !== 'microvia') {
    notes.error([...path, 'arrangement'], {
      found: `arrangement: ${text.arrangement} on a ${text.kind} via`,
      allowed: 'arrangement on microvias only',
      message: `Via "${text.name}" is ${text.kind}; only microvias are stacked or staggered.`,
    })
  }
  if (text.kind !== 'microvia') return null
  if (text.arrangement !== undefined) return text.arrangement
  if (span.lastLayer - span.firstLayer > 1) {
    notes.warn([...path, 'layers'], {
      found: 'one laser hole through two dielectrics',
      allowed: 'one dielectric, or an arrangement of several microvias',
      message: `Microvia "${text.name}" skips a layer in one hole, which few fabricators make; for two microvias say arrangement: stacked or staggered.`,
    })
    return null
  }
  notes.assume(
    [...path, 'arrangement'],
    `arrangement of microvia "${text.name}" with others`,
    'staggered',
    'common practice, no source',
  )
  return 'staggered'
}
