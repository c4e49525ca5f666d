import { formatFrequency, formatNumber } from '../../units/format.ts'
import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'

/** What the description leaves out is marked wherever its value is printed, drawings included. */
const MARK = ' (assumed)'

/** `permittivity 3.70 at 1 GHz (assumed)`. */
export function permittivityText(
  { permittivity, name }: Pick<DielectricSheet, 'permittivity'> & { readonly name: string | null },
  section: CrossSection,
): string {
  const figure = `permittivity ${formatNumber(permittivity.relative)} at ${formatFrequency(permittivity.frequency)}`
  return name !== null && assumes(section, `relative permittivity of ${name}`) ? figure + MARK : figure
}

/** Behind the width at the top, which follows from foot, thickness and side wall. */
export function sideWallMark(section: CrossSection): string {
  return assumes(section, `side wall of ${section.layerName}`) ? ' (side wall assumed)' : ''
}

function assumes(section: CrossSection, quantity: string): boolean {
  return section.assumed.some((each) => each.quantity === quantity)
}
