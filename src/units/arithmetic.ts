import {
  addDependencies,
  create,
  createUnitDependencies,
  divideDependencies,
  isConstantNode,
  isOperatorNode,
  isParenthesisNode,
  isSymbolNode,
  isUnit,
  multiplyDependencies,
  parseDependencies,
  subtractDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
  unitDependencies,
  type FactoryFunctionMap,
  type MathNode,
  type Unit,
} from 'mathjs'
import { DIMENSION_WORDS, type Dimension } from './dimension.ts'
import { readExpression } from './expression.ts'
import * as message from './messages.ts'
import { MAX_QUANTITY_LENGTH, type Arithmetic, type QuantityReading } from './parse.ts'
import type { Token } from './tokens.ts'
import { plainSpelling, siFactor, UNITS, type UnitEntry } from './unitTable.ts'

/**
 * Sums and products of quantities, by mathjs: it parses the text into a tree and evaluates the
 * tree with its units. It is given an instance of its own with nothing in it but units and the four
 * operations, and a text in which every unit has been replaced by a name bound to its SI value, so
 * that its own spellings (oz for a mass, T for tesla) and functions are out of reach; the tree is
 * checked against a list of allowed nodes all the same. Load this file by dynamic import: mathjs
 * takes a tenth of a second bundled, half a second from its package.
 */
export const arithmetic: Arithmetic = { evaluate }

const PARTS = {
  parseDependencies,
  unitDependencies,
  createUnitDependencies,
  addDependencies,
  subtractDependencies,
  multiplyDependencies,
  divideDependencies,
  unaryMinusDependencies,
  unaryPlusDependencies,
}
// Its types allow for parts that a build left out.
const factories = Object.entries(PARTS).flatMap(([, part]) => (part === undefined ? [] : [part]))
const math = create(Object.assign({}, ...factories) as FactoryFunctionMap, {})
math.createUnit('neper')
math.createUnit('symbolcount')

/** SI unit of each dimension in the words of mathjs; a ratio is a plain number there. */
const SI_UNITS: Readonly<Record<Exclude<UnitEntry['dimension'], 'ratio'>, string>> = {
  length: 'm',
  'copper thickness': 'm',
  'copper weight': 'm',
  time: 's',
  frequency: 'Hz',
  impedance: 'ohm',
  'bit rate': 'b / s',
  'symbol rate': 'symbolcount / s',
  attenuation: 'neper / m',
  angle: 'rad',
  'delay per length': 's / m',
  resistivity: 'ohm m',
}

/** Things that sums of lengths and times turn into by a slip, and that no description asks for. */
const OTHER_QUANTITIES = [
  ['m^2', 'an area'],
  ['m^3', 'a volume'],
  ['m / s', 'a speed'],
  ['s^2', 'a time squared'],
] as const

const OPERATIONS = new Set(['add', 'subtract', 'multiply', 'divide', 'unaryMinus', 'unaryPlus'])

function evaluate(text: string, dimension: Dimension): QuantityReading {
  const refuse = (found: string, allowed = message.onlyArithmetic(dimension)): QuantityReading => ({
    ok: false,
    found,
    allowed,
  })
  if (text.length > MAX_QUANTITY_LENGTH) return refuse(message.tooLong(text.length))
  const plain = plainSpelling(text)
  const read = readExpression(plain, dimension)
  if (!read.ok) return read
  const tree = parseTree(read.tokens)
  if (tree === null || !isAllowed(tree, MAX_QUANTITY_LENGTH)) return refuse(message.incomplete(plain))
  const result = valueOf(tree)
  if (result === null) return refuse(message.mixed(plain))
  const wanted = message.wanted(dimension)
  return hasDimension(result, dimension)
    ? finiteReading(inSi(result, dimension), plain, dimension)
    : refuse(message.resultIs(plain, nounOf(result)), wanted)
}

function finiteReading(value: number, plain: string, dimension: Dimension): QuantityReading {
  if (Number.isFinite(value)) return { ok: true, value }
  return { ok: false, found: message.notFinite(plain), allowed: message.inRange(dimension) }
}

const NAMES: ReadonlyMap<UnitEntry, string> = new Map(
  [...new Set(UNITS.values())].map((unit, index) => [unit, `unit${index}`]),
)

/** What each name stands for in mathjs: a unit with its SI value, or a number for a ratio. */
const SCOPE: ReadonlyMap<string, unknown> = new Map(
  [...NAMES].map(([unit, name]) => [
    name,
    unit.dimension === 'ratio' ? siFactor(unit) : math.unit(siFactor(unit), SI_UNITS[unit.dimension]),
  ]),
)

function parseTree(tokens: readonly Token[]): MathNode | null {
  const words = tokens.map((token) => (token.kind === 'unit' ? (NAMES.get(token.unit) ?? '') : token.text))
  try {
    return math.parse(words.join(' '))
  } catch (error) {
    if (error instanceof SyntaxError) return null
    throw error
  }
}

/** Numbers, names of units, parentheses and the four operations; nothing else, whatever the parser made of it. */
function isAllowed(node: MathNode, depth: number): boolean {
  if (depth === 0) return false
  if (isConstantNode(node)) return typeof node.value === 'number'
  if (isSymbolNode(node)) return SCOPE.has(node.name)
  if (isParenthesisNode(node)) return isAllowed(node.content, depth - 1)
  return (
    isOperatorNode(node) && OPERATIONS.has(node.fn) && node.args.every((arg) => isAllowed(arg, depth - 1))
  )
}

/** Null where units do not go together, as in mm + ps. */
function valueOf(tree: MathNode): number | Unit | null {
  try {
    const result: unknown = tree.compile().evaluate(new Map(SCOPE))
    if (typeof result === 'number') return result
    return isUnit(result) ? result : null
  } catch {
    return null
  }
}

function hasDimension(result: number | Unit, dimension: UnitEntry['dimension']): boolean {
  if (dimension === 'ratio') return typeof result === 'number'
  return typeof result !== 'number' && result.equalBase(math.unit(SI_UNITS[dimension]))
}

function inSi(result: number | Unit, dimension: Dimension): number {
  if (typeof result === 'number' || dimension === 'ratio') return withoutNoise(Number(result))
  return withoutNoise(result.toNumber(SI_UNITS[dimension]))
}

/** 1 in + 2 in comes out as 0.07619999999999999 m: the decimal number within a few rounding errors is what was meant. */
function withoutNoise(value: number): number {
  const decimal = Number(value.toPrecision(15))
  return Math.abs(decimal - value) <= 4 * Number.EPSILON * Math.abs(value) ? decimal : value
}

function nounOf(result: number | Unit): string {
  if (typeof result === 'number') return 'a bare number'
  const dimension = Object.keys(SI_UNITS).find((name) => hasDimension(result, name as UnitEntry['dimension']))
  if (dimension !== undefined) return DIMENSION_WORDS[dimension as Dimension].noun
  const other = OTHER_QUANTITIES.find(([unit]) => result.equalBase(math.unit(unit)))
  return other === undefined ? `a quantity in ${result.toSI().formatUnits()}` : other[1]
}
