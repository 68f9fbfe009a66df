#!/usr/bin/python3
"""Steps cut across a spine, and smaller steps across their fold lines, right and wrong, against plane geometry, over TAP.

check-step-across.py CREASEWRIGHT-CLI

Seen from the end of the spine a step is a four-bar: two leaves and on them, p and q from the spine, the ends of two bars
r and s. The law of cosines says where the bars are at every opening and that they jam where the distance of their ends
comes down to |r - s|. A second step across one of its fold lines is a four-bar of the same kind on the two panels that
meet there. The card is a chain of segments at every height: it first goes through itself where two segments cross or one
turns past its neighbour. Random measures on sixteenths of an inch, many of them right (r = q), which must fold shut
clear. With give the card comes a little further before it jams, but meets itself no later than the give allows.
Shares no code with the program. Seed and number of cards below.
"""
import math
import os
import random
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from reports import report  # noqa: E402

SEED, CARDS, LOOKS = 1707, 80, 2000
NEAR = 0.4      # degrees: how finely the looks tell an angle, and the hair panels are shrunk by
GIVEN = 25      # degrees: a sixteenth here and there, the give moves a jam by
MET = 1.5       # degrees: and a meeting by
WAYS = {'u': 'toward', 'v': 'toward', 'w': 'away'}


class Jam(Exception):
    pass


def sub(a, b):
    return (a[0] - b[0], a[1] - b[1])


def turn(a, b):
    return a[0] * b[1] - a[1] * b[0]


def unit(a):
    return (a[0] / math.hypot(*a), a[1] / math.hypot(*a))


def bars(spine, left, right, p, q, r, s):
    """The ends u, v of the bars on the two ways from a fold line, and their ridge w, on the side away from it."""
    u = (spine[0] + p * left[0], spine[1] + p * left[1])
    v = (spine[0] + q * right[0], spine[1] + q * right[1])
    span = math.dist(u, v)
    if span < abs(r - s) - 1e-9:
        raise Jam
    span = max(min(span, r + s), 1e-12)
    way = ((v[0] - u[0]) / span, (v[1] - u[1]) / span)
    along = (r * r - s * s + span * span) / (2 * span)
    off = math.sqrt(max(0, r * r - along * along))
    near = turn(way, sub(spine, u))
    return u, v, min(((u[0] + along * way[0] - o * way[1], u[1] + along * way[1] + o * way[0]) for o in (off, -off)),
                     key=lambda w: turn(way, sub(w, u)) * (1 if near > 0 else -1))


def crosses(a, b, c, d):
    return (turn(sub(b, a), sub(c, a)) * turn(sub(b, a), sub(d, a)) < -1e-12
            and turn(sub(d, c), sub(a, c)) * turn(sub(d, c), sub(b, c)) < -1e-12)


def through_itself(chain, ways):
    """Whether segments that are no neighbours cross, or one has turned past its neighbour (ways: +1 toward, -1 away)."""
    parts = list(zip(chain, chain[1:]))
    if any(crosses(*a, *b) for i, a in enumerate(parts) for b in parts[i + 2:]):
        return True
    return any(way * turn(sub(m, a), sub(b, m)) < -1e-7 * math.dist(a, m) * math.dist(m, b)
               for a, m, b, way in zip(chain, chain[1:], chain[2:], ways))


def fold(card):
    """How far the card folds shut, and where it first goes through itself (nothing: nowhere); degrees of the spine."""
    first = None
    for k in range(1, LOOKS):
        angle = math.pi * (1 - k / LOOKS)
        left = (math.cos(angle), math.sin(angle))
        try:
            u, v, w = bars((0, 0), left, (1, 0), *card['step'])
            chain = [(left[0] * card['left'], left[1] * card['left']), u, w, v, (card['right'], 0)]
            levels = [(chain, (1, -1, 1))]
            if card['on']:
                at = {'u': 1, 'w': 2, 'v': 3}[card['on']]
                here = chain[at]
                u2, v2, w2 = bars(here, unit(sub(chain[at - 1], here)), unit(sub(chain[at + 1], here)), *card['second'])
                over = (-1, 1, -1) if card['on'] == 'w' else (1, -1, 1)
                levels.append((chain[:at] + [u2, w2, v2] + chain[at + 1:], (1, -1, 1)[:at - 1] + over + (1, -1, 1)[at:]))
        except Jam:
            return 180 * k / LOOKS, first
        if first is None and k < LOOKS - 3 and any(through_itself(*level) for level in levels):
            first = 180 * k / LOOKS
    return 180.0, first


def design(card, give):
    def at(x, y):
        return ['%d/16 in' % round(x * 16), '%d in' % y]

    def mark(i, x, y0, y1, way):
        return {'id': i, 'kind': 'score', 'fold': way, 'line': [at(x, y0), at(x, y1)]}

    def cuts(i, a, b, y0, y1):
        return [{'id': '%s%d' % (i, y), 'kind': 'cut', 'line': [at(a, y), at(b, y)]} for y in (y0, y1)]
    p, q, r, _ = card['step']
    spine, width = card['left'], card['left'] + card['right']
    x = {'u': spine - p, 'v': spine + q, 'w': spine - p + r}
    marks = cuts('cut', x['u'], x['v'], 2, 7) + [mark('s1', spine, 0, 2, 'toward'), mark('s2', spine, 7, 8, 'toward')]
    for name, way in WAYS.items():
        marks += ([mark(name + 'a', x[name], 2, 3, way), mark(name + 'b', x[name], 6, 7, way)] if name == card['on']
                  else [mark(name, x[name], 2, 7, way)])
    if card['on']:
        p, q, r, _ = card['second']
        here, way, other = x[card['on']], WAYS[card['on']], 'away' if WAYS[card['on']] == 'toward' else 'toward'
        marks += cuts('slit', here - p, here + q, 3, 6)
        marks += [mark('u2', here - p, 3, 6, way), mark('w2', here - p + r, 3, 6, other), mark('v2', here + q, 3, 6, way)]
    return {'format': 'creasewright design', 'version': 1, 'title': 'Step', 'measure': {'unit': 'in', 'give': give},
            'pieces': [{'id': 'base', 'outline': [at(0, 0), at(width, 0), at(width, 8), at(0, 8)],
                        'hold': [at(width - 0.125, 0)[0], '7 1/2 in'], 'marks': marks}],
            'steps': [{'id': 'close', 'do': 'fold', 'folds': [{'score': 'base/s1', 'to': 180}]}]}


def draw(rand):
    """A card's measures, in inches on sixteenths."""
    def between(a, b):
        return rand.randrange(int(a * 16), int(b * 16) + 1) / 16

    def step(most_p, most_q, least):
        p, q = between(least, most_p), between(least, most_q)
        r = q if rand.random() < 0.5 else between(least, p + q - least)
        return p, q, r, p + q - r
    while True:
        p, q, r, s = step(2.5, 2.5, 0.5)
        left, right = between(p + 0.5, 6), between(q + 0.5, 6)
        on = rand.choice('uvw ').strip()
        room = {'w': (r, s), 'u': (left - p, r), 'v': (s, right - q)}.get(on)
        if room and min(room) < 0.5:
            continue
        return {'step': (p, q, r, s), 'left': left, 'right': right, 'on': on,
                'second': room and step(room[0] - 0.1875, room[1] - 0.1875, 0.25)}


def main():
    rand = random.Random(SEED)
    for n in range(1, CARDS + 1):
        card, give = draw(rand), rand.choice(['0 in', '1/32 in'])
        jam, meet = fold(card)
        got, said = report(sys.argv[1], design(card, give))
        fault = said
        if got:
            far = got['states'][0]['reached'] * 180
            told = [f['fraction'] * 180 for f in got['findings'] if f['code'] == 'panels-collide']
            if not jam - NEAR < far < jam + (NEAR if give == '0 in' else GIVEN):
                fault = 'stops at %.2f, not %.2f degrees' % (far, jam)
            elif (meet is None) != (not told) or (told and abs(min(told) - meet) > (NEAR if give == '0 in' else MET)):
                fault = 'meets itself at %s, not %s degrees' % (told, meet)
        print('%sok %d %s' % ('not ' if fault else '', n, 'a-step-on-' + card['on'] if card['on'] else 'one-step'))
        if fault:
            print('# %s; give %s; %s' % (fault, give, card))
    print('1..%d' % CARDS)


main()
