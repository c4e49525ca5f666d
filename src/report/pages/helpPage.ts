import type { PageFrame } from './pageFrame.ts'

export interface HelpPage {
  readonly page: PageFrame
  readonly chapters: readonly Chapter[]
}

export interface Chapter {
  readonly id: string
  readonly title: string
  readonly paragraphs: readonly string[]
  readonly entries: readonly { readonly term: string; readonly text: string }[]
  readonly hasEntries: boolean
}

function chapter(
  id: string,
  title: string,
  paragraphs: readonly string[],
  entries: readonly (readonly [string, string])[] = [],
): Chapter {
  return {
    id,
    title,
    paragraphs,
    entries: entries.map(([term, text]) => ({ term, text })),
    hasEntries: entries.length > 0,
  }
}

const CHAPTERS: readonly Chapter[] = [
  chapter(
    'words',
    'Words',
    [],
    [
      [
        'Land, ball, pitch',
        'The copper round on the board, the solder ball on it, the distance between neighbours.',
      ],
      [
        'Channel',
        'The gap between two neighbouring lands, pads or holes that traces pass. What is left of it after whole traces is the remainder.',
      ],
      [
        'Neck',
        'The narrow stretch of a net inside the breakout, dog-bone included, to half a pitch outside the last row.',
      ],
      ['Main route', 'The rest of the net, as wide as its target asks.'],
      ['Step', 'The change of impedance where neck and main route meet.'],
      ['Ring', 'All places of the grid at one depth from its edge; ring 1 is the outermost.'],
      ['Plane web', 'The copper that is left of a plane between two antipads.'],
      [
        'Band, ±',
        'The error of the method alone, as far as it is known. What pressing, etching and the material add is not in it.',
      ],
      ['Assumed', 'The description leaves the value out, and a cited table or common practice gave it.'],
      [
        'Own fit',
        'A correction of this project to a published formula, measured against the field solution.',
      ],
    ],
  ),
  chapter(
    'inputs',
    'What each input means',
    [
      'A description is a YAML file. Every physical value carries its unit (80 um, 3.2 mil, 60 ps, 50 ohm, 10 %); sums and products of such values are allowed. What is left out is filled in where common practice knows a value, and listed as assumed in every report.',
    ],
    [
      [
        'stackup',
        'The layers from top to bottom: mask, copper, core, prepreg. Dielectric thickness is after pressing; copper is either finished thickness, or starting foil with plating. Permittivity and loss tangent are given at a frequency.',
      ],
      [
        'vias',
        'Each kind of hole with the layers it joins, its drilled or finished diameter, pads, antipad, and whether it is drilled back, in the land, filled, capped, stacked.',
      ],
      [
        'fabrication',
        'What the fabricator makes: a named class, and any figure that differs from it. Trace to land, mask opening to trace and drilled hole to copper are separate rules and are all tested.',
      ],
      [
        'packages',
        'The grid, lands, mask openings and ball map, the via that takes its nets down, and whether that stands in the land or beside it.',
      ],
      [
        'escape of a package',
        'How it is to be broken out. Each part below may be left out; sides and areas are in the package’s own frame, row A at the top and column 1 at the left.',
      ],
      ['escape: layers', 'Those that carry nets out, in the order in which they are filled; no others do.'],
      [
        'escape: priority',
        'Nets planned first, the most important first: each entry is a pattern, or one of match, name, class and group. priority_layers says whether they are tried on shallow or on deep layers first. Both are preferences.',
      ],
      [
        'escape: sides',
        'The side through which nets must leave. The other net of a pair goes with the one that is meant; later entries override.',
      ],
      [
        'escape: keep_outs',
        'Rectangles that no trace may touch, by two opposite corners, from the middle of the grid to the right and upwards.',
      ],
      ['escape: apart', 'The gap that the traces of two match groups keep from each other on one layer.'],
      [
        'classes',
        'What the nets of a class ask for: target and tolerance, edge, data rate, neck and main route, source and load impedance, and any allowance with its source. A rise time says between which levels it counts, 10–90 or 20–80 per cent.',
      ],
      [
        'nets',
        'Which net belongs to which class, by name or pattern; partner, match group, length of the main route, delay inside the package.',
      ],
      ['claims', 'Layer counts that somebody states; the plan confirms or refutes each and says why.'],
      [
        'analysis',
        'The frequency at which permittivity is taken, and the limits that hold where a class gives none.',
      ],
    ],
  ),
  chapter(
    'computed',
    'What is computed',
    [],
    [
      [
        'Escape',
        'Whole traces past real obstacles, layer by layer, for through vias and for blind ones; beside it what each published rule would say.',
      ],
      [
        'Technologies',
        'The same breakout with through, blind and microvias, other pads and other traces, each planned from the start: layers, nets that stay inside, longest and worst neck, and an order of cost that is no price.',
      ],
      [
        'Section',
        'What a trace sees is derived from stackup, layer, width and gap. Nobody picks a structure.',
      ],
      [
        'Impedance',
        'A field solution of the section and every closed form that applies to it, each with its source, its limits and an error band; the one with the smallest band is chosen. The band is the error of the method alone. For a pair the value is differential, twice the odd mode.',
      ],
      [
        'Process',
        'What the tolerances of trace width, copper, dielectric thickness and permittivity do to each line: each by itself, all together as root sum of squares, and all at their worse end at once. What a trace gains, the gap of its pair loses. A finding names necks that pass as described and fail at a likely end.',
      ],
      [
        'Reflection',
        'The peak of the net’s own edge that the neck sends back, by the exact cascade of its sections and by short-section theory, between main routes and in front of the real source or load.',
      ],
      [
        'Traces beside necks',
        'The noise that they send to the near end and, over one plane, on to the far end, as shares of their own swing, from the capacitances and inductances of the row by field solution; every one at the worst instant, both lines matched. And the impedance of the neck while the nearest of them switches with it and against it.',
      ],
      [
        'Dielectric thickness',
        'The pressed thickness between trace and nearest plane that meets the target, and the range that stays inside the tolerance.',
      ],
    ],
  ),
  chapter('limits', 'What it does not do', [
    'It plans. It does not replace the fabricator’s field solution with their own data, the reading of a coupon, or a three-dimensional simulation of the via field: where they differ, they decide.',
    'Main routes are uniform lines over solid planes. Necks count the vias and lands that stand beside the planned path of each net, with the antipads of the vias in the planes, in two dimensions; dog-bones and traces beside necks are not in the impedance. The net’s own via is a short line, with what hangs beyond the exit layer as an open line beside it: its capacitance comes from the field around the barrel, its inductance from the supply vias around, taken to stand as far off as their balls. Its land, where it has no via in it, and its ball count as part of the device.',
    'It does not route the board: routes end half a pitch outside the package. Planes, power and other parts are not counted in the layers.',
    'Spacing for insulation or safety is outside it.',
  ]),
]

export function helpPage(version: string): HelpPage {
  return { page: { pageTitle: 'Help', version, board: null }, chapters: CHAPTERS }
}
