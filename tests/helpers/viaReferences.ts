import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import type { BarrelLayer, BarrelPicture } from '../../src/impedance/field/barrelField.ts'
import type { Metres } from '../../src/units/quantity.ts'

/** The tables of reference/via/ as data; each file says under `conditions` what its numbers mean. */
const Positive = z.number().positive()

const ReferenceLayer = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('copper'),
    role: z.enum(['signal', 'plane']),
    thickness: Positive,
    openingRadius: Positive.nullable(),
    padRadius: Positive.nullable(),
  }),
  z.strictObject({ kind: z.literal('dielectric'), thickness: Positive, permittivity: z.number().min(1) }),
])

const BarrelCase = z.strictObject({
  name: z.string(),
  barrelRadius: Positive,
  barrel: z.strictObject({ firstCopperLayer: z.int().min(1), lastCopperLayer: z.int().min(1) }),
  layers: z.array(ReferenceLayer).min(3),
  mask: z.strictObject({ thickness: Positive, permittivity: z.number().min(1) }).nullable(),
  capacitance: Positive,
  bound: Positive.max(0.001),
  chargeByCopperLayer: z.array(z.number().nonnegative()),
  chargeBound: Positive.max(0.001),
})

const WireCase = z.strictObject({
  name: z.string(),
  wires: z.array(
    z.strictObject({
      x: z.number(),
      y: z.number(),
      role: z.enum(['signal', 'partner', 'return']),
      current: z.number(),
    }),
  ),
  radius: Positive,
  inductancePerMetre: Positive,
  bound: Positive.max(1e-6),
})

const Element = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('line'), impedance: Positive, delay: Positive }),
  z.strictObject({ kind: z.literal('shuntCapacitance'), capacitance: Positive }),
  z.strictObject({
    kind: z.literal('shuntStub'),
    impedance: Positive,
    delay: Positive,
    endCapacitance: z.number().nonnegative(),
  }),
])

const Peaks = z.strictObject({ peak: z.number(), opposite: z.number(), bound: Positive.max(1e-5) })

const NetworkCase = z.strictObject({
  name: z.string(),
  lineImpedance: Positive,
  elements: z.array(Element).min(1),
  terminationResistance: Positive,
  riseTime: Positive,
  gaussian: Peaks,
  ramp: Peaks,
})

export type BarrelReference = z.infer<typeof BarrelCase>
export type WireReference = z.infer<typeof WireCase>
export type NetworkReference = z.infer<typeof NetworkCase>

/** Vias in boards, by finite elements bounded from both sides. */
export const barrelReferences = (): BarrelReference[] => casesOf('barrelCapacitance', BarrelCase)
/** Wires among returns, by circular harmonics. */
export const wireReferences = (): WireReference[] => casesOf('barrelInductance', WireCase)
/** Networks behind a line, by travelling waves in time. */
export const networkReferences = (): NetworkReference[] => casesOf('edgeReflections', NetworkCase)

/** Throws where a case is not what its schema says. */
function casesOf<T>(name: string, schema: z.ZodType<T>): T[] {
  const path = join(import.meta.dirname, `../../reference/via/${name}.json`)
  return z.object({ cases: z.array(schema).min(1) }).parse(JSON.parse(readFileSync(path, 'utf8'))).cases
}

/** A case as the picture of a barrel: planes without an opening are unbroken, copper layers filled as `conditions` say. */
export function pictureOf(row: BarrelReference): BarrelPicture {
  const { layers, mask, barrel, barrelRadius } = row
  const faces = copperFaces(row)
  const coat: BarrelLayer[] = mask === null ? [] : [{ ...mask, groundFrom: null, padRadius: null }]
  return {
    layers: [
      ...coat,
      ...layers.map((layer, index): BarrelLayer => {
        const { thickness } = layer
        if (layer.kind === 'dielectric') {
          return { thickness, permittivity: layer.permittivity, groundFrom: null, padRadius: null }
        }
        const groundFrom = layer.role === 'plane' ? (layer.openingRadius ?? 0) : null
        return { thickness, permittivity: fillingAt(row, index), groundFrom, padRadius: layer.padRadius }
      }),
      ...coat,
    ],
    holes: [
      {
        top: faces[barrel.firstCopperLayer - 1]?.top ?? NaN,
        bottom: faces[barrel.lastCopperLayer - 1]?.bottom ?? NaN,
        radius: barrelRadius,
      },
    ],
  }
}

function fillingAt({ layers, mask }: BarrelReference, index: number): number {
  const [above, below] = [layers[index - 1], layers[index + 1]]
  if (above?.kind === 'dielectric' && below?.kind === 'dielectric') {
    return (above.permittivity + below.permittivity) / 2
  }
  return mask?.permittivity ?? 1
}

/** From the top of the picture, its mask included. */
export function copperFaces({
  layers,
  mask,
}: BarrelReference): { readonly top: Metres; readonly bottom: Metres }[] {
  let depth = mask?.thickness ?? 0
  return layers.flatMap(({ kind, thickness }) => {
    const top = depth
    depth += thickness
    return kind === 'copper' ? [{ top, bottom: depth }] : []
  })
}
