import type { Formula } from './estimate.ts'
import { BROADSIDE_PAIR } from './formulas/broadsidePair.ts'
import { COATED_MICROSTRIP } from './formulas/coatedMicrostrip.ts'
import { COPLANAR } from './formulas/coplanar.ts'
import { EMBEDDED_MICROSTRIP } from './formulas/embeddedMicrostrip.ts'
import { MICROSTRIP } from './formulas/microstrip.ts'
import { MICROSTRIP_PAIR } from './formulas/microstripPair.ts'
import { STRIPLINE } from './formulas/stripline.ts'
import { STRIPLINE_PAIR } from './formulas/striplinePair.ts'

/** Every closed form that the chooser may ask, by the structure it is for. */
export const CATALOGUE: readonly Formula[] = [
  ...MICROSTRIP,
  ...COATED_MICROSTRIP,
  ...EMBEDDED_MICROSTRIP,
  ...STRIPLINE,
  ...COPLANAR,
  ...MICROSTRIP_PAIR,
  ...STRIPLINE_PAIR,
  ...BROADSIDE_PAIR,
]
