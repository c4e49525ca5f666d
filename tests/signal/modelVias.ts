import type { ViaLine, ViaTable } from '../../src/impedance/viaLine.ts'
import { ps } from './fixtures.ts'

/**
 * A via for tests of the stages after it, simple enough to reckon by hand: 40 ohm through and 32 ohm hanging; a picosecond
 * of way for every layer down to the exit layer, and one of barrel that hangs for every layer from there to the last.
 */
export function modelVia(exitLayer: number, lastLayer = 8): ViaLine {
  const hanging = { impedance: 32, delay: ps(lastLayer - exitLayer) }
  const capacitance = hanging.delay / hanging.impedance
  return {
    impedance: 40,
    delay: ps(exitLayer),
    hanging: { ...hanging, capacitance },
    capacitance: ps(exitLayer) / 40 + capacitance,
    inductance: 6e-7,
    band: 0.15,
    assumed: [],
  }
}

/** Of every route that has one, down to its last layer; drilled back, what hangs is shorter in proportion. */
export function modelVias(lastLayer = 8): ViaTable {
  return {
    of: (route, exitLayer = route.exitLayer) =>
      route.via === null || exitLayer > lastLayer ? null : modelVia(exitLayer, lastLayer),
    drilledBack: (route, residualStub) => {
      if (route.via === null || !(route.stubLength > residualStub)) return null
      const whole = modelVia(route.exitLayer, lastLayer)
      const share = residualStub / route.stubLength
      const { impedance, delay, capacitance } = whole.hanging
      return {
        ...whole,
        hanging: { impedance, delay: share * delay, capacitance: share * capacitance },
        capacitance: whole.capacitance - (1 - share) * capacitance,
      }
    },
  }
}
