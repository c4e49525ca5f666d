import { LIMITS as EXPONENTIAL_LIMITS } from '../closedForm/microstripCoverExponential.ts'
import { LIMITS as SVACINA_LIMITS } from '../closedForm/microstripSvacina.ts'
import type { Binding } from './bindFormula.ts'

/**
 * What a closed form says of itself under solder mask and under laminate alike. How good it is there, and how the section
 * becomes its cover, differs: coatedMicrostrip.ts, embeddedMicrostrip.ts.
 */
type CoverForm = Pick<Binding, 'title' | 'source' | 'ownFit' | 'limits'>

export const SVACINA: CoverForm = {
  title: 'Svacina, wide strip under a flat cover',
  source:
    'J. Svacina, "Analysis of multilayer microstrip lines by a conformal mapping method", IEEE Trans. MTT-40, 1992, 769–772; air line E. Hammerstad, O. Jensen, 1980',
  ownFit: false,
  limits: SVACINA_LIMITS,
}

export const COVER_EXPONENTIAL: CoverForm = {
  title: 'One exponential towards the buried line',
  source: 'unattributed, common in application notes; air line E. Hammerstad, O. Jensen, 1980',
  ownFit: false,
  limits: EXPONENTIAL_LIMITS,
}

/** The two fits of a filling, one for coats and one for covers, have limits and titles of their own. */
export const COVER_FILLING: Pick<CoverForm, 'source' | 'ownFit'> = {
  source:
    'own fit, this project; base line E. Hammerstad, O. Jensen, IEEE MTT-S Int. Microwave Symp. Digest, 1980, 407–409',
  ownFit: true,
}
