import type { CrossSection, DielectricSheet } from '../../section/crossSection.ts'
import type { PerforatedPlane, Surroundings } from '../../section/surroundings.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Bump } from './bump.ts'
import { type Body, pictureProblem } from './picture.ts'
import { type RelativePermittivity, type Scene, sceneOf, scenePicture, sideReach } from './scene.ts'
import { viaBody } from './viaBody.ts'
import type { Station } from './viaStations.ts'
import { GROUNDED, type FieldProblem } from './wall.ts'
import { webBodies } from './webBodies.ts'

/** Where no plane is behind, one is set this many channel widths away. */
const NOTHING_BEHIND = 5

/**
 * One cut across a channel: the trace or pair in its middle, planes with openings about the vias of both sides and of
 * the next channels, grounded barrels and pads beside it. Everything is taken as extruded along the trace.
 *
 * Conventions: an opening, and the space behind it as far as the next plane, is filled by the sheet that lies against
 * the plane on the trace's side; the plane behind is unbroken; where there is none, one is taken five channel widths
 * away; beyond the second opening on either side the plane is solid. A barrel reaches from the plane below, or the
 * one behind it where it passes an opening, to the one above, or to the face of the laminate; only those of this
 * channel are there. On an outer layer a pad is at least as wide as its barrel.
 */
export function breakoutProblem(
  section: CrossSection,
  surroundings: Surroundings,
  station: Station,
  relative: RelativePermittivity,
): FieldProblem {
  const { halfChannel } = surroundings
  const below = openPlane(surroundings.planeBelow, station.antipadBelow, halfChannel)
  const above = openPlane(surroundings.planeAbove, station.antipadAbove, halfChannel)
  const scene = sceneOf(
    { ...section, below: lengthened(section.below, below), above: lengthened(section.above, above) },
    relative,
  )
  const right = cutOff(section, scene, relative) + 4 * halfChannel
  const webs = (plane: OpenPlane | null, low: Metres, seen: Metres): ReturnType<typeof webBodies> =>
    plane === null ? { bodies: [], foils: [] } : webBodies({ ...plane, halfChannel, low, seen, right })
  const ofBelow = webs(below, below?.behind ?? 0, (below?.behind ?? 0) + (below?.thickness ?? 0))
  const seenAbove = scene.top - (above?.behind ?? 0) - (above?.thickness ?? 0)
  const ofAbove = webs(above, seenAbove, seenAbove)
  const via = viaOf(scene, halfChannel, station)
  return pictureProblem(
    scenePicture(
      scene,
      { left: 0, right, sharpUntil: via.bodies.length > 0 ? halfChannel : 2 * halfChannel },
      {
        humps: via.humps,
        bodies: [...via.bodies, ...ofBelow.bodies, ...ofAbove.bodies],
        foils: [...ofBelow.foils, ...ofAbove.foils],
      },
    ),
  )
}

/**
 * How far beyond the second openings a cut goes on. Between two planes as far as if they were whole: what passes the
 * openings dies away with them. Going on ten times as far moves loadings by 1e-4 of themselves, or of 0.002.
 */
function cutOff(section: CrossSection, scene: Scene, relative: RelativePermittivity): Metres {
  return sideReach(section.planeAbove === null ? scene : sceneOf(section, relative))
}

/** A plane that has an opening in this cut. */
interface OpenPlane {
  readonly opening: Metres
  readonly thickness: Metres
  readonly behind: Metres
}

function openPlane(plane: PerforatedPlane | null, opening: Metres, halfChannel: Metres): OpenPlane | null {
  if (plane === null || opening === 0) return null
  return { opening, thickness: plane.thickness, behind: plane.behind ?? NOTHING_BEHIND * 2 * halfChannel }
}

/** The sheets from the trace to the plane behind an open one: the opening and what is behind belong to the last. */
function lengthened(sheets: readonly DielectricSheet[], plane: OpenPlane | null): readonly DielectricSheet[] {
  const last = sheets.at(-1)
  if (plane === null || last === undefined) return sheets
  return [...sheets, { ...last, thickness: plane.thickness + plane.behind }]
}

/** The via on the right: its body, and the bump in the traces' layer that a mask follows. */
function viaOf(scene: Scene, middle: Metres, { pad, barrel }: Station): { bodies: Body[]; humps: Bump[] } {
  const trace = scene.bumps[0]
  const width = Math.max(pad, barrel)
  if (trace === undefined || width === 0) return { bodies: [], humps: [] }
  const { y, thickness } = trace
  const end = scene.lid ?? scene.laminate
  const [left, right] = [middle - width / 2, middle + width / 2]
  const sides = { lowLeft: left, lowRight: right, highLeft: left, highRight: right }
  return {
    bodies: [viaBody({ middle, pad, barrel, low: y, high: y + thickness, end })],
    humps: [{ ...sides, y, thickness, conductor: GROUNDED, onAxis: false, endless: false }],
  }
}
