"""Times the finite elements of reference/field for the bench beside them; prints name, milliseconds, impedance.

    python3 finiteElementTimes.py ORDER FINEST NAME...

The potential alone, filled and in air, best of five; FINEST is the finest element at copper as a share of the smallest length.
"""

import math
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2] / 'reference' / 'field'))
import finiteElements as fe  # noqa: E402
import numpy as np  # noqa: E402


def impedance(case, order):
    """Of the single trace, or of the odd mode of a pair, both modes solved."""
    for left in ('even',) if case.gap is None else ('even', 'odd'):
        mesh = fe.Mesh(fe.scene_of(case, left), order)
        filled, air = (
            fe.upper_bound(mesh, coefficient)[0, 0] * (2 if case.gap is None else 1)
            for coefficient in (mesh.permittivity, np.ones_like(mesh.permittivity))
        )
    return 376.730313668 / math.sqrt(filled * air)


def main():
    order, fe.FINEST_METAL = int(sys.argv[1]), float(sys.argv[2])
    for name in sys.argv[3:]:
        case = next(case for case in fe.cases() if case.name == name)
        best = math.inf
        for _ in range(5):
            start = time.perf_counter()
            value = impedance(case, order)
            best = min(best, time.perf_counter() - start)
        print(f'{name}\t{1e3 * best}\t{value}')


main()
