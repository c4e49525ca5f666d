"""Elements in r and z on graded tensor grids: polynomials of ORDER in each direction, for barrelCapacitance.py."""

import math

import numpy as np
import scipy.sparse as sparse
from scipy.sparse.linalg import splu

ORDER = 3
RATIO = 0.25  # of the sizes of neighbouring elements, to a corner
GROWTH = 2.2  # of elements towards the outer boundary


# --- one-dimensional grids and matrices -------------------------------------------------------------------


def halves(start, end, steps):
    """Points from start to end, graded to both."""
    fractions = 0.5 * RATIO ** np.arange(steps - 1, -1, -1)
    return np.concatenate(([start], start + (end - start) * fractions, end - (end - start) * fractions[-2::-1], [end]))


def outwards(start, end, first):
    """Points from start to end, from a first step that grows."""
    count = max(2, math.ceil(math.log(1 + (end - start) / first * (GROWTH - 1), GROWTH)))
    sizes = GROWTH ** np.arange(count)
    return start + (end - start) * np.concatenate(([0], np.cumsum(sizes) / sizes.sum()))


def joined(pieces):
    points = np.unique(np.concatenate(pieces))
    keep = np.concatenate(([True], np.diff(points) > 1e-12))
    return points[keep]


def between(points, steps):
    return [halves(left, right, steps) for left, right in zip(points[:-1], points[1:])]


def lobatto(order):
    inner = np.polynomial.legendre.Legendre.basis(order).deriv().roots()
    return np.concatenate(([-1.0], np.sort(inner.real), [1.0]))


NODES = lobatto(ORDER)
POINTS, WEIGHTS = np.polynomial.legendre.leggauss(ORDER + 4)
POLYNOMIALS = [
    np.polynomial.Polynomial(np.linalg.solve(np.vander(NODES, increasing=True), unit)) for unit in np.eye(ORDER + 1)
]
VALUES = np.array([polynomial(POINTS) for polynomial in POLYNOMIALS])
SLOPES = np.array([polynomial.deriv()(POINTS) for polynomial in POLYNOMIALS])


def matrices(grid, weight):
    """Stiffness and mass of each element of a grid, with a weight."""
    half = np.diff(grid)[:, None] / 2
    weights = weight((grid[:-1, None] + grid[1:, None]) / 2 + half * POINTS) * WEIGHTS
    stiffness = np.einsum('eq,iq,jq->eij', weights / half, SLOPES, SLOPES)
    mass = np.einsum('eq,iq,jq->eij', weights * half, VALUES, VALUES)
    return stiffness, mass


def nodes_of(grid):
    half = np.diff(grid)[:, None] / 2
    return np.append(((grid[:-1, None] + grid[1:, None]) / 2 + half * NODES)[:, :-1].ravel(), grid[-1])


# --- elements in two dimensions -----------------------------------------------------------------------------


class Field:
    """A weighted Laplacian on part of a tensor grid: scale (0: no field there) by element, weight by r."""

    def __init__(self, radii, heights, scale, weight):
        stiff_r, mass_r = matrices(radii, weight)
        stiff_z, mass_z = matrices(heights, np.ones_like)
        self.shape = ((len(radii) - 1) * ORDER + 1, (len(heights) - 1) * ORDER + 1)
        column, row = np.nonzero(scale)
        block = np.einsum('eij,ekl->eikjl', stiff_r[column], mass_z[row]) + np.einsum(
            'eij,ekl->eikjl', mass_r[column], stiff_z[row]
        )
        size = (ORDER + 1) ** 2
        values = (block * scale[column, row][:, None, None, None, None]).reshape(-1, size, size)
        local = np.arange(ORDER + 1)
        numbers = (
            (column[:, None, None] * ORDER + local[None, :, None]) * self.shape[1] + row[:, None, None] * ORDER + local
        )
        numbers = numbers.reshape(-1, size)
        total = self.shape[0] * self.shape[1]
        rows = np.repeat(numbers, size, axis=1).ravel()
        columns = np.tile(numbers, (1, size)).ravel()
        self.matrix = sparse.csr_matrix((values.ravel(), (rows, columns)), shape=(total, total))
        self.used = np.zeros(total, bool)
        self.used[numbers.ravel()] = True

    def solve(self, fixed, tied=()):
        """The field of least energy with values fixed where not NaN, and lists of nodes that share one value."""
        total = self.used.size
        group = np.arange(total)
        for nodes in tied:
            group[nodes] = nodes[0]
        fixed = fixed.ravel()
        free = self.used & np.isnan(fixed)
        leaders = np.unique(group[free])
        place = np.full(total, -1)
        place[leaders] = np.arange(len(leaders))
        index = np.nonzero(free)[0]
        spread = sparse.csr_matrix((np.ones(len(index)), (index, place[group[index]])), shape=(total, len(leaders)))
        known = np.where(np.isnan(fixed), 0, fixed)
        inner = (spread.T @ self.matrix @ spread).tocsc()
        solution = splu(inner, permc_spec='MMD_AT_PLUS_A', diag_pivot_thresh=0, options={'SymmetricMode': True}).solve(
            -(spread.T @ (self.matrix @ known))
        )
        field = known + spread @ solution
        return field.reshape(self.shape), field @ (self.matrix @ field)


def touched(mask):
    """Nodes of the elements that are marked."""
    nodes = np.zeros((mask.shape[0] * ORDER + 1, mask.shape[1] * ORDER + 1), bool)
    for i in range(ORDER + 1):
        for j in range(ORDER + 1):
            nodes[i : i + mask.shape[0] * ORDER : ORDER, j : j + mask.shape[1] * ORDER : ORDER] |= mask
    return nodes
