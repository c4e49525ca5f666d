import type { CrossSection } from '../../section/crossSection.ts'

/** Which closed forms of a pair answer for a section; every pair is exactly one of these, with or without ground beside it. */

/** Edge to edge on the surface, no mask. */
export function isBarePair(section: CrossSection): boolean {
  return isEdgePair(section) && surface(section) && section.mask === null
}

/** Edge to edge on the surface under mask. */
export function isCoatedPair(section: CrossSection): boolean {
  return isEdgePair(section) && surface(section) && section.mask !== null
}

/** Edge to edge under dielectric with one plane. */
export function isEmbeddedPair(section: CrossSection): boolean {
  return isEdgePair(section) && section.structure === 'microstrip' && section.above.length > 0
}

/** Edge to edge between two planes. */
export function isStriplinePair(section: CrossSection): boolean {
  return isEdgePair(section) && section.structure === 'stripline'
}

/** Face to face between two planes. */
export function isBroadsidePair(section: CrossSection): boolean {
  return section.arrangement === 'broadside pair'
}

export function hasGroundBeside(section: CrossSection): boolean {
  return section.coplanarGap !== null
}

function isEdgePair(section: CrossSection): boolean {
  return section.arrangement === 'edge pair'
}

function surface(section: CrossSection): boolean {
  return section.structure === 'microstrip' && section.above.length === 0
}
