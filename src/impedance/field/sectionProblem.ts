import type { CrossSection } from '../../section/crossSection.ts'
import { pictureProblem } from './picture.ts'
import { type RelativePermittivity, sceneOf, scenePicture, sideReach } from './scene.ts'
import type { FieldProblem } from './wall.ts'

export type { RelativePermittivity } from './scene.ts'

/** Boundaries of the right half of a cross-section between unbroken planes. */
export function sectionProblem(section: CrossSection, relative: RelativePermittivity): FieldProblem {
  const scene = sceneOf(section, relative)
  const width = Math.max(...scene.bumps.map((bump) => (bump.endless ? bump.lowLeft : bump.lowRight)))
  return pictureProblem(scenePicture(scene, { left: 0, right: sideReach(scene) + width }))
}
