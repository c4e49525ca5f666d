import { scaleLinear, scaleLog } from 'd3-scale'
import { bottomAxis, leftAxis } from '../../charts/axes.ts'
import { HALO } from '../../charts/dimension.ts'
import { frame } from '../../charts/frame.ts'
import { INK, TYPE } from '../../charts/ink.ts'
import { legend } from '../../charts/legend.ts'
import type { LegendEntry } from '../../charts/legend.ts'
import { band, box, circle, label, polygon, polyline, segment, textWidth } from '../../charts/marks.ts'
import type { Place } from '../../charts/marks.ts'
import { pattern, patternFill } from '../../charts/patterns.ts'
import { spreadLabels } from '../../charts/spreadLabels.ts'
import { formatLength, formatOhms, formatPercent } from '../../units/format.ts'
import type { LengthUnit, Metres, Ohms, Ratio } from '../../units/quantity.ts'
import type { ThicknessChoice } from '../../dielectric/thicknessChoice.ts'
import { logLengthTicks, tickNumber } from './lengthTicks.ts'

export interface ThicknessCurveSpec {
  readonly id: string
  readonly choice: ThicknessChoice
  readonly tolerance: Ratio
  readonly layerName: string
  readonly unit: LengthUnit
}

const PLOT = { left: 52, right: 560, top: 40, bottom: 250 }
const WIDTH = 576

interface Scales {
  readonly x: (thickness: Metres) => number
  readonly y: (impedance: Ohms) => number
  /** Held inside the plot. */
  readonly clip: (impedance: Ohms) => number
}

/**
 * Impedance against the thickness of the dielectric that is chosen: the curve with its error band, the target
 * with its tolerance, the thickness as it is and the one that meets the target.
 */
export function thicknessCurve(spec: ThicknessCurveSpec): string {
  const { id, choice, tolerance } = spec
  const extent = plotExtent(choice, tolerance)
  const y = scaleLinear(extent.impedance, [PLOT.bottom, PLOT.top])
  const scales: Scales = {
    x: scaleLog(extent.thickness, [PLOT.left, PLOT.right]),
    y,
    clip: (impedance) => Math.min(Math.max(y(impedance), PLOT.top), PLOT.bottom),
  }
  const key = legend(entries(spec), {
    x: PLOT.left,
    y: PLOT.bottom + 48,
    width: PLOT.right - PLOT.left,
  })
  return frame({
    id,
    title: `Impedance of the ${choice.stretch} on ${spec.layerName} against the thickness of ${choice.dielectric}`,
    description: describe(spec),
    width: WIDTH,
    height: PLOT.bottom + 48 + key.height + 8,
    definitions: [pattern({ figure: id, kind: 'diagonal', ink: INK.accent })],
    body: [
      ...ground(spec, scales, extent),
      ...curveMarks(choice, scales),
      ...points(spec, scales),
      key.drawing,
    ],
  })
}

/** Tolerance band, axes and grid, behind everything else. */
function ground(
  { id, choice, tolerance, unit }: ThicknessCurveSpec,
  scales: Scales,
  extent: Extent,
): string[] {
  const top = scales.clip(choice.target * (1 + tolerance))
  const bottom = scales.clip(choice.target * (1 - tolerance))
  return [
    box(
      { x: PLOT.left, y: top, width: PLOT.right - PLOT.left, height: bottom - top },
      { fill: patternFill({ figure: id, kind: 'diagonal' }), 'fill-opacity': 0.55 },
    ),
    bottomAxis({
      scale: scales.x,
      ticks: logTicks(extent.thickness, unit),
      format: (thickness) => tickNumber(thickness, unit),
      title: `pressed thickness of ${choice.dielectric}, ${unit} (logarithmic)`,
      from: PLOT.left,
      to: PLOT.right,
      at: PLOT.bottom,
      gridTo: PLOT.top,
    }),
    leftAxis({
      scale: scales.y,
      ticks: scaleLinear(extent.impedance, [0, 1]).ticks(6),
      format: (ohms) => String(ohms),
      title: choice.gap === null ? 'impedance, ohm' : 'differential impedance, ohm',
      from: PLOT.bottom,
      to: PLOT.top,
      at: PLOT.left,
      gridTo: PLOT.right,
    }),
  ]
}

function curveMarks(choice: ThicknessChoice, scales: Scales): string[] {
  const level = scales.y(choice.target)
  return [
    band(
      choice.curve.map((point) => ({
        x: scales.x(point.thickness),
        low: scales.clip(point.impedance * (1 - point.band)),
        high: scales.clip(point.impedance * (1 + point.band)),
      })),
      { fill: INK.rule, 'fill-opacity': 0.35 },
    ),
    segment(
      { x: PLOT.left, y: level },
      { x: PLOT.right, y: level },
      { stroke: INK.accent, 'stroke-width': 1.5 },
    ),
    polyline(
      choice.curve.map((point) => ({ x: scales.x(point.thickness), y: scales.y(point.impedance) })),
      { 'stroke-width': 2 },
    ),
    ...windowMarks(choice, scales),
  ]
}

interface Extent {
  readonly thickness: readonly [Metres, Metres]
  readonly impedance: readonly [Ohms, Ohms]
}

function plotExtent({ curve, present, target }: ThicknessChoice, tolerance: Ratio): Extent {
  const thicknesses = [...curve.map((point) => point.thickness), present.thickness]
  const impedances = [
    ...curve.map((point) => point.impedance),
    present.impedance,
    target * (1 - tolerance),
    target * (1 + tolerance),
  ]
  const bottom = Math.min(...impedances)
  const top = Math.max(...impedances)
  const room = (top - bottom) * 0.08
  return {
    thickness: [Math.min(...thicknesses), Math.max(...thicknesses)],
    impedance: [Math.max(bottom - room, 0), top + room],
  }
}

/** Round values spaced so that their numbers do not touch on the logarithmic axis. */
function logTicks([low, high]: readonly [Metres, Metres], unit: LengthUnit): Metres[] {
  const fine = logLengthTicks(low, high, unit)
  const apart = (high / low) ** (1 / 13)
  return fine.reduce<Metres[]>((kept, value) => {
    const last = kept.at(-1)
    return last === undefined || value >= last * apart ? [...kept, value] : kept
  }, [])
}

/** The stretch of thickness that keeps the impedance inside its tolerance, as a bar on the axis. */
function windowMarks({ window }: ThicknessChoice, { x }: Scales): string[] {
  if (window === null) return []
  return [
    box(
      { x: x(window.min), y: PLOT.bottom - 4, width: x(window.max) - x(window.min), height: 8 },
      { fill: INK.accent, stroke: INK.paper },
    ),
  ]
}

/** Bold letters run wider than plain ones. */
const BOLDER = 1.12

function points(spec: ThicknessCurveSpec, { x, y }: Scales): string[] {
  const { choice, unit } = spec
  const wanted = [
    {
      thickness: choice.present.thickness,
      impedance: choice.present.impedance,
      name: 'as it is',
      chosen: false,
    },
    ...(choice.thickness === null || choice.reached === null
      ? []
      : [
          {
            thickness: choice.thickness,
            impedance: choice.reached.impedance,
            name: 'meets the target',
            chosen: true,
          },
        ]),
  ]
    .map(({ thickness, impedance, name, chosen }) => {
      const at = { x: x(thickness), y: y(impedance) }
      const text = `${name}: ${formatLength(thickness, unit)}, ${formatOhms(impedance)}`
      const right = at.x + 12 + BOLDER * textWidth(text, TYPE.normal) < PLOT.right
      const reach = at.x + 12 + BOLDER * textWidth(text, TYPE.normal)
      return { at, text, right, chosen, wish: labelHeight(choice, at, right ? reach : null, { x, y }) }
    })
    .sort((a, b) => a.wish - b.wish)
  const heights = spreadLabels(
    wanted.map(({ wish }) => wish),
    16,
    PLOT.top + 8,
    PLOT.bottom - 8,
  )
  return wanted.flatMap(({ at, text, right, chosen }, index) => {
    return [
      chosen ? circle(at, 5.5, { fill: INK.accent, stroke: INK.paper, 'stroke-width': 1.5 }) : diamond(at),
      label(
        text,
        { x: at.x + (right ? 12 : -12), y: heights[index] ?? at.y },
        {
          'text-anchor': right ? 'start' : 'end',
          'font-size': TYPE.normal,
          'font-weight': 'bold',
          ...HALO,
        },
      ),
    ]
  })
}

/**
 * The curve rises to the right: above it there is room on the left; on the right below it, or, near the axis, over
 * the highest that it comes as far as the text reaches.
 */
function labelHeight(
  { curve, target }: ThicknessChoice,
  at: Place,
  reach: number | null,
  { x, y }: Pick<Scales, 'x' | 'y'>,
): number {
  if (reach === null) return at.y - 10
  const level = y(target)
  // Clear of the line of the target, of which the letters would be struck through.
  const below = Math.abs(at.y + 16 - level) < 9 ? level + 15 : at.y + 20
  if (below <= PLOT.bottom - 8) return below
  const passed = curve.filter(({ thickness }) => x(thickness) >= at.x && x(thickness) <= reach)
  return Math.min(at.y, ...passed.map(({ impedance }) => y(impedance))) - 12
}

function diamond({ x, y }: Place): string {
  const corners = [
    { x, y: y - 6 },
    { x: x + 6, y },
    { x, y: y + 6 },
    { x: x - 6, y },
  ]
  return polygon(corners, { fill: INK.paper, stroke: INK.text, 'stroke-width': 1.8 })
}

function entries({ id, choice, tolerance }: ThicknessCurveSpec): LegendEntry[] {
  return [
    { text: 'impedance', mark: segment({ x: 0, y: 6 }, { x: 16, y: 6 }, { 'stroke-width': 2 }) },
    { text: 'error band', fill: '#dcdfe2' },
    { text: `target ± ${formatPercent(tolerance, 0)}`, fill: patternFill({ figure: id, kind: 'diagonal' }) },
    ...(choice.window === null ? [] : [{ text: 'thickness inside the tolerance', fill: INK.accent }]),
    { text: 'as it is', mark: diamond({ x: 8, y: 6 }) },
    ...(choice.reached === null
      ? []
      : [{ text: 'meets the target', mark: circle({ x: 8, y: 6 }, 5, { fill: INK.accent }) }]),
  ]
}

function describe({ choice, tolerance, unit }: ThicknessCurveSpec): string {
  const present = `Now ${formatLength(choice.present.thickness, unit)}, ${formatOhms(choice.present.impedance)}`
  const target = `target ${formatOhms(choice.target)} ± ${formatPercent(tolerance, 0)}`
  const chosen =
    choice.thickness === null || choice.reached === null
      ? 'no thickness in the range meets it'
      : `met at ${formatLength(choice.thickness, unit)}, ${formatOhms(choice.reached.impedance)}`
  return `${present}; ${target}; ${chosen}.`
}
