import type { Board } from '../board/board.ts'
import { ifSolvable } from '../numerics/ifSolvable.ts'
import type { CrossSection } from '../section/crossSection.ts'
import { deriveSection } from '../section/deriveSection.ts'
import type { Metres, Ratio } from '../units/quantity.ts'

/**
 * Reach of a neighbour in heights over the nearest plane. Between two planes coupling falls exponentially, and three
 * heights off no more than 0.6 % of a swing comes over, however long the two run; over one plane it falls by a power,
 * and four heights off it is 2 % (both from the field solution, traces of 80 µm in the demonstration stackup).
 */
const REACH: Readonly<Record<CrossSection['structure'], Ratio>> = { stripline: 3, microstrip: 4 }

/** The cross-sections of necks, derived once each. */
export class NeckSections {
  readonly #board: Board
  readonly #known = new Map<string, CrossSection | null>()

  constructor(board: Board) {
    this.#board = board
  }

  /** Null where the stackup cannot carry it. */
  of(layer: number, width: Metres, gap: Metres | null): CrossSection | null {
    const key = `${layer}|${width}|${gap}`
    const known = this.#known.get(key)
    if (known !== undefined) return known
    const request = { layer, width, gap, coplanarGap: null, broadsideLayer: null }
    const section = ifSolvable(() => deriveSection(this.#board.stackup, request))
    this.#known.set(key, section)
    return section
  }

  /** Largest gap at which a trace counts as a neighbour; 0 where no plane is in sight. */
  reach(layer: number): Metres {
    const copper = this.#board.stackup.copper[layer - 1]
    // Any width that can be etched: the heights do not depend on it.
    const section = copper === undefined ? null : this.of(layer, 1e-3 + 4 * copper.thickness, null)
    return section === null ? 0 : REACH[section.structure] * heightOf(section)
  }
}

function heightOf({ below, above, planeAbove }: CrossSection): Metres {
  const sum = (sheets: CrossSection['below']): Metres =>
    sheets.reduce((all, { thickness }) => all + thickness, 0)
  return planeAbove === null ? sum(below) : Math.min(sum(below), sum(above))
}
