import type { Formula } from './estimate.ts'
import { COATED_MICROSTRIP } from './formulas/coatedMicrostrip.ts'
import { COPLANAR } from './formulas/coplanar.ts'
import { EMBEDDED_MICROSTRIP } from './formulas/embeddedMicrostrip.ts'
import { MICROSTRIP } from './formulas/microstrip.ts'
import { STRIPLINE } from './formulas/stripline.ts'

/** Every closed form that the chooser may ask, by the structure it is for. */
export const CATALOGUE: readonly Formula[] = [
  ...MICROSTRIP,
  ...COATED_MICROSTRIP,
  ...EMBEDDED_MICROSTRIP,
  ...STRIPLINE,
  ...COPLANAR,
]
