import table from '../../../reference/materials/lands.json' with { type: 'json' }
import { formatLength } from '../../units/format.ts'
import type { Metres } from '../../units/quantity.ts'
import type { Path } from '../document/path.ts'
import type { Notes } from '../notes.ts'
import { referenceValue } from '../referenceValue.ts'
import type { Package } from '../packages.ts'

interface SizeTable {
  readonly source: string
  readonly rows: readonly (readonly [Metres, Metres])[]
}

function sizeTable({ source, rows }: { source: string; rows: string[][] }): SizeTable {
  const read = rows.map(
    ([from, to]) => [referenceValue(from, 'length'), referenceValue(to, 'length')] as const,
  )
  return { source, rows: read }
}

const BALL_TO_LAND = sizeTable(table.ball_to_land)
const PITCH_TO_BALL = sizeTable(table.pitch_to_ball)
const MASK_OVER_LAND = sizeTable(table.mask_over_land)

/** Between rows in a straight line; beyond them in proportion to the outermost row. */
function lookUp({ rows }: SizeTable, from: Metres): Metres {
  const next = rows.findIndex(([key]) => key >= from)
  const [above, below] = [rows[next], rows[next - 1]]
  const [first, last] = [rows[0], rows.at(-1)]
  if (first === undefined || last === undefined) throw new RangeError('table of sizes is empty')
  if (above === undefined) return (last[1] * from) / last[0]
  if (below === undefined) return (first[1] * from) / first[0]
  return below[1] + ((from - below[0]) * (above[1] - below[1])) / (above[0] - below[0])
}

interface SizeText {
  readonly name: string
  readonly ball_diameter?: number | undefined
  readonly land?: number | undefined
  readonly mask_opening?: number | undefined
}

export type LandSizes = Pick<Package, 'ballDiameter' | 'landDiameter' | 'maskOpening'>

/** Ball, land and mask opening: as described, else ball from pitch, land from ball, opening from land. */
export function landSizes(text: SizeText, pitch: Metres, path: Path, notes: Notes): LandSizes {
  const print = (value: Metres): string => formatLength(value, notes.context.displayUnit)
  const fill = (
    key: 'ball_diameter' | 'land' | 'mask_opening',
    words: string,
    value: Metres,
    source: string,
  ): Metres => {
    notes.assume([...path, key], `${words} of ${text.name}`, print(value), source)
    return value
  }
  const ballDiameter =
    text.ball_diameter ??
    fill('ball_diameter', 'ball diameter', lookUp(PITCH_TO_BALL, pitch), PITCH_TO_BALL.source)
  const landDiameter =
    text.land ?? fill('land', 'land diameter', lookUp(BALL_TO_LAND, ballDiameter), BALL_TO_LAND.source)
  const opening = landDiameter + lookUp(MASK_OVER_LAND, pitch)
  const maskOpening =
    text.mask_opening ?? fill('mask_opening', 'mask opening', opening, MASK_OVER_LAND.source)
  if (!(landDiameter < pitch)) {
    notes.error([...path, 'land'], {
      found: print(landDiameter),
      allowed: `less than the pitch, ${print(pitch)}`,
      message: `Lands of ${text.name} with ${print(landDiameter)} overlap at a pitch of ${print(pitch)}.`,
    })
  }
  if (!(ballDiameter < pitch)) {
    notes.error([...path, 'ball_diameter'], {
      found: print(ballDiameter),
      allowed: `less than the pitch, ${print(pitch)}`,
      message: `Balls of ${text.name} with ${print(ballDiameter)} touch at a pitch of ${print(pitch)}.`,
    })
  }
  return { ballDiameter, landDiameter, maskOpening }
}
