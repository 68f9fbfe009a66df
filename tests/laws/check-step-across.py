#!/usr/bin/python3
"""Steps cut across a spine, rightly and wrongly measured, against plane geometry, told over TAP.

check-step-across.py CREASEWRIGHT-CLI

Seen from the end of the spine a step is a four-bar: two leaves, and on them, p and q from the spine, the ends of two
bars r and s. The law of cosines says where the bars are at every opening, that they jam where the distance of their ends
comes down to |r - s|, and intersecting segments (and a bar turned through the leaf that carries it) say when paper first
goes through paper. Random measures on sixteenths of an inch; a third of the steps are right (r = q), which must fold
shut clear. With give the card comes a little further before it jams, but meets itself no later than the give allows.
Shares no code with the program. Seed and number of cards below.
"""
import math
import os
import random
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from reports import report  # noqa: E402

SEED, CARDS, LOOKS = 1707, 80, 4000
NEAR = 0.3      # degrees: how finely the looks tell an angle, and the hair panels are shrunk by
GIVEN = 25      # degrees: a sixteenth here and there, the give moves a jam by
MET = 1.5       # degrees: and a meeting by


def crosses(a, b, c, d):
    def side(p, q, r):
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])
    return side(a, b, c) * side(a, b, d) < -1e-12 and side(c, d, a) * side(c, d, b) < -1e-12


def fold(p, q, r, s, left, right):
    """How far the card folds shut, and where it first goes through itself (nothing: nowhere); degrees of the spine."""
    first = None
    for k in range(1, LOOKS):
        angle = math.pi * (1 - k / LOOKS)
        c, d = math.cos(angle), math.sin(angle)
        u, v = (p * c, p * d), (q, 0.0)
        span = math.dist(u, v)
        if span < abs(r - s) - 1e-9:
            return 180 * k / LOOKS, first
        span = min(span, r + s)
        way = ((v[0] - u[0]) / span, (v[1] - u[1]) / span)
        along = (r * r - s * s + span * span) / (2 * span)
        off = math.sqrt(max(0, r * r - along * along))
        ridges = [(u[0] + along * way[0] - o * way[1], u[1] + along * way[1] + o * way[0]) for o in (off, -off)]
        w = max(ridges, key=lambda w: (w[1] - u[1]) * way[0] - (w[0] - u[0]) * way[1] if p * d * way[0] - p * c * way[1] > 0
                else (w[0] - u[0]) * way[1] - (w[1] - u[1]) * way[0])  # the side away from the spine
        through = (crosses(u, w, v, (right, 0)) or crosses(w, v, u, (left * c, left * d))
                   or (w[0] > v[0] + 1e-9 and w[1] < -1e-9)
                   or (w[0] * c + w[1] * d > p + 1e-9 and w[1] * c - w[0] * d > 1e-9))
        if through and first is None and k < LOOKS - 2:
            first = 180 * k / LOOKS
    return 180.0, first


def design(p, q, r, left, right, give):
    """Measures in sixteenths."""
    def at(x, y):
        return ['%d/16 in' % x, '%d in' % y]

    def mark(i, x, y0, y1, way):
        return {'id': i, 'kind': 'score', 'fold': way, 'line': [at(x, y0), at(x, y1)]}
    return {
        'format': 'creasewright design', 'version': 1, 'title': 'Step', 'measure': {'unit': 'in', 'give': give},
        'pieces': [{'id': 'base', 'outline': [at(0, 0), at(left + right, 0), at(left + right, 6), at(0, 6)],
                    'hold': ['%d/16 in' % (left + right - 2), '5 1/2 in'],
                    'marks': [{'id': 'c1', 'kind': 'cut', 'line': [at(left - p, 2), at(left + q, 2)]},
                              {'id': 'c2', 'kind': 'cut', 'line': [at(left - p, 5), at(left + q, 5)]},
                              mark('s1', left, 0, 2, 'toward'), mark('s2', left, 5, 6, 'toward'),
                              mark('u', left - p, 2, 5, 'toward'), mark('r', left - p + r, 2, 5, 'away'),
                              mark('v', left + q, 2, 5, 'toward')]}],
        'steps': [{'id': 'close', 'do': 'fold', 'folds': [{'score': 'base/s1', 'to': 180}]}]}


def main():
    rand = random.Random(SEED)
    for n in range(1, CARDS + 1):
        p, q = rand.randrange(8, 40), rand.randrange(8, 40)
        r = q if rand.random() < 0.3 else rand.randrange(4, p + q - 3)
        left, right = rand.randrange(p + 8, 96), rand.randrange(q + 8, 96)
        give = rand.choice(['0 in', '1/32 in'])
        jam, meet = fold(*(v / 16 for v in (p, q, r, p + q - r, left, right)))
        got, said = report(sys.argv[1], design(p, q, r, left, right, give))
        fault = said
        if got:
            far = got['states'][0]['reached'] * 180
            told = [f['fraction'] * 180 for f in got['findings'] if f['code'] == 'panels-collide']
            if not jam - NEAR < far < jam + (NEAR if give == '0 in' else GIVEN):
                fault = 'stops at %.2f, not %.2f degrees' % (far, jam)
            elif (meet is None) != (not told) or (told and abs(min(told) - meet) > (NEAR if give == '0 in' else MET)):
                fault = 'meets itself at %s, not %s degrees' % (told, meet)
        print('%sok %d p-%d-q-%d-r-%d-leaves-%d-%d' % ('not ' if fault else '', n, p, q, r, left, right))
        if fault:
            print('# %s' % fault)
    print('1..%d' % CARDS)


main()
