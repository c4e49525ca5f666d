import { INK, TYPE } from './ink.ts'
import { label, segment } from './marks.ts'
import { element } from './svg.ts'

export interface AxisSpec {
  /** From a value to a place along the axis. */
  readonly scale: (value: number) => number
  readonly ticks: readonly number[]
  readonly format: (value: number) => string
  /** What runs along the axis, with its unit. */
  readonly title: string
  /** Ends of the axis line. */
  readonly from: number
  readonly to: number
  /** Where the axis stands on the other direction. */
  readonly at: number
  /** Where its grid lines end; the same as `at` for none. */
  readonly gridTo: number
}

const TICK = { stroke: INK.rule }
const GRID = { stroke: INK.faint }
const TEXT = { 'font-size': TYPE.small, fill: INK.quiet }

/** Axis below the plot, values running to the right. */
export function bottomAxis(spec: AxisSpec): string {
  const { at, gridTo } = spec
  const ticks = spec.ticks.flatMap((value) => {
    const x = spec.scale(value)
    return [
      ...(gridTo === at ? [] : [segment({ x, y: at }, { x, y: gridTo }, GRID)]),
      segment({ x, y: at }, { x, y: at + 5 }, TICK),
      label(spec.format(value), { x, y: at + 17 }, { ...TEXT, 'text-anchor': 'middle' }),
    ]
  })
  const middle = (spec.from + spec.to) / 2
  return element(
    'g',
    {},
    ...ticks,
    segment({ x: spec.from, y: at }, { x: spec.to, y: at }, TICK),
    label(spec.title, { x: middle, y: at + 35 }, { 'text-anchor': 'middle' }),
  )
}

/** Axis left of the plot, values running upwards; the title stands above it, level, so that nobody tilts their head. */
export function leftAxis(spec: AxisSpec): string {
  const { at, gridTo } = spec
  const ticks = spec.ticks.flatMap((value) => {
    const y = spec.scale(value)
    return [
      ...(gridTo === at ? [] : [segment({ x: at, y }, { x: gridTo, y }, GRID)]),
      segment({ x: at - 5, y }, { x: at, y }, TICK),
      label(spec.format(value), { x: at - 8, y: y + 3.5 }, { ...TEXT, 'text-anchor': 'end' }),
    ]
  })
  const top = Math.min(spec.from, spec.to)
  return element(
    'g',
    {},
    ...ticks,
    segment({ x: at, y: spec.from }, { x: at, y: spec.to }, TICK),
    label(spec.title, { x: Math.max(at - 40, 2), y: top - 12 }),
  )
}
