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
            'away from the middle of the package, vias of the outermost row clear of the necks beside them',
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
