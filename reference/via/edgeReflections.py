"""Peaks of the wave that a lossless network reflects into a line, by travelling waves in time.

Writes edgeReflections.json beside itself (a minute on one core):  python3 edgeReflections.py
Prints the exact checks alone:                                     python3 edgeReflections.py --check

Method. Junctions joined by lines. Each line carries two waves that arrive a whole number of steps later; at a junction with
shunt capacitance C, conductances G of what hangs there in all, and arriving waves a of lines of impedance Z, the voltage v
obeys C dv/dt = sum 2 a / Z - G v, integrated exactly for sources that are linear within a step, and v - a leaves into each
line. All delays, and the ramp, are whole numbers of steps; what is left is that waves behind capacitors are not linear
within a step, of second order in the step. Each network is computed with STEP and half of it: peak is the latter's, bound
the difference of the two with 1e-6 added for rounding and for the tail of the Gaussian edge.

Conventions. Ohms, farads, seconds. A line of impedance lineImpedance feeds the elements in order, then the
terminationResistance. A shuntStub is an open-ended line with a capacitor at its open end, a shuntCapacitance a lumped
one; both hang in parallel where they stand in the list. The edge rises from 0 to 1: 'gaussian' is the integral of a
Gaussian with sigma = riseTime / 2.563103131, 'ramp' is straight with the full length 1.25 riseTime; riseTime is from 10
to 90 %. The reflected wave r is taken where the line meets the first element. With Gamma = (R - Z0) / (R + Z0) and D
the sum of the delays of the elements of kind line, peak is the largest excursion by size, with its sign, of
r(t) - Gamma edge(t - 2 D), in shares of the edge; opposite is the largest with the other sign (0 where there is none).
"""

import json
import math
import sys
import time
from pathlib import Path

import numpy as np
from scipy.signal import lfilter
from scipy.special import erfcx, ndtr

sys.dont_write_bytecode = True

STEP = 0.05e-12
SIGMAS = 6.5  # of the Gaussian edge before and after its middle
EDGES = ('gaussian', 'ramp')


class Edge:
    def __init__(self, kind, rise):
        self.kind = kind
        self.sigma = rise / 2.563103131
        self.length = 1.25 * rise if kind == 'ramp' else 2 * SIGMAS * self.sigma

    def at(self, t):
        if self.kind == 'ramp':
            return np.clip(t / self.length, 0, 1)
        return np.where(t > 0, ndtr(t / self.sigma - SIGMAS), 0)

    def through_low_pass(self, t, tau):
        """The edge behind 1 / (1 + s tau), in closed form."""
        if self.kind == 'ramp':

            def integrated(u):
                return np.where(u > 0, u + tau * np.expm1(-np.maximum(u, 0) / tau), 0)

            return (integrated(t) - integrated(t - self.length)) / self.length
        x = t / self.sigma - SIGMAS
        # exp(-x s + s^2 / 2) Phi(x - s) with s = sigma / tau, in a form that does not overflow.
        s = self.sigma / tau
        return ndtr(x) - np.exp(-x * x / 2) * erfcx((s - x) / math.sqrt(2)) / 2


# --- the simulator ----------------------------------------------------------------------------------------------------


class Junction:
    """Where lines and lumped parts meet; its voltage goes on from block to block."""

    def __init__(self):
        self.capacitance = self.conductance = self.voltage = self.drive = 0.0
        self.ends = []

    def filter(self, step):
        if self.capacitance == 0:
            self.taps = None
            return
        lag = self.conductance * step / self.capacitance
        decay = math.exp(-lag)
        share = -math.expm1(-lag) / lag
        self.taps = (np.array([1 - share, share - decay]) / self.conductance, np.array([1, -decay]))

    def advance(self, drive):
        if self.taps is None:
            return drive / self.conductance
        new, old = self.taps[0]
        decay = -self.taps[1][1]
        # lfilter's state is what the last sample still adds to the next.
        state = [old * self.drive + decay * self.voltage]
        voltage = lfilter(*self.taps, drive, zi=state)[0]
        self.drive, self.voltage = drive[-1], voltage[-1]
        return voltage


class Line:
    def __init__(self, impedance, steps, left, right, samples):
        self.admittance = 1 / impedance
        self.steps = steps
        # arriving[k]: the waves that reach end k, written a delay ahead.
        self.arriving = (np.zeros(samples + steps + 1), np.zeros(samples + steps + 1))
        for end, junction in enumerate((left, right)):
            junction.conductance += self.admittance
            junction.ends.append((self, end))


def whole(value, step):
    steps = round(value / step)
    assert steps > 0 and abs(steps * step - value) < 1e-6 * step, value
    return steps


def network(case, step, samples):
    first = here = Junction()
    first.conductance += 1 / case['lineImpedance']
    junctions, lines = [first], []
    for element in case['elements']:
        if element['kind'] == 'shuntCapacitance':
            here.capacitance += element['capacitance']
            continue
        there = Junction()
        junctions.append(there)
        lines.append(Line(element['impedance'], whole(element['delay'], step), here, there, samples))
        if element['kind'] == 'shuntStub':
            there.capacitance += element['endCapacitance']
        else:
            here = there
    here.conductance += 1 / case['terminationResistance']
    for junction in junctions:
        junction.filter(step)
    return junctions, lines


def reflected(case, edge, step):
    """Times, and the reflected wave."""
    elements = case['elements']
    delays = sum(element.get('delay', 0) for element in elements)
    lumped = sum(element.get('capacitance', 0) + element.get('endCapacitance', 0) for element in elements)
    duration = edge.length + 60 * delays + 60 * lumped * case['lineImpedance'] + 10 * step
    samples = math.ceil(duration / step)
    times = np.arange(samples) * step
    incident = edge.at(times)
    junctions, lines = network(case, step, samples)
    result = np.zeros(samples)
    block = min([line.steps for line in lines], default=samples)
    for start in range(0, samples, block):
        end = min(start + block, samples)
        for junction in junctions:
            drive = np.zeros(end - start)
            if junction is junctions[0]:
                drive += 2 / case['lineImpedance'] * incident[start:end]
            for line, side in junction.ends:
                drive += 2 * line.admittance * line.arriving[side][start:end]
            voltage = junction.advance(drive)
            for line, side in junction.ends:
                leaving = voltage - line.arriving[side][start:end]
                line.arriving[1 - side][start + line.steps : end + line.steps] = leaving
            if junction is junctions[0]:
                result[start:end] = voltage - incident[start:end]
    return times, result


def excursion(case, edge, step):
    times, wave = reflected(case, edge, step)
    resistance, impedance = case['terminationResistance'], case['lineImpedance']
    delay = sum(element['delay'] for element in case['elements'] if element['kind'] == 'line')
    # In whole steps, so that the kinks of the ramp fall on samples.
    shift = 2 * round(delay / step)
    late = np.concatenate((np.zeros(shift), edge.at(times)))[: len(times)]
    wave = wave - (resistance - impedance) / (resistance + impedance) * late
    # What a ramp's kinks set ringing between two capacitances dies slowly, but is small.
    assert max(abs(wave[-len(wave) // 10 :])) < 0.01 * max(abs(wave)), case['name']
    return signed_peaks(wave)


def signed_peaks(wave):
    high, low = max(wave.max(), 0), min(wave.min(), 0)
    return (high, low) if high > -low else (low, high)


# --- cases ------------------------------------------------------------------------------------------------------------


def line(impedance, picoseconds):
    return {'kind': 'line', 'impedance': impedance, 'delay': round(picoseconds * 1e-12, 17)}


def stub(impedance, picoseconds, picofarads):
    return {
        'kind': 'shuntStub',
        'impedance': impedance,
        'delay': round(picoseconds * 1e-12, 17),
        'endCapacitance': round(picofarads * 1e-12, 18),
    }


def lumped(picofarads):
    return {'kind': 'shuntCapacitance', 'capacitance': round(picofarads * 1e-12, 18)}


def case(impedance, elements, rise, resistance=None, name=''):
    load = f', {resistance:g} ohm' if resistance and resistance != impedance else ''
    return {
        'name': f'{name}, {rise:g} ps{load}',
        'lineImpedance': impedance,
        'elements': elements,
        'terminationResistance': resistance or impedance,
        'riseTime': round(rise * 1e-12, 17),
    }


def chosen():
    """Networks by hand, each with the parts of one kind or a plausible whole."""
    found = []
    for rise in (20, 50, 100, 400):
        found.append(case(50, [lumped(0.1)], rise, name='capacitance'))
        found.append(case(50, [line(62, 30)], rise, name='neck'))
        found.append(case(50, [stub(40, 8, 0.06)], rise, name='stub'))
    for rise in (20, 35, 80, 200):
        via = [line(60, 24), lumped(0.08), line(38, 4.2), stub(36, 6.5, 0.05), lumped(0.03)]
        found.append(case(50, via, rise, name='neck, pad, via with stub'))
        found.append(case(50, via[:2] + [line(38, 10.7), lumped(0.08)], rise, name='neck, through via'))
    for resistance in (34, 40, 50, 120, 1000):
        elements = [line(58, 18.5), line(66, 12), lumped(0.07), line(35, 3.3), stub(33, 5.1, 0.09), lumped(0.04)]
        for rise in (40, 150):
            found.append(case(45, elements, rise, resistance, name='neck in two pieces, via with stub, load'))
    for rise in (20, 60, 250):
        elements = [line(96, 22), lumped(0.04), line(72, 5.4), stub(70, 7.5, 0.025), lumped(0.02)]
        found.append(case(85, elements, rise, name='pair: neck, via with stub'))
        found.append(case(100, elements[:3] + [lumped(0.04), line(92, 15)], rise, name='pair: neck, via, neck'))
    found.append(case(50, [lumped(0.02), line(55, 10), lumped(0.4)], 100, 50, name='small and large capacitance'))
    found.append(case(50, [lumped(0.4)], 30, 1000, name='capacitance at an open end'))
    found.append(case(50, [line(40, 60)], 20, 1000, name='long neck to an open end'))
    found.append(case(50, [stub(25, 12, 0.15)], 20, name='long stub'))
    found.append(case(50, [line(70, 60), line(25, 10), stub(25, 12, 0.15)], 20, name='all at their worst'))
    return found


def drawn(count=30, seed=20261201):
    random = np.random.default_rng(seed)

    def between(low, high, places=1):
        return round(float(random.uniform(low, high)), places)

    found = []
    for index in range(count):
        pair = index % 5 == 4
        scale = 1.7 if pair else 1
        impedance = between(80, 100) if pair else between(40, 60)
        elements = [line(between(40 * scale, 70 * scale), between(10, 60)) for _ in range(random.integers(0, 3))]
        elements.append(lumped(between(0.02, 0.2, 3) / scale))
        elements.append(line(between(25 * scale, 70 * scale), between(1, 10)))
        if random.random() < 0.6:
            elements.append(stub(between(25 * scale, 60 * scale), between(2, 12), between(0.02, 0.15, 3) / scale))
        elements.append(lumped(between(0.02, 0.2, 3) / scale))
        if random.random() < 0.3:
            elements.append(line(between(40 * scale, 70 * scale), between(10, 60)))
        rise = int(random.choice([20, 25, 30, 40, 50, 70, 100, 150, 200, 300, 400]))
        resistance = None if pair or random.random() < 0.5 else float(random.choice([34, 40, 50, 120, 1000]))
        found.append(
            case(impedance, elements, rise, resistance, name=f'drawn {index + 1}' + (', pair' if pair else ''))
        )
    return found


# --- exact checks -----------------------------------------------------------------------------------------------------


def exact_waves(kind, rise=40e-12):
    """Networks whose reflection is known in closed form, with that reflection less that of the termination."""
    edge = Edge(kind, rise)

    def section(t, outside=50, inside=65, delay=22e-12):
        share = (inside - outside) / (inside + outside)
        wave = share * edge.at(t)
        for k in range(60):
            wave = wave - share * (1 - share**2) * share ** (2 * k) * edge.at(t - 2 * (k + 1) * delay)
        return wave

    def loaded(t, resistance, impedance=50, capacitance=0.15e-12):
        tau = capacitance * impedance * resistance / (impedance + resistance)
        return 2 * resistance / (impedance + resistance) * (edge.through_low_pass(t, tau) - edge.at(t))

    def matched_stub(t, delay=7e-12, capacitance=0.1e-12):
        # A stub of half of the line's impedance sees both lines in parallel as its own impedance: nothing comes twice.
        # At its end (1 - s tau) / (1 + s tau) comes back.
        late = t - 2 * delay
        return -edge.at(t) / 2 + (2 * edge.through_low_pass(late, capacitance * 25) - edge.at(late)) / 2

    ps = rise * 1e12
    yield case(50, [line(65, 22)], ps, name='one section, bounce series'), section
    yield case(50, [lumped(0.15)], ps, name='lumped capacitance'), lambda t: loaded(t, 50)
    yield case(50, [lumped(0.15)], ps, 1000, name='lumped capacitance'), lambda t: loaded(t, 1000)
    yield case(50, [stub(25, 7, 0.1)], ps, name='stub of half the impedance, with capacitance'), matched_stub


def checks():
    rows = []
    for kind in EDGES:
        for network_case, exact_wave in exact_waves(kind):
            edge = Edge(kind, network_case['riseTime'])
            times = np.arange(round(600e-12 / 0.005e-12)) * 0.005e-12
            exact, found = signed_peaks(exact_wave(times)), excursion(network_case, edge, STEP / 2)
            rows.append({'name': f'{network_case["name"]}, {kind}', 'exact': exact[0], 'found': found[0]})
    full = Edge('ramp', 40e-12).length
    formula = -(0.15e-12 * 50 / (2 * full)) * -math.expm1(-2 * full / (50 * 0.15e-12))
    found = excursion(case(50, [lumped(0.15)], 40), Edge('ramp', 40e-12), STEP / 2)[0]
    rows.append(
        {'name': 'lumped capacitance, ramp, -(C Z0 / 2 t)(1 - exp(-2 t / Z0 C))', 'exact': formula, 'found': found}
    )
    for row in rows:
        row['difference'] = row['found'] - row['exact']
        print(f'{row["difference"]:+.1e}  {row["found"]:+.6f}  {row["name"]}', flush=True)
    return rows


# --- the file ---------------------------------------------------------------------------------------------------------


def solved(row):
    result = dict(row)
    for kind in EDGES:
        edge = Edge(kind, row['riseTime'])
        coarse, fine = excursion(row, edge, STEP), excursion(row, edge, STEP / 2)
        bound = max(abs(np.sort(coarse) - np.sort(fine))) + 1e-6
        result[kind] = {
            'peak': round(float(fine[0]), 7),
            'opposite': round(float(fine[1]), 7),
            'bound': float(f'{bound:.2g}'),
        }
    return result


def write():
    checked, rows = checks(), []
    for row in chosen() + drawn():
        began = time.time()
        rows.append(solved(row))
        figures = '  '.join(f'{kind} {rows[-1][kind]["peak"]:+.5f} ({rows[-1][kind]["bound"]:.0e})' for kind in EDGES)
        print(f'{figures}  {time.time() - began:4.1f} s  {row["riseTime"] * 1e12:g} ps  {row["name"]}', flush=True)
    head = {
        'title': 'Peaks of the wave that a lossless network reflects into a line, by travelling waves in time',
        'source': {
            'citation': 'own simulation (edgeReflections.py beside this file), which shares no code and no method with '
            'the project, and works in time alone',
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
