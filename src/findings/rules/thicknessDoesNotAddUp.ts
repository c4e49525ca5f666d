import type { Board } from '../../board/board.ts'
import type { DielectricLayer } from '../../board/stackup.ts'
import type { FindingContext } from '../context.ts'
import { drawnNearest, isAbove, isBelow } from '../drawn.ts'
import type { Finding, Remedy } from '../finding.ts'
import { fraction, metres } from '../measure.ts'

/**
 * Layers that do not sum to the stated thickness within its tolerance: a warning, as either may be the wrong
 * one. The remedy gives the difference to the thickest dielectric, where it changes impedances least.
 */
export function thicknessDoesNotAddUp({ board }: FindingContext): Finding[] {
  const { statedThickness: stated, computedThickness: computed, thicknessTolerance, assumed } = board.stackup
  if (stated === null || !isAbove(Math.abs(computed - stated), stated * thicknessTolerance)) return []
  const dielectrics = board.stackup.layers.filter(
    (part): part is DielectricLayer => part.kind === 'dielectric',
  )
  const bound = computed > stated ? stated * (1 + thicknessTolerance) : stated * (1 - thicknessTolerance)
  return [
    {
      code: 'thickness-does-not-add-up',
      severity: 'warning',
      subject: { kind: 'board', name: board.title, layer: null, package: null, alike: [] },
      measured: metres('sum of the layers', computed),
      limit: metres(computed > stated ? 'at most' : 'at least', bound),
      limitSource: 'stated thickness and tolerance of the description',
      remedies: remediesFor(board, dielectrics, stated, computed),
      details: [
        metres('stated thickness', stated),
        metres('difference', computed - stated),
        fraction('difference', computed / stated - 1),
      ],
      assumed: [...assumed, ...dielectrics.flatMap((part) => part.assumed.filter(aboutThickness))],
    },
  ]
}

function remediesFor(
  board: Board,
  dielectrics: readonly DielectricLayer[],
  stated: number,
  computed: number,
): Remedy[] {
  const [thickest] = [...dielectrics].sort((a, b) => b.thickness - a.thickness)
  const thickness = drawnNearest(board, (thickest?.thickness ?? 0) + stated - computed)
  if (thickest === undefined || isBelow(thickness, board.fabrication.minDielectric)) return []
  return [
    {
      action: `bring ${thickest.name} to`,
      value: metres('pressed thickness', thickness),
      result: metres('sum of the layers', computed - thickest.thickness + thickness),
    },
  ]
}

function aboutThickness({ path }: { readonly path: string }): boolean {
  return /thickness$|plies|coverage/.test(path)
}
