#!/usr/bin/python3
"""Dresses sound cards with paper layers, rightly and wrongly, and reads what the program says, told over TAP.

check-dressed.py CREASEWRIGHT-CLI CARD.creasecard...

Two laws of rigid bodies. A layer that ends a rim before every edge and fold line of its panel, glued inside its own
rim, moves with that panel and meets nothing else: so both faces of every free panel may carry one, and no error and
no warning is added and no state comes out otherwise. A layer glued to both sides of a fold line makes the two panels
one body: a step that turns that fold line after all can not be done, and the program must say so. Measures: rim 1/8 in,
the mat's own glue another 1/8 in inside (more than the creep of wet glue and a careful hand).
"""
import copy
import json
import math
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from reports import PER_INCH, report, ticks  # noqa: E402
from rings import winding  # noqa: E402

RIM = 0.125        # inches
LEAST = 0.3        # square inches: smaller mats are not worth sticking
TRIED_FOLDS = 4    # of one card, for time
SHUT = {'glued-shut', 'layer-over-score'}


def area(ring):
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, ring[1:] + ring[:1])) / 2


def inset(ring, by):
    """A convex ring with every side moved inwards, or nothing: sides that vanish make it too small to use."""
    if area(ring) < 0:
        ring = ring[::-1]
    ring = [p for k, p in enumerate(ring) if abs(area([ring[k - 1], p, ring[(k + 1) % len(ring)]])) > 1e-6]
    lines = []
    for a, b, c in zip(ring, ring[1:] + ring[:1], ring[2:] + ring[:2]):
        if area([a, b, c]) <= 0:
            return None
        length = math.dist(a, b)
        n = (-(b[1] - a[1]) / length, (b[0] - a[0]) / length)
        lines.append((n, n[0] * a[0] + n[1] * a[1] + by))
    out = []
    for (m, u), (n, v) in zip(lines[-1:] + lines[:-1], lines):
        d = m[0] * n[1] - m[1] * n[0]
        out.append(((u * n[1] - v * m[1]) / d, (v * m[0] - u * n[0]) / d))
    if any(n[0] * p[0] + n[1] * p[1] < v - 1e-9 for n, v in lines for p in out):
        return None
    return out if area(out) >= LEAST else None


def places(points):
    return [['%d/%d in' % (round(x * PER_INCH), PER_INCH), '%d/%d in' % (round(y * PER_INCH), PER_INCH)] for x, y in points]


def lay(design, name, host, panels_at, face, ring, glue):
    """Adds a piece with `ring` (coordinates of the host), and a first step that sticks it there."""
    corner = (min(p[0] for p in ring), min(p[1] for p in ring))
    own = lambda points: places([(x - corner[0], y - corner[1]) for x, y in points])  # noqa: E731
    middle = [sum(p[k] for p in glue) / len(glue) for k in (0, 1)]
    facing = 'back' if face == 'front' else 'front'
    design['pieces'].append({'id': name, 'name': name, 'paper': design['papers'][0]['id'], 'outline': own(ring),
                             'hold': own([middle])[0], 'marks': []})
    design.setdefault('glue', []).append({'id': name, 'piece': name, 'face': facing, 'kind': 'wet', 'area': own(glue),
                                          'holds': [{'piece': host, 'panel': p} for p in panels_at]})
    design['steps'].insert(0, {'id': 'lay-' + name, 'do': 'stick', 'piece': name, 'facing': facing, 'turn': 0,
                               'on': {'piece': host, 'panel': panels_at[0], 'face': face}, 'at': places([corner])[0]})


def free_panels(design, plain):
    """Convex panels without holes that nothing is glued to or laid on."""
    unit = design.get('measure', {}).get('unit', 'in')
    used = {(b[k]['piece'], b[k]['panel']) for b in plain['bonds'] for k in 'ab'}
    laid = [(s['on']['piece'], [ticks(c, unit) / PER_INCH for c in s['on']['panel']]) for s in design.get('steps', [])
            if s.get('do') == 'stick' and 'panel' in s.get('on', {})]
    for piece in plain['pieces']:
        for panel in piece['panels']:
            ring = panel['corners_in'][0]
            if len(panel['corners_in']) == 1 and (piece['id'], panel['panel']) not in used and not any(
                    p == piece['id'] and winding(at, ring) for p, at in laid):
                yield piece['id'], panel['panel'], ring


def dressed(design, plain):
    out = copy.deepcopy(design)
    out.get('measure', {})['snap'] = 'off'
    n = 0
    for piece, panel, ring in free_panels(design, plain):
        mat = inset(ring, RIM)
        glue = mat and inset(mat, RIM)
        if not glue:
            continue
        at = places([[sum(p[k] for p in glue) / len(glue) for k in (0, 1)]])[0]
        for face in ('front', 'back'):
            n += 1
            lay(out, 'dress-%d' % n, piece, [at], face, mat, glue)
    return out, n


def sewn_shut(design, plain):
    """One design for each of the first fold lines that a step moves: a square laid over it, glued to both sides."""
    unit = design.get('measure', {}).get('unit', 'in')
    marks = {(p['id'], m['id']): m for p in design['pieces'] for m in p.get('marks', [])}
    free = {(p, k): ring for p, k, ring in free_panels(design, plain)}
    moved = {f['score'] for s in design.get('steps', []) for f in s.get('folds', []) if f['to']}
    tried = 0
    for piece in plain['pieces']:
        for hinge in piece['hinges']:
            rings = [free.get((piece['id'], k)) for k in hinge['panels']]
            mark = marks.get((piece['id'], hinge['scores'][0]))
            if None in rings or tried == TRIED_FOLDS or not mark or len(mark.get('line', [])) != 2 \
                    or not {'%s/%s' % (piece['id'], s) for s in hinge['scores']} & moved:
                continue
            a, b = ([ticks(c, unit) / PER_INCH for c in p] for p in mark['line'])
            along = [(b[k] - a[k]) / math.dist(a, b) for k in (0, 1)]
            middle = [(a[k] + b[k]) / 2 for k in (0, 1)]
            corner = lambda u, v: (middle[0] + u * along[0] - v * along[1], middle[1] + u * along[1] + v * along[0])  # noqa: E731
            square = lambda h: [corner(-h, -h), corner(h, -h), corner(h, h), corner(-h, h)]  # noqa: E731
            sides = [corner(0, 0.2), corner(0, -0.2)]
            half = 0.3
            if not all(any(winding(p, r) for r in rings) for p in square(half) + sides):
                continue
            out = copy.deepcopy(design)
            out.get('measure', {})['snap'] = 'off'
            tried += 1
            lay(out, 'bar', piece['id'], places(sides), 'front', square(half), square(half - 0.05))
            yield '%s/%s' % (piece['id'], hinge['scores'][0]), out


def main():
    cli, cards = sys.argv[1], sys.argv[2:]
    number = 0

    def tell(fault, what):
        nonlocal number
        number += 1
        print('%sok %d %s' % ('not ' if fault else '', number, what))
        if fault:
            print('# %s' % fault)
    for path in cards:
        name = os.path.basename(path)[:-len('.creasecard')]
        with open(path, encoding='utf-8') as f:
            design = json.load(f)
        plain, _ = report(cli, design)
        if plain['verdict'] not in ('clear', 'notes'):
            continue
        out, n = dressed(design, plain)
        if n:
            got, said = report(cli, out)
            bad = said or [f['text'] for f in got['findings'] if f['severity'] != 'note']
            states = {s['step']: s for s in got['states']} if got else {}
            bad = bad or [(s['step'], key) for s in plain['states'] for key in ('reached', 'flat', 'size_in')
                          if s.get(key) != states[s['step']].get(key)]
            tell(bad, 'dressed-in-%d-layers %s' % (n, name))
        for fold, out in sewn_shut(design, plain):
            got, said = report(cli, out)
            codes = {f['code'] for f in got['findings']} if got else {said}
            tell(None if codes & SHUT else codes, 'glued-over-%s %s' % (fold.replace(' ', '-'), name))
    print('1..%d' % number)


main()
