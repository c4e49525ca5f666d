import { describe, expect, it } from 'vitest'
import { LIMITS as coplanarCoated } from '../../../src/impedance/closedForm/coplanarCoated.ts'
import { LIMITS as coplanarEmbedded } from '../../../src/impedance/closedForm/coplanarEmbedded.ts'
import { LIMITS as coplanarGhioneNaldi } from '../../../src/impedance/closedForm/coplanarGhioneNaldi.ts'
import { LIMITS as coplanarSideWalls } from '../../../src/impedance/closedForm/coplanarSideWalls.ts'
import { LIMITS as coplanarStripline } from '../../../src/impedance/closedForm/coplanarStripline.ts'
import { LIMITS as microstripCoatFilling } from '../../../src/impedance/closedForm/microstripCoatFilling.ts'
import { LIMITS as microstripCoverExponential } from '../../../src/impedance/closedForm/microstripCoverExponential.ts'
import { LIMITS as microstripEmbeddedExponential } from '../../../src/impedance/closedForm/microstripEmbeddedExponential.ts'
import { LIMITS as microstripFlatCoverFilling } from '../../../src/impedance/closedForm/microstripFlatCoverFilling.ts'
import { LIMITS as microstripHammerstad } from '../../../src/impedance/closedForm/microstripHammerstad.ts'
import { LIMITS as microstripHammerstadJensen } from '../../../src/impedance/closedForm/microstripHammerstadJensen.ts'
import { LIMITS as microstripSimpleLog } from '../../../src/impedance/closedForm/microstripSimpleLog.ts'
import { LIMITS as microstripSvacina } from '../../../src/impedance/closedForm/microstripSvacina.ts'
import { LIMITS as microstripWheeler } from '../../../src/impedance/closedForm/microstripWheeler.ts'
import { LIMITS as offsetEquivalentSpacing } from '../../../src/impedance/closedForm/offsetEquivalentSpacing.ts'
import { LIMITS as offsetExactWithThickness } from '../../../src/impedance/closedForm/offsetExactWithThickness.ts'
import { LIMITS as offsetParallelHalves } from '../../../src/impedance/closedForm/offsetParallelHalves.ts'
import { LIMITS as striplineExact } from '../../../src/impedance/closedForm/striplineExact.ts'
import { LIMITS as striplineSimpleLog } from '../../../src/impedance/closedForm/striplineSimpleLog.ts'
import { LIMITS as striplineWheeler } from '../../../src/impedance/closedForm/striplineWheeler.ts'
import { LIMITS as twoDielectricCapacitanceWeighted } from '../../../src/impedance/closedForm/twoDielectricCapacitanceWeighted.ts'
import { checkLimits } from '../../../src/impedance/closedForm/limits.ts'
import { NARROW_LIMITS, WIDE_LIMITS } from '../../../src/impedance/closedForm/striplineCohn.ts'

const range = [{ quantity: 'w/h', min: 0.5, max: 2 }]

describe('checkLimits', () => {
  it('lets a value on either bound pass and returns what is broken, with the value', () => {
    expect(checkLimits(range, { 'w/h': 0.5 })).toEqual([])
    expect(checkLimits(range, { 'w/h': 2 })).toEqual([])
    expect(checkLimits(range, { 'w/h': 2.1 })).toEqual([{ quantity: 'w/h', min: 0.5, max: 2, value: 2.1 }])
  })

  it('ignores values that no limit names, and refuses a limit without a finite value', () => {
    expect(checkLimits(range, { 'w/h': 1, 't/h': 99 })).toEqual([])
    expect(() => checkLimits(range, { 't/h': 1 })).toThrow(RangeError)
    expect(() => checkLimits(range, { 'w/h': NaN })).toThrow(RangeError)
  })
})

/** Ranges that the sources state (see each file), or the boxes in which own fits were checked. */
const STATED: readonly (readonly [
  string,
  readonly { quantity: string; min: number; max: number }[],
  unknown,
])[] = [
  [
    'coplanarCoated',
    coplanarCoated,
    [
      ['width/height', 0.2, 5],
      ['gap/height', 0.4, 4],
      ['thickness/gap', 0, 0.9],
      ['coat thickness/height', 0.06, 0.4],
      ['relative permittivity', 3, 4.5],
      ['coat permittivity', 3, 4.2],
    ],
  ],
  [
    'coplanarEmbedded',
    coplanarEmbedded,
    [
      ['width/height', 0.2, 5],
      ['gap/height', 0.4, 4],
      ['thickness/gap', 0, 0.9],
      ['cover/height', 0.2, 4],
      ['relative permittivity', 3, 4.5],
      ['cover permittivity', 3, 4.5],
    ],
  ],
  [
    'coplanarGhioneNaldi',
    coplanarGhioneNaldi,
    [
      ['thickness/gap', 0, 0],
      ['gap/height', 0, 1],
    ],
  ],
  [
    'coplanarSideWalls',
    coplanarSideWalls,
    [
      ['width/height', 0.2, 4],
      ['gap/height', 0.2, 5],
      ['thickness/gap', 0, 0.75],
      ['relative permittivity', 3, 4.5],
    ],
  ],
  [
    'coplanarStripline',
    coplanarStripline,
    [
      ['width/near distance', 0.1, 10],
      ['gap/near distance', 0.3, 4],
      ['thickness/near distance', 0, 0.5],
      ['distance ratio', 1, 8],
    ],
  ],
  [
    'microstripCoatFilling',
    microstripCoatFilling,
    [
      ['width/height', 0.3, 3.34],
      ['thickness/height', 0.048, 0.84],
      ['coat thickness/height', 0.04, 0.5],
      ['relative permittivity', 3.2, 4.2],
      ['coat permittivity', 3.2, 4],
    ],
  ],
  ['microstripCoverExponential', microstripCoverExponential, [['permittivity contrast', 1, 1.01]]],
  [
    'microstripEmbeddedExponential',
    microstripEmbeddedExponential,
    [
      ['width/height', 0.1, 3],
      ['relative permittivity', 1, 15],
      ['permittivity contrast', 1, 1.01],
    ],
  ],
  [
    'microstripFlatCoverFilling',
    microstripFlatCoverFilling,
    [
      ['width/height', 0.3, 3.34],
      ['thickness/height', 0.048, 0.84],
      ['cover/height', 0.04, 3.34],
      ['relative permittivity', 3.2, 4.2],
      ['cover permittivity', 3.2, 4.2],
    ],
  ],
  [
    'microstripHammerstad',
    microstripHammerstad,
    [
      ['width/height', 0.05, 20],
      ['thickness/height', 0, 0.2],
      ['relative permittivity', 1, 16],
    ],
  ],
  [
    'microstripHammerstadJensen',
    microstripHammerstadJensen,
    [
      ['width/height', 0.01, 100],
      ['relative permittivity', 1, 128],
    ],
  ],
  [
    'microstripSimpleLog',
    microstripSimpleLog,
    [
      ['width/height', 0.1, 2],
      ['relative permittivity', 1, 15],
    ],
  ],
  [
    'microstripSvacina',
    microstripSvacina,
    [
      ['width/height', 1, 100],
      ['thickness/height', 0, 0],
    ],
  ],
  ['microstripWheeler', microstripWheeler, [['relative permittivity', 1, 128]]],
  [
    'offsetEquivalentSpacing',
    offsetEquivalentSpacing,
    [
      ['width/near distance', 0.1, 10],
      ['thickness/near distance', 0, 0.6],
      ['distance ratio', 1, 10],
    ],
  ],
  [
    'offsetExactWithThickness',
    offsetExactWithThickness,
    [
      ['width/near distance', 0.1, 10],
      ['thickness/near distance', 0, 0.6],
      ['thickness/width', 0, 1],
      ['distance ratio', 1, 12],
    ],
  ],
  ['offsetParallelHalves', offsetParallelHalves, [['distance ratio', 1, 2]]],
  ['striplineExact', striplineExact, [['thickness/spacing', 0, 0]]],
  [
    'striplineSimpleLog',
    striplineSimpleLog,
    [
      ['width/(spacing - thickness)', 0, 0.35],
      ['thickness/spacing', 0, 0.25],
    ],
  ],
  ['striplineWheeler', striplineWheeler, [['width/(spacing - thickness)', 0, 10]]],
  ['twoDielectricCapacitanceWeighted', twoDielectricCapacitanceWeighted, [['permittivity contrast', 1, 1.5]]],
  ['striplineCohn, wide', WIDE_LIMITS, [['width/(spacing - thickness)', 0.35, 1000]]],
  [
    'striplineCohn, narrow',
    NARROW_LIMITS,
    [
      ['width/(spacing - thickness)', 0, 0.35],
      ['thickness/spacing', 0, 0.25],
      ['thickness/width', 0, 0.11],
    ],
  ],
]

describe('the limits of single lines', () => {
  it.each(STATED)('are those stated: %s', (_name, limits, stated) => {
    expect(limits.map(({ quantity, min, max }) => [quantity, min, max])).toEqual(stated)
  })
})
