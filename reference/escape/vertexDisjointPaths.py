"""How many single traces leave one layer of a ball grid: an upper bound, and layouts that surely exist.

Writes vertexDisjointPaths.json beside itself:  python3 vertexDisjointPaths.py

Maps are invented, from a fixed seed. Letters of a map, one for each site, rows parted by "/":

    .  nothing stands          o  something stands, with the small reach        O  with the large reach
                               s  a ball waits there, with the small reach      S  with the large reach

Reach is the distance from the centre of what stands to the nearest trace edge. All lengths are in micrometres.

CAPACITY (upper bound for every layout, in whatever shape). The plane is cut along gates:
* between two sites in use that follow each other in a row or column, over any empty sites between them;
* along both diagonals of every rectangle between four neighbouring sites, where both ends are in use.
A gate lets floor((length - reach - reach + gap + tolerance) / (width + gap)) traces through. In the flow network a gate
that is crossed by no other one has this capacity, half of it on each half of a diagonal; a piece of a gate that others
cross at empty sites has (its length - reach + (gap + tolerance)/2 for each end in use) / (width + gap), not rounded.
One unit starts at each waiting ball, in all cells that meet at its site. Units of 1/1024 trace, rounded up.
The minimum cut with the smallest inner side is then counted again: each stretch of it between two sites in use, with
its turns, as one gate along its length; or along the straight line between its ends, where no site in use lies between.
A ball counts in full where the cut meets its site or passes further in. At most as many as wait.

LATTICE (a layout exists, so a lower bound). Vertical lines at the columns of sites, and between two columns k_x lanes,
k_x = floor((pitch - 2 largest reach + gap + tolerance) / (width + gap)); rows likewise with k_y. Nodes are all
crossings of these lines. A node is free unless it is a site in use. Neighbouring nodes along a line are joined. A
waiting ball starts at its own site, which no other path may pass. Nodes on the outermost lines of sites are outside.
The count is the largest number of paths from waiting balls to the outside of which no two share a node.
Neighbouring lines are a width and a gap apart, as every map has reach >= gap + width/2 and reach + width/2 <= pitch.

RASTER (a layout exists, so a lower bound), where both pitches are a multiple of width + gap; null elsewhere. A square
raster of that spacing over all, sites included. A node or an edge is closed nearer than reach + width/2 to a
site in use, except that a ball's own trace runs free there. Outside as above.

Solver: scipy.sparse.csgraph.maximum_flow. On small maps an exhaustive search confirms it: over all sets of
shortcut-free paths (lattice) and over all sets of cells (capacity network).

Sources: K. Menger, "Zur allgemeinen Kurventheorie", Fundamenta Mathematicae 10, 1927 (disjoint paths); L. R. Ford,
D. R. Fulkerson, "Maximal flow through a network", Canadian J. Math. 8, 1956 (cut and flow); R. Shi, C.-K. Cheng,
"Efficient escape routing for hexagonal array of high density I/Os", DAC 2006 (flow over tiles).
"""

import json
import math
import random
from pathlib import Path

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import maximum_flow

UNITS = 1024
MANY = 1 << 24


class Map:
    def __init__(self, name, pitch_x, pitch_y, small, large, width, gap, tolerance, rows):
        self.name, self.px, self.py, self.small, self.large = name, pitch_x, pitch_y, small, large
        self.w, self.s, self.tol, self.rows = width, gap, tolerance, rows
        self.R, self.C = len(rows), len(rows[0])
        assert small >= gap + width / 2 and large + width / 2 <= min(pitch_x, pitch_y)

    def reach(self, site):
        return {".": 0, "o": self.small, "s": self.small, "O": self.large, "S": self.large}[self.rows[site[0]][site[1]]]

    def used(self):
        return [(i, j) for i in range(self.R) for j in range(self.C) if self.rows[i][j] != "."]

    def waiting(self):
        return [site for site in self.used() if self.rows[site[0]][site[1]] in "sS"]

    def at(self, site):
        return np.array([site[1] * self.px, site[0] * self.py], float)

    def traces(self, clear):
        return max(0, math.floor((clear + self.s + self.tol) / (self.w + self.s)))


def solve(nodes, arcs, source, sink):
    """Value of the flow, and the set of nodes that the source still reaches."""
    start, end, capacity = (np.array(column) for column in zip(*arcs))
    graph = coo_matrix((capacity, (start, end)), shape=(nodes, nodes), dtype=np.int32).tocsr()
    result = maximum_flow(graph, source, sink)
    residual = (graph - result.flow).tocsr()
    seen, stack = {source}, [source]
    while stack:
        node = stack.pop()
        row = slice(residual.indptr[node], residual.indptr[node + 1])
        for other, left in zip(residual.indices[row], residual.data[row]):
            if left > 0 and int(other) not in seen:
                seen.add(int(other))
                stack.append(int(other))
    return int(result.flow_value), seen


# ---- capacity ---------------------------------------------------------------------------------------------------


def cells_of(m):
    """Quarter tiles by the direction in which they lie from the middle of their tile; everything else is outside."""
    number = {}
    for i in range(m.R - 1):
        for j in range(m.C - 1):
            for way in "NESW":
                number[i, j, way] = len(number) + 1
    return number


def pieces_of(m):
    """(end, end, cell, cell, traces or None for no limit); ends are sites, or middles of tiles with halves."""
    number = cells_of(m)
    cell = lambda i, j, way: number.get((i, j, way), 0)
    used = set(m.used())
    row_line = lambda i: [j for j in range(m.C) if (i, j) in used]
    column_line = lambda j: [i for i in range(m.R) if (i, j) in used]
    in_row = lambda i, j: bool(row_line(i)) and min(row_line(i)) < j < max(row_line(i))
    in_column = lambda i, j: bool(column_line(j)) and min(column_line(j)) < i < max(column_line(j))
    pieces = []

    def line(sites, sides, crossed_at):
        standing = [index for index, site in enumerate(sites) if site in used]
        for index in range(len(sites) - 1):
            before = [k for k in standing if k <= index]
            after = [k for k in standing if k > index]
            a, b = sites[index], sites[index + 1]
            if not before or not after:
                pieces.append((a, b, *sides(index), None))
                continue
            first, last = before[-1], after[0]
            length = np.linalg.norm(m.at(sites[first]) - m.at(sites[last]))
            if any(crossed_at(sites[k]) for k in range(first + 1, last)):
                worth = np.linalg.norm(m.at(a) - m.at(b))
                worth += sum((m.s + m.tol) / 2 - m.reach(end) for end in (a, b) if end in used)
                pieces.append((a, b, *sides(index), max(0, worth / (m.w + m.s))))
            else:
                whole = m.traces(length - m.reach(sites[first]) - m.reach(sites[last]))
                pieces.append((a, b, *sides(index), whole if index == first else 0))

    for i in range(m.R):
        line([(i, j) for j in range(m.C)], lambda j: (cell(i - 1, j, "S"), cell(i, j, "N")), lambda e: in_column(*e))
    for j in range(m.C):
        line([(i, j) for i in range(m.R)], lambda i: (cell(i, j - 1, "E"), cell(i, j, "W")), lambda e: in_row(*e))
    for i in range(m.R - 1):
        for j in range(m.C - 1):
            middle = (i + 0.5, j + 0.5)
            for a, b, ways_a, ways_b in (
                ((i, j), (i + 1, j + 1), "NW", "SE"),
                ((i, j + 1), (i + 1, j), "NE", "SW"),
            ):
                half = None
                if a in used and b in used:
                    half = m.traces(np.linalg.norm(m.at(a) - m.at(b)) - m.reach(a) - m.reach(b)) / 2
                for end, ways in ((a, ways_a), (b, ways_b)):
                    pieces.append((end, middle, cell(i, j, ways[0]), cell(i, j, ways[1]), half))
    return pieces, number


def cells_at(number, site):
    i, j = site
    around = [(i - 1, j - 1, "E"), (i - 1, j - 1, "S"), (i - 1, j, "S"), (i - 1, j, "W")]
    around += [(i, j, "W"), (i, j, "N"), (i, j - 1, "N"), (i, j - 1, "E")]
    return {number.get(key, 0) for key in around}


def capacity(m):
    pieces, number = pieces_of(m)
    within = [site for site in m.waiting() if 0 not in cells_at(number, site)]
    cells = len(number) + 1
    source = cells + len(within)
    arcs = []
    for _, _, a, b, traces in pieces:
        units = MANY if traces is None else math.ceil(traces * UNITS - 1e-6)
        if a != b and units > 0:
            arcs += [(a, b, units), (b, a, units)]
    for index, site in enumerate(within):
        arcs.append((source, cells + index, UNITS))
        arcs += [(cells + index, at, UNITS) for at in cells_at(number, site)]
    outer = len(m.waiting()) - len(within)
    if not within:
        return outer, outer, 0
    flow, inner = solve(source + 1, arcs, source, 0)
    kept = [site for site in within if cells_at(number, site) <= inner]
    border = [piece for piece in pieces if (piece[2] in inner) != (piece[3] in inner)]
    passing = count_border(m, border, {tuple(site) for site in kept})
    bound = min(len(m.waiting()), len(m.waiting()) - len(kept) + passing)
    return bound, outer + flow // UNITS, flow


def count_border(m, border, kept):
    used = set(m.used())
    at = {}
    for index, (a, b, *_) in enumerate(border):
        at.setdefault(a, []).append(index)
        at.setdefault(b, []).append(index)
    left = set(range(len(border)))
    total = 0
    for index in range(len(border)):
        for start in border[index][:2]:
            if index in left and start in used:
                walk, here, piece = [start], start, index
                while True:
                    left.discard(piece)
                    a, b = border[piece][:2]
                    here, last = (b if here == a else a), here
                    walk.append(here)
                    if here in used:
                        break
                    others = [k for k in at[here] if k != piece]
                    if len(others) > 1:  # straight on
                        way = np.subtract(here, last)
                        far = lambda k: border[k][1] if border[k][0] == here else border[k][0]
                        others = [k for k in others if abs(way[0] * (far(k)[1] - here[1]) - way[1] * (far(k)[0] - here[0])) < 1e-9]
                    piece = others[0]
                total += stretch(m, walk)
    assert not left, "a ring that meets nothing: not needed for these maps"
    return total


def stretch(m, walk):
    points = np.array([m.at(corner) for corner in walk])
    length = np.linalg.norm(np.diff(points, axis=0), axis=1).sum()
    if walk[0] != walk[-1]:
        others = [m.at(site) for site in m.used() if site not in walk]
        if not any(between(points, point) for point in others):
            length = np.linalg.norm(points[-1] - points[0])
    return m.traces(length - m.reach(walk[0]) - m.reach(walk[-1]))


def between(points, point):
    """By the winding angle of the closed line about the point; on it counts as between."""
    arms = np.vstack([points, points[:1]]) - point
    angles = np.arctan2(arms[:, 1], arms[:, 0])
    turns = np.diff(angles)
    turns = (turns + np.pi) % (2 * np.pi) - np.pi
    return bool(np.any(np.abs(np.abs(turns) - np.pi) < 1e-9)) or round(turns.sum() / (2 * np.pi)) % 2 == 1


def cut_by_trial(m):
    """Units of the cheapest cut over all sets of cells; None where these are too many."""
    pieces, number = pieces_of(m)
    if len(number) > 16:
        return None
    sets = np.arange(1 << len(number), dtype=np.int64)
    inside = lambda cell: np.zeros(len(sets), bool) if cell == 0 else (sets >> (cell - 1)) & 1 == 1
    cost = np.zeros(len(sets), np.int64)
    for _, _, a, b, traces in pieces:
        units = MANY if traces is None else math.ceil(traces * UNITS - 1e-6)
        cost += units * (inside(a) != inside(b))
    for site in m.waiting():
        cells = cells_at(number, site)
        if 0 not in cells:
            cost += UNITS * ~np.logical_and.reduce([inside(cell) for cell in cells])
    return int(cost.min())


# ---- lattice ----------------------------------------------------------------------------------------------------


def lanes(m):
    largest = max([m.reach(site) for site in m.used()], default=0)
    return [m.traces(pitch - 2 * largest) for pitch in (m.px, m.py)]


def lattice_graph(m):
    """Free nodes with their neighbours, starts, and which nodes are outside; nodes are (line of y, line of x)."""
    k_x, k_y = lanes(m)
    height, width = (m.R - 1) * (k_y + 1) + 1, (m.C - 1) * (k_x + 1) + 1
    site_node = lambda site: (site[0] * (k_y + 1), site[1] * (k_x + 1))
    closed = {site_node(site) for site in m.used()}
    free = {(y, x) for y in range(height) for x in range(width)} - closed
    beside = lambda y, x: [n for n in ((y - 1, x), (y + 1, x), (y, x - 1), (y, x + 1)) if n in free]
    outside = lambda y, x: y in (0, height - 1) or x in (0, width - 1)
    return free, beside, outside, [site_node(site) for site in m.waiting()]


def disjoint_paths(free, beside, outside, starts):
    """Largest number of node-disjoint paths; starts maps a name to (is outside, neighbours)."""
    place = {node: index for index, node in enumerate(sorted(free))}
    n = len(place)
    source, sink = 2 * n + len(starts), 2 * n + len(starts) + 1
    arcs = []
    for node, index in place.items():
        arcs.append((index, n + index, 1))
        arcs += [(n + index, place[other], 1) for other in beside(node)]
        if outside(node):
            arcs.append((n + index, sink, 1))
    for index, (leaves, around) in enumerate(starts):
        arcs.append((source, 2 * n + index, 1))
        arcs += [(2 * n + index, sink, 1)] if leaves else [(2 * n + index, place[node], 1) for node in around]
    return solve(sink + 1, arcs, source, sink)[0]


def lattice(m):
    free, beside, outside, waiting = lattice_graph(m)
    starts = [(outside(*node), beside(*node)) for node in waiting]
    return disjoint_paths(free, lambda node: beside(*node), lambda node: outside(*node), starts)


def lattice_by_trial(m):
    free, beside, outside, waiting = lattice_graph(m)
    inner = [node for node in waiting if not outside(*node)]
    best = 0

    def paths(path, taken):
        """Paths without a shortcut that end at the first node outside."""
        if outside(*path[-1]):
            yield path
            return
        for node in beside(*path[-1]):
            if node not in taken and node not in path and not any(other in path[:-1] for other in beside(*node)):
                yield from paths(path + [node], taken)

    def search(index, taken, count):
        nonlocal best
        best = max(best, count)
        if index == len(inner) or count + len(inner) - index <= best:
            return
        for path in paths([inner[index]], taken):
            search(index + 1, taken | set(path[1:]), count + 1)
            if best == len(inner):
                return
        search(index + 1, taken, count)

    search(0, frozenset(), 0)
    return len(waiting) - len(inner) + best


# ---- raster -----------------------------------------------------------------------------------------------------


def raster(m):
    step = m.w + m.s
    if m.px % step or m.py % step:
        return None
    height, width = (m.R - 1) * m.py // step + 1, (m.C - 1) * m.px // step + 1
    around = {}
    for site in m.used():
        x, y = m.at(site)
        away = m.reach(site) + m.w / 2
        span = int(away // step) + 2
        for node_y in range(int(y // step) - span, int(y // step) + span + 1):
            for node_x in range(int(x // step) - span, int(x // step) + span + 1):
                around.setdefault((node_y, node_x), []).append((site, x, y, away))

    def holders(*nodes):
        """Sites in use too near to a node, or to the edge between two."""
        point = np.mean([(node[1] * step, node[0] * step) for node in nodes], axis=0)
        ends = [np.array((node[1] * step, node[0] * step), float) for node in nodes] + [point]
        return {
            site
            for site, x, y, away in around.get(nodes[0], [])
            if min(np.linalg.norm(end - (x, y)) for end in ends) < away - m.tol / 2
        }

    grid = {(y, x) for y in range(height) for x in range(width)}
    held = {node: holders(node) for node in grid}
    free = {node for node in grid if not held[node]}
    next_to = lambda node: [
        n for n in ((node[0] - 1, node[1]), (node[0] + 1, node[1]), (node[0], node[1] - 1), (node[0], node[1] + 1)) if n in grid
    ]
    outside = lambda node: node[0] in (0, height - 1) or node[1] in (0, width - 1)
    starts = []
    for site in m.waiting():
        start = (site[0] * m.py // step, site[1] * m.px // step)
        own, stack, ways = {start}, [start], set()
        while stack:
            node = stack.pop()
            for other in next_to(node):
                if holders(node, other) - {site} or other in own:
                    continue
                if other in free:
                    ways.add(other)
                elif held[other] == {site}:
                    own.add(other)
                    stack.append(other)
        starts.append((any(outside(node) for node in own), sorted(ways)))
    beside = {node: [n for n in next_to(node) if n in free and not holders(node, n)] for node in free}
    return disjoint_paths(free, beside.get, outside, starts)


# ---- maps -------------------------------------------------------------------------------------------------------


def random_rows(rng, rows, columns, missing, supply, large):
    def letter():
        if rng.random() < missing:
            return "."
        kind = "o" if rng.random() < supply else "s"
        return kind.upper() if rng.random() < large else kind

    return ["".join(letter() for _ in range(columns)) for _ in range(rows)]


def maps():
    rng = random.Random(20)
    shapes = [  # pitch x, pitch y, small reach, large reach, width, gap
        (1000, 1000, 370, 470, 100, 100),  # no lane
        (1000, 1000, 350, 450, 100, 100),  # one lane, to the micrometre
        (800, 1000, 200, 300, 100, 100),  # one and two
        (1000, 1000, 250, 350, 100, 100),  # two, to the micrometre
        (1000, 1000, 160, 250, 100, 100),  # three
        (800, 800, 170, 260, 75, 75),  # two lanes, no raster
        (600, 800, 160, 160, 80, 120),  # two and three
        (500, 500, 210, 240, 75, 75),  # no lane, small pitch
    ]
    for index in range(20):  # small enough for exhaustive search
        rows, columns = [(3, 3), (3, 4), (4, 4), (4, 5), (3, 5)][index % 5]
        missing, supply, large = rng.choice([(0, 0, 0), (0.05, 0.1, 0.3), (0.2, 0.1, 0.5)])
        yield f"small {index + 1}", *shapes[index % 2], random_rows(rng, rows, columns, missing, supply, large)
    # The more lanes, the larger a map has to be before anything but the number of balls limits it.
    sizes = [(6, 8), (9, 12), (13, 16), (14, 17), (17, 19), (14, 16), (15, 18), (7, 9)]
    for index in range(16):
        rows, columns = rng.randint(*sizes[index % 8]), rng.randint(*sizes[index % 8])
        yield f"full {index + 1}", *shapes[index % 8], random_rows(rng, rows, columns, 0, rng.choice([0, 0.1]), index % 2 / 2)
    for index in range(24):
        rows, columns = rng.randint(*sizes[index % 8]), rng.randint(*sizes[index % 8])
        missing, supply = rng.choice([0.02, 0.05, 0.1, 0.2]), rng.choice([0, 0.1])
        yield f"with gaps {index + 1}", *shapes[index % 8], random_rows(rng, rows, columns, missing, supply, index % 3 / 2)


def main():
    rows = []
    for name, px, py, small, large, width, gap, letters in maps():
        m = Map(name, px, py, small, large, width, gap, 0.5, letters)
        most, by_flow, units = capacity(m)
        least, spread = lattice(m), raster(m)
        print(name, len(m.waiting()), least, spread, most)
        assert max(least, spread or 0) <= most <= by_flow, (name, least, spread, most, by_flow)
        trial = "-"
        if name.startswith("small"):
            assert lattice_by_trial(m) == least, name
            trial = "paths"
            cheapest = cut_by_trial(m)
            if cheapest is not None:
                assert cheapest == units, (name, cheapest, units)
                trial = "paths and cuts"
        k_x, k_y = lanes(m)
        rows.append([name, px, py, small, large, width, gap, "/".join(letters), k_x, k_y, least, spread, most, trial])
    names = ["name", "pitchX", "pitchY", "smallReach", "largeReach", "width", "gap", "map", "lanesX", "lanesY"]
    names += ["lattice", "raster", "capacity", "byTrial"]
    units = ["-"] + ["um"] * 6 + ["-"] + ["1"] * 5 + ["-"]
    table = {
        "title": "Single traces that leave one layer: upper bound by cuts, and layouts on two lattices",
        "source": "Generated by vertexDisjointPaths.py, which states the rules; flows by scipy.sparse.csgraph.maximum_flow",
        "conditions": "Invented maps. Every layout count is at most the capacity. Tolerance of a channel 0.5 um.",
        "columns": [{"name": name, "unit": unit} for name, unit in zip(names, units)],
    }
    head = json.dumps(table, indent=2)[:-2]
    body = ",\n".join("    " + json.dumps(row) for row in rows)
    Path(__file__).with_suffix(".json").write_text(head + ',\n  "rows": [\n' + body + "\n  ]\n}\n")


if __name__ == "__main__":
    main()
