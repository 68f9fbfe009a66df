#!/usr/bin/python3
"""Templates as other programs read them. Told over TAP.

check-template.py CREASEWRIGHT-CLI SAMPLES CARDS

SVG through Python's XML reader: millimetres, named groups, every length that of the design to 0.1 mm (they are exact),
arcs by the formulas of SVG 1.1 appendix F.6.5. PDF through poppler and its own content: page sizes (ISO 216:2007, ANSI
letter), lengths to 0.1 mm, a check bar on either axis of every page, joining crosses at the same places of the piece on
both pages of a joint, words within the page and none over another.
"""
import glob
import html
import json
import math
import os
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
import zlib

CLI, SAMPLES, CARDS = (os.path.abspath(x) for x in sys.argv[1:4])
SHEETS = {'letter': (612, 792), 'a4': (595.276, 841.890), 'half-letter': (396, 612), 'a5': (419.528, 595.276)}
NEAR = 0.1  # mm
number = 0


def tell(name, bad):
    global number
    number += 1
    print('%sok %d /tool/template/%s' % ('not ' if bad else '', number, name))
    for line in list(bad)[:8]:
        print('# %s' % (line,))


def run(*words):
    env = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'LANGUAGE', 'LANG')}
    env['LC_ALL'] = 'C.UTF-8'
    return subprocess.run(words, capture_output=True, env=env, timeout=60)


def mm(text):
    m = re.fullmatch(r'\s*(-?)(?:(\d+(?:\.\d+)?)|(?:(\d+)[ -])?(\d+)/(\d+))\s*(in|"|mm|cm)?\s*', text)
    sign, plain, whole, top, bottom, unit = m.groups()
    value = float(plain) if plain else int(whole or 0) + int(top) / int(bottom)
    value *= {'mm': 1, 'cm': 10}.get(unit or 'in', 25.4)
    return -value if sign else value


def points(path):
    return [tuple(map(mm, p['through'] if isinstance(p, dict) else p)) for p in path]


def design_of(path):
    with open(path, encoding='utf-8') as f:
        return json.load(f)


def parse_path(d):
    """Corners, and for each arc (from, radius, large, sweep, to)."""
    words, corners, arcs = d.split(), [], []
    i = 0
    while i < len(words):
        if words[i] in 'ML':
            corners.append((float(words[i + 1]), float(words[i + 2])))
            i += 3
        elif words[i] == 'A':
            rx, ry, turn, large, sweep, x, y = map(float, words[i + 1:i + 8])
            assert rx == ry and turn == 0
            arcs.append((corners[-1], rx, int(large), int(sweep), (x, y)))
            corners.append((x, y))
            i += 8
        else:
            assert words[i] == 'Z'
            i += 1
    return corners, arcs


def passes(arc, p):
    """Whether an arc of SVG passes within 0.1 mm of a place: centre and angles by F.6.5."""
    (x1, y1), r, large, sweep, (x2, y2) = arc
    hx, hy = (x1 - x2) / 2, (y1 - y2) / 2
    h2 = hx * hx + hy * hy
    root = math.sqrt(max(0, r * r / h2 - 1)) * (-1 if large == sweep else 1)
    cx, cy = root * hy + (x1 + x2) / 2, -root * hx + (y1 + y2) / 2
    start, end, at = (math.atan2(y - cy, x - cx) for x, y in ((x1, y1), (x2, y2), p))
    turn = (end - start) % (2 * math.pi) if sweep else (start - end) % (2 * math.pi)
    mine = (at - start) % (2 * math.pi) if sweep else (start - at) % (2 * math.pi)
    return abs(math.dist(p, (cx, cy)) - r) < NEAR and mine < turn


def near(a, b):
    return math.dist(a, b) < NEAR


def check_svg(path, out):
    design = design_of(path)
    answer = run(CLI, 'template', path, '-o', out)
    if answer.returncode not in (0, 1) or answer.stdout or answer.stderr:
        return [answer]
    bad = []
    root = ET.parse(out).getroot()
    ns = '{http://www.w3.org/2000/svg}'
    width, height = root.get('width'), root.get('height')
    if not (width.endswith('mm') and height.endswith('mm')) or root.get('viewBox') != '0 0 %s %s' % (width[:-2], height[:-2]):
        bad.append('width %s, viewBox %s' % (width, root.get('viewBox')))
    groups = {g.get('id'): g for g in root.iter(ns + 'g')}
    for name in ('cut', 'score-toward', 'score-away', 'score-none', 'glue', 'ticks', 'check'):
        if name not in groups:
            return bad + ['no group ' + name]
    bars = [parse_path(x.get('d'))[0] for x in groups['check']]
    if sorted(((round(b[0] - a[0], 3), round(b[1] - a[1], 3)) for a, b in bars)) != [(0, 100), (100, 0)]:
        bad.append('check bars: %s' % bars)
    for piece in design['pieces']:
        mine = lambda group: [x for x in groups[group] if x.get('data-piece') == piece['id']]
        outline = next(x for x in mine('cut') if x.get('data-outline'))
        corners, arcs = parse_path(outline.get('d'))
        wanted = points(piece['outline'])
        shift = (corners[0][0] - wanted[0][0], corners[0][1] - wanted[0][1])
        moved = lambda p: (p[0] + shift[0], p[1] + shift[1])

        def compare(what, path_list, closed):
            got, bows = parse_path(what.get('d'))
            places = points(path_list)
            straight = [moved(p) for p, v in zip(places, path_list) if not isinstance(v, dict)]
            ends = [p for p in got if not any(near(p, s) for s in straight)]
            if ends or not all(any(near(s, p) for p in got) for s in straight):
                bad.append('%s: corners %s, wanted %s' % (what.get('data-mark'), got, straight))
            through = [moved(p) for p, v in zip(places, path_list) if isinstance(v, dict)]
            for p in through:
                if not any(passes(a, p) for a in bows):
                    bad.append('%s: no arc through %s' % (what.get('data-mark'), p))

        compare(outline, piece['outline'], True)
        for mark in piece.get('marks', []):
            group = 'cut' if mark['kind'] != 'score' else 'score-' + mark.get('fold', 'none')
            found = [x for x in mine(group) if x.get('data-mark') == mark['id']]
            if len(found) != 1:
                bad.append('%s stands %d times in %s' % (mark['id'], len(found), group))
            elif 'circle' in mark:
                centre = moved(tuple(map(mm, mark['circle']['centre'])))
                if not near(centre, (float(found[0].get('cx')), float(found[0].get('cy')))) or abs(
                        float(found[0].get('r')) - mm(mark['circle']['radius'])) > NEAR:
                    bad.append('%s: circle' % mark['id'])
            elif 'rect' in mark:
                (x0, y0), (x1, y1) = map(moved, points(mark['rect']))
                got = parse_path(found[0].get('d'))[0]
                if len(got) != 4 or not all(any(near(c, g) for g in got) for c in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))):
                    bad.append('%s: corners' % mark['id'])
            else:
                compare(found[0], mark['line'], mark['kind'] == 'window')
    w, h = float(width[:-2]), float(height[:-2])
    for x in root.iter(ns + 'path'):
        for p in parse_path(x.get('d'))[0]:
            if not (0 <= p[0] <= w and 0 <= p[1] <= h):
                bad.append('outside the picture: %s' % (p,))
    return bad


def pages_of(pdf):
    """The content of every page, in order: cairo numbers its objects page by page."""
    with open(pdf, 'rb') as f:
        data = f.read()
    objects = {int(m.group(1)): m.group(2) for m in re.finditer(rb'(?:^|\n)(\d+) 0 obj\s(.*?)\nendobj', data, re.S)}
    kids = re.search(rb'/Kids \[(.*?)\]', next(o for o in objects.values() if b'/Kids' in o), re.S).group(1)
    for kid in re.findall(rb'(\d+) 0 R', kids):
        content = int(re.search(rb'/Contents (\d+) 0 R', objects[int(kid)]).group(1))
        yield zlib.decompress(re.search(rb'stream\r?\n(.*)\r?\nendstream', objects[content], re.S).group(1)).decode('latin-1')


def lines(content):
    for m in re.finditer(r'([-\d.]+) ([-\d.]+) m\s+([-\d.]+) ([-\d.]+) l\b', content):
        yield tuple(map(float, m.groups()))


def rectangles(content):
    """Closed paths of straight lines, as cairo writes them, or its re operator."""
    for m in re.finditer(r'([-\d.]+) ([-\d.]+) ([-\d.]+) ([-\d.]+) re\b', content):
        x, y, w, h = map(float, m.groups())
        yield x, abs(w), abs(h), min(y, y + h)
    for m in re.finditer(r'([-\d.]+) ([-\d.]+) m((?:\s+[-\d.]+ [-\d.]+ l)+)\s+h', content):
        n = list(map(float, re.findall(r'[-\d.]+', m.group(0))))
        xs, ys = n[::2], n[1::2]
        yield min(xs), max(xs) - min(xs), max(ys) - min(ys), min(ys)


def patterns(content):
    """Dashes that are none of ISO 128-2:2020 for the width they are drawn with: 02 dashed 12 3, 10 dashed dotted 12 3 0.5 3,
    07 dotted 0.5 3, in line widths."""
    width, bad = 1.0, []
    for m in re.finditer(r'([\d.]+) w\b|\[([\d. ]*)\] [-\d.]+ d\b', content):
        if m.group(1):
            width = float(m.group(1))
        elif m.group(2).strip():
            dashes = [float(x) / width for x in m.group(2).split()]
            if not any(len(dashes) == len(k) and all(abs(a - b) < 0.02 for a, b in zip(dashes, k))
                       for k in ((12, 3), (12, 3, 0.5, 3), (0.5, 3))):
                bad.append('dashes %s of width %.3f' % (m.group(2), width))
    return bad


def check_pdf(path, sheet, out):
    design = design_of(path)
    answer = run(CLI, 'template', path, '-o', out, '--sheet', sheet)
    if answer.returncode not in (0, 1) or answer.stdout or answer.stderr:
        return [answer]
    bad = []
    width, height = SHEETS[sheet]
    on_side = []
    for m in re.finditer(r'size:\s+([\d.]+) x ([\d.]+)', run('pdfinfo', '-f', '1', '-l', '999', out).stdout.decode()):
        w, h = map(float, m.groups())
        on_side.append(w > h)
        if abs(min(w, h) - width) > 0.28 or abs(max(w, h) - height) > 0.28:
            bad.append(m.group(0))
    for line in run('pdffonts', out).stdout.decode().split('\n')[2:]:
        if line and line.split()[-5] != 'yes':
            bad.append('not embedded: ' + line)
    pages = list(pages_of(out))
    if len(on_side) != len(pages):
        bad.append('%d page sizes, %d pages' % (len(on_side), len(pages)))
    # A piece that some page could hold with 14 mm at two sides and 32 mm (words, bars; on small pages, where they wrap, 60)
    # at the others is not parted.
    rest = 32 if width > 500 else 60
    text = run('pdftotext', out, '-').stdout.decode()
    for piece in design['pieces']:
        if any(isinstance(p, dict) for p in piece['outline']):
            continue
        w, h = sorted(max(v) - min(v) for v in zip(*points(piece['outline'])))
        fits = any(sorted((a - 28, b - rest))[0] >= w and sorted((a - 28, b - rest))[1] >= h
                   for a, b in ((width / 72 * 25.4, height / 72 * 25.4), (height / 72 * 25.4, width / 72 * 25.4)))
        if fits and re.search(r'%s: [^\n]*\n(?:[^\n]*\n)?Part \d' % re.escape(piece.get('name', piece['id'])), text):
            bad.append('%s is parted though it would fit' % piece['id'])
    for n, content in enumerate(pages, 1):
        bad += patterns(content)
        for length in (144, 50 * 72 / 25.4):
            level = any(abs(abs(c - a) - length) < 0.28 and abs(b - d) < 0.01 for a, b, c, d in lines(content))
            upright = any(abs(abs(d - b) - length) < 0.28 and abs(a - c) < 0.01 for a, b, c, d in lines(content))
            if not (level and upright):
                bad.append('page %d: no check bars of %.1f' % (n, length))
    sizes = []
    boxes = [r[1:3] for content in pages for r in rectangles(content)]
    for piece in design['pieces']:
        xs, ys = zip(*points(piece['outline']))
        w, h = ((max(v) - min(v)) * 72 / 25.4 for v in (xs, ys))
        # Only a rectangle is drawn as one.
        if any(isinstance(p, dict) for p in piece['outline']) or len({*xs}) != 2 or len({*ys}) != 2:
            continue
        sizes.append((w, h))
        if not any(min(abs(a - w) + abs(b - h), abs(a - h) + abs(b - w)) < 0.28 for a, b in boxes):
            bad.append('%s is nowhere %.2f by %.2f' % (piece['id'], w, h))
    # Crosses: level bars of 8 mm; where they stand on a piece that has many pages.
    arm = 8 * 72 / 25.4
    crosses = []
    for content in pages:
        # A piece may be as large as the page itself, which is a rectangle too.
        drawn = [r for r in rectangles(content) if abs(r[1] - width) + abs(r[2] - height) >= 0.28]
        wide = next((r for r in drawn if any(min(abs(r[1] - w) + abs(r[2] - h), abs(r[1] - h) + abs(r[2] - w)) < 0.28
                                                           for w, h in sizes)), None)
        here = sorted(((a + c) / 2, b) for a, b, c, d in lines(content) if abs(abs(c - a) - arm) < 0.05 and abs(b - d) < 0.01)
        crosses.append((wide, here))
    where = []
    for n in range(len(pages)):
        text = re.sub(r'\s+', ' ', run('pdftotext', '-raw', '-f', str(n + 1), '-l', str(n + 1), out, '-').stdout.decode())
        m = re.search(r'Part (\d+) of (\d+), row (\d+), column (\d+)', text)
        where.append(tuple(map(int, m.groups())) if m else None)
    for k, at in enumerate(where):
        if not at:
            continue
        for other in range(k + 1, min(k + at[1] - at[0] + 1, len(pages))):
            beside = where[other][2] == at[2] and where[other][3] == at[3] + 1
            below = where[other][3] == at[3] and where[other][2] == at[2] + 1
            (r, here), (q, there) = crosses[k], crosses[other]
            if not beside and not below:
                continue
            mine = {(round(x - r[0], 1), round(y - r[3], 1)) for x, y in here}
            yours = {(round(x - q[0], 1), round(y - q[3], 1)) for x, y in there}
            if sum(any(math.dist(a, b) < 0.28 for b in yours) for a in mine) < 2:
                bad.append('pages %d and %d do not share two crosses: %s, %s' % (k + 1, other + 1, mine, yours))
    answer = run('pdftotext', '-bbox', out, '-').stdout.decode()
    for n, page in enumerate(re.findall(r'<page[^>]*>(.*?)</page>', answer, re.S), 1):
        words = [tuple(map(float, m[:4])) + (html.unescape(m[4]),) for m in re.findall(
            r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', page)]
        for i, a in enumerate(words):
            w, h = (height, width) if on_side[n - 1] else (width, height)
            if a[0] < 12 or a[1] < 12 or a[2] > w - 12 or a[3] > h - 12:
                bad.append('page %d: “%s” leaves the page' % (n, a[4]))
            for b in words[i + 1:]:
                if min(a[2], b[2]) - max(a[0], b[0]) > 1 and min(a[3], b[3]) - max(a[1], b[1]) > 4:
                    bad.append('page %d: “%s” lies over “%s”' % (n, a[4], b[4]))
    return bad


ROUND = {
    'format': 'creasewright design', 'version': 1, 'title': 'Round & square', 'measure': {'unit': 'mm'}, 'papers': [{'id': 'p'}],
    'pieces': [{'id': 'a', 'paper': 'p', 'outline': [['0 mm', '10 mm'], {'through': ['3 mm', '3 mm']}, ['10 mm', '0 mm'], ['90 mm', '0 mm'],
                                                     ['90 mm', '60 mm'], ['0 mm', '60 mm']],
                'marks': [{'id': 'bow', 'kind': 'cut', 'line': [['20 mm', '30 mm'], {'through': ['40 mm', '5 mm']}, ['60 mm', '30 mm']]},
                          {'id': 'less', 'kind': 'score', 'fold': 'away', 'line': [['20 mm', '40 mm'], {'through': ['40 mm', '45 mm']}, ['60 mm', '40 mm']]},
                          {'id': 'port', 'kind': 'window', 'circle': {'centre': ['75 mm', '20 mm'], 'radius': '8 mm'}}]}], 'steps': []}

samples = sorted(glob.glob(os.path.join(SAMPLES, '*.creasecard')))
with tempfile.TemporaryDirectory() as scratch:
    own = os.path.join(scratch, 'round.creasecard')
    with open(own, 'w', encoding='utf-8') as f:
        json.dump(ROUND, f)
    for path in samples + [own] + sorted(glob.glob(os.path.join(CARDS, 'own-*.creasecard'))):
        tell('svg/' + os.path.basename(path)[:-11], check_svg(path, os.path.join(scratch, 'out.svg')))
    for path in samples + [own]:
        for sheet in SHEETS:
            tell('pdf/%s/%s' % (os.path.basename(path)[:-11], sheet), check_pdf(path, sheet, os.path.join(scratch, 'out.pdf')))
    for name, words in (('no-output', [samples[0]]), ('a-png', [samples[0], '-o', 'x.png']), ('sheet-of-an-svg', [samples[0], '-o', 'x.svg', '--sheet', 'a4'])):
        a = run(CLI, 'template', *words)
        tell('refused/' + name, [] if a.returncode == 2 and not a.stdout and a.stderr.count(b'\n') == 1 else [a])
print('1..%d' % number)
