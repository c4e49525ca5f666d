/**
 * The closed-form kernels of kernels.c as the product has them, timed the same way on the same inputs. A program:
 * closedForm.bench.ts bundles it as the product is bundled and runs it with node and the number of inputs.
 *
 * Prints per kernel, as kernels.c: name, nanoseconds per call (best of seven rounds), sum of the results.
 */
import { microstripHammerstadJensen } from '../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { microstripPairKirschningJansen } from '../../src/impedance/closedForm/microstripPairKirschningJansen.ts'
import { offsetEquivalentSpacing } from '../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import { striplinePairCohn } from '../../src/impedance/closedForm/striplinePairCohn.ts'
import { striplineWheeler } from '../../src/impedance/closedForm/striplineWheeler.ts'

const ROUNDS = 7

interface Shape {
  readonly width: number
  readonly thickness: number
  readonly height: number
  readonly gap: number
  readonly relativePermittivity: number
  readonly below: number
  readonly above: number
  readonly spacing: number
}

/** The generator of kernels.c: a linear congruence modulo 2^32. */
function shapes(count: number): Shape[] {
  let state = 20260101
  const unit = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 4294967296
  }
  return Array.from({ length: count }, () => {
    const width = 60e-6 + 190e-6 * unit()
    const thickness = 12e-6 + 38e-6 * unit()
    const height = 60e-6 + 190e-6 * unit()
    const gap = 60e-6 + 240e-6 * unit()
    const relativePermittivity = 3 + 1.5 * unit()
    const below = 60e-6 + 190e-6 * unit()
    const above = 60e-6 + 190e-6 * unit()
    const spacing = below + thickness + above
    return { width, thickness, height, gap, relativePermittivity, below, above, spacing }
  })
}

type Kernel = (shape: Shape) => number

const KERNELS: Readonly<Record<string, Kernel>> = {
  microstrip: (shape) => {
    const { impedance, effectivePermittivity } = microstripHammerstadJensen(shape)
    return impedance + effectivePermittivity
  },
  stripline: striplineWheeler,
  offset: offsetEquivalentSpacing,
  'microstrip-pair': (shape) => {
    const { even, odd } = microstripPairKirschningJansen(shape)
    return even.impedance + odd.impedance + even.effectivePermittivity + odd.effectivePermittivity
  },
  'stripline-pair': (shape) => {
    const { even, odd } = striplinePairCohn(shape)
    return even + odd
  },
}

function measure(name: string, kernel: Kernel, inputs: readonly Shape[]): void {
  let best = Infinity
  let sum = 0
  for (let round = 0; round < ROUNDS; round += 1) {
    const start = performance.now()
    sum = 0
    for (const shape of inputs) sum += kernel(shape)
    best = Math.min(best, ((performance.now() - start) * 1e6) / inputs.length)
  }
  console.log([name, best, sum].join(','))
}

const inputs = shapes(Number(process.argv[2]))
for (const [name, kernel] of Object.entries(KERNELS)) measure(name, kernel, inputs)
