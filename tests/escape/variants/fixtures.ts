import type { Board } from '../../../src/board/board.ts'
import type { Package } from '../../../src/board/packages.ts'
import { chosenTechnology } from '../../../src/escape/escapePackage.ts'
import type { Described, Variant } from '../../../src/escape/variants/variant.ts'
import { copper, dielectric, plane, stackup } from '../../helpers/stackup.ts'
import { boardOf, um, via } from '../fixtures.ts'

/** Ten copper layers that can be laminated: foil, prepreg, core, prepreg and so on; signals on L1, L3, L5, L8, L10. */
export function laminate(prepregUm = 100): Board['stackup'] {
  const signal = new Set([1, 3, 5, 8, 10])
  const parts = Array.from({ length: 10 }, (_, index) => {
    const number = index + 1
    const metal = signal.has(number) ? copper(`L${number}`) : plane(`L${number}`)
    const type = number % 2 === 1 ? 'prepreg' : 'core'
    return number === 10
      ? [metal]
      : [metal, dielectric(`dielectric ${number}`, type === 'prepreg' ? prepregUm : 100, 3.6, type)]
  })
  return stackup(...parts.flat())
}

/** A board of that laminate with one through via of 0.2 mm in pads of 0.45 mm. */
export function laminated(pack: Package, change: Partial<Board> = {}): Board {
  const made = boardOf(pack, { stackup: laminate(), ...change })
  return change.vias === undefined ? { ...made, vias: [via('through', { lastLayer: 10 })] } : made
}

export function described(board: Board): Described {
  const [pack] = board.packages
  if (pack === undefined) throw new RangeError('the board has no package')
  return { board, pack, technology: chosenTechnology(board, pack) }
}

/** The package as a variant describes it. */
export function packOf({ board }: Variant): Package {
  const [pack] = board.packages
  if (pack === undefined) throw new RangeError('the board has no package')
  return pack
}

/** Microvia from the land to L2, and the next one below it. */
export const MICROVIAS = [1, 2].map((layer) =>
  via(`laser ${layer}`, {
    kind: 'microvia',
    firstLayer: layer,
    lastLayer: layer + 1,
    drilledDiameter: um(100),
    finishedDiameter: 0,
    padDiameters: [um(250), um(250)],
    arrangement: 'stacked',
  }),
)
