import type { Board } from '../board/board.ts'
import type { CopperLayer, DielectricLayer, MaskLayer, Stackup, StackupLayer } from '../board/stackup.ts'
import type { CrossSection, LineRequest } from '../section/crossSection.ts'
import type { Assumption } from '../units/assumption.ts'
import type { Ratio } from '../units/quantity.ts'
import type { Contribution } from './processSpread.ts'

/** A line as it may come out: the stackup pressed, the trace etched. */
export interface MadeLine {
  readonly stackup: Stackup
  readonly request: LineRequest
}

/** An input of a line with its range; `at` makes it come out at a multiple of its nominal value. */
export interface ProcessInput extends Omit<Contribution, 'atLower' | 'atUpper'> {
  readonly at: (line: MadeLine, factor: Ratio) => MadeLine
}

/** Every input of a line whose tolerance is known: width, copper, and each dielectric that its field is in. */
export function processInputs(board: Board, request: LineRequest, section: CrossSection): ProcessInput[] {
  const { stackup } = board
  const around = new Set(sheetNames(section))
  const side = section.upsideDown ? 'bottom' : 'top'
  return [
    widthInput(board, request),
    ...stackup.layers.flatMap((layer): ProcessInput[] => {
      if (layer.kind === 'copper') return layer.number === request.layer ? [thicknessInput(layer)] : []
      if (layer.kind === 'mask') {
        return section.mask !== null && layer.side === side ? [permittivityInput(layer)] : []
      }
      return around.has(layer.name) ? [thicknessInput(layer), permittivityInput(layer)] : []
    }),
  ]
}

function sheetNames({ below, above, broadside }: CrossSection): string[] {
  return [...below, ...above, ...(broadside?.sheets ?? [])].map(({ name }) => name)
}

/** The middles of traces stay where they are drawn: what a trace gains, the gaps beside it lose. */
function widthInput({ fabrication, stackup }: Board, { layer, width }: LineRequest): ProcessInput {
  const { widthTolerance, widthToleranceFloor, assumed } = fabrication
  return {
    quantity: 'trace width',
    of: stackup.copper[layer - 1]?.name ?? `layer ${layer}`,
    nominal: width,
    tolerance: Math.max(widthTolerance, widthToleranceFloor / width),
    assumed: isAssumed(assumed, widthTolerance * width < widthToleranceFloor ? 'floor' : 'width_tolerance'),
    at: (line, factor) => {
      const more = (factor - 1) * width
      const { gap, coplanarGap } = line.request
      return {
        ...line,
        request: {
          ...line.request,
          width: width + more,
          gap: gap === null ? null : gap - more,
          coplanarGap: coplanarGap === null ? null : coplanarGap - more,
        },
      }
    },
  }
}

function thicknessInput(layer: CopperLayer | DielectricLayer): ProcessInput {
  return {
    quantity: layer.kind === 'copper' ? 'copper thickness' : 'dielectric thickness',
    of: layer.name,
    nominal: layer.thickness,
    tolerance: layer.thicknessTolerance,
    assumed: isAssumed(layer.assumed, 'thickness_tolerance'),
    at: (line, factor) =>
      withLayer(line, layer, (part) => ({ ...part, thickness: layer.thickness * factor })),
  }
}

function permittivityInput(layer: DielectricLayer | MaskLayer): ProcessInput {
  const { permittivity } = layer
  return {
    quantity: 'permittivity',
    of: layer.name,
    nominal: permittivity.relative,
    tolerance: permittivity.tolerance,
    assumed: isAssumed(layer.assumed, 'permittivity_tolerance'),
    at: (line, factor) =>
      withLayer(line, layer, (part) => ({
        ...part,
        permittivity: { ...permittivity, relative: Math.max(1, permittivity.relative * factor) },
      })),
  }
}

function isAssumed(assumed: readonly Assumption[], ending: string): boolean {
  return assumed.some(({ path }) => path.endsWith(ending))
}

/** The line with one layer of its stackup changed, found by name as earlier changes leave new layers. */
function withLayer<Layer extends StackupLayer>(
  line: MadeLine,
  { kind, name }: Layer,
  change: (part: Layer) => Layer,
): MadeLine {
  const { stackup } = line
  const before = stackup.layers.find((part): part is Layer => part.kind === kind && part.name === name)
  if (before === undefined) throw new RangeError(`the stackup has no ${kind} named ${name}`)
  const after = change(before)
  const layers = stackup.layers.map((part) => (part === before ? after : part))
  // Both lists hold the same objects.
  const copper = layers.filter((part) => part.kind === 'copper')
  return { ...line, stackup: { ...stackup, layers, copper } }
}
