#!/usr/bin/python3
"""Draws designs in other ways that mean the same card, and holds the reports against one another, told over TAP.

check-turned.py [--only WAY] [--keep FOLDER] CREASEWRIGHT-CLI CARD.creasecard...    --keep: write what was drawn anew

A drawing turned, moved, mirrored, drawn from its other side or with its lists in another order folds into the same
card, turned, moved or mirrored (plane and space geometry): so nothing the program finds may change. A turned drawing
has its points rounded to ticks anew, which no maker could see; it is laid so that no mark's end comes off the line it
lay on by more than the tick that counts as meeting. Held: codes and steps of the findings, how far each step
comes, whether it lies flat, its freedom, where panels come to, and the layers at points of the flat states. Left out:
what hangs on the sheet's own axes (`off-snap`, `look-alike-numbers`, `against-grain`, art boxes, sizes when the turn is no quarter). Cards whose points were
rounded to ticks once, the slanted ones, are not turned by odd angles: rounded twice, ends may miss by more than the
tick that counts as meeting.
"""
import argparse
import copy
import json
import math
import os
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from reports import PER_INCH, report, ticks  # noqa: E402
from rings import winding  # noqa: E402

LEAVE_OUT = {'off-snap', 'look-alike-numbers', 'against-grain'}  # of measures from the sheet's edges, of its grain
AXES = {'sticks-out', 'too-big-for-envelope'}  # measured along the sheet's axes
NEAR = 0.02      # inches: panels come to the same place; rounding to ticks moves a loop's hinges by a little
CLEAR = 0.01     # inches: a point this far inside its cell is no matter of rounding
ANGLES = [7, 30, 61.3, 90, 123.4, 201, 333.3]


class Way:
    """How a piece is drawn anew: a linear map of the plane and a shift."""

    def __init__(self, degrees, mirrored, shift=(0, 0)):
        c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        if degrees % 90 == 0:
            c, s = round(c), round(s)
        m = -1 if mirrored else 1
        self.a = ((c * m, -s), (s * m, c))
        self.shift = shift
        self.mirrored = mirrored

    def linear(self, p):
        return (self.a[0][0] * p[0] + self.a[0][1] * p[1], self.a[1][0] * p[0] + self.a[1][1] * p[1])

    def back(self, p):
        return (self.a[0][0] * p[0] + self.a[1][0] * p[1], self.a[0][1] * p[0] + self.a[1][1] * p[1])

    def apply(self, p):
        q = self.linear(p)
        return (q[0] + self.shift[0], q[1] + self.shift[1])


class Redraw:
    def __init__(self, design, ways, other_side=False, reorder=False):
        self.unit = design.get('measure', {}).get('unit', 'in')
        self.ways = ways
        self.reorder = reorder
        self.old = {p['id']: p for p in design['pieces']}
        self.design = copy.deepcopy(design)
        self.other_side = other_side
        for piece in self.design['pieces']:
            self.redraw_piece(piece)
        for zone in self.design.get('glue', []):
            zone['area'] = self.line(zone['area'], ways[zone['piece']])
            self.face(zone, 'face')
            for target in zone['holds'] if isinstance(zone['holds'], list) else [zone['holds']]:
                self.target(target)
        for step in self.design.get('steps', []):
            self.redraw_step(step)
        for key in ('hidden', 'shown'):
            for want in self.design.get('wants', {}).get(key, []):
                self.target(want)
                self.face(want, 'face')
                self.face(want, 'from')
        if not any(p.get('ground') for p in self.design['pieces']):
            self.design['pieces'][0]['ground'] = True
        if reorder:
            self.design['pieces'].reverse()
            self.design.get('glue', []).reverse()

    def place(self, place, way):
        x, y = way.apply((ticks(place[0], self.unit), ticks(place[1], self.unit)))
        return self.text(x, y)

    @staticmethod
    def text(x, y):
        return ['%d/%d in' % (round(x), PER_INCH), '%d/%d in' % (round(y), PER_INCH)]

    def line(self, line, way):
        out = [{'through': self.place(v['through'], way)} if isinstance(v, dict) else self.place(v, way) for v in line]
        return out[::-1] if self.reorder and not isinstance(out[-1], dict) else out

    def face(self, item, key):
        if self.other_side and item.get(key) in ('front', 'back'):
            item[key] = 'back' if item[key] == 'front' else 'front'

    def target(self, target):
        if isinstance(target, dict) and 'panel' in target:
            target['panel'] = self.place(target['panel'], self.ways[target['piece']])

    def redraw_piece(self, piece):
        way = self.ways[piece['id']]
        piece['outline'] = self.line(piece['outline'], way)
        for key in ('hold',):
            if key in piece:
                piece[key] = self.place(piece[key], way)
        self.face(piece, 'shows')
        piece.pop('art', None)
        for name in piece.get('names', []):
            name['at'] = self.place(name['at'], way)
        for mark in piece.get('marks', []):
            if 'rect' in mark:
                (x0, y0), (x1, y1) = mark.pop('rect')
                mark['line'] = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
            if 'circle' in mark:
                mark['circle']['centre'] = self.place(mark['circle']['centre'], way)
            if 'line' in mark:
                mark['line'] = self.line(mark['line'], way)
            if self.other_side and mark.get('fold') in ('toward', 'away'):
                mark['fold'] = 'away' if mark['fold'] == 'toward' else 'toward'
        if self.reorder:
            piece.get('marks', []).reverse()

    def redraw_step(self, step):
        if 'on' not in step:
            return
        host, own = self.ways[step['on']['piece']], self.ways[step['piece']]
        turned_over = step['on'].get('face', 'front') == step.get('facing', 'back')
        back = step['on'].get('face', 'front') == 'back'
        t = Way(-step.get('turn', 0) if back else step.get('turn', 0), False)
        at = (ticks(step['at'][0], self.unit), ticks(step['at'][1], self.unit))

        def laid(p):
            u, v = own.back((p[0] - own.shift[0], p[1] - own.shift[1]))
            u, v = t.linear((-u if turned_over else u, v))
            return host.apply((at[0] + u, at[1] + v))
        origin, up = laid((0, 0)), laid((0, 1))
        dx, dy = up[0] - origin[0], up[1] - origin[1]
        turn = math.degrees(math.atan2(-dx, dy))
        if self.other_side:
            back = not back
        step['turn'] = round((-turn if back else turn) % 360, 9) % 360
        step['at'] = self.text(*origin)
        self.target(step['on'])
        self.face(step['on'], 'face')
        self.face(step, 'facing')


def clearance(point, rings):
    """Distance from the rim, in the plane or in space."""
    best = float('inf')
    for ring in rings:
        for a, b in zip(ring, ring[1:] + ring[:1]):
            way = [v - u for u, v in zip(a, b)]
            off = [v - u for u, v in zip(a, point)]
            length = sum(w * w for w in way)
            t = 0 if length == 0 else min(1, max(0, sum(w * o for w, o in zip(way, off)) / length))
            best = min(best, math.sqrt(sum((o - t * w) ** 2 for w, o in zip(way, off))))
    return best


def inside(point, rings):
    return sum(winding(point, [p[:2] for p in ring]) for ring in rings) != 0


def told(rep, quarter):
    left_out = LEAVE_OUT if quarter else LEAVE_OUT | AXES
    return sorted((f['code'], f.get('step') or '') for f in rep['findings'] if f['code'] not in left_out)


def map_panels(plain, other, ways):
    """(piece, panel) of the plain report to the panel of the other."""
    panels = {p['id']: p['panels'] for p in other['pieces']}
    out = {}
    for piece in plain['pieces']:
        way = ways[piece['id']]
        for panel in piece['panels']:
            at = way.apply([c * PER_INCH for c in panel['at_in']])
            at = [c / PER_INCH for c in at]
            hits = [q['panel'] for q in panels[piece['id']] if inside(at, q['corners_in'])]
            out[piece['id'], panel['panel']] = (piece['id'], hits[0]) if len(hits) == 1 else None
    return out


def compare(plain, other, redraw, ground, quarter):
    faults = []
    a, b = told(plain, quarter), told(other, quarter)
    if a != b:
        faults.append('says %s, not %s' % ([x for x in b if b.count(x) > a.count(x)], [x for x in a if a.count(x) > b.count(x)]))
    panels = map_panels(plain, other, redraw.ways)
    if None in panels.values():
        return faults + ['panels differ']
    way = redraw.ways[ground]

    def moved(p):
        x, y = way.apply((p[0] * PER_INCH, p[1] * PER_INCH))
        return (x / PER_INCH, y / PER_INCH, (-p[2] if redraw.other_side else p[2]) if len(p) > 2 else 0)
    shut = {f['step'] for f in plain['findings'] if f['code'] == 'glued-shut'}
    for a, b in zip(plain['states'], other['states']):
        if a['step'] in shut:
            break  # forced by the paper's give alone: there is nothing to compare any more
        give = max(a['misfit_in'], b['misfit_in'])
        near, clear = NEAR + give, CLEAR + give
        for key in ('flat', 'freedom'):
            if a.get(key) != b.get(key):
                faults.append('%s: %s is %s, not %s' % (a['step'], key, b.get(key), a.get(key)))
        if abs(a['reached'] - b['reached']) > 2e-3:
            faults.append('%s: reached %s, not %s' % (a['step'], b['reached'], a['reached']))
        there = {(q['piece'], q['panel']): q for q in b['panels']}
        for p in a['panels']:
            q = there.get(panels[p['piece'], p['panel']])
            if q is None:
                faults.append('%s: %s is not there' % (a['step'], p['piece']))
                continue
            got = [[tuple(c) for c in ring] for ring in q['corners_in']]
            far = max(clearance(moved(c), got) for ring in p['corners_in'] for c in ring)
            if far > near:
                faults.append('%s: %s %d comes %.3f in elsewhere' % (a['step'], p['piece'], p['panel'], far))
        for cell in a.get('cells', []):
            if clearance(cell['at_in'], [[c[:2] for c in r] for r in cell['corners_in']]) < clear:
                continue
            at = moved(cell['at_in'])[:2]
            hits = [c for c in b.get('cells', []) if inside(at, c['corners_in'])]
            want = [panels[s['piece'], s['panel']] for s in cell['stack']]
            if redraw.other_side:
                want.reverse()
            got = [(s['piece'], s['panel']) for s in hits[0]['stack']] if len(hits) == 1 else None
            if got != want:
                faults.append('%s: layers at %s are %s, not %s' % (a['step'], at, got, want))
    return faults


def corners(line, unit):
    return [[ticks(c, unit) for c in v] for v in line if not isinstance(v, dict)]


def segments(piece, unit):
    lines = [(m['line'], m['kind'] == 'window') for m in piece.get('marks', []) if 'line' in m] + [(piece['outline'], True)]
    for line, closed in lines:
        points = corners(line, unit)
        yield from zip(points, points[1:] + (points[:1] if closed else []))


def comes_off(old, new, unit):
    """Whether an end of a mark that lay on a line now misses it by more than a tick: rounding three points may."""
    for m, n in zip(old.get('marks', []), new.get('marks', [])):
        for p, q in zip(corners(m.get('line', []), unit), corners(n.get('line', []), unit)):
            for (a, b), (c, d) in zip(segments(old, unit), segments(new, unit)):
                if clearance(p, [[a, b]]) < 1e-6 and clearance(q, [[c, d]]) > 0.99:
                    return True
    return False


def plain_marks(piece):
    """Boxes as lines, as a redrawn piece has them."""
    piece = copy.deepcopy(piece)
    for mark in piece.get('marks', []):
        if 'rect' in mark:
            (x0, y0), (x1, y1) = mark.pop('rect')
            mark['line'] = [[x0, y0], [x1, y0], [x1, y1], [x0, y1]]
    return piece


def lay_well(design, ways, how):
    """Redraws, with pieces that rounding serves badly moved on until it does not."""
    old = [plain_marks(p) for p in design['pieces']]
    for _ in range(40):
        redraw = Redraw(design, ways, **{k: v for k, v in how.items() if k != 'reorder'})
        bad = [p['id'] for p, q in zip(old, redraw.design['pieces']) if comes_off(p, q, redraw.unit)]
        if not bad:
            break
        for i in bad:
            ways[i].shift = (ways[i].shift[0] + 0.37, ways[i].shift[1] + 0.61)
    return Redraw(design, ways, **how)


def shift_to_corner(design, piece, way):
    """A shift that keeps the turned outline's box at the origin."""
    unit = design.get('measure', {}).get('unit', 'in')
    points = [way.linear([ticks(c, unit) for c in (v['through'] if isinstance(v, dict) else v)]) for v in piece['outline']]
    return (-round(min(p[0] for p in points)), -round(min(p[1] for p in points)))


def variants(design):
    """Names and ways: turned and mirrored each with the box at the origin, moved, from the other side, reordered."""
    ids = [p['id'] for p in design['pieces']]

    def ways(degrees, mirrored, spread=0):
        out = {}
        for k, piece in enumerate(design['pieces']):
            way = Way(degrees + spread * k, mirrored)
            way.shift = shift_to_corner(design, piece, way)
            out[piece['id']] = way
        return out
    for angle in ANGLES:
        yield 'turned-%g' % angle, ways(angle, False, 0), {}
        yield 'mirrored-%g' % angle, ways(angle, True, 0), {}
    for angle in (0, 19, 90, 151):
        yield 'other-side-%g' % angle, ways(angle, True), {'other_side': True}
        yield 'reordered-%g' % angle, ways(angle, False), {'reorder': True}
    moved = ways(0, False)
    for k, i in enumerate(ids):
        moved[i].shift = (12345 + 777 * k, 333 * k + 17)
    yield 'moved', moved, {}
    yield 'each-turned', ways(17, False, 34), {}


def strip(design, quarter):
    design = copy.deepcopy(design)
    design.get('measure', {})['snap'] = 'off'
    for piece in design['pieces']:
        piece.pop('art', None)
    for paper in design.get('papers', []):
        paper['patterned'] = False
    if not quarter:
        for key in ('size', 'envelope', 'mail'):
            design.get('wants', {}).pop(key, None)
    return design


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument('--only')
    parser.add_argument('--keep')
    parser.add_argument('cli')
    parser.add_argument('cards', nargs='+')
    args = parser.parse_args()
    number = 0
    for path in args.cards:
        with open(path, encoding='utf-8') as f:
            whole = json.load(f)
        name = os.path.basename(path)[:-len('.creasecard')]
        ground = next((p['id'] for p in whole['pieces'] if p.get('ground')), whole['pieces'][0]['id'])
        plain = {quarter: report(args.cli, strip(whole, quarter))[0] for quarter in (False, True)}
        for what, ways, how in variants(whole):
            quarter = all(abs(w.a[0][0] * w.a[0][1]) < 1e-12 for w in ways.values())
            if (args.only and what != args.only) or (not quarter and name.endswith('slanted')):
                continue
            redraw = lay_well(strip(whole, quarter), ways, how)
            other, error = report(args.cli, redraw.design)
            faults = [error] if error else compare(plain[quarter], other, redraw, ground, quarter)
            number += 1
            print('%sok %d /laws/turned/%s/%s' % ('not ' if faults else '', number, name, what))
            for words in faults[:8]:
                print('# ' + words)
            if args.keep:
                with open('%s/%s-%s.creasecard' % (args.keep, name, what), 'w', encoding='utf-8') as f:
                    json.dump(redraw.design, f, indent=1)
    print('1..%d' % number)


main()
