#!/usr/bin/python3
"""The printed words followed by somebody who has nothing else. Told over TAP.

check-follow.py CREASEWRIGHT-CLI SAMPLES CARDS

A sheet of paper is kept here as four named edges and a face. It is turned as the sentences say, every line is made where
its sentence says, from the guide and the upper edge, in exact fractions; what is on the paper in the end must be the
straight lines of the design and nothing else. Only how a sheet lies at first is taken from the picture's data, because
the page shows it in a picture. Sizes, glue and rims are read from the sentences and compared with the design. Every
numbered line must stand on the printed pages too (poppler's pdftotext), for samples, golden cards and random sheets.
"""
import glob
import json
import os
import random
import re
import subprocess
import sys
import tempfile
from fractions import Fraction as F

CLI, SAMPLES, CARDS = (os.path.abspath(x) for x in sys.argv[1:4])
number = 0
SEED = 20260425
TICK = F(1, 8128)


def tell(name, bad):
    global number
    number += 1
    print('%sok %d /tool/follow/%s' % ('not ' if bad else '', number, name))
    for line in list(bad)[:8]:
        print('# %s' % (line,))


def run(*words):
    env = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'LANGUAGE', 'LANG', 'SOURCE_DATE_EPOCH')}
    env['LC_ALL'] = 'C.UTF-8'
    return subprocess.run(words, capture_output=True, env=env, timeout=120)


LENGTH = r'(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?) (?:in|mm|cm)'


def inches(text):
    m = re.fullmatch(r'(-?)(?:(\d+(?:\.\d+)?)|(?:(\d+)[ -])?(\d+)/(\d+))\s*(in|"|mm|cm)?', text.strip())
    if not m:
        raise ValueError(text)
    sign, plain, whole, top, bottom, unit = m.groups()
    value = F(plain) if plain else F(int(whole or 0)) + F(int(top), int(bottom))
    value *= {'mm': F(5, 127), 'cm': F(50, 127)}.get(unit or 'in', 1)
    return -value if sign else value


def place(p):
    return tuple(round(inches(x) / TICK) * TICK for x in p)


def box(piece):
    points = [place(p) for p in piece['outline'] if not isinstance(p, dict)]
    return [min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)]


# --- The sheet as it lies. ---

class Sheet:
    """Which side of the drawing lies at the left, top, right and bottom, and which face is up."""

    def __init__(self, face, left):
        ring = ['left', 'top', 'right', 'bottom'] if face == 'front' else ['right', 'top', 'left', 'bottom']
        k = ring.index(left)
        self.sides, self.face = ring[k:] + ring[:k], face

    def clockwise(self):
        """The edge at the left comes to the top."""
        self.sides = self.sides[3:] + self.sides[:3]

    def page(self):
        """Turned like a page: left and right change places."""
        l, t, r, b = self.sides
        self.sides, self.face = [r, t, l, b], {'front': 'back', 'back': 'front'}[self.face]

    def notepad(self):
        l, t, r, b = self.sides
        self.sides, self.face = [l, b, r, t], {'front': 'back', 'back': 'front'}[self.face]

    def follow(self, sentence):
        """FALSE when the sentence turns nothing."""
        if sentence == 'Turn it over sideways, like a page.':
            self.page()
        elif sentence == 'Turn it over from top to bottom, like a sheet of a notepad.':
            self.notepad()
        elif sentence == 'Turn it over sideways, like a page, then a quarter turn clockwise.':
            self.page()
            self.clockwise()
        elif sentence == 'Turn it over sideways, like a page, then a quarter turn against the clock.':
            self.page()
            for _ in range(3):
                self.clockwise()
        elif sentence == 'Turn the sheet a quarter turn clockwise; the same side stays up.':
            self.clockwise()
        elif sentence == 'Turn the sheet half round; the same side stays up.':
            self.clockwise()
            self.clockwise()
        elif sentence == 'Turn the sheet a quarter turn against the clock; the same side stays up.':
            for _ in range(3):
                self.clockwise()
        else:
            return False
        return True

    def point(self, piece, guide, upper, right_to_left):
        """The place on the drawing: so far from the guide, so far from the upper edge."""
        left, top, right, bottom = box(piece)
        x = y = None
        for side, measure in ((self.sides[2 if right_to_left else 0], guide), (self.sides[1], upper)):
            if side == 'left':
                x = left + measure
            elif side == 'right':
                x = right - measure
            elif side == 'top':
                y = top + measure
            else:
                y = bottom - measure
        return (round(x / TICK) * TICK, round(y / TICK) * TICK)

    def height(self, piece):
        left, top, right, bottom = box(piece)
        return bottom - top if self.sides[0] in ('left', 'right') else right - left


# --- The design, read without the program. ---

def segments(points, closed):
    n = len(points)
    for i in range(n if closed else n - 1):
        a, b = points[i], points[(i + 1) % n]
        if isinstance(a, dict) or isinstance(b, dict):
            continue
        a, b = place(a), place(b)
        if a != b:
            yield frozenset((a, b))


def joins_slit(piece, mark):
    ends = {place(mark['line'][0]), place(mark['line'][-1])}
    return any(m['kind'] == 'cut' and {place(m['line'][0]), place(m['line'][-1])} == ends for m in piece['marks'])


def wanted(piece):
    b = box(piece)
    for s in segments(piece['outline'], True):
        # What lies on the edge of the blank is there already.
        if not any(all(p[k % 2] == b[k] for p in s) for k in range(4)):
            yield 'outline', '', s
    for mark in piece.get('marks', []):
        if mark['kind'] == 'score':
            if mark.get('made') == 'press' or (mark.get('made') is None and joins_slit(piece, mark)):
                continue
            for s in segments(mark['line'], False):
                yield 'score', mark['id'], s
        elif mark['kind'] == 'cut':
            for s in segments(mark['line'], False):
                yield 'slit', mark['id'], s
        elif 'rect' in mark:
            (x0, y0), (x1, y1) = map(place, mark['rect'])
            c = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
            for i in range(4):
                yield 'window', mark['id'], frozenset((c[i], c[(i + 1) % 4]))
        elif 'line' in mark:
            for s in segments(mark['line'], True):
                yield 'window', mark['id'], s


# --- Following the words. ---

def steps_of(text):
    """(title, sentences, rows) of each making step; a row is (number, sentence)."""
    found = []
    for line in text[text.index('\nMake the card\n'):].split('\n'):
        head, row, words = re.match(r'(\d+)\. (.*)', line), re.match(r'   Line (\d+): (.*)', line), re.match(r'   (?! )(.*)', line)
        if head:
            found.append((head.group(2), [], []))
        elif row and found:
            found[-1][2].append((int(row.group(1)), row.group(2)))
        elif words and found:
            found[-1][1].append(words.group(1))
    return found


def follow(path, options=()):
    right_to_left = 'rule=right-to-left' in options
    with open(path, encoding='utf-8') as f:
        design = json.load(f)
    text = run(CLI, 'steps', '--text', path, *options).stdout.decode()
    data = json.loads(run(CLI, 'steps', '--json', path, *options).stdout)
    by_name = {p.get('name', p['id']): p for p in design['pieces']}
    sheets, marks, made, bad = {}, {}, {p['id']: [] for p in design['pieces']}, []
    for title, sentences, rows in steps_of(text):
        m = re.match(r'(?:Score|Cut the lines of) piece (\w+), (.*)', title)
        over = re.match(r'Turn piece (\w+) over', title)
        if m:
            letter, piece = m.group(1), by_name[m.group(2)]
            first = next(x for x in data['moves'] if x['n'] == rows[0][0])
            if letter not in sheets:
                if not any(s.startswith('Lay the sheet down, ') for s in sentences):
                    bad.append('%s: nobody lays it down' % title)
                sheets[letter] = (Sheet(first['face_up'], first['against']), piece)
                if right_to_left:
                    sheets[letter][0].clockwise()
                    sheets[letter][0].clockwise()
        elif over:
            letter = over.group(1)
        else:
            continue
        sheet, piece = sheets[letter]
        turns = sum(sheet.follow(s) for s in sentences)
        if over and turns != 1:
            bad.append('%s: %s' % (title, sentences))
        for n, row in rows:
            row = row.replace(' (read twice)', '')
            joins = re.fullmatch(r'(score|cut) from mark (\d+) to mark (\d+), “(.*)”', row)
            if joins:
                kind = 'score' if joins.group(1) == 'score' else None
                made[piece['id']].append((kind, joins.group(4), frozenset(marks[int(joins.group(k))] for k in (2, 3))))
                continue
            outline = re.fullmatch(r'cut the outline from mark (\d+) to mark (\d+)', row)
            if outline:
                made[piece['id']].append(('outline', '', frozenset(marks[int(outline.group(k))] for k in (1, 2))))
                continue
            mark = re.fullmatch(r'(%s) from the guide, at (%s): pencil mark' % (LENGTH, LENGTH), row)
            if mark:
                marks[n] = sheet.point(piece, inches(mark.group(1)), inches(mark.group(2)), right_to_left)
                continue
            whole = re.fullmatch(r'(%s) from the guide, from edge to edge: (score|slit|window|outline)(?: “(.*)”)?' % LENGTH, row)
            part = re.fullmatch(r'(%s) from the guide, start (%s), end (%s): (score|slit|window|outline)(?: “(.*)”)?' % (LENGTH, LENGTH, LENGTH), row)
            if whole:
                ends, kind, name = (F(0), sheet.height(piece)), whole.group(2), whole.group(3)
                at = inches(whole.group(1))
            elif part:
                ends, kind, name = (inches(part.group(2)), inches(part.group(3))), part.group(4), part.group(5)
                at = inches(part.group(1))
            else:
                bad.append('cannot be followed: ' + row)
                continue
            made[piece['id']].append((kind, name or '', frozenset(sheet.point(piece, at, e, right_to_left) for e in ends)))
    for piece in design['pieces']:
        key = lambda x: (x[1], sorted(x[2]))
        want = list(wanted(piece))
        got = [(k or next((w[0] for w in want if w[1] == n), k), n, s) for k, n, s in made[piece['id']]]
        if sorted(got, key=key) != sorted(want, key=key):
            extra = [g for g in got if g not in want] + [w for w in want if w not in got]
            bad.append('%s: %d lines made, %d wanted; %s' % (piece['id'], len(got), len(want), extra[:2]))
    return bad


def sizes(path):
    """Sizes of the cut list, how far glue stays from the edges, even rims."""
    with open(path, encoding='utf-8') as f:
        design = json.load(f)
    text = run(CLI, 'steps', '--text', path).stdout.decode()
    bad = []
    listed = text[text.index('\nPieces to cut\n'):text.index('\nMake the card\n')]
    for piece in design['pieces']:
        left, top, right, bottom = box(piece)
        m = re.search(r'^\w+: [^\n]*%s[^\n]*?: (%s) wide by (%s) high(?: \((%s) by (%s)\))?;' % (re.escape(piece.get('name', piece['id'])), LENGTH, LENGTH, LENGTH, LENGTH),
                      listed, re.M)
        if not m:
            bad.append('%s is not in the list' % piece['id'])
            continue
        got = [inches(x) for x in m.groups() if x]
        if any(abs(a - b) > TICK for a, b in zip(got, [right - left, bottom - top] * 2)):
            bad.append('%s: %s' % (piece['id'], m.group(0)))
    for title, sentences, _ in steps_of(text):
        glue = re.match(r'Put glue on piece \w+, (.*)', title)
        for s in sentences:
            m = re.fullmatch(r'Stay (%s) away from every edge\.' % LENGTH, s)
            if glue and m:
                piece = next(p for p in design['pieces'] if p.get('name', p['id']) == glue.group(1))
                zones = [[place(p) for p in g['area']] for g in design['glue'] if g['piece'] == piece['id']]
                b = box(piece)
                inset = [F(inches(m.group(1)))] * 4
                if not any([min(p[0] for p in z) - b[0], min(p[1] for p in z) - b[1], b[2] - max(p[0] for p in z), b[3] - max(p[1] for p in z)] == inset
                           for z in zones):
                    bad.append('%s: %s' % (title, s))
    return bad


def printed(path, out, options):
    """Every numbered line stands on the pages, as a sentence or as a row."""
    run(CLI, 'steps', path, '-o', out, *options)
    squeeze = lambda t: re.sub(r'-\s*', '', re.sub(r'\s+', ' ', t.replace('\u00a0', ' '))).strip()
    pages = squeeze(run('pdftotext', '-raw', out, '-').stdout.decode().replace('\f', ' '))
    text = run(CLI, 'steps', '--text', path).stdout.decode()
    bad = []
    for _, _, rows in steps_of(text):
        for n, row in rows:
            sentence = 'Line %d: %s' % (n, row)
            m = re.fullmatch(r'(.*) from the guide, (?:start (.*), end (.*)|at (.*)|from edge to edge): (.*)', row)
            cells = None
            if m:
                middle = (m.group(2) + ' ' + m.group(3) if m.group(2) else m.group(4) if m.group(4) else 'edge edge')
                cells = '%d %s %s %s' % (n, m.group(1), middle, m.group(5))
            else:
                cells = '%d %s' % (n, row)
            if squeeze(sentence) not in pages and squeeze(cells) not in pages:
                bad.append('not printed: ' + sentence)
    return bad


def at_random(rand, metric):
    unit = 'mm' if metric else 'in'

    def length(n):
        return '%d mm' % n if metric else '%d/16 in' % n
    w, h = (rand.randint(60, 300), rand.randint(60, 220)) if metric else (rand.randint(32, 190), rand.randint(32, 170))
    marks = []
    for i in range(rand.randint(1, 7)):
        x, y = sorted(rand.sample(range(0, w + 1), 2)), sorted(rand.sample(range(0, h + 1), 2))
        kind = rand.choice(['score', 'score', 'score', 'cut', 'window'])
        mark = {'id': 'm%d' % i, 'kind': kind}
        way = rand.randint(0, 3)
        if kind == 'window':
            mark['rect'] = [[length(x[0]), length(y[0])], [length(x[1]), length(y[1])]]
        else:
            a = {0: (x[0], y[0], x[0], y[1]), 1: (x[0], y[0], x[1], y[0]), 2: (x[0], 0, x[0], h), 3: (x[0], y[0], x[1], y[1])}[way]
            mark['line'] = [[length(a[0]), length(a[1])], [length(a[2]), length(a[3])]]
            if kind == 'score':
                mark['fold'] = rand.choice(['toward', 'away', 'none'])
        marks.append(mark)
    return {'format': 'creasewright design', 'version': 1, 'title': 'At random', 'measure': {'unit': unit}, 'papers': [{'id': 'p'}],
            'pieces': [{'id': 'a', 'name': 'Sheet', 'paper': 'p', 'outline': [[length(0), length(0)], [length(w), length(0)], [length(w), length(h)], [length(0), length(h)]],
                        'marks': marks}], 'steps': []}


with tempfile.TemporaryDirectory() as scratch:
    samples = sorted(glob.glob(os.path.join(SAMPLES, '*.creasecard')))
    cards = samples + sorted(glob.glob(os.path.join(CARDS, '*.creasecard')))
    for path in cards:
        name = os.path.basename(path)[:-11]
        tell('words/' + name, follow(path))
        tell('words/right-to-left/' + name, follow(path, ('--tool', 'rule=right-to-left')))
        tell('sizes/' + name, sizes(path))
    for path in samples:
        name = os.path.basename(path)[:-11]
        for options in (['--sheet', 'letter'], ['--sheet', 'a5'], ['--sheet', 'a4', '--large-type']):
            tell('printed/%s/%s' % (name, '-'.join(o.strip('-') for o in options)), printed(path, os.path.join(scratch, 'out.pdf'), options))
    rand = random.Random(SEED)
    for trial in range(40):
        path = os.path.join(scratch, 'random.creasecard')
        with open(path, 'w') as f:
            json.dump(at_random(rand, trial % 3 == 2), f)
        tell('random/%d' % trial, follow(path, ('--tool', 'rule=right-to-left') if trial % 4 == 3 else ()))
print('1..%d' % number)
