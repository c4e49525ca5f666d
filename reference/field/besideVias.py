"""Cuts across a line that has vias on one side, or at unlike distances on both, by the finite elements beside this file.

Writes besideVias.json beside itself (2 min on one core):  python3 besideVias.py
Prints one cut with its bounds and time:                   python3 besideVias.py "name of the cut"
Prints what adding halves of channels misses:              python3 besideVias.py --sum

Each line is drawn between unbroken planes, in the middle of channels of several widths, with a via on the right only,
and between vias at unlike distances, so that the loading of the last two can be held to that of the channels. What has
two unlike sides is drawn whole. A piece of copper at zero volts that hangs free in the picture - the web between two
openings, a pad in a cut beside its barrel - is a conductor of its own number whose charge the bounds leave free, and
grounded by leaving out its row and column.
"""

import json
import math
import sys
import time
from dataclasses import dataclass
from itertools import count
from pathlib import Path

import numpy as np

sys.dont_write_bytecode = True

import finiteElements as elements  # noqa: E402
from finiteElements import SPEED_OF_LIGHT, VACUUM_PERMITTIVITY, Block, Scene, trapezoid  # noqa: E402

ORDER = 5
elements.FINEST_METAL = 5e-4  # with the order above the bounds are apart by less than 1e-4


@dataclass(frozen=True)
class Line:
    """A fine trace or pair, lengths in micrometres; sheets are (thickness, permittivity)."""

    name: str
    width: float  # at the foot, which faces the plane below
    top_width: float
    thickness: float
    below: tuple
    above: tuple = None  # up to the plane above; None for a trace on the surface
    gap: float = None
    behind: float = 100  # from a perforated plane to the unbroken one behind it
    plane: float = 17


@dataclass(frozen=True)
class Cut:
    line: Line
    kind: str  # 'solid', 'symmetric', 'one side', 'off-centre'
    left: float = None  # from the middle of the line to the middles of the vias
    right: float = None
    opening: float = 0
    barrel: float = 0
    pad: float = 0

    @property
    def name(self):
        if self.kind == 'solid':
            return f'{self.line.name}, solid'
        where = {'symmetric': f'{self.right} both', 'one side': f'{self.right} right'}
        sides = where.get(self.kind, f'{self.left} left, {self.right} right')
        return f'{self.line.name}, vias {sides}, opening {self.opening}, barrel {self.barrel}, pad {self.pad}'

    def channel(self, distance):
        return Cut(self.line, 'symmetric', distance, distance, self.opening, self.barrel, self.pad)

    @property
    def solid(self):
        return Cut(self.line, 'solid')


# --- from cuts to scenes --------------------------------------------------------------------------------------


def union(spans):
    found = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1]:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def scene_of(cut, symmetry):
    """All of the cut, or with `symmetry` 'even' or 'odd' its right half."""
    line, open_planes, slabs, height = cut.line, cut.opening > 0, [], 0.0
    planes, levels = [], {}

    def put(thickness, permittivity):
        nonlocal height
        slabs.append((height, permittivity))
        height += thickness

    def plane(permittivity):
        planes.append((height, height + line.plane))
        put(line.plane, permittivity)

    # The opening, and what is behind it, is filled by the sheet that lies against the plane.
    if open_planes:
        put(line.behind, line.below[1])
        plane(line.below[1])
    put(*line.below)
    levels['trace'] = height
    put(line.thickness, line.above[1] if line.above else 1)
    levels['copper'] = height
    if line.above:
        put(*line.above)
        if open_planes:
            plane(line.above[1])
            put(line.behind, line.above[1])
    else:
        slabs.append((height, 1))
    vias = [side * distance for side, distance in ((-1, cut.left), (1, cut.right)) if distance is not None]
    if symmetry is not None:
        vias = [at for at in vias if at > 0]
    return Drawing(cut, symmetry, slabs, height, planes, levels, vias).scene()


@dataclass
class Drawing:
    cut: Cut
    symmetry: str
    slabs: list
    height: float
    planes: list
    levels: dict
    vias: list

    def scene(self):
        cut, line = self.cut, self.cut.line
        outer = line.width / 2 if line.gap is None else line.gap / 2 + line.width
        extent = max([outer, *(abs(at) + cut.opening / 2 for at in self.vias)])
        reach = (elements.CLOSED_REACH if line.above else elements.OPEN_REACH) * max(self.height, extent)
        # Behind a barrel from plane to plane nothing matters: its near wall ends the picture.
        walls = [at for at in self.vias if cut.barrel > 0 and line.above]
        right = min([at - cut.barrel / 2 for at in walls if at > 0], default=reach)
        left = max([at + cut.barrel / 2 for at in walls if at < 0], default=-reach)
        self.span, number = ((left if self.symmetry is None else -right), right), count(1)
        blocks = [*self.traces(number), *self.webs(number), *self.bodies(number)]
        kind, ends = self.symmetry or 'open', 'grounded' if any(at > 0 for at in walls) else 'open'
        if self.symmetry is None and walls:
            # A picture that ends at copper on one side has that on the left, at zero.
            if left == -reach:
                blocks, left, right, ends = [mirrored(block) for block in blocks], -right, reach, 'open'
            blocks, right = [moved(block, -left) for block in blocks], right - left
            kind = 'odd'
        top = self.height if line.above else reach
        shortest = min(line.top_width, line.thickness, line.gap or math.inf)
        return Scene(self.slabs, blocks, top, kind, ends, right, not line.above, shortest=shortest)

    def traces(self, number):
        line = self.cut.line
        starts = [-line.width / 2] if line.gap is None else [line.gap / 2]
        if line.gap is not None and self.symmetry is None:
            starts.insert(0, -line.gap / 2 - line.width)
        y = self.levels['trace']
        return [trapezoid(x, line.width, line.top_width, y, line.thickness, 'below', next(number)) for x in starts]

    def webs(self, number):
        """The planes of the cut between their openings; beyond the openings they are solid."""
        half, found = self.cut.opening / 2, []
        ends = self.vias if self.symmetry is None else [*self.vias, *(-at for at in self.vias)]
        openings = union([(at - half, at + half) for at in ends])
        for y in self.planes:
            edges = [self.span[0], *(edge for opening in openings for edge in opening), self.span[1]]
            for low, high in zip(edges[::2], edges[1::2]):
                low, high = max(low, self.span[0]), min(high, self.span[1])
                if high <= low or (self.symmetry is not None and high <= 0):
                    continue
                held = low == self.span[0] or high == self.span[1] or self.symmetry is not None
                found.append(Block(y, (low, low), (high, high), 0 if held else next(number)))
        return found

    def bodies(self, number):
        cut, levels = self.cut, self.levels
        found = []
        for at in self.vias:
            wall = cut.barrel > 0 and cut.line.above is not None
            pad, low, high = cut.pad / 2, levels['trace'], levels['copper']
            if cut.barrel > 0 and not wall:
                near, far = at - cut.barrel / 2, at + cut.barrel / 2
                found.append(Block((0, high if pad == 0 else low), (near, near), (far, far), 0))
            if pad > cut.barrel / 2:
                near, far = max(at - pad, self.span[0]), min(at + pad, self.span[1])
                found.append(Block((low, high), (near, near), (far, far), 0 if cut.barrel > 0 else next(number)))
        return found


def mirrored(block):
    return Block(block.y, tuple(-x for x in block.right), tuple(-x for x in block.left), block.conductor)


def moved(block, by):
    return Block(block.y, tuple(x + by for x in block.left), tuple(x + by for x in block.right), block.conductor)


# --- results --------------------------------------------------------------------------------------------------


def solve(cut):
    """Name: (value, relative bound). Of a pair per trace: driven with plus and minus one volt, or one ampere."""
    line = cut.line
    halved = cut.kind in ('solid', 'symmetric')
    pair = line.gap is not None
    symmetry = ('odd' if pair else 'even') if halved else None
    filled, air = elements.bounds(scene_of(cut, symmetry), ORDER)
    signals = 2 if pair and not halved else 1
    drive = np.array([1, -1]) if signals == 2 else np.array([1])
    # A half picture of a single trace holds half of its charge; a whole one of a pair both traces.
    share = 2 if halved and not pair else 1 / signals
    upper, lower = (share * (drive @ bound[:signals, :signals] @ drive) for bound in filled)
    least, most = ((drive @ np.linalg.inv(bound[:signals, :signals]) @ drive) / share / signals**2 for bound in air)
    capacitance, inductance = between(lower, upper), between(least, most)
    return {
        'capacitance': (capacitance[0] * VACUUM_PERMITTIVITY, capacitance[1]),
        'inductance': (inductance[0] / (VACUUM_PERMITTIVITY * SPEED_OF_LIGHT**2), inductance[1]),
        'impedance': (
            math.sqrt(inductance[0] / capacitance[0]) / (VACUUM_PERMITTIVITY * SPEED_OF_LIGHT),
            (capacitance[1] + inductance[1]) / 2,
        ),
    }


def between(low, high):
    if high < low * (1 - 1e-7):
        raise ValueError('the lower bound lies above the upper one')
    return (low + high) / 2, abs(high - low) / (high + low)


# --- cuts -----------------------------------------------------------------------------------------------------

SURFACE = Line('surface trace', 100, 86, 30, (75, 3.7))
THIN_SURFACE = Line('low surface trace', 75, 63, 25, (60, 3.5))
STRIPLINE = Line('stripline', 90, 80, 15, (80, 3.7), (110, 3.4))
HIGH_STRIPLINE = Line('high stripline', 130, 116, 18, (180, 4.0), (200, 4.0), behind=150)
LOW_STRIPLINE = Line('low stripline', 75, 65, 15, (60, 3.3), (60, 3.3), behind=60)
SURFACE_PAIR = Line('surface pair', 80, 66, 30, (70, 3.8), gap=90)
STRIPLINE_PAIR = Line('stripline pair', 75, 65, 15, (100, 3.5), (110, 3.5), gap=100)


def asymmetric():
    """(line, distances to the left and right, opening, barrel, pad)."""
    return [
        (SURFACE, None, 250, 450, 0, 0),
        (SURFACE, None, 400, 600, 0, 0),
        (SURFACE, None, 325, 500, 150, 0),
        (SURFACE, None, 325, 500, 200, 350),
        (SURFACE, 325, 475, 600, 0, 0),
        (SURFACE, 300, 500, 600, 200, 400),
        (SURFACE, 250, 400, 500, 150, 0),
        (THIN_SURFACE, None, 200, 450, 0, 0),
        (THIN_SURFACE, 200, 300, 450, 100, 200),
        (THIN_SURFACE, 200, 300, 450, 0, 250),
        (STRIPLINE, None, 250, 450, 0, 0),
        (STRIPLINE, None, 250, 450, 200, 0),
        (STRIPLINE, None, 325, 500, 200, 400),
        (STRIPLINE, None, 325, 450, 0, 350),
        (STRIPLINE, None, 400, 740, 250, 0),
        (STRIPLINE, 325, 475, 600, 0, 0),
        (STRIPLINE, 325, 475, 600, 200, 0),
        (STRIPLINE, 250, 400, 500, 150, 300),
        (STRIPLINE, 350, 650, 800, 250, 500),
        (LOW_STRIPLINE, None, 200, 450, 0, 0),
        (LOW_STRIPLINE, None, 200, 450, 100, 250),
        (LOW_STRIPLINE, 200, 300, 450, 100, 250),
        (HIGH_STRIPLINE, None, 400, 700, 250, 0),
        (HIGH_STRIPLINE, 325, 475, 600, 200, 0),
        (HIGH_STRIPLINE, 325, 475, 600, 0, 0),
        (SURFACE_PAIR, None, 400, 600, 0, 0),
        (SURFACE_PAIR, None, 400, 600, 200, 400),
        (SURFACE_PAIR, 350, 450, 620, 200, 0),
        (SURFACE_PAIR, 350, 450, 620, 0, 350),
        (STRIPLINE_PAIR, None, 350, 550, 0, 0),
        (STRIPLINE_PAIR, None, 350, 550, 150, 350),
        (STRIPLINE_PAIR, None, 400, 660, 250, 0),
        (STRIPLINE_PAIR, 350, 450, 620, 0, 0),
        (STRIPLINE_PAIR, 350, 450, 620, 200, 0),
        (STRIPLINE_PAIR, 350, 650, 620, 200, 400),
    ]


def cuts():
    """Fine lines: traces 75 to 130 um, 60 to 200 um from their planes, among vias 400 to 1000 um apart."""
    found = {}
    for line, left, right, *shapes in asymmetric():
        cut = Cut(line, 'one side' if left is None else 'off-centre', left, right, *shapes)
        sides = [cut.channel(distance) for distance in (left, right) if distance is not None]
        for each in (cut.solid, *sides, cut):
            found[each] = None
    return list(found)


# --- the sum --------------------------------------------------------------------------------------------------

RULES = {
    'sum of halves': lambda excesses: 1 + sum(excess / 2 for excess in excesses),
    'product of roots': lambda excesses: math.prod(math.sqrt(1 + excess) for excess in excesses),
    'sum of halves of reciprocals': lambda excesses: 1 / (1 + sum((1 / (1 + excess) - 1) / 2 for excess in excesses)),
}


def print_sums(found):
    """What each rule misses, in percent: of capacitance, inductance, impedance."""
    for rule, combine in RULES.items():
        print(rule)
        for cut in found:
            if cut.kind not in ('one side', 'off-centre'):
                continue
            sides = [cut.channel(distance) for distance in (cut.left, cut.right) if distance is not None]

            def ratio(of, what):
                return found[of][what][0] / found[cut.solid][what][0]

            said = {
                what: combine([ratio(side, what) - 1 for side in sides]) for what in ('capacitance', 'inductance')
            }
            said['impedance'] = math.sqrt(said['inductance'] / said['capacitance'])
            shown = ' '.join(
                f'{what[0]} {100 * (ratio(cut, what) - 1):+7.2f} missed by {100 * (said[what] - ratio(cut, what)):+6.2f}'
                for what in said
            )
            print(f'  {shown}  {cut.name}')


# --- the table ------------------------------------------------------------------------------------------------

CONDITIONS = (
    'As in finiteElements.json, and: a line at x = 0 with vias whose middles are at the stated distances to the left '
    'and right of its middle, none where null. In the cut every via has an opening of the stated width in each plane '
    '(0: none), a grounded barrel and a grounded pad of the stated widths (0: the cut misses it), all as extruded along '
    'the line. Planes are solid beyond the openings; openings that meet are one. An opening, and the space behind its '
    'plane as far as the next, unbroken plane, is filled by the sheet that lies against the plane on the side of the '
    'trace. A barrel reaches from the plane behind the lower one to the one behind the upper one, or to the top of the '
    'trace on the surface; the pad is in the layer of the trace and as thick. Copper is rectangular but for the trace. '
    'Of a pair, capacitance and inductance are those of one trace where the two carry plus and minus one volt, or one '
    'ampere; inductance is that of the currents on the faces, from the capacitances without dielectric. '
    'relativeBound is the worst of the row, with 1e-6 added for rounding.'
)

COLUMNS = [
    ('name', 'text'), ('kind', 'text'), ('line', 'text'), ('arrangement', 'text'), ('width', 'um'),
    ('topWidth', 'um'), ('thickness', 'um'), ('gap', 'um'), ('sheetBelow', 'um, 1'), ('sheetAbove', 'um, 1'),
    ('planeThickness', 'um'), ('behind', 'um'), ('left', 'um'), ('right', 'um'), ('opening', 'um'), ('barrel', 'um'),
    ('pad', 'um'), ('capacitance', 'F/m'), ('inductance', 'H/m'), ('impedance', 'ohm'), ('relativeBound', '1'),
]  # fmt: skip


def row(cut, results):
    line = cut.line
    bound = max(bound for _, bound in results.values()) + elements.ROUNDING
    return [
        cut.name, cut.kind, line.name, 'single' if line.gap is None else 'edge pair', line.width, line.top_width,
        line.thickness, line.gap, line.below, line.above, line.plane, line.behind, cut.left, cut.right, cut.opening,
        cut.barrel, cut.pad, *(elements.rounded(value) for value, _ in results.values()), elements.tolerance(bound),
    ]  # fmt: skip


def main():
    if len(sys.argv) > 1 and sys.argv[1] != '--sum':
        cut = next(cut for cut in cuts() if cut.name == sys.argv[1])
        start = time.perf_counter()
        for name, (value, bound) in solve(cut).items():
            print(name, value, 'within', bound)
        print(f'{time.perf_counter() - start:.2f} s')
        return
    found, start = {}, time.perf_counter()
    for cut in cuts():
        found[cut] = solve(cut)
        worst = max(bound for _, bound in found[cut].values())
        print(f'{cut.name}: within {worst:.1e}, {time.perf_counter() - start:.0f} s', flush=True)
    if len(sys.argv) > 1:
        print_sums(found)
        return
    document = {
        'title': 'Cuts across a fine line among vias on one side or on both, by finite elements bounded from both sides',
        'source': {
            'citation': 'own finite-element solution (besideVias.py and finiteElements.py beside this file), sharing no '
            'code and no method with the boundary elements of the project; sources of the method as in '
            'finiteElements.json',
            'retrieved': '2026-11-25',
        },
        'conditions': CONDITIONS,
        'tables': [
            {
                'name': 'cuts',
                'title': 'What stands beside the line, and its capacitance, inductance and impedance',
                'columns': [{'name': name, 'unit': unit} for name, unit in COLUMNS],
                'rows': [row(cut, results) for cut, results in found.items()],
            }
        ],
    }
    Path(__file__).with_suffix('.json').write_text(json.dumps(document) + '\n', encoding='utf8')


if __name__ == '__main__':
    main()
