import { INK } from './ink.ts'
import { element } from './svg.ts'

/** Fills that stay apart without colour. */
export type PatternKind = 'diagonal' | 'counter diagonal' | 'cross' | 'dots' | 'horizontal' | 'vertical'

const TILE: Readonly<
  Record<PatternKind, { readonly size: number; readonly path: string; readonly turn: number }>
> = {
  diagonal: { size: 5, path: 'M0 0V5', turn: 45 },
  'counter diagonal': { size: 5, path: 'M0 0V5', turn: -45 },
  cross: { size: 5, path: 'M0 0V5M0 0H5', turn: 45 },
  dots: { size: 6, path: 'M1.5 1.5h.01M4.5 4.5h.01', turn: 0 },
  horizontal: { size: 4, path: 'M0 1H4', turn: 0 },
  vertical: { size: 4, path: 'M1 0V4', turn: 0 },
}

export interface PatternSpec {
  /** Id of the figure it belongs to. */
  readonly figure: string
  readonly kind: PatternKind
  readonly ink?: string
  readonly paper?: string
  /** Sets apart two patterns of one kind in one figure. */
  readonly variant?: string
}

function patternId({ figure, kind, variant }: PatternSpec): string {
  return [figure, 'fill', kind.replace(' ', '-'), ...(variant === undefined ? [] : [variant])].join('-')
}

/** The `<pattern>` to put among a figure's definitions. */
export function pattern(spec: PatternSpec): string {
  const { size, path, turn } = TILE[spec.kind]
  const stroke = spec.ink ?? INK.quiet
  return element(
    'pattern',
    {
      id: patternId(spec),
      width: size,
      height: size,
      patternUnits: 'userSpaceOnUse',
      ...(turn === 0 ? {} : { patternTransform: `rotate(${turn})` }),
    },
    element('rect', { width: size, height: size, fill: spec.paper ?? INK.paper }),
    element('path', {
      d: path,
      stroke,
      'stroke-width': spec.kind === 'dots' ? 1.4 : 1,
      'stroke-linecap': spec.kind === 'dots' ? 'round' : 'butt',
    }),
  )
}

/** Value of a `fill` attribute that uses the pattern. */
export function patternFill(spec: PatternSpec): string {
  return `url(#${patternId(spec)})`
}
