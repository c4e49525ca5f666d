import type { Package } from '../../board/packages.ts'
import type { ChannelFit } from '../../escape/escape.ts'

/** The channels of the layers that may carry nets of the package out. */
export function openChannels(pack: Package | undefined, channels: readonly ChannelFit[]): ChannelFit[] {
  const order = pack?.escape.layerOrder ?? []
  return channels.filter(({ layer }) => order.length === 0 || order.includes(layer))
}

/** Layers with channels that the description lets no net of the package out on. */
export function closedLayers(pack: Package | undefined, channels: readonly ChannelFit[]): number[] {
  const open = new Set(openChannels(pack, channels).map(({ layer }) => layer))
  return [...new Set(channels.map(({ layer }) => layer))].filter((layer) => !open.has(layer))
}
