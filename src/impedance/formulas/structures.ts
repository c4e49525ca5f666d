import type { CrossSection } from '../../section/crossSection.ts'

/** Which closed forms of a single trace answer for a section; every single trace is exactly one of these. */

/** On the surface: no mask, no ground beside it. */
export function isBareMicrostrip(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap === null && surface(section) && section.mask === null
}

/** On the surface under mask, no ground beside it. */
export function isCoatedMicrostrip(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap === null && surface(section) && section.mask !== null
}

/** One plane, dielectric above the trace, no ground beside it. */
export function isEmbeddedMicrostrip(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap === null && buried(section)
}

/** Two planes, no ground beside it. */
export function isSingleStripline(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap === null && section.structure === 'stripline'
}

/** Ground beside it, on the surface, no mask. */
export function isBareCoplanar(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap !== null && surface(section) && section.mask === null
}

/** Ground beside it, on the surface under mask. */
export function isCoatedCoplanar(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap !== null && surface(section) && section.mask !== null
}

/** Ground beside it, one plane, dielectric above. */
export function isEmbeddedCoplanar(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap !== null && buried(section)
}

/** Ground beside it, two planes. */
export function isCoplanarStripline(section: CrossSection): boolean {
  return isSingle(section) && section.coplanarGap !== null && section.structure === 'stripline'
}

function isSingle(section: CrossSection): boolean {
  return section.arrangement === 'single'
}

function surface(section: CrossSection): boolean {
  return section.structure === 'microstrip' && section.above.length === 0
}

function buried(section: CrossSection): boolean {
  return section.structure === 'microstrip' && section.above.length > 0
}
