import { formatFrequency } from '../../units/format.ts'
import type { LengthUnit } from '../../units/quantity.ts'
import type { LineImpedance } from '../../impedance/estimate.ts'
import type { FieldPicture } from '../../impedance/field/fieldPicture.ts'
import { lineSection, lineSectionTexts } from '../figures/lineSection.ts'
import { neckSection } from '../figures/neckSection.ts'
import { figure } from '../viewModel/section.ts'
import type { Figure } from '../viewModel/section.ts'

const ID = 'line-section'

/** The section of a line with its field, or, where the field has no picture, the section alone. */
export function lineFigure(
  { section, frequency }: LineImpedance,
  picture: FieldPicture | null,
  unit: LengthUnit,
): Figure {
  const title = `Section of the line on ${section.layerName}`
  const derived = `The section as derived from the stackup: ${section.structure}, ${section.arrangement}. To scale.`
  if (picture === null) return figure(ID, derived, neckSection({ id: ID, section, title, unit }))
  const mode =
    section.arrangement === 'single'
      ? 'lines of equal potential every 10 % of the trace’s voltage'
      : 'lines of equal potential every 10 % of a trace’s voltage, the other trace at the opposite'
  const spec = { id: ID, section, picture, title, unit }
  return figure(
    ID,
    `${derived} Field solution by boundary elements, ${picture.unknowns} unknowns, permittivities taken at ${formatFrequency(frequency)}: ${mode}.`,
    lineSection(spec),
    lineSectionTexts(spec),
  )
}
