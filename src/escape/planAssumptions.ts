import type { Assumption } from '../units/assumption.ts'
import type { PlanJob } from './planJob.ts'

const PRACTICE = 'common practice, no source'

/** What a plan takes for granted besides what the package left out. */
export function planAssumptions(job: PlanJob): Assumption[] {
  const path = `packages.${job.pack.name}`
  const dogBones: Assumption[] = job.field.dogBone
    ? [
        {
          path: `${path}.via_placement`,
          quantity: `direction of the dog-bones of ${job.pack.name}`,
          value:
            job.field.direction === 'outwards'
              ? 'away from the middle of the package'
              : `all ${job.field.direction}, which lets out more than away from the middle`,
          source: PRACTICE,
        },
        {
          path: `${path}.via_placement`,
          quantity: `width of the dog-bones of ${job.pack.name}`,
          value: 'signals as wide as their neck there; power and ground half the smaller of land and via pad',
          source: PRACTICE,
        },
      ]
    : []
  const supplies: Assumption[] =
    job.technology === 'blind' && job.supplies.some((chain) => chain !== null)
      ? [
          {
            path: `${path}.via`,
            quantity: `vias of power and ground of ${job.pack.name}`,
            value:
              'down to the nearest plane that carries the net; where none does, as deep as the described vias go',
            source: PRACTICE,
          },
        ]
      : []
  return [...job.pack.assumed, ...dogBones, ...supplies]
}
