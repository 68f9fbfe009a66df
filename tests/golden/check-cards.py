#!/usr/bin/python3
"""Holds reports against answers computed elsewhere, told over TAP: one point a card and subject.

check-cards.py CREASEWRIGHT-CLI CARD.creasecard...     The answers of NAME.creasecard lie in NAME.expect.json beside it.

The answers were computed by a simulator that shares no code with this program and were sanity-checked by hand; those
of the own-* cards were worked out by hand (reflections, parallelograms, Kawasaki-Justin, Maekawa-Justin), the reason
beside each.
"""
import json
import os
import subprocess
import sys

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from rings import winding  # noqa: E402

EDGE = 1e-3  # inches: a named point this near to a panel's rim belongs to it


def distance(point, ring):
    x, y = point
    best = float('inf')
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1]):
        length = (bx - ax) ** 2 + (by - ay) ** 2
        t = 0 if length == 0 else min(1, max(0, ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length))
        best = min(best, ((x - ax - t * (bx - ax)) ** 2 + (y - ay - t * (by - ay)) ** 2) ** 0.5)
    return best


def fits(want, got):
    """Whether a number, or a list of numbers, is as wanted."""
    if got is None:
        return False
    slack = want.get('tol', 0) + 1e-12
    if 'is' in want:
        wanted = want['is'] if isinstance(want['is'], list) else [want['is']]
        given = got if isinstance(got, list) else [got]
        return len(wanted) == len(given) and all(abs(a - b) <= slack for a, b in zip(wanted, given))
    if 'between' in want:
        return want['between'][0] - 1e-9 <= got <= want['between'][1] + 1e-9
    if 'any_of' in want:
        return any(abs(got - w) <= slack for w in want['any_of'])
    return got >= want.get('at_least', got) - 1e-9 and got <= want.get('at_most', got) + 1e-9


class Card:
    def __init__(self, cli, path):
        self.faults = {}
        run = subprocess.run([cli, 'report', path], capture_output=True, text=True, timeout=120)
        with open(path[:-len('.creasecard')] + '.expect.json', encoding='utf-8') as f:
            self.want = json.load(f)
        self.hold('read', run.returncode in (0, 1), 'exit status %d: %s' % (run.returncode, run.stderr.strip()))
        self.report = json.loads(run.stdout) if run.returncode in (0, 1) else {}
        again = subprocess.run([cli, 'report', path], capture_output=True, text=True, timeout=120)
        self.hold('read', again.stdout == run.stdout, 'the same card gives different bytes')
        self.pieces = {p['id']: p for p in self.report.get('pieces', [])}
        self.states = {s['step']: s for s in self.report.get('states', [])}

    def hold(self, subject, right, words):
        self.faults.setdefault(subject, [])
        if not right:
            self.faults[subject].append(words)

    def panel(self, piece, at):
        """Number of the panel of a piece that a point names."""
        panels = self.pieces.get(piece, {}).get('panels', [])
        for p in panels:
            if sum(winding(at, ring) for ring in p['corners_in']) != 0:
                return p['panel']
        near = sorted((min(distance(at, ring) for ring in p['corners_in']), p['panel']) for p in panels)
        return near[0][1] if near and near[0][0] < EDGE else None

    def hinges(self, address):
        piece, mark = address.split('/', 1)
        return [h for h in self.pieces.get(piece, {}).get('hinges', []) if mark in h['scores']]

    def check_panels(self):
        for w in self.want.get('pieces', []):
            piece = self.pieces.get(w['id'], {})
            for key in ('panels', 'hinges'):
                if key in w:
                    n = len(piece.get(key, []))
                    self.hold('panels', n == w[key], '%s: %d %s, not %d' % (w['id'], n, key, w[key]))
            if 'area_sq_in' in w:
                self.hold('panels', fits(w['area_sq_in'], piece.get('area_sq_in')), '%s: area' % w['id'])
        for w in self.want.get('panels', []):
            k = self.panel(w['piece'], w['at_in'])
            area = next((p['area_sq_in'] for p in self.pieces[w['piece']]['panels'] if p['panel'] == k), None)
            self.hold('panels', fits(w['area_sq_in'], area), '%s at %s: area %s' % (w['piece'], w['at_in'], area))
        for w in self.want.get('hinges', []):
            found = self.hinges('%s/%s' % (w['piece'], w['score']))
            self.hold('panels', len(found) == w['count'], '%s: %d fold lines' % (w['score'], len(found)))
            if 'length_in' in w and found:
                self.hold('panels', fits(w['length_in'], sum(h['length_in'] for h in found)), '%s: length' % w['score'])

    def check_states(self):
        for w in self.want.get('states', []):
            state = self.states.get(w['step'])
            self.hold('poses', state is not None, 'state %s is missing' % w['step'])
            if state is None:
                continue
            for key in ('reached', 'freedom', 'size_in', 'box_in'):
                if key in w:
                    self.hold('poses', fits(w[key], state.get(key)), '%s: %s is %s' % (w['step'], key, state.get(key)))
            if 'flat' in w:
                self.hold('poses', state['flat'] == w['flat'], '%s: flat is %s' % (w['step'], state['flat']))
            for a in w.get('angles', []):
                numbers = {h['hinge'] for h in self.hinges(a['score'])}
                got = [x['deg'] for x in state['angles'] if x['piece'] == a['score'].split('/')[0] and x['hinge'] in numbers]
                right = got and all(abs(x - a['deg']) <= a.get('tol', 1e-6) for x in got)
                self.hold('poses', right, '%s: %s stands at %s, not %s' % (w['step'], a['score'], got, a['deg']))
            for p in w.get('points', []):
                k = self.panel(p['piece'], p.get('panel_at_in', p['at_in']))
                place = next((q['place'] for q in state['panels'] if (q['piece'], q['panel']) == (p['piece'], k)), None)
                x, y = p['at_in']
                got = [row[0] * x + row[1] * y + row[3] for row in place] if place else []
                right = got and all(t is None or abs(t - g) <= p.get('tol', 0.005) for t, g in zip(p['to_in'], got))
                self.hold('poses', right, '%s: %s of %s comes to %s' % (w['step'], p['at_in'], p['piece'], got))

            self.check_layers(w, state)

    def check_layers(self, w, state):
        """How many layers lie at a point, in which order, and what of each face is seen."""
        for p in w.get('layers', []) + w.get('order', []):
            stack = next((c['stack'] for c in state.get('cells', []) if sum(winding(p['at_in'], r) for r in c['corners_in']) != 0), [])
            if 'count' in p:
                self.hold('layers', len(stack) == p['count'], '%s: %d layers at %s' % (w['step'], len(stack), p['at_in']))
                continue
            got = [(q['piece'], q['panel']) for q in stack]
            wanted = [(q['piece'], self.panel(q['piece'], q['at_in'])) for q in p['top_to_bottom']]
            self.hold('layers', got == wanted, '%s: the stack at %s is %s' % (w['step'], p['at_in'], got))
        for p in w.get('sight', []):
            face = (p['piece'], self.panel(p['piece'], p['at_in']), p['face'])
            seen = state.get('sight', {}).get(p['from'], [])
            area = sum(s['area_sq_in'] for s in seen if (s['piece'], s['panel'], s['face']) == face)
            self.hold('sight', fits(p['area_sq_in'], area), '%s: of %s %s shows from %s' % (w['step'], face, area, p['from']))

    def check_glue(self):
        for w in self.want.get('bonds', []):
            ends = {(w[k]['piece'], self.panel(w[k]['piece'], w[k]['at_in'])) for k in 'ab'}
            area = sum(b['area_sq_in'] for b in self.report.get('bonds', [])
                       if (b['step'], b['zone']) == (w['step'], w['zone']) and {(b[k]['piece'], b[k]['panel']) for k in 'ab'} == ends)
            self.hold('glue', fits(w['area_sq_in'], area), 'bond of %s in %s: %s sq in' % (w['zone'], w['step'], area))
        for w in self.want.get('glue', []):
            for e in self.report.get('glue', []):
                if 'panel_at_in' in w and (e['piece'], e['panel'], e['face']) == (w['piece'], self.panel(w['piece'], w['panel_at_in']), w['face']):
                    self.hold('glue', fits(w['safe_area_sq_in'], e['safe_area_sq_in']), '%s: safe %s' % (w['piece'], e['safe_area_sq_in']))
                for z in e['zones']:
                    for key in ('area_sq_in', 'holds_sq_in', 'strays_sq_in'):
                        if z['id'] == w.get('zone') and key in w:
                            self.hold('glue', fits(w[key], z[key]), 'zone %s: %s is %s' % (z['id'], key, z[key]))

    def check_findings(self):
        said = self.report.get('findings', [])
        for w in self.want.get('findings', {}).get('must', []):
            codes = set(w.get('any_of', [w.get('code')]))
            hits = [f for f in said if f['code'] in codes and w.get('step') in (None, f.get('step'))]
            if 'amount' in w:
                hits = [f for f in hits if fits(w['amount'], (f.get('amount') or {}).get('value'))]
            self.hold('findings', len(hits) >= w.get('count_at_least', 1), 'does not say %s' % sorted(codes))
        for w in self.want.get('findings', {}).get('must_not', []):
            wrong = {f['code'] for f in said} & set(w['codes'])
            self.hold('findings', not wrong, 'says %s' % sorted(wrong))


def main():
    number = 0
    for path in sys.argv[2:]:
        card = Card(sys.argv[1], path)
        card.check_panels()
        card.check_states()
        card.check_glue()
        card.check_findings()
        name = path.split('/')[-1][:-len('.creasecard')]
        for subject, faults in card.faults.items():
            number += 1
            print('%sok %d /golden/cards/%s/%s' % ('not ' if faults else '', number, name, subject))
            for words in faults:
                print('# ' + words)
    print('1..%d' % number)


main()
