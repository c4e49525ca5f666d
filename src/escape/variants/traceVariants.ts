import type { Board } from '../../board/board.ts'
import type { NetClass } from '../../board/nets.ts'
import { groupBy } from '../../numerics/groupBy.ts'
import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import { candidatesOf } from '../candidates.ts'
import { isOuter } from '../chainReach.ts'
import { figureOn } from '../clearanceRules.ts'
import { neckOf } from '../neck.ts'
import { signalLayersFrom, unitChannel } from '../unitChannel.ts'
import { landLayerOf, viaChains } from '../viaChain.ts'
import { differing, refused, unchanged } from './variant.ts'
import type { Described, Variant } from './variant.ts'

/** Widest neck of each class that is still one: as wide as its main route. Null where no width meets its target. */
export type MainWidths = (netClass: NetClass) => Metres | null

/** Every neck as narrow as the fabricator makes on outer and inner layers. */
export function finestVariant(described: Described): Variant {
  const { board } = described
  const id = 'finest traces'
  const { traceWidth } = board.fabrication
  const finest = Math.max(traceWidth.outer, traceWidth.inner)
  const widths = new Map(
    classesOf(described)
      .filter(({ neck }) => neck.width === null || neck.width > finest + board.analysis.comparisonTolerance)
      .map((netClass) => [netClass, finest]),
  )
  if (widths.size === 0) {
    const made = formatLength(finest, board.displayUnit)
    return unchanged(described, id, `no neck is wider than the ${made} that the fabricator makes`)
  }
  return differing(described, id, widthsText(board, widths), withWidths(board, widths))
}

/** Necks as wide as one trace alone in a channel can be, but not wider than their main routes. */
export function oneTraceVariant(described: Described, mainWidths: MainWidths): Variant {
  return perChannel(described, 'one trace per channel', mainWidths, (room) => room.clear)
}

/** Necks as wide as two side by side in a channel can be. */
export function twoTracesVariant(described: Described, mainWidths: MainWidths): Variant {
  return perChannel(described, 'two traces per channel', mainWidths, (room) => (room.clear - room.gap) / 2)
}

/** A channel between neighbouring places of one layer, and what a class asks for in it. */
interface Room {
  readonly layer: number
  readonly clear: Metres
  readonly gap: Metres
  readonly narrowest: Metres
}

function perChannel(
  described: Described,
  id: 'one trace per channel' | 'two traces per channel',
  mainWidths: MainWidths,
  widest: (room: Room) => Metres,
): Variant {
  const { board } = described
  const tolerance = board.analysis.comparisonTolerance
  const widths = new Map<NetClass, Metres>()
  const all: Room[] = []
  for (const netClass of classesOf(described)) {
    const rooms = roomsOf(described, netClass)
    const fitting = rooms.filter(
      (room) => widest({ ...room, clear: room.clear + tolerance }) >= room.narrowest,
    )
    all.push(...rooms)
    if (fitting.length > 0) {
      const fits = Math.min(...fitting.map((room) => Math.max(widest(room), room.narrowest)))
      const narrowest = Math.max(...fitting.map((room) => room.narrowest))
      widths.set(netClass, Math.max(narrowest, Math.min(fits, mainWidths(netClass) ?? Infinity)))
    }
  }
  if (widths.size === 0) return refused(described, id, noRoom(board, id, all, widest))
  const changed = new Map(
    [...widths].filter(
      ([{ neck }, width]) => neck.width === null || Math.abs(neck.width - width) > tolerance,
    ),
  )
  if (changed.size === 0) return unchanged(described, id, 'every neck is that wide already')
  return differing(described, id, widthsText(board, changed), withWidths(board, changed))
}

/** Rooms of the layer of the lands and of every signal layer that a via reaches. */
function roomsOf({ board, pack, technology }: Described, netClass: NetClass): Room[] {
  const chains = viaChains(board, pack, technology)
  return signalLayersFrom(board, pack)
    .filter((layer) => layer === landLayerOf(board, pack) || chains.has(layer))
    .flatMap((layer) => {
      const channel = unitChannel(board, pack, chains, layer)
      if (channel === null) return []
      const narrowest = figureOn(isOuter(board, layer), board.fabrication.traceWidth)
      const { traceGap } = neckOf(board, netClass, layer, channel.clear)
      return [{ layer, clear: channel.clear, gap: traceGap, narrowest }]
    })
}

function noRoom(board: Board, id: string, rooms: readonly Room[], widest: (room: Room) => Metres): string {
  const [room] = rooms.toSorted((a, b) => widest(b) - widest(a))
  if (room === undefined) return 'no net of a class leaves this package'
  const length = (metres: Metres): string => formatLength(metres, board.displayUnit)
  const { clear, gap, narrowest } = room
  const name = board.stackup.copper[room.layer - 1]?.name ?? `layer ${room.layer}`
  if (!(clear > 0)) return `the widest channel, on ${name}, leaves no clear space between its obstacles`
  const what = id === 'one trace per channel' ? 'one trace' : `two traces ${length(gap)} apart`
  return `the widest channel, on ${name}, is ${length(clear)} clear: ${what} could be ${length(Math.max(widest(room), 0))} wide, below the ${length(narrowest)} that the fabricator makes`
}

/** Classes with a signal ball on the package, in the order of the description. */
function classesOf({ board, pack }: Described): NetClass[] {
  const used = new Set(candidatesOf(board, pack).map(({ netClass }) => netClass))
  return board.classes.filter((netClass) => used.has(netClass))
}

function withWidths(board: Board, widths: ReadonlyMap<NetClass, Metres>): Board {
  return {
    ...board,
    classes: board.classes.map((netClass) => {
      const width = widths.get(netClass)
      return width === undefined ? netClass : { ...netClass, neck: { ...netClass.neck, width } }
    }),
  }
}

/** Classes that change alike are said together. */
function widthsText(board: Board, widths: ReadonlyMap<NetClass, Metres>): string {
  const length = (metres: Metres): string => formatLength(metres, board.displayUnit)
  const changes = [...widths].map(([{ name, neck }, width]) => ({
    name,
    change: `${length(width)} instead of ${neck.width === null ? 'the widest that fits' : length(neck.width)}`,
  }))
  return [...groupBy(changes, ({ change }) => change)]
    .map(([change, group]) => `neck of ${group.map(({ name }) => name).join(', ')} ${change}`)
    .join('; ')
}
