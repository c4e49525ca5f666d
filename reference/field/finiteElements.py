"""Capacitances of printed-line cross-sections by finite elements, bounded from both sides.

Writes finiteElements.json beside itself:  python3 finiteElements.py
Prints one case with its bounds and time:  python3 finiteElements.py "name of the case"

Solved is div(permittivity grad potential) = 0 in the plane, twice on the same mesh.

* In the potential, fixed on the conductors. Its energy is at least the true one: capacitance from above.
* In the stream function, the flux that passes between a point and a reference. Its jump along a cut from a
  conductor to ground is the conductor's charge; its energy is at least that of the true field with these
  charges: capacitance from below.

The picture is cut off far away so that both statements stay true: the potential is zero there, and no flux
passes there. So truncation is inside the bounds. For several conductors the bounds hold for the quadratic forms,
upper - lower = gap >= 0, and entry (i, j) of the mean is off by at most sqrt(gap_ii gap_jj) / 2.

Elements are quadrilaterals with level upper and lower sides and Lagrange polynomials on Gauss-Lobatto points. They
shrink geometrically towards every corner.

Sources: J. L. Synge, "The Hypercircle in Mathematical Physics", 1957, and P. Hammond, J. Penman, "Calculation of
inductance and capacitance by means of dual energy principles", Proc. IEE 123, 1976, pp. 554-559 (both bounds);
I. Babuska, B. Q. Guo, "The h-p version of the finite element method for domains with curved boundaries", SIAM
J. Numer. Anal. 25, 1988, pp. 837-861 (geometric meshes).
"""

import json
import math
import sys
import time
from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
from scipy import integrate, ndimage, optimize, sparse, special
from scipy.sparse.linalg import splu

VACUUM_PERMITTIVITY = 8.8541878188e-12  # CODATA 2022
SPEED_OF_LIGHT = 299792458.0

ORDER = 7
SHRINK = 0.18  # each element towards a corner, as a share of the one before
FINEST_METAL = 5e-5  # finest element at a corner of copper, as a share of the smallest length of the case
FINEST_MASK = 1e-2  # the same at an edge of the mask, where the field is nearly smooth
OPEN_REACH = 500  # the picture ends this many times its largest length away
CLOSED_REACH = 8  # between two planes, where the field dies away exponentially


# --- geometry -------------------------------------------------------------------------------------------------


@dataclass
class Block:
    """A trapezoid with level faces. `conductor` 0 is ground, 1, 2, ... are signals, -1 is an insulating void."""

    y: tuple
    left: tuple  # at the lower and at the upper face
    right: tuple
    conductor: int

    def contains(self, x, y):
        share = (y - self.y[0]) / (self.y[1] - self.y[0])
        left = self.left[0] + share * (self.left[1] - self.left[0])
        right = self.right[0] + share * (self.right[1] - self.right[0])
        return (y > self.y[0]) & (y < self.y[1]) & (x > left) & (x < right)


@dataclass
class Coat:
    """Mask: filled up to `floor`, and up to `roof` between the flanks of each hump."""

    base: float
    floor: float
    roof: float
    humps: list  # each ((left at floor, left at roof), (right at floor, right at roof))
    permittivity: float

    def holds(self, x, y):
        inside = (y > self.base) & (y < self.floor)
        if self.floor < self.roof:
            for left, right in self.humps:
                hump = Block((self.floor, self.roof), left, right, -1)
                inside = inside | hump.contains(x, y)
        return inside


@dataclass
class Scene:
    slabs: list  # (lower face, permittivity), upwards
    blocks: list
    top: float
    left: str  # 'even' or 'odd' about x = 0, or 'open'
    right: str  # 'open', 'grounded' or 'even'
    reach: float
    open_top: bool
    coat: Coat = None
    mirrored_top: bool = False  # no flux passes through the top: a plane of symmetry
    shortest: float = field(default=0.0)


def trapezoid(start, width, top_width, y, thickness, foot, conductor):
    inset = (width - top_width) / 2
    low, high = (0, inset) if foot == 'below' else (inset, 0)
    end = start + width
    return Block((y, y + thickness), (start + low, start + high), (end - low, end - high), conductor)


def endless(start, like, reach, to_left=False):
    """Coplanar ground: its near wall leans as the trace's does."""
    low, high = (like.left[0] - min(like.left), like.left[1] - min(like.left))
    if to_left:
        return Block(like.y, (-reach, -reach), (start - low, start - high), 0)
    return Block(like.y, (start + low, start + high), (reach, reach), 0)


def coat_over(blocks, base, copper, over_laminate, over_trace, permittivity, reach):
    """Outline of the mask: flanks parallel to the side walls, one coat further out, merged where they meet."""
    floor, roof = base + over_laminate, copper + over_trace
    humps = []
    for block in sorted(blocks, key=lambda each: each.left[0]):
        height = block.y[1] - block.y[0]

        def flank(ends, outwards):
            slope = (ends[1] - ends[0]) / height
            return tuple(
                ends[0] + slope * (y - block.y[0]) + outwards * over_trace * math.hypot(1, slope) for y in (floor, roof)
            )

        left = (-reach, -reach) if block.left[0] <= -reach else flank(block.left, -1)
        right = (reach, reach) if block.right[0] >= reach else flank(block.right, 1)
        if humps and left[0] <= humps[-1][1][0]:
            humps[-1] = (humps[-1][0], right)
        else:
            humps.append((left, right))
    return Coat(base, floor, roof, humps, permittivity)


# --- mesh -----------------------------------------------------------------------------------------------------


def spread(start, end, graded):
    """Cuts start..end so that each element is short against its distance to the graded points (position, finest)."""
    growth = 1 / SHRINK - 1

    def step(x, towards):
        behind = [max(finest, growth * towards * (x - at)) for at, finest in graded if towards * (x - at) >= 0]
        ahead = [max(finest, (1 - SHRINK) * towards * (at - x)) for at, finest in graded if towards * (at - x) > 0]
        return min(behind + ahead, default=math.inf)

    low, high, lower, upper = start, end, [start], [end]
    while True:
        rest, up, down = high - low, step(low, 1), step(high, -1)
        if min(up, down) >= rest:
            break
        if min(up, down) >= rest / 2:
            lower.append((low + high) / 2)
            break
        if up <= down:
            low += up
            lower.append(low)
        else:
            high -= down
            upper.append(high)
    return np.array(lower + upper[::-1])


class Mesh:
    """Elements of a scene on a grid that follows its walls, without those inside copper."""

    def __init__(self, scene, order=ORDER):
        self.scene, self.order = scene, order
        lines = self._lines()
        self._grid(lines)
        centre_x = self.x_corner[:-1, :-1] + self.x_corner[1:, :-1] + self.x_corner[:-1, 1:] + self.x_corner[1:, 1:]
        centre_x = centre_x / 4
        centre_y = np.broadcast_to((self.y[:-1] + self.y[1:]) / 2, centre_x.shape)
        self.block = np.full(centre_x.shape, -1)
        for index, block in enumerate(scene.blocks):
            self.block[block.contains(centre_x, centre_y)] = index
        self.ex, self.ey = np.nonzero(self.block < 0)
        self.permittivity = self._permittivity(centre_x[self.ex, self.ey], centre_y[self.ex, self.ey])
        self._stiffness()
        self._number()

    def _permittivity(self, x, y):
        value = np.ones(x.shape)
        for bottom, permittivity in self.scene.slabs:
            value[y > bottom] = permittivity
        coat = self.scene.coat
        if coat is not None:
            value[y > coat.base] = 1
            value[coat.holds(x, y)] = coat.permittivity
        return value

    def _lines(self):
        """Walls and flanks as lines from the bottom to the top of the picture: ([(y, x), ...], finest element)."""
        scene = self.scene
        edge = scene.reach
        start = 0.0 if scene.left != 'open' else -edge
        metal, mask = FINEST_METAL * scene.shortest, FINEST_MASK * scene.shortest
        lines = []

        def add(ys, xs, finest):
            if any(not start < x < edge for x in xs):
                return
            for points, _ in lines:
                if points == list(zip(ys, xs)):
                    return
                if (points[0][1], points[1][1]) == tuple(xs) and points[-1][0] < ys[0]:
                    points.extend(zip(ys, xs))
                    return
            lines.append((list(zip(ys, xs)), finest))

        for block in sorted(scene.blocks, key=lambda each: each.y):
            add(block.y, block.left, metal)
            add(block.y, block.right, metal)
        if scene.coat is not None and scene.coat.floor < scene.coat.roof:
            for left, right in scene.coat.humps:
                add((scene.coat.floor, scene.coat.roof), left, mask)
                add((scene.coat.floor, scene.coat.roof), right, mask)
        lines = sorted(lines, key=lambda line: np.mean([x for _, x in line[0]]))
        return [([(0, start)], None), *lines, ([(0, edge)], None)]

    def _grid(self, lines):
        scene = self.scene
        metal, mask = FINEST_METAL * scene.shortest, FINEST_MASK * scene.shortest
        levels = {0.0: None, scene.top: None}
        for bottom, _ in scene.slabs:
            levels.setdefault(bottom, None)
        if scene.coat is not None:
            levels[scene.coat.floor] = mask
            if scene.coat.floor < scene.coat.roof:
                levels[scene.coat.roof] = mask
        for block in scene.blocks:
            if block.conductor >= 0 or block.y[0] > 0:
                levels[block.y[0]] = metal if block.y[0] > 0 else None
            levels[block.y[1]] = metal if block.y[1] < scene.top else None
        graded_y = [(at, finest) for at, finest in levels.items() if finest is not None]
        ordered = sorted(levels)
        pieces = [spread(low, high, graded_y)[:-1] for low, high in zip(ordered, ordered[1:])]
        self.y = np.concatenate([*pieces, [scene.top]])

        def place(points, at):
            return np.interp(at, [y for y, _ in points], [x for _, x in points])

        middle = [float(np.mean([x for _, x in points])) for points, _ in lines]
        graded_x = [(at, finest) for at, (_, finest) in zip(middle, lines) if finest is not None]
        columns = []
        for index in range(len(lines) - 1):
            low, high = (place(lines[k][0], self.y) for k in (index, index + 1))
            if np.min(high - low) < 1e-3 * scene.shortest:
                raise ValueError('walls cross or nearly touch')
            cuts = spread(middle[index], middle[index + 1], graded_x)
            shares = (cuts[:-1] - middle[index]) / (middle[index + 1] - middle[index])
            columns.extend(low + share * (high - low) for share in shares)
        columns.append(place(lines[-1][0], self.y))
        self.x_corner = np.array(columns)

    def _stiffness(self):
        """Element matrices for permittivity 1, interior unknowns eliminated (they scale with the permittivity)."""
        p = self.order
        nodes = gauss_lobatto(p)
        points, weights = special.roots_legendre(p + 3)
        value, slope = lagrange(nodes, points)
        along = np.einsum('qa,rb->qrab', slope, value).reshape(len(points) ** 2, -1)
        across = np.einsum('qa,rb->qrab', value, slope).reshape(len(points) ** 2, -1)
        weight = np.outer(weights, weights).ravel()
        eta = np.tile(points, len(points))
        xi = np.repeat(points, len(points))
        x, ex, ey = self.x_corner, self.ex, self.ey
        bottom, up = x[ex + 1, ey] - x[ex, ey], x[ex + 1, ey + 1] - x[ex, ey + 1]
        lean_left, lean_right = x[ex, ey + 1] - x[ex, ey], x[ex + 1, ey + 1] - x[ex + 1, ey]
        x_xi = (np.outer(bottom, 1 - eta) + np.outer(up, 1 + eta)) / 4
        x_eta = (np.outer(lean_left, 1 - xi) + np.outer(lean_right, 1 + xi)) / 4
        y_eta = ((self.y[1:] - self.y[:-1])[ey] / 2)[:, None]
        aa = weight * (y_eta / x_xi + x_eta**2 / (x_xi * y_eta))
        ab = -weight * x_eta / y_eta
        bb = weight * x_xi / y_eta
        size = (p + 1) ** 2

        def product(first, second):
            return np.einsum('qi,qj->qij', first, second).reshape(len(weight), size * size)

        mixed = product(along, across)
        mixed = mixed + mixed.reshape(-1, size, size).transpose(0, 2, 1).reshape(len(weight), -1)
        full = aa @ product(along, along) + ab @ mixed + bb @ product(across, across)
        full = full.reshape(-1, size, size)
        a, b = np.divmod(np.arange(size), p + 1)
        rim = np.nonzero((a == 0) | (a == p) | (b == 0) | (b == p))[0]
        core = np.setdiff1d(np.arange(size), rim)
        self.matrix = full[:, rim[:, None], rim]
        if len(core) > 0:
            inner = np.linalg.solve(full[:, core[:, None], core], full[:, core[:, None], rim])
            self.matrix = self.matrix - full[:, rim[:, None], core] @ inner
        # Rounding must not give a constant any energy where elements are long and thin.
        diagonal = np.arange(len(rim))
        self.matrix[:, diagonal, diagonal] -= self.matrix.sum(axis=2)
        self.rim_a, self.rim_b = a[rim], b[rim]

    def _number(self):
        p = self.order
        self.shape = ((self.x_corner.shape[0] - 1) * p + 1, (len(self.y) - 1) * p + 1)
        i = self.ex[:, None] * p + self.rim_a
        j = self.ey[:, None] * p + self.rim_b
        self.node = i * self.shape[1] + j
        self.used = np.zeros(self.shape, bool)
        self.used.ravel()[self.node] = True

    def nodes_of(self, wanted):
        """Grid nodes of the cells of the blocks for which `wanted` holds, edges included."""
        mask, p = np.zeros(self.shape, bool), self.order
        for index, block in enumerate(self.scene.blocks):
            if wanted(block):
                columns, rows = np.nonzero(self.block == index)
                mask[columns.min() * p : columns.max() * p + p + 1, rows.min() * p : rows.max() * p + p + 1] = True
        return mask


def gauss_lobatto(p):
    inner = special.roots_jacobi(p - 1, 1, 1)[0] if p > 1 else np.array([])
    return np.concatenate([[-1.0], inner, [1.0]])


def lagrange(nodes, points):
    """Values and slopes of the Lagrange polynomials, [point, node]."""
    vandermonde = np.polynomial.legendre.legvander(nodes, len(nodes) - 1)
    derivative = np.array(
        [
            np.polynomial.legendre.legval(points, np.polynomial.legendre.legder(row))
            for row in np.eye(len(nodes))
        ]
    ).T
    inverse = np.linalg.inv(vandermonde)
    return np.polynomial.legendre.legvander(points, len(nodes) - 1) @ inverse, derivative @ inverse


# --- solution -------------------------------------------------------------------------------------------------


def energies(mesh, unknown, offset, coefficient):
    """Twice the mutual energies of the solutions. `unknown` per grid node, -1 for none; `offset` [element, rim, case]."""
    local = unknown[mesh.node]
    numbers, compact = np.unique(local, return_inverse=True)
    compact = compact.reshape(local.shape) - (1 if numbers[0] < 0 else 0)
    free = compact >= 0
    count = compact.max() + 1
    matrix = mesh.matrix * coefficient[:, None, None]
    both = free[:, :, None] & free[:, None, :]
    rows = np.broadcast_to(compact[:, :, None], matrix.shape)[both]
    columns = np.broadcast_to(compact[:, None, :], matrix.shape)[both]
    system = sparse.csc_matrix((matrix[both], (rows, columns)), shape=(count, count))
    pull = -(matrix @ offset)
    right = np.zeros((count, offset.shape[2]))
    for case in range(offset.shape[2]):
        right[:, case] = np.bincount(compact[free], pull[:, :, case][free], count)
    scale = 1 / np.sqrt(system.diagonal())
    scaled = (sparse.diags(scale) @ system @ sparse.diags(scale)).tocsc()
    factor = splu(scaled, permc_spec='MMD_AT_PLUS_A', diag_pivot_thresh=0.0, options={'SymmetricMode': True})
    solution = scale[:, None] * factor.solve(scale[:, None] * right)
    values = np.where(free[:, :, None], solution[np.maximum(compact, 0)], 0) + offset
    return np.einsum('eic,eid->cd', values, matrix @ values)


def signals_of(scene):
    return sorted({block.conductor for block in scene.blocks if block.conductor > 0})


def upper_bound(mesh, coefficient):
    """Maxwell's capacitances over the vacuum permittivity, from the potential."""
    scene = mesh.scene
    grounded = mesh.nodes_of(lambda block: block.conductor == 0)
    grounded[:, 0] = True
    if not scene.mirrored_top:
        grounded[:, -1] = True
    if scene.right != 'even':
        grounded[-1, :] = True
    if scene.left != 'even':
        grounded[0, :] = True
    signals = signals_of(scene)
    potential = np.zeros((*mesh.shape, len(signals)))
    fixed = grounded
    for index, conductor in enumerate(signals):
        metal = mesh.nodes_of(lambda block: block.conductor == conductor)
        potential[metal, index] = 1
        fixed = fixed | metal
    unknown = np.where(fixed, -1, np.arange(fixed.size).reshape(fixed.shape)).ravel()
    return energies(mesh, unknown, potential.reshape(fixed.size, -1)[mesh.node], coefficient)


def lower_bound(mesh, coefficient):
    """Maxwell's capacitances over the vacuum permittivity, from the stream function."""
    scene, p = mesh.scene, mesh.order
    insulated = mesh.nodes_of(lambda block: block.conductor < 0)
    if scene.open_top or scene.mirrored_top:
        insulated[:, -1] = True
    if scene.right != 'grounded':
        insulated[-1, :] = True
    if scene.left != 'odd':
        insulated[0, :] = True
    # No flux enters an insulated piece, so the stream function is one value along it.
    pieces, _ = ndimage.label(insulated & mesh.used)
    voids = np.unique(pieces[mesh.nodes_of(lambda block: block.conductor < 0) & (pieces > 0)])
    pieces[np.isin(pieces, voids)] = voids.max(initial=0)
    unknown = np.arange(insulated.size).reshape(mesh.shape)
    for piece in np.unique(pieces[pieces > 0]):
        unknown[pieces == piece] = unknown[pieces == piece][0]
    signals = signals_of(scene)
    offset = np.zeros((len(mesh.ex), len(mesh.rim_a), len(signals)))
    grid_offset = np.zeros((*mesh.shape, len(signals)))
    # Zero above everything, so that it is next to nothing where the elements are large.
    held, passed = False, -np.ones(len(signals))
    for index, conductor in enumerate(signals):
        at = next(k for k, block in enumerate(scene.blocks) if block.conductor == conductor)
        columns, rows = np.nonzero(mesh.block == at)
        first, last, bottom, top = columns.min(), columns.max(), rows.min(), rows.max() + 1
        if first == 0 and scene.left == 'even':
            # Astride the axis: all its flux passes between the axis below it and the axis above it.
            for level, charge in ((bottom, passed), (top, passed + np.eye(len(signals))[index])):
                # A strip in the plane of symmetry has no axis above it: its flux ends at the void beside it.
                piece = pieces == (pieces[0, level * p] or pieces[mesh.used].max())
                unknown[piece] = -1
                grid_offset[piece] = charge
                passed = charge
            held = True
        else:
            cut = (first + last + 1) // 2
            beside = (mesh.ex == cut) & (mesh.ey < bottom)
            offset[np.ix_(beside, mesh.rim_a == 0, [index])] += 1
    if not held:
        # Only differences count: one value may be chosen, best far away where the elements are large.
        far = np.nonzero(mesh.used[-1])[0][-1]
        unknown[unknown == unknown[-1, far]] = -1
    offset = offset + grid_offset.reshape(insulated.size, -1)[mesh.node]
    return np.linalg.inv(energies(mesh, unknown.ravel(), offset, 1 / coefficient))


def bounds(scene, order=ORDER):
    """(upper, lower) capacitance matrices over the vacuum permittivity: filled, and in air."""
    mesh = Mesh(scene, order)
    filled = mesh.permittivity
    pairs = []
    for coefficient in (filled, np.ones_like(filled)):
        if coefficient is not filled and np.ptp(filled) == 0:
            pairs.append(tuple(bound / filled[0] for bound in pairs[0]))
        else:
            pairs.append((upper_bound(mesh, coefficient), lower_bound(mesh, coefficient)))
    return pairs


# --- from rows to scenes --------------------------------------------------------------------------------------


@dataclass
class Case:
    """A cross-section as the project describes it, lengths in micrometres; sheets are (thickness, permittivity)."""

    name: str
    kind: str
    width: float  # at the foot
    top_width: float
    thickness: float
    below: list  # from the trace down to the (perforated) plane
    above: list = field(default_factory=list)  # from the trace up
    lid: bool = False  # plane above
    foot: str = 'below'
    gap: float = None
    coplanar: float = None
    between: list = None  # broadside pair: sheets from the upper trace down to the lower one
    mask: tuple = None  # over laminate, over trace, permittivity
    more: tuple = ()  # three traces: ((width, gap before it), ...) of the second and third
    openings: dict = None
    barrels: dict = None


class Pile:
    """Slabs put on one another, from the plane up."""

    def __init__(self):
        self.height, self.slabs = 0, []

    def put(self, sheets):
        for thickness, permittivity in sheets:
            self.slabs.append((self.height, permittivity))
            self.height += thickness


def scene_of(case, left):
    """The right half of the case about its axis, `left` its symmetry; all of it for three traces ('open')."""
    pile, holes = Pile(), case.openings
    planes = []

    def perforated():
        planes.append((pile.height, pile.height + holes['planeThickness']))
        pile.put([(holes['planeThickness'], holes['openingPermittivity'])])

    if holes is not None:
        pile.put(holes['sheetsBeyondBelow'][::-1])
        perforated()
    pile.put(case.below[::-1])
    levels = []

    def stand(under, over):
        # The slab beside a trace is filled by the dielectric that its body stands in.
        body = (over[0] if over else (0, 1)) if case.foot == 'below' else under[0]
        levels.append(pile.height)
        pile.put([(case.thickness, body[1])])

    if case.between is None:
        stand(case.below, case.above)
    else:
        stand(case.below, case.between[::-1])
        pile.put(case.between[::-1])
        stand(case.between, case.above)
    pile.put(case.above)
    if holes is not None and holes['sheetsBeyondAbove'] is not None:
        perforated()
        pile.put(holes['sheetsBeyondAbove'])
    coated = case.mask is not None and not case.above
    if case.mask is not None and not coated:
        pile.put([(case.mask[0], case.mask[2])])
    if not case.lid:
        pile.slabs.append((pile.height, 1))
    return Assembly(case, left, pile, levels, planes, coated).scene()


@dataclass
class Assembly:
    case: Case
    left: str
    pile: Pile
    levels: list
    planes: list
    coated: bool

    def scene(self):
        case, pile = self.case, self.pile
        extent = self.extent()
        reach = (CLOSED_REACH if case.lid else OPEN_REACH) * max(pile.height, extent)
        right = 'open'
        if case.barrels is not None and case.barrels['width'] is None:
            reach, right = self.outer_edge() + case.barrels['distance'], 'grounded'
        traces = self.traces()
        blocks = traces + self.grounds(traces, reach)
        coat = None
        if self.coated:
            base, copper = self.levels[0], self.levels[0] + case.thickness
            raised = [block for block in blocks if block.y[1] == copper]
            coat = coat_over(raised, base, copper, *case.mask, reach)
        top = pile.height if case.lid else reach
        return Scene(pile.slabs, blocks, top, self.left, right, reach, not case.lid, coat, shortest=self.shortest())

    def starts(self):
        case = self.case
        if not case.more:
            return [(-case.width / 2 if case.gap is None else case.gap / 2, case.width)]
        total = case.width + sum(width + gap for width, gap in case.more)
        found = [(-total / 2, case.width)]
        for width, gap in case.more:
            found.append((sum(found[-1]) + gap, width))
        return found

    def outer_edge(self):
        return sum(self.starts()[-1])

    def extent(self):
        case, holes = self.case, self.case.openings
        reach = self.outer_edge() + (case.coplanar or 0)
        if case.barrels is not None:
            reach += case.barrels['distance'] + (case.barrels['width'] or 0)
        return max(reach, holes['webWidth'] / 2 + holes['openingWidth'] if holes else 0)

    def shortest(self):
        case = self.case
        lengths = [case.width, case.top_width, case.thickness, case.gap, case.coplanar]
        return min(length for length in lengths if length is not None)

    def traces(self):
        case, found = self.case, []
        for y in self.levels:
            for start, width in self.starts():
                top_width = width - (case.width - case.top_width)
                found.append(trapezoid(start, width, top_width, y, case.thickness, case.foot, len(found) + 1))
        return found

    def grounds(self, traces, reach):
        case, found = self.case, []
        if case.coplanar is not None:
            found.append(endless(self.outer_edge() + case.coplanar, traces[-1], reach))
        for y in self.planes:
            half = case.openings['webWidth'] / 2
            outer = half + case.openings['openingWidth']
            found.append(Block(y, (-half, -half), (half, half), 0))
            found.append(Block(y, (outer, outer), (reach, reach), 0))
        if case.barrels is not None and case.barrels['width'] is not None:
            near = self.outer_edge() + case.barrels['distance']
            far = near + case.barrels['width']
            found.append(Block((0, self.levels[0] + case.thickness), (near, near), (far, far), 0))
        return found


# --- cases ----------------------------------------------------------------------------------------------------


def opening(web, width, plane, permittivity, beyond_below, beyond_above=None):
    return {
        'webWidth': web,
        'openingWidth': width,
        'planeThickness': plane,
        'openingPermittivity': permittivity,
        'sheetsBeyondBelow': beyond_below,
        'sheetsBeyondAbove': beyond_above,
    }


def barrel(distance, width=None):
    return {'distance': distance, 'width': width}


def cases():
    """Fine lines: traces and gaps 40 to 400 um, copper 10 to 60 um, heights 40 to 400 um."""
    # fmt: off
    return [
        Case('surface, rectangular', 'surface', 120, 120, 35, [(100, 4.2)]),
        Case('surface, trapezoid', 'surface', 110, 84, 43, [(70, 3.6)]),
        Case('surface, thick and narrow', 'surface', 100, 80, 40, [(220, 4.5)]),
        Case('surface, wide and low', 'surface', 400, 380, 18, [(60, 2.8)]),
        Case('surface, narrow and high', 'surface', 40, 34, 12, [(400, 4.8)]),
        Case('surface, two sheets', 'surface', 90, 70, 35, [(50, 3.2), (110, 4.6)]),
        Case('surface pair, tight', 'surface', 100, 80, 45, [(90, 4.1)], gap=50),
        Case('surface pair, wide gap', 'surface', 150, 130, 30, [(120, 3.7)], gap=300),
        Case('surface pair, rectangular', 'surface', 75, 75, 15, [(200, 4.4)], gap=75),
        Case('coated', 'coated', 110, 90, 40, [(100, 4.0)], mask=(25, 15, 3.5)),
        Case('coated thickly', 'coated', 75, 63, 20, [(75, 3.4)], mask=(40, 25, 3.8)),
        Case('coated thinly, rectangular', 'coated', 200, 200, 50, [(150, 4.6)], mask=(12, 10, 3.2)),
        Case('coated pair', 'coated', 100, 80, 40, [(90, 4.1)], gap=100, mask=(25, 15, 3.6)),
        Case('coated pair, gap nearly filled', 'coated', 90, 74, 35, [(80, 3.9)], gap=50, mask=(20, 25, 3.4)),
        Case('coated pair, gap filled', 'coated', 90, 74, 35, [(80, 3.9)], gap=44, mask=(20, 24, 3.4)),
        Case('coated pair, wide gap', 'coated', 130, 114, 25, [(180, 4.4)], gap=260, mask=(30, 20, 3.8)),
        Case('buried', 'buried', 100, 84, 30, [(100, 4.0)], [(60, 4.0)]),
        Case('buried, other sheet above', 'buried', 80, 66, 18, [(120, 4.4)], [(75, 3.3)]),
        Case('buried, masked, foot above', 'buried', 90, 76, 18, [(90, 3.5)], [(65, 4.2)], foot='above', mask=(25, 15, 3.6)),
        Case('buried pair', 'buried', 85, 70, 20, [(100, 3.8)], [(70, 4.3)], gap=90, mask=(20, 15, 3.5)),
        Case('buried pair, tight', 'buried', 120, 100, 45, [(110, 4.0)], [(90, 4.0)], gap=50),
        Case('stripline, centred', 'stripline', 110, 110, 30, [(130, 4.2)], [(130, 4.2)], lid=True),
        Case('stripline, centred, trapezoid', 'stripline', 90, 74, 35, [(100, 3.4)], [(100, 3.4)], lid=True),
        Case('stripline, offset five to one', 'stripline', 80, 66, 15, [(60, 4.0)], [(300, 4.0)], lid=True),
        Case('stripline, thick', 'stripline', 120, 96, 50, [(110, 3.9)], [(140, 3.9)], lid=True),
        Case('stripline, sheets differ', 'stripline', 95, 80, 18, [(100, 3.2)], [(120, 4.4)], lid=True),
        Case('stripline, sheets differ, foot above', 'stripline', 95, 80, 30, [(100, 3.2)], [(120, 4.4)], lid=True, foot='above'),
        Case('stripline pair, tight', 'stripline', 90, 76, 30, [(110, 4.1)], [(150, 4.1)], lid=True, gap=60),
        Case('stripline pair, wide gap', 'stripline', 140, 130, 17, [(200, 3.6)], [(200, 3.6)], lid=True, gap=350),
        Case('stripline pair, offset five to one', 'stripline', 75, 63, 12, [(50, 4.3)], [(250, 4.3)], lid=True, gap=100),
        Case('stripline pair, sheets differ, foot above', 'stripline', 85, 70, 20, [(90, 4.5)], [(130, 3.1)], lid=True, foot='above', gap=80),
        Case('layered stripline', 'layered', 100, 86, 18, [(45, 3.1), (95, 4.5)], [(150, 4.5)], lid=True),
        Case('layered both ways', 'layered', 80, 66, 30, [(60, 2.9), (80, 4.6)], [(50, 3.3), (100, 4.8)], lid=True, foot='above'),
        Case('layered buried microstrip', 'layered', 110, 94, 25, [(50, 4.6), (75, 3.0)], [(60, 3.4)]),
        Case('layered pair', 'layered', 85, 71, 18, [(55, 4.7), (85, 3.2)], [(120, 3.2)], lid=True, gap=85),
        Case('layered surface pair', 'layered', 95, 79, 35, [(60, 3.0), (70, 4.4)], gap=110, mask=(25, 18, 3.7)),
        Case('broadside pair', 'broadside', 100, 86, 18, [(150, 4.0)], [(150, 4.0)], lid=True, between=[(120, 4.0)]),
        Case('broadside pair, tight, sheets differ', 'broadside', 90, 74, 30, [(120, 4.4)], [(160, 3.6)], lid=True, between=[(60, 3.2)]),
        Case('broadside pair, two sheets between', 'broadside', 110, 94, 25, [(140, 4.2)], [(140, 4.2)], lid=True, between=[(50, 4.6), (70, 3.0)]),
        Case('coplanar', 'coplanar', 120, 100, 35, [(150, 4.2)], coplanar=80),
        Case('coplanar, tight and coated', 'coplanar', 100, 86, 25, [(200, 3.7)], coplanar=60, mask=(20, 15, 3.5)),
        Case('coplanar stripline', 'coplanar', 90, 76, 18, [(140, 4.1)], [(180, 3.4)], lid=True, coplanar=100),
        Case('coplanar pair', 'coplanar', 100, 84, 40, [(130, 4.0)], gap=80, coplanar=120),
        Case('coplanar pair, coated', 'coplanar', 80, 66, 20, [(110, 3.6)], gap=70, coplanar=75, mask=(25, 15, 3.4)),
        Case('three surface traces', 'three conductors', 100, 84, 35, [(100, 4.2)], more=((100, 90), (100, 90))),
        Case('three coated traces', 'three conductors', 80, 66, 40, [(75, 3.8)], mask=(20, 15, 3.5), more=((80, 60), (80, 60))),
        Case('three unlike surface traces', 'three conductors', 75, 63, 25, [(120, 4.4)], more=((120, 80), (90, 60))),
        Case('three stripline traces', 'three conductors', 90, 76, 18, [(110, 3.9)], [(150, 3.9)], lid=True, more=((90, 80), (90, 80))),
        Case('three unlike stripline traces', 'three conductors', 80, 66, 30, [(100, 3.3)], [(120, 4.5)], lid=True, more=((110, 70), (70, 110))),
        Case('web under a surface trace', 'perforated plane', 100, 86, 35, [(100, 4.1)], openings=opening(130, 250, 18, 3.6, [(200, 3.6)])),
        Case('narrow web under a stripline trace', 'perforated plane', 90, 76, 18, [(110, 3.8)], [(140, 4.2)], lid=True, openings=opening(70, 300, 15, 3.4, [(150, 3.4)], [(170, 3.9)])),
        Case('web under a coated pair', 'perforated plane', 80, 66, 30, [(90, 4.0)], gap=80, mask=(25, 15, 3.6), openings=opening(300, 260, 30, 4.4, [(180, 4.4)])),
        Case('web under a stripline pair', 'perforated plane', 75, 63, 15, [(100, 3.5)], [(100, 3.5)], lid=True, gap=100, openings=opening(120, 300, 17, 3.5, [(200, 3.5)], [(200, 3.5)])),
        Case('barrels beside a stripline trace', 'barrels', 90, 76, 18, [(120, 3.9)], [(150, 3.9)], lid=True, barrels=barrel(90)),
        Case('barrels beside a stripline pair', 'barrels', 80, 66, 30, [(110, 3.3)], [(140, 4.4)], lid=True, gap=80, barrels=barrel(75)),
        Case('barrels beside a surface trace', 'barrels', 100, 86, 35, [(120, 4.2)], barrels=barrel(80, 250)),
    ]
    # fmt: on


# --- results --------------------------------------------------------------------------------------------------


def half_gap(upper, lower):
    gap = np.diag(upper - lower)
    if gap.min() < -1e-7 * np.diag(upper).max():
        raise ValueError('the lower bound lies above the upper one')
    gap = np.maximum(gap, 0)
    return np.sqrt(np.outer(gap, gap)) / 2


def mode(prefix, filled, air):
    """(mean, half gap) of both capacitances over the vacuum permittivity, as the columns of the table."""
    wave_impedance = 1 / (VACUUM_PERMITTIVITY * SPEED_OF_LIGHT)
    bound = filled[1] / filled[0], air[1] / air[0]
    return {
        f'{prefix}Capacitance': (filled[0] * VACUUM_PERMITTIVITY, bound[0]),
        f'{prefix}CapacitanceInAir': (air[0] * VACUUM_PERMITTIVITY, bound[1]),
        f'{prefix}Impedance': (wave_impedance / math.sqrt(filled[0] * air[0]), sum(bound) / 2),
        f'{prefix}EffectivePermittivity': (filled[0] / air[0], sum(bound)),
    }


def solve(case, order=ORDER):
    """Results by column name, each (value, relative bound); matrices as arrays of both."""
    if case.more or case.between:
        pairs = bounds(scene_of(case, 'open' if case.more else 'even'), order)
        share = 1 if case.more else 2
        filled, air = ((share * (u + l) / 2, share * half_gap(u, l)) for u, l in pairs)
        results = {
            'maxwellCapacitances': (filled[0] * VACUUM_PERMITTIVITY, filled[1] / np.abs(filled[0])),
            'maxwellCapacitancesInAir': (air[0] * VACUUM_PERMITTIVITY, air[1] / np.abs(air[0])),
        }
        for prefix, sign in (('even', 1), ('odd', -1)) if case.between else ():
            vector = np.array([1, sign]) / math.sqrt(2)
            both = []
            for u, l in pairs:
                top, bottom = (share * (vector @ m @ vector) for m in (u, l))
                both.append(((top + bottom) / 2, (top - bottom) / 2))
            results |= mode(prefix, *both)
        return results
    results = {}
    for prefix, left in (('single', 'even'),) if case.gap is None else (('even', 'even'), ('odd', 'odd')):
        share = 2 if case.gap is None else 1
        pairs = bounds(scene_of(case, left), order)
        both = [(share * (u[0, 0] + l[0, 0]) / 2, share * half_gap(u, l)[0, 0]) for u, l in pairs]
        results |= mode(prefix, *both)
    return results


# --- exact solutions ------------------------------------------------------------------------------------------


def complete(k):
    """K(k) / K(k') of complete elliptic integrals."""
    return special.ellipk(k * k) / special.ellipkm1(k * k)


def square_coax():
    """Square in a square twice as large: an eighth is a quadrilateral, mapped to a half-plane (Schwarz, Christoffel)."""
    # Corners at 0 (135 degrees), 1 (45), s (90) and infinity (90); side 0..1 is to side 1..s as sqrt(1/2) to 1.
    def sides(s):
        inner = integrate.quad(lambda z: (s - z) ** -0.5, 0, 1, weight='alg', wvar=(-0.25, -0.75))[0]
        outer = integrate.quad(lambda z: z**-0.25, 1, s, weight='alg', wvar=(-0.75, -0.5))[0]
        return inner, outer

    s = optimize.brentq(lambda s: sides(s)[0] / sides(s)[1] - math.sqrt(0.5), 1.01, 1e3, xtol=1e-13)
    return 8 * complete(math.sqrt((s - 1) / s))


def flat(width, gap, spacing, left):
    """Strip without thickness half-way between planes: the lower half of the picture, void beside the strip."""
    start = 0 if gap is None else gap / 2
    y, reach = (spacing / 2, spacing / 2 + 10), CLOSED_REACH * (start + width + spacing)
    inner = (-width / 2, -width / 2) if gap is None else (start, start)
    outer = (width / 2, width / 2) if gap is None else (start + width, start + width)
    blocks = [Block(y, inner, outer, 1), Block(y, outer, (reach, reach), -1)]
    if gap is not None:
        blocks.append(Block(y, (-start, -start), inner, -1))
    return Scene([(0, 1)], blocks, y[1], left, 'open', reach, False, mirrored_top=True, shortest=0.01 * width)


def trapezoid_between_planes(width, upwards, above):
    return scene_of(Case('', '', width, width - 20, 20, upwards[::-1], above, lid=True), 'even')


def checks():
    """(what, exact, upper, lower) in units of the vacuum permittivity times the permittivity."""
    found = []

    def add(what, exact, scene, share):
        upper, lower = bounds(scene)[0]
        found.append((what, exact, share * upper[0, 0], share * lower[0, 0]))

    (up, down), (up_wide, down_wide) = (
        bounds(trapezoid_between_planes(width, [(60, 4), (40, 2.5)], [(80, 2.5)]))[0] for width in (1000, 1400)
    )
    what = '400 um more of a wide plate, two sheets in series below it and one above'
    exact = 400 / (60 / 4 + 40 / 2.5) + 400 * 2.5 / 80
    found.append((what, exact, 2 * (up_wide - down)[0, 0], 2 * (down_wide - up)[0, 0]))
    inner = Block((50, 150), (-50, -50), (50, 50), 1)
    coax = Scene([(0, 1)], [inner], 200, 'even', 'grounded', 100, False, shortest=50)
    add('square coaxial line, outer side twice the inner one (Schwarz, Christoffel)', square_coax(), coax, 2)
    halves = Scene([(0, 4.2), (100, 2.8)], [inner], 200, 'even', 'grounded', 100, False, shortest=50)
    add('the same coaxial line, permittivity 4.2 below and 2.8 above its middle', 3.5 * square_coax(), halves, 2)
    for width in (50, 100, 400):
        k = 1 / math.cosh(math.pi * width / 400)
        what = f'strip without thickness, {width} um wide, half-way in 200 um (Cohn 1954)'
        add(what, 4 / complete(k), flat(width, None, 200, 'even'), 4)
    for width, gap in ((100, 40), (60, 120)):
        one, other = (math.tanh(math.pi * length / 400) for length in (width, width + gap))
        for left, k in (('even', one * other), ('odd', one / other)):
            what = f'{left} mode of two such strips {width} um wide, gap {gap} um (Cohn 1955)'
            add(what, 4 * complete(k), flat(width, gap, 200, left), 2)
    return found


# --- the table ------------------------------------------------------------------------------------------------

CONDITIONS = (
    'Quasi-static; perfect conductors; planes without end, the lower one (of a perforated pair: the one beyond) at height '
    'zero. Width is that of the trace foot, which faces the plane below (foot "below") or away from it ("above"). Sheets '
    'are pairs of thickness and permittivity: below from the trace down to the plane, above from the trace up, between '
    '(broadside) from the upper trace down to the lower one, both of which have their foot on the same side. The slab '
    'beside a trace is filled by the dielectric that its body stands in: the first one above with the foot below, the '
    'first one below with the foot above, air on an outer layer. A mask over an outer layer follows the copper: level at '
    'its thickness over the laminate, along the side walls as thick (at right angles to them) as over the trace, level at '
    'that thickness over the trace; where two flanks meet at the height of the mask over the laminate, the gap between '
    'them is level at the upper height. A mask over a sheet is a flat layer. Coplanar ground is as thick as the trace, '
    'its near wall leans alike, its foot is at the gap from that of the trace, and it reaches out of the picture. Three '
    'traces: widths and gaps from left to right at the foot, side walls as those of the first, Maxwell capacitances in '
    'that order. Perforated plane: a strip of ground (web) centred below the axis, an opening on each side, then plane '
    'to the end; rectangular edges; sheets beyond run from the perforated plane to the unbroken one; the web is at the '
    'potential of the planes; openings are filled with the stated permittivity; with sheets beyond above, the upper plane '
    'is perforated alike. Barrels: grounded upright walls on both sides at the stated distance from the foot edge of the '
    'outer trace, from plane to plane, or with a stated width from the plane up to the top of the trace. Even and odd '
    'capacitances are those of one trace with both at one volt, or at plus and minus one volt; of a broadside pair half '
    'the sum of the four Maxwell capacitances, with the sign of the mutual ones turned for odd; Maxwell capacitances of a '
    'broadside pair are in the order lower, upper. Impedance is 1 / (c sqrt(C C in air)), effective permittivity C / C in '
    'air. Error bound: every capacitance is the mean of an upper bound (energy of a conforming approximation of the '
    'potential, zero on the far border) and a lower bound (energy of a conforming stream function with the prescribed '
    'charges, no flux through the far border), so that discretisation and truncation are both inside; polynomials of '
    'degree seven on meshes that shrink towards every corner of copper to 5e-5 of the smallest length; impedances and '
    'effective permittivities carry the sum of the bounds they are made of. relativeBound is the worst of the row (of a '
    'matrix: of any entry against itself), with 1e-6 added for rounding; relativeTolerance is the worst of the column.'
)

LENGTH, PLAIN, FARADS, OHMS = 'um', '1', 'F/m', 'ohm'
MODES = ('single', 'even', 'odd')
ASKED = [
    ('name', 'text'),
    ('kind', 'text'),
    ('arrangement', 'text'),
    ('width', LENGTH),
    ('topWidth', LENGTH),
    ('thickness', LENGTH),
    ('foot', 'text'),
    ('gap', LENGTH),
    ('coplanarGap', LENGTH),
    ('sheetsBelow', 'um, 1'),
    ('sheetsBetween', 'um, 1'),
    ('sheetsAbove', 'um, 1'),
    ('planeAbove', 'yes or no'),
    ('maskOverLaminate', LENGTH),
    ('maskOverTrace', LENGTH),
    ('maskPermittivity', PLAIN),
    ('traces', LENGTH),
    ('openings', 'um; sheets um, 1'),
    ('barrels', LENGTH),
]
GIVEN = [
    *((f'{mode}{what}', unit) for mode in MODES for what, unit in (
        ('Capacitance', FARADS), ('CapacitanceInAir', FARADS), ('Impedance', OHMS), ('EffectivePermittivity', PLAIN))),
    ('maxwellCapacitances', FARADS),
    ('maxwellCapacitancesInAir', FARADS),
]  # fmt: skip
ROUNDING = 1e-6


def asked(case):
    if case.more:
        arrangement = 'three traces'
    else:
        arrangement = 'broadside pair' if case.between else 'single' if case.gap is None else 'edge pair'
    traces = None
    if case.more:
        traces = {'widths': [case.width, *(width for width, _ in case.more)], 'gaps': [gap for _, gap in case.more]}
    mask = case.mask or (None, None, None)
    return [
        case.name, case.kind, arrangement, case.width, case.top_width, case.thickness, case.foot, case.gap,
        case.coplanar, case.below, case.between, case.above, case.lid, *mask, traces, case.openings, case.barrels,
    ]  # fmt: skip


def rounded(value, digits=8):
    if np.ndim(value) > 0:
        return [rounded(each, digits) for each in value]
    return float(f'{value:.{digits - 1}e}')


def tolerance(bound):
    """Rounded up to one digit."""
    unit = 10.0 ** math.floor(math.log10(bound))
    return rounded(math.ceil(bound / unit - 1e-9) * unit, 2)


def table():
    rows, worst = [], {}
    for case in cases():
        results = solve(case)
        row_bound = max(float(np.max(bound)) for _, bound in results.values()) + ROUNDING
        for name, (_, bound) in results.items():
            worst[name] = max(worst.get(name, 0), float(np.max(bound)) + ROUNDING)
        values = [rounded(results[name][0]) if name in results else None for name, _ in GIVEN]
        rows.append([*asked(case), *values, tolerance(row_bound)])
        print(f'{case.name}: within {row_bound:.1e}', flush=True)
    columns = [{'name': name, 'unit': unit} for name, unit in ASKED]
    columns += [{'name': name, 'unit': unit, 'relativeTolerance': tolerance(worst[name])} for name, unit in GIVEN]
    columns.append({'name': 'relativeBound', 'unit': PLAIN})
    return {
        'name': 'lines',
        'title': 'Printed lines: what stands in the plane, and its capacitances, impedances and effective permittivities',
        'columns': columns,
        'rows': rows,
    }


def check_table():
    return {
        'name': 'checks',
        'title': 'The same program on cases with exact solutions, capacitance over the vacuum permittivity',
        'columns': [
            {'name': 'what', 'unit': 'text'},
            {'name': 'exact', 'unit': PLAIN},
            {'name': 'upperBound', 'unit': PLAIN},
            {'name': 'lowerBound', 'unit': PLAIN},
        ],
        'rows': [[what, *(rounded(value, 11) for value in values)] for what, *values in checks()],
    }


def main():
    if len(sys.argv) > 1:
        case = next(case for case in cases() if case.name == sys.argv[1])
        start = time.perf_counter()
        for name, (value, bound) in solve(case).items():
            print(name, value, 'within', bound)
        print(f'{time.perf_counter() - start:.2f} s')
        return
    document = {
        'title': 'Cross-sections of fine printed lines by finite elements, bounded from both sides',
        'source': {
            'citation': 'own finite-element solution (finiteElements.py beside this file), sharing no code and no method '
            'with the boundary elements of the project; J. L. Synge, The Hypercircle in Mathematical Physics, 1957; '
            'P. Hammond, J. Penman, Proc. IEE 123, 1976, pp. 554-559 (bounds from both sides)',
            'retrieved': '2026-11-25',
        },
        'conditions': CONDITIONS,
        'tables': [check_table(), table()],
    }
    path = Path(__file__).with_suffix('.json')
    path.write_text(json.dumps(document) + '\n', encoding='utf8')


if __name__ == '__main__':
    main()
