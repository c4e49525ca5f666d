import { layerName } from './planJob.ts'
import type { PlanJob } from './planJob.ts'
import { goesThrough } from './viaChain.ts'

/** Says where the technology of the plan is not to be had. */
export function holesNote(job: PlanJob): string[] {
  const inner = job.signalLayers.filter((layer) => layer !== job.landLayer)
  const touching = [...new Set([...job.touching.values()].map(({ name }) => name))]
  const unreached = inner
    .filter((layer) => !job.chains.has(layer) && !job.touching.has(layer))
    .map((layer) => layerName(job, layer))
  const drilledThrough = inner.filter((layer) => {
    const chain = job.chains.get(layer)
    return job.technology === 'blind' && chain !== undefined && goesThrough(chain)
  })
  return [
    ...(touching.length > 0
      ? [`left out because their pads would touch each other or the lands: ${touching.join(', ')}`]
      : []),
    ...(unreached.length > 0 ? [`no described via reaches ${unreached.join(', ')}`] : []),
    ...(drilledThrough.length > 0
      ? [
          `no blind via ends on ${drilledThrough.map((layer) => layerName(job, layer)).join(', ')}: through vias go there`,
        ]
      : []),
  ]
}
