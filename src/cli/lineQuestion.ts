import type { Board } from '../board/board.ts'
import type { LineRequest } from '../section/crossSection.ts'
import type { Metres } from '../units/quantity.ts'
import { problemWith } from './badInput.ts'
import { quantityOption } from './quantityOption.ts'

/** A line as asked for in words, e.g. `{ layer: 'L3', width: '80 um' }`. */
export interface LineWords {
  readonly layer?: unknown
  readonly width?: unknown
  readonly gap?: unknown
  readonly coplanarGap?: unknown
  readonly withLayer?: unknown
}

/** The same with lengths read; layers wait for a stackup. Null where a part was left out or is wrong. */
export interface LineQuestion {
  readonly layer: string | null
  readonly width: Metres | null
  readonly gap: Metres | null
  readonly coplanarGap: Metres | null
  readonly withLayer: string | null
}

/** How each part is called where it was asked: `--coplanar-gap`, or the key of a query. */
export type Places = (part: keyof LineWords) => string

/** Reads everything that needs no board; what is wrong goes to `problems`. */
export async function readLineQuestion(
  words: LineWords,
  places: Places,
  problems: string[],
): Promise<LineQuestion> {
  const layer = layerWord('layer', words, places, problems)
  const width = await quantityOption(places('width'), words.width, 'length', problems)
  const gap = await optionalLength('gap', words, places, problems)
  const coplanarGap = await optionalLength('coplanarGap', words, places, problems)
  const withLayer = isAbsent(words.withLayer) ? null : layerWord('withLayer', words, places, problems)
  if (gap !== null && withLayer !== null) {
    problems.push(
      problemWith(
        places('withLayer'),
        'a gap beside it',
        'a pair coupled edge to edge or broadside, not both',
      ),
    )
  }
  return { layer, width, gap, coplanarGap, withLayer }
}

async function optionalLength(
  part: 'gap' | 'coplanarGap',
  words: LineWords,
  places: Places,
  problems: string[],
): Promise<Metres | null> {
  return isAbsent(words[part]) ? null : quantityOption(places(part), words[part], 'length', problems)
}

function layerWord(
  part: 'layer' | 'withLayer',
  words: LineWords,
  places: Places,
  problems: string[],
): string | null {
  const word = words[part]
  if (typeof word === 'number' && Number.isInteger(word)) return String(word)
  if (typeof word === 'string' && word.trim() !== '') return word.trim()
  const found = word === undefined ? 'nothing' : JSON.stringify(word)
  problems.push(problemWith(places(part), found, 'a copper layer by name or number, such as L3 or 3'))
  return null
}

function isAbsent(value: unknown): boolean {
  return value === undefined || value === null
}

/** Finds the layers in a stackup; null, with what is wrong in `problems`, where the question has no answer. */
export function lineRequest(
  board: Board,
  question: LineQuestion,
  places: Places,
  problems: string[],
): LineRequest | null {
  const before = problems.length
  const number = (part: 'layer' | 'withLayer'): number | null => {
    const name = question[part]
    return name === null ? null : layerNumber(board, name, places(part), problems)
  }
  const layer = number('layer')
  const broadsideLayer = number('withLayer')
  const { width, gap, coplanarGap } = question
  if (layer === null || width === null || problems.length > before) return null
  return { layer, width, gap, coplanarGap, broadsideLayer }
}

/** A layer by name first, then by number. */
export function layerNumber(board: Board, name: string, place: string, problems: string[]): number | null {
  const { copper } = board.stackup
  const found =
    copper.find((layer) => layer.name === name) ?? copper.find((layer) => String(layer.number) === name)
  if (found !== undefined) return found.number
  const names = copper.map((layer) => layer.name).join(', ')
  problems.push(problemWith(place, `"${name}"`, `a copper layer of this board: ${names}, or its number`))
  return null
}
