import { describe, expect, it } from 'vitest'
import { breakoutMap } from '../../../src/report/figures/breakoutMap.ts'
import { channelPlan } from '../../../src/report/figures/channelPlan.ts'
import { neckSection } from '../../../src/report/figures/neckSection.ts'
import { packageGrid } from '../../../src/report/figures/packageGrid.ts'
import { stackupDrawing } from '../../../src/report/figures/stackupDrawing.ts'
import { thicknessCurve } from '../../../src/report/figures/thicknessCurve.ts'
import { board, memory, processor } from '../fixtures/board.ts'
import { escapes } from '../fixtures/escapes.ts'
import { section } from '../fixtures/lines.ts'
import { thicknesses } from '../fixtures/signals.ts'
import { danglingReferences, duplicateIds, firstUnbalanced, tagsOf } from '../markup.ts'

const layerName = (layer: number): string => `L${layer}`
const unit = 'mm'

function planOf(index: number) {
  const escape = escapes[index]
  const plan = escape?.plans.find((each) => each.technology === escape.chosen)
  if (plan === undefined) throw new Error(`the sample has no plan ${index}`)
  return plan
}

function grid(index: number): string {
  const plan = planOf(index)
  return packageGrid({
    id: 'grid',
    package: index === 0 ? processor : memory,
    exitLayers: new Map(plan.routes.map((route) => [route.ball, route.exitLayer])),
    unescaped: new Set(plan.unescaped.map((each) => each.ball)),
    layerName,
    unit,
  })
}

function map(index: number, number: number): string {
  const plan = planOf(index)
  const layer = plan.layers.find((each) => each.layer === number)
  if (layer === undefined) throw new Error(`the sample lets no net leave on layer ${number}`)
  const partnerOf = (net: string): string | null =>
    board.nets.find((each) => each.name === net)?.partner ?? null
  return breakoutMap({
    id: 'map',
    package: index === 0 ? processor : memory,
    plan,
    layer,
    mains: [],
    layerName,
    partnerOf,
    unit,
  })
}

function channel(package_: number, index: number): string {
  const fit = escapes[package_]?.channels[index]
  if (fit === undefined) throw new Error('the sample has no such channel')
  return channelPlan({ id: 'channel', fit, layerName: layerName(fit.layer), unit })
}

function curve(index: number, shown: 'mm' | 'mil'): string {
  const choice = thicknesses[index]
  if (choice === undefined) throw new Error('the sample has no such choice')
  return thicknessCurve({
    id: 'curve',
    choice,
    tolerance: 0.1,
    layerName: layerName(choice.layer),
    unit: shown,
  })
}

const single = section(3, 80e-6, null)
const farPlane = { ...single, above: single.above.map((sheet) => ({ ...sheet, thickness: 0.9e-3 })) }
const broadside = {
  ...single,
  arrangement: 'broadside pair' as const,
  broadside: { layer: 4, sheets: single.below },
}

const FIGURES: readonly (readonly [string, () => string])[] = [
  ['grid-of-processor', () => grid(0)],
  ['grid-of-memory', () => grid(1)],
  ['channel-between-lands', () => channel(0, 0)],
  ['channel-with-a-pair-and-no-room', () => channel(0, 1)],
  ['channel-between-holes', () => channel(0, 2)],
  ['channel-too-narrow', () => channel(1, 0)],
  ['breakout-on-land-layer', () => map(0, 1)],
  ['breakout-on-inner-layer', () => map(0, 3)],
  ['breakout-past-holes-without-pads', () => map(0, 8)],
  ['breakout-with-vias-in-pads', () => map(1, 3)],
  ['curve-without-a-thickness', () => curve(0, 'mm')],
  ['curve-in-mil', () => curve(1, 'mil')],
  [
    'neck-on-the-top',
    () => neckSection({ id: 'neck', section: section(1, 95e-6, null), title: 'Neck', unit }),
  ],
  [
    'neck-of-a-pair-inside',
    () => neckSection({ id: 'neck', section: section(3, 80e-6, 90e-6), title: 'Neck', unit }),
  ],
  [
    'neck-on-the-bottom-with-coplanar-ground',
    () =>
      neckSection({
        id: 'neck',
        section: { ...section(10, 80e-6, 90e-6), coplanarGap: 100e-6 },
        title: 'Neck',
        unit,
      }),
  ],
  ['neck-with-a-far-plane', () => neckSection({ id: 'neck', section: farPlane, title: 'Neck', unit })],
  ['broadside-pair', () => neckSection({ id: 'neck', section: broadside, title: 'Pair', unit })],
  ['stackup', () => stackupDrawing({ id: 'stackup', stackup: board.stackup, vias: board.vias, unit })],
]

describe.each(FIGURES)('the figure %s', (name, draw) => {
  const svg = draw()

  it('looks as it did when a person last opened it', async () => {
    await expect(`${svg.replaceAll('><', '>\n<')}\n`).toMatchFileSnapshot(`snapshots/${name}.svg`)
  })

  it('is well formed, with ids of its own that all lead somewhere', () => {
    expect(firstUnbalanced(svg)).toBeNull()
    expect(duplicateIds(svg)).toEqual([])
    expect(danglingReferences(svg)).toEqual([])
  })

  it('has no style, no script, no missing figure, and no more than two decimals', () => {
    expect(svg).not.toMatch(/style=|<script|NaN|undefined|Infinity/)
    const coordinates = tagsOf(svg).flatMap(({ attributes }) =>
      ['d', 'x', 'y', 'cx', 'cy', 'r', 'width', 'height', 'points'].flatMap(
        (key) => attributes.get(key) ?? [],
      ),
    )
    expect(coordinates.filter((text) => /\d\.\d{3,}/.test(text))).toEqual([])
  })

  it('keeps its marks inside its area', () => {
    const [outer] = tagsOf(svg)
    const [, , width = 0, height = 0] = (outer?.attributes.get('viewBox') ?? '').split(' ').map(Number)
    const outside = tagsOf(svg).filter(({ name: tag, attributes }) => {
      if (!['circle', 'text', 'rect'].includes(tag) || attributes.has('rx')) return false
      const x = Number(attributes.get('cx') ?? attributes.get('x') ?? 0)
      const y = Number(attributes.get('cy') ?? attributes.get('y') ?? 0)
      return x < 0 || y < 0 || x > width || y > height
    })
    expect(outside).toEqual([])
  })

  it('says in words what it shows, with figures', () => {
    const description = /<desc[^>]*>([^<]+)</.exec(svg)?.[1] ?? ''
    expect(description.length).toBeGreaterThan(40)
    expect(description).toMatch(/\d/)
  })
})
