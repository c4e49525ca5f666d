"""The vias of barrelCapacitance.py: plain data, invented, without a solution. Conventions are in barrelCapacitance.py."""

OUTER_COPPER = 40e-6  # foil and plating
MASK = {'thickness': 20e-6, 'permittivity': 3.5}

# Roles of the copper layers from top to bottom, thickness of the board (mm), inner copper (um), outer dielectric (um),
# widths of the other dielectrics against each other ('thin' before and after paired planes), permittivity.
BOARDS = {
    'six layers 0.8 mm': ('SPSSPS', 0.8, 17.5, 80, {}, 4.0),
    'six layers 1.6 mm, thick core': ('SPSSPS', 1.6, 35, 110, {2: 4}, 4.2),
    'six layers 1.0 mm, two planes in a row': ('SPPSPS', 1.0, 17.5, 90, {1: 0.5}, 3.8),
    'six layers 1.2 mm, planes outside without pads': ('PSPPSP', 1.2, 35, 120, {}, 4.0),
    'eight layers 1.0 mm': ('SPSPPSPS', 1.0, 17.5, 70, {}, 3.6),
    'eight layers 1.6 mm, signals in a row': ('SPSSSSPS', 1.6, 17.5, 100, {}, 4.1),
    'ten layers 1.2 mm': ('SPSPSSPSPS', 1.2, 17.5, 70, {}, 3.4),
    'ten layers 1.6 mm, paired signals': ('SPSSPPSSPS', 1.6, 17.5, 90, {4: 0.5}, 3.9),
    'twelve layers 1.6 mm': ('SPSPSPPSPSPS', 1.6, 17.5, 75, {5: 0.6}, 3.3),
    'twelve layers 2.0 mm, paired signals': ('SPSSPSSPSSPS', 2.0, 17.5, 90, {}, 3.7),
    'fourteen layers 2.0 mm': ('SPSPSPSSPSPSPS', 2.0, 17.5, 75, {}, 3.5),
    'sixteen layers 2.0 mm': ('SPSPSPSPPSPSPSPS', 2.0, 15, 70, {7: 0.7}, 3.2),
    'sixteen layers 2.4 mm, paired signals': ('SPSSPSSPPSSPSSPS', 2.4, 17.5, 80, {7: 0.5}, 3.6),
}


def stack(board, permittivities=None):
    """Copper with its role, and dielectrics that fill the thickness of the board."""
    roles, thickness, inner, outer, shares, permittivity = BOARDS[board]
    gaps = len(roles) - 1
    weights = {gap: shares.get(gap, 1) for gap in range(1, gaps - 1)}
    rest = thickness * 1e-3 - 2 * OUTER_COPPER - (len(roles) - 2) * inner * 1e-6 - 2 * outer * 1e-6
    layers = []
    for index, role in enumerate(roles):
        edge = index in (0, len(roles) - 1)
        layers.append(
            {
                'kind': 'copper',
                'role': 'plane' if role == 'P' else 'signal',
                'thickness': OUTER_COPPER if edge else round(inner * 1e-6, 10),
                'openingRadius': None,
                'padRadius': None,
            }
        )
        if index < gaps:
            share = outer * 1e-6 if index in (0, gaps - 1) else rest * weights[index] / sum(weights.values())
            value = permittivities[index % len(permittivities)] if permittivities else permittivity
            layers.append({'kind': 'dielectric', 'thickness': round(share, 8), 'permittivity': value})
    return layers


def via(board, drill, pad, opening, pads, span=None, mask=False, permittivities=None, solid=(), note='', openings=None):
    """Drill, pad and opening are diameters in mm; pads is 'all', 'outer', or numbers of layers beside the two ends."""
    layers = stack(board, permittivities)
    copper = [layer for layer in layers if layer['kind'] == 'copper']
    first, last = span or (1, len(copper))
    for number, layer in enumerate(copper, 1):
        if layer['role'] == 'plane':
            wide = (openings or {}).get(number, opening)
            layer['openingRadius'] = None if number in solid else wide / 2 * 1e-3
        elif number in (first, last) or (
            first < number < last and (pads == 'all' or (pads != 'outer' and number in pads))
        ):
            layer['padRadius'] = pad / 2 * 1e-3
        for key in ('openingRadius', 'padRadius'):
            layer[key] = layer[key] and round(layer[key], 9)
    named = {'all': 'all pads', 'outer': 'pads at the ends'}
    kept = named[pads] if isinstance(pads, str) else f'pads at the ends and on {", ".join(map(str, pads))}'
    where = '' if span is None else f', layers {first} to {last}'
    return {
        'name': f'{board}{where}, drill {drill:g}, pad {pad:g}, opening {opening:g}, {kept}'
        + (', mask' if mask else '')
        + note,
        'barrelRadius': round(drill / 2 * 1e-3, 9),
        'barrel': {'firstCopperLayer': first, 'lastCopperLayer': last},
        'layers': layers,
        'mask': MASK if mask else None,
    }


def small(heights, copper, permittivity, roles, span, barrel, pad, openings, mask=False, note='', target=None):
    """A via through the thin dielectrics of the upper layers; heights (um) of the dielectrics between the copper layers."""
    layers = []
    for index, role in enumerate(roles):
        number = index + 1
        inside = role == 'S' and span[0] <= number <= span[1]
        diameter = (target if target and number == span[1] else pad) if inside else None
        layers.append(
            {
                'kind': 'copper',
                'role': 'plane' if role == 'P' else 'signal',
                'thickness': round(copper * 1e-6, 10),
                'openingRadius': round(openings[number] / 2 * 1e-3, 9) if openings.get(number) else None,
                'padRadius': round(diameter / 2 * 1e-3, 9) if diameter else None,
            }
        )
        if index < len(heights):
            layers.append(
                {'kind': 'dielectric', 'thickness': round(heights[index] * 1e-6, 10), 'permittivity': permittivity}
            )
    sheets = '/'.join(f'{height:g}' for height in heights)
    return {
        'name': f'small via, layers {span[0]} to {span[1]} of {roles}, dielectrics {sheets} um, '
        f'barrel radius {barrel:g} um, pad {pad:g}' + (', mask' if mask else '') + note,
        'barrelRadius': round(barrel * 1e-6, 10),
        'barrel': {'firstCopperLayer': span[0], 'lastCopperLayer': span[1]},
        'layers': layers,
        'mask': MASK if mask else None,
    }


def inner_signal(board):
    """A signal layer in the upper half, as the one on which a net leaves."""
    roles = BOARDS[board][0]
    inner = [k + 1 for k, role in enumerate(roles) if role == 'S' and 0 < k < len(roles) - 1]
    return [inner[(len(inner) - 1) // 2]]


def through_vias():
    found = []
    sizes = [
        (0.2, 0.45, 0.7),
        (0.25, 0.45, 0.65),
        (0.3, 0.5, 0.8),
        (0.15, 0.35, 0.5),
        (0.35, 0.6, 1.0),
        (0.25, 0.5, 0.9),
    ]
    for index, board in enumerate(BOARDS):
        drill, pad, opening = sizes[index % len(sizes)]
        found.append(via(board, drill, pad, opening, 'all'))
        if BOARDS[board][0][1:-1].count('S') > 1:
            found.append(via(board, drill, pad, opening, inner_signal(board)))
        found.append(via(board, drill, pad, opening, 'outer'))
    # One board, with each dimension by itself.
    board = 'eight layers 1.0 mm'
    for drill in (0.15, 0.3, 0.35):
        found.append(via(board, drill, 0.5, 0.8, 'all'))
    for pad in (0.35, 0.4, 0.45):
        found.append(via(board, 0.2, pad, 0.8, 'all'))
    for opening in (0.5, 0.6, 0.8, 1.0):
        found.append(via(board, 0.2, 0.4, opening, 'outer'))
    # Mask, unlike permittivities, unlike openings.
    for board, size in (
        ('six layers 0.8 mm', (0.2, 0.45, 0.7)),
        ('ten layers 1.2 mm', (0.25, 0.45, 0.65)),
        ('twelve layers 1.6 mm', (0.2, 0.4, 0.6)),
    ):
        found.append(via(board, *size, 'all', mask=True))
    for board, values in (
        ('six layers 1.6 mm, thick core', [3.8, 4.4]),
        ('eight layers 1.6 mm, signals in a row', [3.6, 4.4, 3.9]),
    ):
        found.append(via(board, 0.25, 0.45, 0.75, 'all', permittivities=values, note=', unlike permittivities'))
    found.append(via('ten layers 1.2 mm', 0.2, 0.45, 0.7, 'outer', openings={2: 0.6, 9: 0.9}, note=', unlike openings'))
    return found


def partial_vias():
    """Blind vias, and barrels that a drill from one side has cut short: they hang from, or end at, an inner layer."""
    return [
        via('eight layers 1.0 mm', 0.2, 0.45, 0.7, 'all', span=(1, 3), note=', openings below'),
        via('eight layers 1.0 mm', 0.2, 0.45, 0.7, 'all', span=(1, 3), solid=(4, 5, 7), note=', unbroken below'),
        via('ten layers 1.2 mm', 0.2, 0.45, 0.7, 'all', span=(1, 5), note=', openings below'),
        via('ten layers 1.2 mm', 0.2, 0.45, 0.7, 'outer', span=(1, 5), note=', openings below'),
        via('ten layers 1.2 mm', 0.2, 0.45, 0.7, 'outer', span=(5, 10), note=', openings above'),
        via('six layers 1.6 mm, thick core', 0.25, 0.5, 0.8, 'outer', span=(3, 6), note=', openings above'),
        via('six layers 1.6 mm, thick core', 0.25, 0.5, 0.8, 'outer', span=(4, 6), note=', openings above'),
        via('twelve layers 1.6 mm', 0.2, 0.4, 0.65, 'outer', span=(3, 12), note=', openings above'),
        via('twelve layers 1.6 mm', 0.2, 0.4, 0.65, 'all', span=(5, 12), note=', openings above'),
        via('twelve layers 1.6 mm', 0.2, 0.4, 0.65, 'outer', span=(1, 8), note=', openings below'),
        via('sixteen layers 2.0 mm', 0.25, 0.45, 0.7, 'outer', span=(3, 16), note=', openings above'),
        via('sixteen layers 2.0 mm', 0.25, 0.45, 0.7, 'outer', span=(7, 16), note=', openings above'),
        via('sixteen layers 2.4 mm, paired signals', 0.3, 0.5, 0.8, 'outer', span=(10, 16), note=', openings above'),
        via('fourteen layers 2.0 mm', 0.25, 0.5, 0.8, 'all', span=(3, 12), note=', openings above and below'),
    ]


def small_vias():
    return [
        small([60, 80], 20, 3.6, 'SSP', (1, 2), 50, 0.25, {}),
        small([80, 80], 20, 3.6, 'SSP', (1, 2), 50, 0.25, {}),
        small([100, 100], 25, 3.8, 'SSP', (1, 2), 62.5, 0.25, {}),
        small([130, 80], 25, 4.0, 'SSP', (1, 2), 75, 0.25, {}),
        small([80, 80], 20, 3.6, 'SSP', (1, 2), 50, 0.25, {}, mask=True),
        small([80, 80, 80], 20, 3.6, 'SSPP', (1, 2), 50, 0.25, {3: 0.45}, note=', plane open below'),
        small([70, 70, 100], 20, 3.4, 'SPSP', (1, 3), 60, 0.25, {2: 0.45}, note=', through a plane'),
        small([70, 70, 100], 20, 3.4, 'SPSP', (1, 3), 60, 0.25, {2: 0.6}, mask=True, note=', through a plane'),
        small([60, 60, 60, 80], 20, 3.3, 'SSSP', (1, 3), 50, 0.25, {}, note=', stacked'),
        small([65, 400, 65], 18, 3.7, 'SSPS', (1, 2), 60, 0.3, {3: 0.5}, note=', opening far below'),
        small([80, 100, 100], 20, 3.8, 'PSSP', (2, 3), 50, 0.25, {}, note=', between unbroken planes'),
        small([100, 80], 20, 3.6, 'SSP', (1, 2), 50, 0.25, {}, target=0.3, note=', target pad 0.3'),
    ]


def cases():
    return through_vias() + partial_vias() + small_vias()
