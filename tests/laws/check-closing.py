#!/usr/bin/python3
"""Draws random cards whose loops must close, and cards whose loops can not, and reads how far they come, over TAP.

check-closing.py [--seed N] [--count N] [--keep FOLDER] CREASEWRIGHT-CLI

All measures are whole sixteenths of an inch. What closes, by plane and space geometry: a box cut across a fold line,
when its two panels and the two bits of the card they span make a parallelogram (its ridge lies as far from one wall as
the fold line from the other); boxes cut across the fold lines of boxes; creases that meet in a point symmetrically to the
fold line, at the card's edge or above a slit (Kawasaki's theorem: opposite angles add up to 180 degrees); a strip or a
folded corner glued to both halves by its tabs while the card lies shut, when stretched it is at least as long or as
wide as what it has to span. Each has one way to move (four panels round parallel fold lines, or round a point). A ridge
or a crease that is 1/4 in off, a strip 1/4 in too short or a corner too narrow by as much at its foot stops the card.
"""
import argparse
import json
import math
import os
import random
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from reports import report  # noqa: E402

SEED = 20        # of the random cards
OFF = 4          # sixteenths: how far wrong ones are off
STOPS = {'cannot-move', 'glued-shut', 'will-not-fold-flat', 'panels-collide', 'layers-block'}


def place(p):
    return ['%d/%d in' % (round(c * 508), 8128) for c in p]


def line(*points):
    return [place(p) for p in points]


class Card:
    def __init__(self, rng):
        self.rng = rng
        self.width, self.height = rng.randrange(8, 12) * 16, rng.randrange(6, 10) * 16
        self.spine = self.width // 2 if rng.random() < 0.5 else self.width // 2 + rng.randrange(-16, 17)
        self.marks, self.pieces, self.glue, self.steps, self.folded = [], [], [], [], []
        self.taken = []  # bands where the spine is taken out
        self.wrong = None

    def leaf(self):
        return min(self.spine, self.width - self.spine)

    def add(self, kind, points, fold=None):
        mark = {'id': 'm%d' % len(self.marks), 'kind': kind, 'line': line(*points)}
        if fold:
            mark['fold'] = fold
        self.marks.append(mark)
        return 'base/' + mark['id']

    def score(self, fold, *points):
        return self.add('score', points, fold)

    def box(self, at, top, foot, fold, left, right, depth, wrong):
        """Across the fold line at x = `at`, from `top` to `foot`, with room to both sides."""
        rng, other = self.rng, 'away' if fold == 'toward' else 'toward'
        a, b = rng.randrange(6, max(left, 7)), rng.randrange(6, max(right, 7))
        off = (rng.choice((-OFF, OFF)) if min(a, b) > OFF + 2 else OFF) if wrong else 0
        if depth == 0 and a + b > self.leaf():
            a, b = a * self.leaf() // (a + b), b * self.leaf() // (a + b)
        ridge = at - a + b + off
        inner = []
        for x, way, room_left, room_right in ((at - a, fold, left - a, ridge - at + a), (ridge, other, ridge - at + a, at + b - ridge),
                                              (at + b, fold, at + b - ridge, right - b)):
            cuts = []
            if depth < 1 and not wrong and foot - top > 40 and min(room_left, room_right) > 10 and rng.random() < 0.4:
                cut_top = rng.randrange(top + 8, foot - 24)
                cut_foot = rng.randrange(cut_top + 12, foot - 6)
                cuts = [(cut_top, cut_foot)]
                inner.append((x, cut_top, cut_foot, way, room_left - 3, room_right - 3))
            edges = [top] + [y for cut in cuts for y in cut] + [foot]
            for y0, y1 in zip(edges[::2], edges[1::2]):
                self.score(way, (x, y0), (x, y1))
        for y in (top, foot):
            self.add('cut', [(at - a, y), (at + b, y)])
        # Only one child, so that children of neighbours do not cut into one another.
        if inner:
            for x, y0, y1, way, room_left, room_right in inner[1:]:
                self.score(way, (x, y0), (x, y1))
            x, y0, y1, way, room_left, room_right = inner[0]
            self.box(x, y0, y1, way, min(room_left, 40), min(room_right, 40), depth + 1, False)

    def add_box(self, top, foot, wrong):
        self.taken.append((top, foot))
        room = self.leaf() - 4
        self.box(self.spine, top, foot, 'toward', min(room, 56), min(room, 56), 0, wrong)

    def add_beak(self, top, foot, wrong):
        """A slit across the spine; above or below it the spine folds away between two creases."""
        rng, x = self.rng, self.spine
        wide = rng.randrange(8, min(self.leaf() - 4, 40))
        slit, point = (foot, top) if rng.random() < 0.5 else (top, foot)
        self.add('cut', [(x - wide, slit), (x + wide, slit)])
        self.score('away', (x, slit), (x, point))
        off = OFF if wrong else 0
        self.score('toward', (x - wide, slit), (x, point))
        self.score('toward', (x + wide - off, slit), (x, point))
        self.taken.append((top, foot))

    def add_corner(self, foot, wrong):
        """The top of the spine is turned back between two creases: in, to the top edge, or out, to the sides."""
        rng, x, off = self.rng, self.spine, OFF if wrong else 0
        self.score('away', (x, 0), (x, foot))
        if self.width == 2 * x and rng.random() < 0.3:
            drop = rng.randrange(4, 9)
            self.score('away', (0, foot + drop), (x, foot))
            self.score('away', (self.width, foot + drop - off), (x, foot))
        else:
            wide = rng.randrange(8, min(self.leaf() - 4, foot))  # so that it stays above the point
            self.score('toward', (x - wide, 0), (x, foot))
            self.score('toward', (x + wide - off, 0), (x, foot))
        self.taken.append((0, foot))

    def glue_on(self, name, outline, marks, tabs, hold, at, turn, half):
        """A piece whose first tab is stuck to the right leaf; its other is caught when the card shuts."""
        self.pieces.append({'id': name, 'paper': 'k', 'outline': line(*outline), 'hold': place(hold), 'marks': marks})
        for k, tab in enumerate(tabs):
            self.glue.append({'id': '%s%d' % (name, k), 'piece': name, 'face': 'back', 'kind': 'tape', 'area': line(*tab), 'holds': 'base',
                              **({'apply': 'bend-' + name} if k else {})})
        self.steps += [
            {'id': 'lay-' + name, 'do': 'stick', 'piece': name, 'facing': 'back', 'turn': turn, 'at': place(at),
             'on': {'piece': 'base', 'panel': place((self.width - 2, self.height - 2)), 'face': 'front'}},
            {'id': 'bend-' + name, 'do': 'fold', 'folds': [{'score': name + '/' + half, 'to': 180}]}]

    def add_strip(self, top, foot, wrong):
        rng, tab, high = self.rng, 8, foot - top - 4
        span = self.leaf() - tab - 4
        q = rng.randrange(8, max(span // 2, 9))
        p = max(8, q + rng.randrange(-6, 7))
        extra = -OFF if wrong else rng.choice((0, 4, rng.randrange(0, 24)))
        # s stands on the foot on the right leaf, at q, r on the left one, at p; shut, both end in the ridge: q + s = p + r.
        total = p + q + extra
        total += (total + p + q) % 2
        s, r = (total + p - q) // 2, (total + q - p) // 2
        xs = [0, tab, tab + s, tab + s + r, 2 * tab + s + r]
        if min(s, r) < 4:
            return self.add_strip(top, foot, wrong)
        marks = [{'id': 'f%d' % k, 'kind': 'score', 'fold': way, 'line': line((x, 0), (x, high))}
                 for k, (x, way) in enumerate(zip(xs[1:4], ('away', 'toward', 'away')))]
        inset = [[(x0 + 1, 1), (x1 - 1, 1), (x1 - 1, high - 1), (x0 + 1, high - 1)] for x0, x1 in ((xs[0], xs[1]), (xs[3], xs[4]))]
        self.glue_on('strip', [(0, 0), (xs[4], 0), (xs[4], high), (0, high)], marks, inset, (tab / 2, high / 2),
                     (self.spine + q - tab, top + 2), 0, 'f1')

    def add_vee(self, wrong):
        """A corner folded in half stands on two slanted tabs, its point on the spine."""
        rng, point = self.rng, (self.spine, self.height // 2)
        u, w = rng.randrange(20, min(self.leaf() - 8, 44)), rng.randrange(8, 28)
        long, phi = math.hypot(u, w), math.atan2(u, w)
        # How wide each half must be to span its half of the open card; the ridge ends on a sixteenth of an inch.
        least = phi + rng.uniform(0, 0.5)
        if wrong:
            least = phi - OFF / long
        ends = [(x, y) for x in range(8, 64) for y in range(-64, 24)]
        turn = lambda p: math.atan2(*p) - phi  # noqa: E731
        ends = [p for p in ends if (turn(p) <= least and turn(p) > least - 0.2 if wrong else phi <= turn(p) and least <= turn(p) < least + 0.1)]
        ends = [p for p in ends if long * 0.8 < math.hypot(*p) < long * 1.4]
        if not ends:
            return self.add_vee(wrong)
        ridge = rng.choice(ends)

        def across(p):
            """Mirrored in the ridge."""
            k = 2 * (p[0] * ridge[0] + p[1] * ridge[1]) / (ridge[0] ** 2 + ridge[1] ** 2)
            return (k * ridge[0] - p[0], k * ridge[1] - p[1])
        along, side = (u / long, w / long), (-w / long, u / long)

        def tab_at(t, d):
            return (along[0] * t + side[0] * d, along[1] * t + side[1] * d)
        foot, tab = (u, w), [tab_at(14, 6), tab_at(long - 4, 6)]
        zone = [tab_at(14, 5), tab_at(14, 1), tab_at(long - 4, 1), tab_at(long - 4, 5)]
        outline = [(0, 0)] + tab + [foot, ridge, across(foot)] + [across(p) for p in tab[::-1]]
        corner = (math.floor(min(p[0] for p in outline)), math.floor(min(p[1] for p in outline)))

        def own(p):
            return (p[0] - corner[0], p[1] - corner[1])
        marks = [{'id': 'f%d' % k, 'kind': 'score', 'fold': way, 'line': line(own((0, 0)), own(p))}
                 for k, (p, way) in enumerate(((foot, 'away'), (ridge, 'toward'), (across(foot), 'away')))]
        self.glue_on('vee', [own(p) for p in outline], marks, [[own(p) for p in zone], [own(across(p)) for p in zone]],
                     own(tab_at(long / 2, 3)), (point[0] + corner[0], point[1] + corner[1]), 0, 'f1')

    def design(self):
        scores, y = [], 0
        for top, foot in sorted(self.taken) + [(self.height, self.height)]:
            if top > y:
                scores.append(self.score('toward', (self.spine, y), (self.spine, top)))
            y = foot
        base = {'id': 'base', 'paper': 'k', 'ground': True, 'hold': place((self.width - 2, self.height - 2)), 'marks': self.marks,
                'outline': line((0, 0), (self.width, 0), (self.width, self.height), (0, self.height))}
        fold = {'do': 'fold', 'folds': [{'score': scores[-1], 'to': 180}]}
        return {
            'format': 'creasewright design', 'version': 1, 'title': 'Drawn at random',
            'measure': {'unit': 'in', 'snap': '1/16 in', 'hand': '0 in', 'give': '1/32 in'},
            'papers': [{'id': 'k', 'name': 'Card', 'weight': '216 g/m2', 'caliper': '0.30 mm', 'front': '#ffffff', 'back': '#ffffff'}],
            'pieces': [base] + self.pieces, 'glue': self.glue,
            'steps': self.steps + [dict(fold, id='close', rest='closed'),
                                   dict(fold, id='open', rest='open', phase='using', folds=[{'score': scores[-1], 'to': 0}])]}


def draw(rng, wrong):
    card = Card(rng)
    bands, y = [], 16
    while y + 24 < card.height - 16 and len(bands) < 3:
        foot = min(y + rng.randrange(24, 80), card.height - 16)
        bands.append((y, foot))
        y = foot + rng.randrange(8, 24)
    what = []
    if rng.random() < 0.25:
        bands[0] = (0, bands[0][1])
    bad = rng.randrange(len(bands)) if wrong else -1
    if rng.random() < 0.15:
        card.add_vee(wrong)
        return card.design(), 'vee%s' % (' off' if wrong else '')
    for k, (top, foot) in enumerate(bands):
        if top == 0:
            card.add_corner(foot, k == bad)
            what.append('corner')
        else:
            kind = rng.choice(('box', 'box', 'beak', 'strip'))
            if kind == 'strip' and 'strip' in what:
                kind = 'box'
            getattr(card, 'add_' + kind)(top, foot, k == bad)
            what.append(kind)
    return card.design(), '%s%s' % ('+'.join(what), ', %s off' % what[bad] if wrong else '')


def faults_of(rep, wrong):
    said = [(f['code'], f.get('step')) for f in rep['findings'] if f['severity'] == 'error']
    if wrong:
        return [] if any(code in STOPS for code, _ in said) else ['nothing stops it: %s' % rep['findings']]
    faults = ['says %s at %s' % (code, step) for code, step in said]
    faults += ['says %s' % f['code'] for f in rep['findings'] if f['code'] in STOPS | {'needs-give', 'two-ways', 'sways', 'not-decided'}
               and f['severity'] != 'error']
    for s in rep['states']:
        if s['reached'] < 1:
            faults.append('%s comes to %s' % (s['step'], s['reached']))
        if s['step'] in ('close', 'open') and s['freedom'] != 1:
            faults.append('%s: freedom %d' % (s['step'], s['freedom']))
        if s['step'] == 'close' and not s['flat']:
            faults.append('does not shut flat')
    return faults


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument('--seed', type=int, default=SEED)
    parser.add_argument('--count', type=int, default=100)
    parser.add_argument('--only', type=int)
    parser.add_argument('--keep')
    parser.add_argument('cli')
    args = parser.parse_args()
    print('1..%d' % args.count)
    for k in range(args.count):
        rng = random.Random(args.seed * 100003 + k)
        wrong = k % 4 == 3
        design, what = draw(rng, wrong)
        if args.only not in (None, k):
            continue
        rep, error = report(args.cli, design)
        faults = [error] if error else faults_of(rep, wrong)
        print('%sok %d /laws/closing/%d %s' % ('not ' if faults else '', k + 1, k, what))
        for words in faults:
            print('# ' + words)
        if args.keep and (faults or args.only is not None):
            with open('%s/closing-%d.creasecard' % (args.keep, k), 'w', encoding='utf-8') as f:
                json.dump(design, f, indent=1)


main()
