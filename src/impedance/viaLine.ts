import type { Board } from '../board/board.ts'
import type { Permittivity } from '../board/stackup.ts'
import type { Route } from '../routes/route.ts'
import { BoundedMemory } from '../numerics/boundedMemory.ts'
import { barrelSection, type BarrelRequest } from '../section/barrelSection.ts'
import type { Assumption } from '../units/assumption.ts'
import type {
  Farads,
  HenriesPerMetre,
  Hertz,
  Metres,
  Ohms,
  Quantity,
  Ratio,
  Seconds,
} from '../units/quantity.ts'
import { permittivityAt } from './closedForm/widebandPermittivity.ts'
import { barrelCapacitance } from './field/barrelField.ts'

/** A net's way through its holes as a line in series, and what hangs at its end as an open line. For pairs differential. */
export interface ViaLine {
  /** Of the barrel between land and exit layer: √(L/C), and √(LC). */
  readonly impedance: Ohms
  readonly delay: Seconds
  /** Pad on the exit layer and barrel beyond it: open at its end, in parallel where the neck begins. */
  readonly hanging: { readonly impedance: Ohms; readonly delay: Seconds; readonly capacitance: Farads }
  /** All of it, of one barrel to the planes. */
  readonly capacitance: Farads
  readonly inductance: HenriesPerMetre
  /** Half-width of the error band of both impedances. */
  readonly band: Ratio
  readonly assumed: readonly Assumption[]
}

/** The via that takes one end of a net to its exit layer, or to another one; null where there is none to solve. */
export interface ViaTable {
  of(route: Route, exitLayer?: number): ViaLine | null
  /** Drilled back to leave so much beyond the exit layer; null where it is not one hole that hangs by more. */
  drilledBack(route: Route, residualStub: Metres): ViaLine | null
}

/** Parts that the signal runs through and that hang, between the middles of copper layers, as routes have them. */
export interface ViaLengths {
  readonly through: Metres
  readonly hanging: Metres
}

/**
 * Own estimate, not measured: 2 % of the capacitance by the grid, 5 to 10 % by permittivity along the barrel and
 * antipads that meet, 20 % of the inductance by where the returns really are; half of it in an impedance.
 */
const BAND: Ratio = 0.15

export const VIA_METHOD =
  'capacitance by finite volumes about the axis, inductance by the supply vias around; uniform between land and exit layer'

/**
 * The line that a barrel makes of its capacitance and its inductance per metre, as long as the signal's way. Of a pair,
 * `inductance` is that of the loop, and half of the capacitance of each barrel stands between the two.
 *
 * Throws RangeError where the barrel has no length.
 */
export function viaLine(
  { total, between }: ViaCapacitance,
  lengths: ViaLengths,
  {
    inductance,
    isPair,
    assumed,
  }: {
    readonly inductance: HenriesPerMetre
    readonly isPair: boolean
    readonly assumed: readonly Assumption[]
  },
): ViaLine {
  // Drilled back to its land: a pad, and no line.
  if (!(lengths.through + lengths.hanging > 0)) throw new RangeError('a barrel without length is no line')
  const share = isPair ? 0.5 : 1
  const beyond = share * (total - between)
  // A barrel that only hangs has nothing along it; a hole that ends on the exit layer has a pad there all the same.
  const along = lengths.through > 0 ? lineOf(share * between, inductance * lengths.through) : null
  const hanging =
    along === null || lengths.hanging > 0
      ? lineOf(beyond, inductance * lengths.hanging)
      : { impedance: along.impedance, delay: along.impedance * beyond }
  return {
    ...(along ?? { impedance: hanging.impedance, delay: 0 }),
    hanging: { ...hanging, capacitance: total - between },
    capacitance: total,
    inductance,
    band: BAND,
    assumed,
  }
}

function lineOf(
  capacitance: Farads,
  inductance: Quantity<'H'>,
): { readonly impedance: Ohms; readonly delay: Seconds } {
  return { impedance: Math.sqrt(inductance / capacitance), delay: Math.sqrt(inductance * capacitance) }
}

/** Of one barrel to the planes: all of it, and what lies on the way of the signal; the rest hangs. */
export type ViaCapacitance = ReturnType<typeof barrelCapacitance>

/** Boards are reviewed again with other traces among the same vias. */
const known = new BoundedMemory<ViaCapacitance>(100)

/**
 * Capacitance of a net's barrel from the field around it, at the frequency that the board states impedance for. Charge on
 * the pad of the exit layer and beyond does not count to the way of the signal.
 *
 * Throws RangeError or SolverError where the barrel cannot be.
 */
export function viaCapacitance(board: Board, request: BarrelRequest): ViaCapacitance {
  const section = barrelSection(board.stackup, request)
  const { frequency } = board.analysis
  const picture = {
    layers: section.layers.map(({ thickness, filling, opening, pad }) => ({
      thickness,
      permittivity: mean(filling, frequency),
      groundFrom: opening === null ? null : opening / 2,
      padRadius: pad === null ? null : pad / 2,
    })),
    holes: section.holes.map(({ top, bottom, diameter }) => ({ top, bottom, radius: diameter / 2 })),
  }
  return known.recall(JSON.stringify([picture, section.signal]), () =>
    barrelCapacitance(picture, section.signal),
  )
}

function mean(filling: readonly Permittivity[], frequency: Hertz): Ratio {
  if (filling.length === 0) return 1
  return filling.reduce((sum, each) => sum + permittivityAt(each, frequency).relative, 0) / filling.length
}
