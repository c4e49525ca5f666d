"""External inductance per metre of round wires among return wires, at high frequency, by circular harmonics.

Writes barrelInductance.json beside itself (seconds on one core):  python3 barrelInductance.py
Prints the checks alone:                                           python3 barrelInductance.py --check

Method. Perfect conductors: the vector potential A is constant on each wire. With z = x + i y, every wire of radius a gives
A = -(mu0 / 2 pi) (I ln|z - z_i| + Re sum over n >= 1 of c_n (a / (z - z_i))^n), which about another wire at the distance d
is again a series of powers of w = z - z_j,
ln(d + w) = ln d - sum (-w / d)^m / m,   (a / (d + w))^n = (a / d)^n sum binomial(n + m - 1, m) (-w / d)^m.
All harmonics m >= 1 on |w| = a must vanish, m = 0 must be the same on all return wires, and their currents add up to what
is prescribed. HARMONICS of each wire are kept; bound is the relative difference to two thirds of them, with 1e-9 added.

Conventions. Metres, henries per metre; nothing magnetic, current on the surface of the wires. All wires have the same
radius. The signal carries 1 A. Without a partner the return wires carry it back, together and at one potential, shared as
the field wants: inductancePerMetre = (A of the signal - A of the returns) / 1 A. With a partner, that one carries all of
it back and the returns, still at one potential, carry nothing in sum: inductancePerMetre = (A of the signal - A of the
partner) / 1 A, which is that of the loop of both; half of it belongs to one of them. current is what each wire carries.
"""

import json
import math
import sys
from pathlib import Path

import numpy as np
from scipy.special import gammaln

VACUUM_PERMEABILITY = 1.25663706212e-6
HARMONICS = 120
SPACING = 0.8e-3


# --- circular harmonics -----------------------------------------------------------------------------------------------


def currents_and_potentials(wires, radius, harmonics):
    """Currents (A) and vector potentials over mu0 / 2 pi, wire by wire."""
    places = np.array([complex(wire['x'], wire['y']) for wire in wires]) / radius
    count, order = len(wires), np.arange(1, harmonics + 1)
    size = 1 + 2 * harmonics  # of a wire: current, real and imaginary parts of the coefficients
    matrix = np.zeros((count * size, count * size))
    below, above = np.meshgrid(order, order)  # n along a row, m down a column
    binomial = gammaln(below + above) - gammaln(above + 1) - gammaln(below)
    for j in range(count):
        real = slice(j * size + 1, j * size + 1 + harmonics)
        imaginary = slice(j * size + 1 + harmonics, (j + 1) * size)
        # Re(c / e^(i m t)) = Re(conj(c) e^(i m t)).
        matrix[real, real] += np.eye(harmonics)
        matrix[imaginary, imaginary] -= np.eye(harmonics)
        for i in range(count):
            if i == j:
                continue
            start = i * size
            away = places[j] - places[i]
            matrix[real, start] -= ((-1 / away) ** order / order).real
            matrix[imaginary, start] -= ((-1 / away) ** order / order).imag
            turned = np.exp(binomial - (below + above) * math.log(abs(away)))
            turned = turned * np.exp(-1j * (below + above) * np.angle(away)) * (-1.0) ** above
            reals, imaginaries = slice(start + 1, start + 1 + harmonics), slice(start + 1 + harmonics, start + size)
            matrix[real, reals] += turned.real
            matrix[real, imaginaries] -= turned.imag
            matrix[imaginary, reals] += turned.imag
            matrix[imaginary, imaginaries] += turned.real
    potential = np.zeros((count, count * size))
    for j in range(count):
        potential[j, j * size] = -math.log(radius)
        for i in range(count):
            if i != j:
                away = places[j] - places[i]
                potential[j, i * size] = -math.log(abs(away) * radius)
                seen = (1 / away) ** order
                potential[j, i * size + 1 : i * size + 1 + harmonics] = -seen.real
                potential[j, i * size + 1 + harmonics : (i + 1) * size] = seen.imag
    right = np.zeros(count * size)
    rows = [j * size for j in range(count)]
    return solve_groups(wires, matrix, potential, right, rows)


def solve_groups(wires, matrix, potential, right, rows):
    """Fill the rows of the currents: prescribed for signal and partner, one potential and a sum for the returns."""
    roles = [wire['role'] for wire in wires]
    returns = [j for j, role in enumerate(roles) if role == 'return']
    carried = -1.0 if 'partner' not in roles else 0.0
    for j, role in enumerate(roles):
        if role != 'return':
            matrix[rows[j], rows[j]] = 1
            right[rows[j]] = 1 if role == 'signal' else -1
        elif j == returns[0]:
            matrix[rows[j], [rows[k] for k in returns]] = 1
            right[rows[j]] = carried
        else:
            matrix[rows[j]] = potential[j] - potential[returns[0]]
    solution = np.linalg.solve(matrix, right)
    return solution[rows], potential @ solution


def inductance(wires, radius, harmonics=HARMONICS):
    currents, potentials = currents_and_potentials(wires, radius, harmonics)
    return VACUUM_PERMEABILITY / (2 * math.pi) * difference(wires, potentials), currents


def difference(wires, potentials):
    roles = [wire['role'] for wire in wires]
    other = roles.index('partner' if 'partner' in roles else 'return')
    return potentials[roles.index('signal')] - potentials[other]


# --- cases ------------------------------------------------------------------------------------------------------------


def at(role, *places):
    return [{'x': round(x * SPACING, 12), 'y': round(y * SPACING, 12), 'role': role} for x, y in places]


def around(count, places=None):
    angles = [2 * math.pi * k / count for k in (places or range(count))]
    return at('signal', (0, 0)) + at('return', *[(math.cos(angle), math.sin(angle)) for angle in angles])


def cases():
    found = []

    def add(name, wires, ratios):
        for ratio in ratios:
            found.append(
                {
                    'name': f'{name}, radius {ratio:g} of the distance',
                    'wires': wires,
                    'radius': round(ratio * SPACING, 12),
                }
            )

    for count in (1, 2, 3, 4, 6, 8):
        add(f'{count} return{"s" * (count > 1)} evenly around', around(count), (0.05, 0.15, 0.25, 0.35))
    add('two returns at right angles', around(4, (0, 1)), (0.05, 0.15, 0.25, 0.35))
    add('returns on three of four places', around(4, (0, 1, 2)), (0.05, 0.15, 0.25, 0.35))
    pair = at('signal', (-0.5, 0)) + at('partner', (0.5, 0))
    add('pair', pair, (0.05, 0.2, 0.35))
    add('pair between two returns in line', pair + at('return', (-1.5, 0), (1.5, 0)), (0.05, 0.2, 0.35))
    corners = at('return', (-0.5, -1), (-0.5, 1), (0.5, -1), (0.5, 1))
    add('pair among four returns beside its wires', pair + corners, (0.05, 0.2, 0.35))
    add('pair among six returns', pair + corners + at('return', (-1.5, 0), (1.5, 0)), (0.05, 0.2, 0.35))
    add('pair beside one return', pair + at('return', (1.5, 0)), (0.05, 0.2, 0.35))
    return found


# --- checks -----------------------------------------------------------------------------------------------------------


def by_surface_currents(wires, radius, points=160):
    """The same from surface currents at points: the self part exact for harmonics on a circle, the rest by sums."""
    angle = 2 * math.pi * np.arange(points) / points
    circle = radius * np.exp(1j * angle)
    harmonic = np.minimum(np.arange(points), points - np.arange(points)).astype(float)
    # -ln|x - y| on a circle: -ln a for the mean, 1 / (2 n) for the harmonic n; densities are currents at points.
    weights = np.concatenate(([-math.log(radius)], 0.5 / harmonic[1:]))
    kernel = np.fft.ifft(weights * points).real
    own = kernel[(np.arange(points)[:, None] - np.arange(points)) % points]
    count = len(wires)
    places = np.concatenate([complex(wire['x'], wire['y']) + circle for wire in wires])
    with np.errstate(divide='ignore'):
        full = -np.log(abs(places[:, None] - places))
    for j in range(count):
        block = slice(j * points, (j + 1) * points)
        full[block, block] = own
    # Unknowns: current at each point and the potential of each wire.
    size = count * points
    matrix = np.zeros((size + count, size + count))
    matrix[:size, :size] = full
    for j in range(count):
        matrix[j * points : (j + 1) * points, size + j] = -1
    right = np.zeros(size + count)
    roles = [wire['role'] for wire in wires]
    returns = [j for j, role in enumerate(roles) if role == 'return']
    for j, role in enumerate(roles):
        if role != 'return':
            matrix[size + j, j * points : (j + 1) * points] = 1
            right[size + j] = 1 if role == 'signal' else -1
        elif j == returns[0]:
            for k in returns:
                matrix[size + j, k * points : (k + 1) * points] = 1
            right[size + j] = -1 if 'partner' not in roles else 0
        else:
            matrix[size + j, size + j], matrix[size + j, size + returns[0]] = 1, -1
    potentials = np.linalg.solve(matrix, right)[size:]
    return VACUUM_PERMEABILITY / (2 * math.pi) * difference(wires, potentials)


def checks():
    rows = []
    scale = VACUUM_PERMEABILITY / (2 * math.pi)
    for ratio in (0.05, 0.35, 0.45):
        exact = 2 * scale * math.acosh(0.5 / ratio)
        for name, wires in (('one return', around(1)), ('pair', at('signal', (-0.5, 0)) + at('partner', (0.5, 0)))):
            label = f'{name}, radius {ratio:g} of the distance, (mu0 / pi) arcosh(s / 2 a)'
            rows.append({'name': label, 'exact': exact, 'found': inductance(wires, ratio * SPACING)[0]})
    for count in (3, 8):
        # Thin wires have no harmonics: A of a ring of n filaments at one of them is that of n |z^n - s^n| / |z - s|.
        exact = scale * (math.log(1e5) + math.log(1e5 / count) / count)
        label = f'{count} thin returns, (mu0 / 2 pi) (ln(s / a) + ln(s / n a) / n)'
        rows.append({'name': label, 'exact': exact, 'found': inductance(around(count), 1e-5 * SPACING)[0]})
    for case in cases()[3::5]:
        exact = by_surface_currents(case['wires'], case['radius'])
        found = inductance(case['wires'], case['radius'])[0]
        rows.append({'name': f'surface currents at points: {case["name"]}', 'exact': exact, 'found': found})
    for row in rows:
        row['relativeDifference'] = row['found'] / row['exact'] - 1
        print(f'{row["relativeDifference"]:+.1e}  {row["found"]:.7g}  {row["name"]}', flush=True)
    return rows


# --- the file ---------------------------------------------------------------------------------------------------------


def solved(case):
    value, currents = inductance(case['wires'], case['radius'])
    coarse = inductance(case['wires'], case['radius'], HARMONICS * 2 // 3)[0]
    return {
        'name': case['name'],
        'wires': [{**wire, 'current': round(float(current), 9)} for wire, current in zip(case['wires'], currents)],
        'radius': case['radius'],
        'inductancePerMetre': float(f'{value:.9g}'),
        'bound': float(f'{abs(coarse / value - 1) + 1e-9:.2g}'),
    }


def write():
    checked, rows = checks(), []
    for case in cases():
        rows.append(solved(case))
        print(f'{rows[-1]["inductancePerMetre"] * 1e9:8.3f} nH/m  {rows[-1]["bound"]:.0e}  {case["name"]}', flush=True)
    head = {
        'title': 'External inductance per metre of round wires among return wires, by circular harmonics',
        'source': {
            'citation': 'own series solution (barrelInductance.py beside this file), which shares no code with the project',
            'retrieved': '2026-12-01',
        },
        'conditions': ' '.join(__doc__.split('Conventions. ')[1].split()),
    }
    text = json.dumps(head, indent=1)[:-2]
    for key, table in (('checks', checked), ('cases', rows)):
        text += f',\n "{key}": [\n' + ',\n'.join('  ' + json.dumps(row) for row in table) + '\n ]'
    Path(__file__).with_suffix('.json').write_text(text + '\n}\n')


if __name__ == '__main__':
    if sys.argv[1:] == ['--check']:
        checks()
    else:
        write()
