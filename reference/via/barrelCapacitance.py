"""Capacitance of plated vias in boards, by finite elements in r and z bounded from both sides.

Writes barrelCapacitance.json beside itself (three minutes on one core):  python3 barrelCapacitance.py
Prints the exact checks alone:                                              python3 barrelCapacitance.py --check
Prints one case with its bounds and the meshes one coarser and finer:       python3 barrelCapacitance.py "name"

Method. The picture is round about the axis of the barrel. Rectangles of a tensor grid, graded geometrically to every
corner of copper, carry polynomials of ORDER in each direction.
- From above (Dirichlet's principle): the potential phi, 1 V on barrel and pads and 0 V on planes, gives
  C <= 2 pi int permittivity r |grad phi|^2 dr dz for any trial field.
- From below (Thomson's principle): 2 pi psi(r, z) is the flux through the disc of radius r at height z, so that
  D = (-d psi/dz, d psi/dr) / r has no divergence whatever psi is. With psi = 0 on the axis above the barrel and 1 below it,
  C >= 2 pi / int |grad psi|^2 / (permittivity r) dr dz. On copper psi is free, which is right as all planes have the
  same potential; where the natural boundary closes a cavity psi is one free constant.
  A wire of AXIS_SHARE of the barrel's radius about the axis above and below the barrel is taken to be empty of flux, which
  can only make the lower bound lower.
capacitance is the mean of the two, bound half of their difference over it, with 1e-5 added for rounding. The bound is that
of the problem with the outer boundary where it is: what moving that twice as far out does is among the checks.

Conventions. Lengths in metres. layers run from top to bottom. The barrel is a solid cylinder from the outer face of its
first copper layer to the outer face of its last (barrel.firstCopperLayer and lastCopperLayer, counted from 1 at the top);
pads are flat discs as thick as the copper of their layer. A plane whose openingRadius is null is unbroken, which only
planes that the barrel does not reach may be; what lies beyond it has no field. Openings, the copper layer around pads and
empty signal layers are filled: between two sheets by the mean of their permittivities, on an outer layer by the mask, or by
air where there is none. A mask is flat, its thickness counted from the outer face of the outer copper. Beyond is air. The
natural boundary lies at sixteen times the largest of opening radius and distance of planes, or at 6 mm if that is
further, in r and above and below the board.
chargeByCopperLayer: 2 pi psi on the barrel, half way through the dielectric on either side of the copper layer, scaled to
add up to the capacitance; the end faces of the barrel are in the first and last regions. chargeBound is the largest
difference to the same from the other mesh, over the capacitance: an estimate, not a bound.
"""

import json
import math
import sys
import time
from pathlib import Path

import numpy as np
from scipy.special import i0, k0

sys.dont_write_bytecode = True

from axisymmetricElements import (  # noqa: E402
    ORDER,
    POLYNOMIALS,
    RATIO,
    VALUES,
    WEIGHTS,
    Field,
    between,
    halves,
    joined,
    nodes_of,
    outwards,
    touched,
)
from barrelCases import cases  # noqa: E402

VACUUM_PERMITTIVITY = 8.8541878128e-12
STEPS = 4  # elements of each half of an interval between two corners
AXIS_SHARE = 0.02
EMPTY, BARREL, PLANE = 0, 1, 2


# --- the picture of a case ------------------------------------------------------------------------------------


class Picture:
    """Faces, fillings and copper of a case; heights count downwards from the outer face of the first copper layer."""

    def __init__(self, case, reach=1):
        self.case = case
        layers = case['layers']
        depth = np.concatenate(([0], np.cumsum([layer['thickness'] for layer in layers])))
        self.copper = [(depth[k], depth[k + 1], layer) for k, layer in enumerate(layers) if layer['kind'] == 'copper']
        sheets = [
            (depth[k], depth[k + 1], layer['permittivity'])
            for k, layer in enumerate(layers)
            if layer['kind'] == 'dielectric'
        ]
        first, last = case['barrel']['firstCopperLayer'] - 1, case['barrel']['lastCopperLayer'] - 1
        self.span = (first, last)
        self.top, self.bottom = self.copper[first][0], self.copper[last][1]
        planes = [(start, end) for start, end, layer in self.copper if layer['role'] == 'plane']
        openings = [layer['openingRadius'] or 0 for _, _, layer in self.copper]
        gaps = [lower[0] - upper[1] for upper, lower in zip(planes[:-1], planes[1:])]
        self.outer = reach * max(16 * max(openings + gaps), 6e-3)
        mask = case['mask']
        skin = mask['thickness'] if mask else 0
        around = mask['permittivity'] if mask else 1
        board = depth[-1]
        # An unbroken plane ends the picture; otherwise air does.
        self.lid = next((end for start, end, layer in reversed(self.copper[:first]) if unbroken(layer)), None)
        self.floor = next((start for start, _, layer in self.copper[last + 1 :] if unbroken(layer)), None)
        self.start = -skin - self.outer if self.lid is None else self.lid
        self.end = board + skin + self.outer if self.floor is None else self.floor
        self.fillings = [(-skin - self.outer, -skin, 1)] + ([(-skin, 0, around)] if mask else []) + list(sheets)
        for start, end, _ in self.copper:
            above = next((sheet[2] for sheet in sheets if abs(sheet[1] - start) < 1e-12), None)
            below = next((sheet[2] for sheet in sheets if abs(sheet[0] - end) < 1e-12), None)
            outside = above is None or below is None
            self.fillings.append((start, end, around if outside else (above + below) / 2))
        self.fillings += ([(board, board + skin, around)] if mask else []) + [
            (board + skin, board + skin + self.outer, 1)
        ]
        # Charges are told apart half way between copper layers.
        self.cuts = [(upper[1] + lower[0]) / 2 for upper, lower in zip(self.copper[:-1], self.copper[1:])]

    def grid(self, steps):
        case = self.case
        corners = {self.top, self.bottom}
        for start, end, layer in self.copper:
            if layer['role'] == 'plane' or layer['padRadius'] is not None:
                corners |= {start, end}
        heights = sorted(value for value in corners if self.start - 1e-12 < value < self.end + 1e-12)
        smallest = RATIO ** (steps - 1) * 0.5
        pieces = between(heights, steps)
        finest = smallest * min(np.diff(heights)) * 4
        if self.lid is None:
            pieces.append(-outwards(-heights[0], -self.start, finest))
        if self.floor is None:
            pieces.append(outwards(heights[-1], self.end, finest))
        plain = [value for filling in self.fillings for value in filling[:2] if self.start < value < self.end]
        plain += [cut for cut in self.cuts if self.start < cut < self.end]
        barrel = case['barrelRadius']
        edges = {barrel} | {
            layer[key] for _, _, layer in self.copper for key in ('openingRadius', 'padRadius') if layer[key]
        }
        edges = sorted(edges)
        finest_radius = smallest * min(np.diff(edges)) * 4 if len(edges) > 1 else smallest * barrel
        self.axis = AXIS_SHARE * barrel
        inside = barrel - outwards(0, barrel - self.axis, finest_radius)
        inside[-1] = self.axis
        core = self.axis * np.array([0, 1])
        finer = np.geomspace(self.axis, barrel / 2, 4)
        radii = joined([core, finer, inside] + between(edges, steps) + [outwards(edges[-1], self.outer, finest_radius)])
        return radii, joined(pieces + [np.array(plain)] if plain else pieces)

    def paint(self, radii, heights):
        """Permittivity and copper by element."""
        middle_r, middle_z = (radii[:-1] + radii[1:]) / 2, (heights[:-1] + heights[1:]) / 2
        permittivity = np.ones(len(middle_z))
        for start, end, value in self.fillings:
            permittivity[(middle_z > start) & (middle_z < end)] = value
        copper = np.zeros((len(middle_r), len(middle_z)), int)
        for start, end, layer in self.copper:
            rows = (middle_z > start) & (middle_z < end)
            if layer['role'] == 'plane':
                copper[np.ix_(middle_r > (layer['openingRadius'] or 0), rows)] = PLANE
            elif layer['padRadius'] is not None:
                copper[np.ix_(middle_r < layer['padRadius'], rows)] = BARREL
        copper[np.ix_(middle_r < self.case['barrelRadius'], (middle_z > self.top) & (middle_z < self.bottom))] = BARREL
        return np.broadcast_to(permittivity, copper.shape), copper


def unbroken(layer):
    return layer['role'] == 'plane' and layer['openingRadius'] is None


def upper_bound(picture, radii, heights):
    permittivity, copper = picture.paint(radii, heights)
    field = Field(radii, heights, np.where(copper == EMPTY, permittivity, 0), lambda r: r)
    fixed = np.full(field.shape, np.nan)
    fixed[touched(copper == BARREL)] = 1
    fixed[touched(copper == PLANE)] = 0
    if picture.lid is not None:
        fixed[:, 0] = 0
    if picture.floor is not None:
        fixed[:, -1] = 0
    return 2 * math.pi * VACUUM_PERMITTIVITY * field.solve(fixed)[1]


def lower_bound(picture, radii, heights):
    """The bound, and the charges by copper layer as shares of the whole."""
    permittivity, copper = picture.paint(radii, heights)
    scale = np.where(copper == EMPTY, 1 / permittivity, 0)
    wire = np.searchsorted(radii, picture.axis * (1 + 1e-9)) - 1
    field = Field(radii[wire:], heights, scale[wire:], lambda r: 1 / r)
    height = nodes_of(heights)
    fixed = np.full(field.shape, np.nan)
    fixed[0, height <= picture.top + 1e-12] = 0
    fixed[0, height >= picture.bottom - 1e-12] = 1
    # Each run of free boundary at the outer radius lets no flux out.
    rim = np.nonzero(touched(copper[wire:] == EMPTY)[-1] & field.used.reshape(field.shape)[-1])[0]
    runs = rim_runs(copper[-1] == EMPTY)
    tied = []
    for start, end in runs:
        nodes = np.arange(start * ORDER, end * ORDER + 1)
        if start == 0 and picture.lid is None:
            fixed[-1, nodes] = 0
        elif end == len(heights) - 1 and picture.floor is None:
            fixed[-1, nodes] = 1
        else:
            tied.append((field.shape[0] - 1) * field.shape[1] + nodes)
    assert len(rim) == sum((end - start) * ORDER + 1 for start, end in runs)
    if picture.lid is None:
        fixed[:, 0] = 0
    if picture.floor is None:
        fixed[:, -1] = 1
    flux, energy = field.solve(fixed, tied)
    surface = (np.searchsorted(radii, picture.case['barrelRadius'] * (1 - 1e-9)) - wire) * ORDER
    first, last = picture.span
    passed = [0.0]
    for cut in picture.cuts[first:last]:
        passed.append(flux[surface, np.argmin(abs(height - cut))])
    shares = np.zeros(len(picture.copper))
    shares[first : last + 1] = np.diff(passed + [1.0])
    return 2 * math.pi * VACUUM_PERMITTIVITY / energy, shares


def rim_runs(empty):
    edges = np.flatnonzero(np.diff(np.concatenate(([0], empty.astype(int), [0]))))
    return list(zip(edges[::2], edges[1::2]))


def bounds(case, steps=STEPS, reach=1):
    picture = Picture(case, reach)
    radii, heights = picture.grid(steps)
    lower, shares = lower_bound(picture, radii, heights)
    return lower, upper_bound(picture, radii, heights), shares


def solved(case):
    lower, upper, shares = bounds(case)
    coarse = bounds(case, STEPS - 1)[2]
    capacitance = (lower + upper) / 2
    return {
        **case,
        'capacitance': float(f'{capacitance:.6g}'),
        'bound': float(f'{(upper - lower) / 2 / capacitance + 1e-5:.2g}'),
        'chargeByCopperLayer': [float(f'{share * capacitance:.6g}') for share in shares],
        'chargeBound': float(f'{max(abs(shares - coarse)):.2g}'),
    }


# --- exact checks -----------------------------------------------------------------------------------------------


def coaxial_check():
    """A barrel through one thick plane: what a millimetre more of plane adds is a coaxial line's capacitance."""
    values = []
    for thickness in (1e-3, 2e-3):
        case = {
            'barrelRadius': 1e-4,
            'barrel': {'firstCopperLayer': 1, 'lastCopperLayer': 1},
            'layers': [
                {'kind': 'copper', 'role': 'plane', 'thickness': thickness, 'openingRadius': 3e-4, 'padRadius': None}
            ],
            'mask': None,
        }
        lower, upper, _ = bounds(case)
        values.append((lower, upper))
    exact = 2 * math.pi * VACUUM_PERMITTIVITY * 1e-3 / math.log(3)
    found = (sum(values[1]) - sum(values[0])) / 2
    return {
        'name': 'coaxial cylinder, a millimetre of plane',
        'exact': exact,
        'found': found,
        'relativeDifference': found / exact - 1,
    }


def cavity_series(barrel, opening, height, count=4000):
    """Energy (twice, at 1 V) and charge of the barrel over 2 pi permittivity, between planes at 0 and height.

    In the openings the potential is g = ln(opening / r) / ln(opening / barrel), beyond them zero. phi = g + u with
    u = sum over odd n of u_n(r) sin(n pi z / height): g is harmonic but for its kink at the opening, so u has a ring source
    there and is zero on barrel and planes. With k = n pi / height and L = ln(opening / barrel)
    u_n(r) = 4 / (n pi L) (I0(k r) - I0(k barrel) K0(k r) / K0(k barrel)) K0(k opening) for r below the opening. Hence
    charge = height / L (1 - 8 / pi^2 sum K0(k opening) / K0(k barrel) / n^2),
    energy = height / L (1 - sum 2 / (n pi) u_n(opening)).
    """
    log = math.log(opening / barrel)
    charge = energy = 1.0
    for n in range(1, 2 * count, 2):
        k = n * math.pi / height
        if k * opening < 600:
            ratio = k0(k * opening) / k0(k * barrel)
            product = i0(k * opening) * k0(k * opening) - i0(k * barrel) * k0(k * opening) * ratio
        else:
            ratio, product = 0, 1 / (2 * k * opening)
        charge -= 8 / math.pi**2 * ratio / n**2
        energy -= 8 / (n * math.pi) ** 2 / log * product
    return energy * height / log, charge * height / log


def cavity_check(barrel, opening, height):
    radii = joined(
        between([barrel, opening], 8) + [outwards(opening, opening + 10 * height, RATIO**7 * (opening - barrel))]
    )
    heights = halves(0, height, 8)
    field = Field(radii, heights, np.ones((len(radii) - 1, len(heights) - 1)), lambda r: r)
    fixed = np.full(field.shape, np.nan)
    radius = nodes_of(radii)
    fixed[:, 0] = fixed[:, -1] = np.maximum(0, np.log(opening / radius) / math.log(opening / barrel))
    fixed[0] = 1
    potential, energy = field.solve(fixed)
    slope = (
        np.array([polynomial.deriv()(-1) for polynomial in POLYNOMIALS])
        @ potential[: ORDER + 1]
        * 2
        / (radii[1] - radii[0])
    )
    values = np.array([slope[k * ORDER : (k + 1) * ORDER + 1] for k in range(len(heights) - 1)]) @ VALUES
    charge = -barrel * float(np.sum(values * WEIGHTS * np.diff(heights)[:, None] / 2))
    exact_energy, exact_charge = cavity_series(barrel, opening, height)
    name = f'cavity of {height * 1e3:g} mm, barrel {barrel * 1e6:g} um, opening {opening * 1e6:g} um'
    scale = 2 * math.pi * VACUUM_PERMITTIVITY
    return [
        {
            'name': f'{name}: {what}',
            'exact': scale * exact,
            'found': scale * found,
            'relativeDifference': found / exact - 1,
        }
        for what, exact, found in (
            ('twice the energy at 1 V', exact_energy, energy),
            ('charge of the barrel', exact_charge, charge),
        )
    ]


def checks():
    rows = [coaxial_check()]
    for barrel, opening, height in (
        (1e-4, 3e-4, 2e-4),
        (1e-4, 3e-4, 9e-4),
        (1.5e-4, 5e-4, 4e-4),
        (7.5e-5, 2.5e-4, 1e-4),
    ):
        rows += cavity_check(barrel, opening, height)
    for case in cases()[:: len(cases()) // 4]:
        lower, upper, _ = bounds(case)
        further = sum(bounds(case, reach=2)[:2])
        name = f'natural boundary twice as far out: {case["name"]}'
        rows.append(
            {'name': name, 'exact': None, 'found': further / 2, 'relativeDifference': further / (lower + upper) - 1}
        )
    for row in rows:
        print(f'{row["relativeDifference"]:+.1e}  {row["found"]:.6g}  {row["name"]}', flush=True)
    return rows


def write():
    rows, checked = [], checks()
    for case in cases():
        began = time.time()
        rows.append(solved(case))
        row = rows[-1]
        figures = f'{row["capacitance"] * 1e15:8.2f} fF  bound {row["bound"]:.1e}  charges {row["chargeBound"]:.0e}'
        print(f'{figures}  {time.time() - began:4.1f} s  {row["name"]}', flush=True)
    head = {
        'title': 'Capacitance of plated vias in boards, by finite elements in r and z bounded from both sides',
        'source': {
            'citation': 'own finite-element solution (barrelCapacitance.py beside this file), which shares no code and no '
            'method with the closed forms of the project; principles of Dirichlet and Thomson as in textbooks',
            'retrieved': '2026-12-01',
        },
        'conditions': __doc__.split('Conventions. ')[1].replace('\n', ' ').strip(),
    }
    text = json.dumps(head, indent=1)[:-2]
    for key, table in (('checks', checked), ('cases', rows)):
        text += f',\n "{key}": [\n' + ',\n'.join('  ' + json.dumps(row) for row in table) + '\n ]'
    Path(__file__).with_suffix('.json').write_text(text + '\n}\n')


if __name__ == '__main__':
    if len(sys.argv) == 1:
        write()
    elif sys.argv[1] == '--check':
        checks()
    else:
        for case in cases():
            if case['name'] == sys.argv[1]:
                for steps in (STEPS - 1, STEPS, STEPS + 1):
                    began = time.time()
                    lower, upper, shares = bounds(case, steps)
                    print(
                        f'{steps} steps: {lower * 1e15:.4f} to {upper * 1e15:.4f} fF, {shares}, {time.time() - began:.1f} s'
                    )
