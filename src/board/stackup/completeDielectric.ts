import { formatLength, formatPercent } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import { suggestion } from '../nearestWord.ts'
import { Notes, type Completed, type ReadingContext } from '../notes.ts'
import type { CoreText, PrepregText } from '../schema/stackupSchema.ts'
import type { CopperLayer, DielectricLayer, Ply } from '../stackup.ts'
import { completePermittivity } from './completePermittivity.ts'
import {
  ASSUMED_COVERAGE,
  assumedThicknessTolerance,
  GLASS_STYLES,
  laminateValues,
  plyThickness,
} from './laminates.ts'
import { pressedThickness, type EmbeddedCopper } from './pressedThickness.ts'

export type DielectricText =
  | { readonly type: 'core'; readonly name: string; readonly text: CoreText }
  | { readonly type: 'prepreg'; readonly name: string; readonly text: PrepregText }

export interface DielectricPlace {
  readonly path: Path
  readonly above: CopperLayer
  readonly below: CopperLayer
}

/** A core or prepreg as described, with pressed thickness, permittivity and tolerances filled in. */
export function completeDielectric(
  described: DielectricText,
  place: DielectricPlace,
  context: ReadingContext,
): Completed<DielectricLayer | null> {
  const notes = new Notes(context)
  const { type, name, text } = described
  const { path } = place
  const plies = pliesOf(described, path, notes)
  const pressed = thicknessOf(described, plies, place, notes)
  if (pressed === null) return notes.complete<DielectricLayer>(null)
  const styles = plies.map((ply) => ply.style)
  const value: DielectricLayer = {
    kind: 'dielectric',
    name,
    type,
    material: text.material ?? null,
    ...pressed,
    plies,
    permittivity: completePermittivity(
      text,
      name,
      laminateValues(text.material ?? null, styles),
      path,
      notes,
    ),
    thicknessTolerance:
      text.thickness_tolerance ?? assumedTolerance(described, pressed.thickness, path, notes),
    assumed: notes.assumptions,
  }
  return notes.complete(value)
}

function pliesOf({ text, name }: DielectricText, path: Path, notes: Notes): Ply[] {
  return (text.plies ?? []).flatMap(({ style, count = 1, thickness }, index): Ply[] => {
    if (thickness !== undefined) return [{ style, count, thickness }]
    const known = plyThickness(style)
    const place = [...path, 'plies', index, 'thickness']
    if (known === null) {
      notes.error(place, {
        found: `no thickness, and no glass style "${style}" in the table`,
        allowed: `a thickness, or one of ${GLASS_STYLES.join(', ')}`,
        message: `A ply of ${name} needs its thickness: glass style "${style}" is not in the table${suggestion(style, GLASS_STYLES) || '.'}`,
      })
      return []
    }
    const shown = formatLength(known.value, notes.context.displayUnit)
    notes.assume(place, `thickness of one ply of ${style} in ${name}`, shown, known.source)
    return [{ style, count, thickness: known.value }]
  })
}

type Thickness = Pick<DielectricLayer, 'thickness' | 'thicknessBasis'>

function thicknessOf(
  described: DielectricText,
  plies: readonly Ply[],
  place: DielectricPlace,
  notes: Notes,
): Thickness | null {
  const { text, name, type } = described
  if (text.thickness !== undefined) return { thickness: text.thickness, thicknessBasis: 'pressed, as stated' }
  if (text.plies === undefined || text.plies.length === 0) {
    notes.error([...place.path, 'thickness'], {
      found: 'missing',
      allowed: 'the pressed thickness, or the plies',
      message: `Dielectric ${name} has neither thickness nor plies.`,
    })
    return null
  }
  if (plies.length < text.plies.length) return null
  const embedded = type === 'core' ? [] : embeddedCopper(described.text, name, place, notes)
  const thickness = pressedThickness(plies, embedded)
  const unit = notes.context.displayUnit
  if (!(thickness > 0)) {
    notes.error([...place.path, 'plies'], {
      found: `plies whose resin does not fill the copper: ${formatLength(thickness, unit)} left`,
      allowed: 'more or thicker plies, or thinner copper',
      message: `Nothing of ${name} is left after pressing: its resin goes into the gaps of the copper, ${formatLength(Math.abs(thickness), unit)} short.`,
    })
    return null
  }
  return { thickness, thicknessBasis: basisOf(plies, embedded, unit) }
}

function basisOf(plies: readonly Ply[], embedded: readonly EmbeddedCopper[], unit: 'mm' | 'mil'): string {
  const sheets = plies
    .map((ply) => `${ply.count} × ${ply.style} (${formatLength(ply.thickness, unit)})`)
    .join(' + ')
  const fill = embedded.reduce((sum, { thickness, coverage }) => sum + thickness * (1 - coverage), 0)
  return fill > 0 ? `${sheets}, less ${formatLength(fill, unit)} of resin that fills the copper` : sheets
}

/** The neighbours that stand in this prepreg: those bonded to their other side. */
function embeddedCopper(
  text: PrepregText | CoreText,
  name: string,
  place: DielectricPlace,
  notes: Notes,
): EmbeddedCopper[] {
  const stated = 'coverage' in text ? text.coverage : undefined
  return (['above', 'below'] as const).flatMap((side): EmbeddedCopper[] => {
    const copper = place[side]
    const towardsThis = side === 'above' ? 'below' : 'above'
    if (copper.bondedTo === towardsThis) return []
    const coverage = stated?.[side] ?? assumedCoverage(copper, name, [...place.path, 'coverage', side], notes)
    return [{ thickness: copper.thickness, coverage }]
  })
}

function assumedCoverage(copper: CopperLayer, name: string, path: Path, notes: Notes): number {
  const { value, source } = ASSUMED_COVERAGE[copper.role]
  notes.assume(
    path,
    `share of copper on ${copper.name}, which ${name} fills`,
    formatPercent(value, 0),
    source,
  )
  return value
}

function assumedTolerance(
  { type, name }: DielectricText,
  thickness: Metres,
  path: Path,
  notes: Notes,
): number {
  const { value, source } = assumedThicknessTolerance(type, thickness)
  notes.assume(
    [...path, 'thickness_tolerance'],
    `tolerance of the thickness of ${name}`,
    `± ${formatPercent(value)}`,
    source,
  )
  return value
}
