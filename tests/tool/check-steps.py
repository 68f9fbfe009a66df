#!/usr/bin/python3
"""Step cards and trimmer moves as other programs read them. Told over TAP.

check-steps.py CREASEWRIGHT-CLI SAMPLES CARDS CATALOGUES

The moves are made again here, on a sheet of paper in exact fractions, with no code of the program's: every straight line
of the design must come out, and no other. Pages are read back by poppler (pdfinfo, pdffonts, pdftotext): sizes by ISO
216:2007 (A4, A5) and ANSI letter; every word inside the page, none over another, none too small (our own house rule: 9
points, in large type 18), every sentence there. Lengths of the measuring bars to 0.1 mm.
"""
import glob
import json
import os
import re
import subprocess
import sys
import tempfile
import zlib
from fractions import Fraction as F
import html

CLI, SAMPLES, CARDS, PO = (os.path.abspath(x) for x in sys.argv[1:5])
number = 0
SHEETS = {'letter': (612, 792), 'a4': (595.276, 841.890), 'half-letter': (396, 612), 'a5': (419.528, 595.276)}


def tell(name, bad):
    global number
    number += 1
    print('%sok %d /tool/steps/%s' % ('not ' if bad else '', number, name))
    for line in list(bad)[:8]:
        print('# %s' % (line,))


def run(*words, **env):
    clean = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'LANGUAGE', 'LANG', 'SOURCE_DATE_EPOCH')}
    clean['LC_ALL'] = 'C.UTF-8'
    clean.update(env)
    return subprocess.run(words, capture_output=True, env=clean, timeout=120)


# --- Lengths and the design, read without the program. ---

def inches(text):
    text = text.strip()
    m = re.fullmatch(r'(-?)(?:(\d+(?:\.\d+)?)|(?:(\d+)[ -])?(\d+)/(\d+))\s*(in|"|mm|cm)?', text)
    if not m:
        raise ValueError(text)
    sign, plain, whole, top, bottom, unit = m.groups()
    value = F(plain) if plain else F(int(whole or 0)) + F(int(top), int(bottom))
    value *= {'mm': F(5, 127), 'cm': F(50, 127)}.get(unit or 'in', 1)
    return -value if sign else value


TICK = F(1, 8128)  # what the program rounds to; the model's


def place(p):
    return tuple(round(inches(x) / TICK) * TICK for x in p)


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
    ends = {tuple(place(mark['line'][0])), tuple(place(mark['line'][-1]))}
    return any(m['kind'] == 'cut' and {tuple(place(m['line'][0])), tuple(place(m['line'][-1]))} == ends for m in piece['marks'])


def wanted(piece):
    for mark in piece['marks']:
        if mark['kind'] == 'score':
            if mark.get('made') == 'press' or (mark.get('made') is None and joins_slit(piece, mark)):
                continue
            for s in segments(mark['line'], False):
                yield mark['id'], 'score', s
        elif mark['kind'] == 'cut':
            for s in segments(mark['line'], False):
                yield mark['id'], 'slit', s
        elif 'rect' in mark:
            (x0, y0), (x1, y1) = map(place, mark['rect'])
            c = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
            for i in range(4):
                yield mark['id'], 'cut', frozenset((c[i], c[(i + 1) % 4]))
        elif 'line' in mark:
            for s in segments(mark['line'], True):
                yield mark['id'], 'cut', s


def box(piece):
    points = [place(p) for p in piece['outline'] if not isinstance(p, dict)]
    return [min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)]


def made(piece, moves, guide='left'):
    """Lines on the sheet. The edge against the guide must be at the left (of a rule that counts from right to left: at the
    right), the one read from at the top, of a sheet that lies with the face up: a sheet turned over has its sides the
    other way round."""
    left, top, right, bottom = box(piece)
    marks = {}
    after = {'front': {'left': 'top', 'top': 'right', 'right': 'bottom', 'bottom': 'left'},
             'back': {'right': 'top', 'top': 'left', 'left': 'bottom', 'bottom': 'right'}}
    if guide == 'right':
        after = {'front': after['back'], 'back': after['front']}

    def at(side, measure):
        return {'left': (0, left + measure), 'right': (0, right - measure), 'top': (1, top + measure), 'bottom': (1, bottom - measure)}[side]

    for m in moves:
        if 'joins' in m:
            yield m, frozenset(marks[n] for n in m['joins'])
            continue
        assert m['read_from'] == after[m['face_up']][m['against']], m
        long_way = bottom - top if m['against'] in ('left', 'right') else right - left
        ends = []
        for e in ((F(0), long_way) if m['from'] is None else (inches(m['from']), inches(m['to']))):
            p = [None, None]
            for axis, value in (at(m['against'], inches(m['at'])), at(m['read_from'], e)):
                p[axis] = round(value / TICK) * TICK
            ends.append(tuple(p))
        if m['does'] == 'mark':
            marks[m['n']] = ends[0]
        else:
            yield m, frozenset(ends)


def replay(path, *options):
    guide = 'right' if 'rule=right-to-left' in options else 'left'
    with open(path, encoding='utf-8') as f:
        design = json.load(f)
    answer = run(CLI, 'steps', '--json', path, *[w for o in options for w in ('--tool', o)])
    got = json.loads(answer.stdout)
    bad = []
    if [m['n'] for m in got['moves']] != list(range(1, len(got['moves']) + 1)):
        bad.append('numbers')
    for piece in design['pieces']:
        piece.setdefault('marks', [])
        mine = [m for m in got['moves'] if m['piece'] == piece['id']]
        lines = [(m['mark'], m['does'], s) for m, s in made(piece, mine, guide) if m['mark'] != 'outline']
        want = list(wanted(piece))
        key = lambda x: (x[0], x[1], sorted(x[2]))
        if sorted(lines, key=key) != sorted(want, key=key):
            bad.append('%s: %d lines made, %d wanted' % (piece['id'], len(lines), len(want)))
        for m in mine:
            if m['does'] == 'score':
                fold = next(x for x in piece['marks'] if x['id'] == m['mark']).get('fold', 'none')
                if 'scores=one-face' in options and m['face_up'] != 'front':
                    bad.append('%s is not scored with the front up' % m['mark'])
                elif 'scores=one-face' not in options and fold != 'none' and m['face_up'] != {'toward': 'back', 'away': 'front'}[fold]:
                    bad.append('%s is pressed from the wrong face' % m['mark'])
            if m.get('from') is not None and m['does'] != 'mark' and \
                    (inches(m['from']) > inches(m['to'])) != ('pull=up' in options):
                bad.append('%s is made against the pull' % m['mark'])
    return bad


def stamps(path):
    """Greetings and pictures against the design: measured from the left and upper edge as the piece lies."""
    with open(path, encoding='utf-8') as f:
        design = json.load(f)
    got = json.loads(run(CLI, 'steps', '--json', path).stdout)['stamps']
    want = []
    for piece in design['pieces']:
        left, top, right, _ = box(piece)
        for art in piece.get('art', []):
            (x0, y0), (x1, y1) = map(place, art['box'])
            face = art.get('face', 'front')
            want.append((piece['id'], art['id'], face, min(x0, x1) - left if face == 'front' else right - max(x0, x1),
                         min(y0, y1) - top, abs(x1 - x0), abs(y1 - y0), art.get('up', 0) % 360))
    found = [(s['piece'], s['art'], s['face_up']) + tuple(inches(s[k]) for k in ('left', 'top', 'width', 'height')) + (s['up'],) for s in got]
    return [] if found == want else ['%s is not %s' % (found, want)]


# --- Pages. ---

def words_of(pdf):
    """Per page: (left, top, right, bottom, word)."""
    answer = run('pdftotext', '-bbox', pdf, '-').stdout.decode()
    pages = []
    for page in re.findall(r'<page[^>]*>(.*?)</page>', answer, re.S):
        pages.append([tuple(map(float, m[:4])) + (html.unescape(m[4]),) for m in re.findall(
            r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)</word>', page)])
    return pages


def plain(text):
    """Without what poppler makes of line ends: kinds of spaces, hyphens there."""
    return re.sub(r'-\s*', '', re.sub(r'\s+', ' ', text.replace('\u00a0', ' '))).strip()


def words_without_feet(pdf, title):
    """All words in their order, so that a sentence that goes on on the next page is one."""
    foot = r'(%s\s*)?(Page|Seite) \d+ (of|von) \d+\s*$' % re.escape(title)
    return plain(' '.join(plain(re.sub(foot, '', x)) for x in run('pdftotext', '-raw', pdf, '-').stdout.decode().split('\f')))


def strokes(pdf):
    """Lengths of all level straight lines, points. cairo writes "x y m x y l", the only turn is upside down."""
    with open(pdf, 'rb') as f:
        data = f.read()
    found = []
    for m in re.finditer(rb'stream\r?\n(.*?)\r?\nendstream', data, re.S):
        try:
            # What looks like the end of a line may be the last bytes of the packed stream: nothing that counts is lost.
            text = zlib.decompressobj().decompress(m.group(1)).decode('latin-1')
        except (zlib.error, UnicodeDecodeError):
            continue
        for line in re.finditer(r'([-\d.]+) ([-\d.]+) m\s+([-\d.]+) ([-\d.]+) l\b', text):
            x0, y0, x1, y1 = map(float, line.groups())
            if abs(y0 - y1) < 0.01:
                found.append(abs(x1 - x0))
    return found


def check_pages(path, sheet, large, **env):
    pdf = os.path.join(SCRATCH, 'out.pdf')
    options = ['--sheet', sheet] + (['--large-type'] if large else [])
    answer = run(CLI, 'steps', path, '-o', pdf, *options, **env)
    bad = []
    if answer.returncode != 0 or answer.stdout or answer.stderr:
        return ['status %d: %s' % (answer.returncode, answer.stderr.decode())]
    info = run('pdfinfo', pdf).stdout.decode()
    width, height = SHEETS[sheet]
    m = re.search(r'Page size:\s+([\d.]+) x ([\d.]+)', info)
    # 0.1 mm is 0.28 points.
    if abs(float(m.group(1)) - width) > 0.28 or abs(float(m.group(2)) - height) > 0.28:
        bad.append(m.group(0))
    with open(path, encoding='utf-8') as f:
        title = json.load(f)['title']
    if not re.search(r'^Title:\s+%s$' % re.escape(title), info, re.M):
        bad.append('no title in the file')
    for line in run('pdffonts', pdf).stdout.decode().split('\n')[2:]:
        if line and line.split()[-5:-4] != ['yes']:
            bad.append('not embedded: ' + line)
    pages = words_of(pdf)
    least = 18 if large else 9
    for n, page in enumerate(pages, 1):
        if not page:
            bad.append('page %d is empty' % n)
        for a in page:
            if a[0] < 18 or a[1] < 18 or a[2] > width - 18 or a[3] > height - 18:
                bad.append('page %d: “%s” leaves the page' % (n, a[4]))
            # The box poppler gives is the font's line: over one em in every usual sans, and upright words only count
            # here; words set upright along an edge have it in their breadth.
            # In large type crowded numbers in a picture may be smaller: the list beside it has them large.
            smallest = 11 if large and a[4].isdigit() else least
            if a[4] not in ('!',) and max(a[3] - a[1], 0) < smallest and max(a[2] - a[0], 0) < smallest:
                bad.append('page %d: “%s” is small: %.1f' % (n, a[4], a[3] - a[1]))
        for i, a in enumerate(page):
            for b in page[i + 1:]:
                if min(a[2], b[2]) - max(a[0], b[0]) > 1 and min(a[3], b[3]) - max(a[1], b[1]) > 0.35 * min(a[3] - a[1], b[3] - b[1]):
                    bad.append('page %d: “%s” lies over “%s”' % (n, a[4], b[4]))
    raw = words_without_feet(pdf, title)
    text = run(CLI, 'steps', '--text', path, **env).stdout.decode()
    said = [plain(re.sub(r'^[ \-!?]*', '', line)) for line in text.split('\n') if line.startswith(('   ', '! ', '- '))]
    for line in said:
        if line and not re.match(r'(Line|Linie) \d+: ', line) and not line.startswith('[') and line not in raw:
            bad.append('not on the pages: ' + line)
    for line in re.findall(r'^(\d+\. .*)$', text, re.M):
        if plain(line) not in raw:
            bad.append('no such step on the pages: ' + line)
    found = strokes(pdf)
    for want, what in ((216, '3 in'), (8 * 72 / 2.54, '8 cm')):
        if not any(abs(x - want) < 0.28 for x in found):
            bad.append('no bar of ' + what)
    return bad


def calls():
    path = os.path.join(SAMPLES, 'half-fold.creasecard')
    pdf, again = (os.path.join(SCRATCH, x) for x in ('one.pdf', 'two.pdf'))
    run(CLI, 'steps', path, '-o', pdf)
    run(CLI, 'steps', path, '-o', again)
    with open(pdf, 'rb') as a, open(again, 'rb') as b:
        tell('same-file-twice', [] if a.read() == b.read() else ['they differ'])
    run(CLI, 'steps', path, '-o', pdf, SOURCE_DATE_EPOCH='1927756800')  # 2031-02-02 00:00 UTC
    said = run('pdftotext', pdf, '-').stdout.decode()
    tell('date-of-the-build', [] if '2031-02-02' in said else [said[:300]])
    for name, words in (('no-output', [path]), ('unknown-sheet', [path, '-o', pdf, '--sheet', 'b5']), ('not-a-pdf', [path, '-o', 'x.png']),
                        ('two-outputs', [path, '--json', '--text']), ('two-files', [path, path, '--json'])):
        a = run(CLI, 'steps', *words)
        tell('refused/' + name, [] if a.returncode == 2 and not a.stdout and a.stderr.count(b'\n') == 1 else [a])
    kept = os.path.join(SCRATCH, 'kept.pdf')
    with open(kept, 'w') as f:
        f.write('mine')
    a = run(CLI, 'steps', os.path.join(SCRATCH, 'none.creasecard'), '-o', kept)
    with open(kept) as f:
        tell('nothing-written-on-failure', [] if a.returncode == 2 and f.read() == 'mine' else [a])
    sixteenths = run(CLI, 'steps', '--text', '--sixteenths', os.path.join(SAMPLES, 'corner-flip.creasecard')).stdout.decode()
    tell('sixteenths-on-request', [] if '3 7/8 in (= 14 sixteenths past 3)' in sixteenths else [sixteenths[:200]])


def tools():
    """Every way of the maker's tools still makes the same lines; what they cannot set is told."""
    for path in samples:
        for options in (['rule=right-to-left'], ['pull=up'], ['scores=one-face'], ['rule=right-to-left', 'pull=up', 'scores=one-face']):
            tell('tools/%s/%s' % (os.path.basename(path)[:-11], '+'.join(options)), replay(path, *options))
    box = os.path.join(SAMPLES, 'corner-flip.creasecard')  # has 3 7/8 in and 1 1/8 in: eighths, no quarters
    kept = os.path.join(SCRATCH, 'mine.tools')
    with open(kept, 'w') as f:
        f.write('[tools]\nfinest=1/4 in\nstops=no\n')
    said = run(CLI, 'steps', '--text', '--tools', kept, box).stdout.decode()
    tell('tools/no-stops-means-a-pencil', [] if 'soft pencil' in said else [said[:400]])
    tell('tools/between-the-marks', [] if 'between the marks of your rule' in said else [said[:400]])
    coarse, fine = (json.loads(run(CLI, 'check', '--json', '--tool', 'finest=' + x, box).stdout) for x in ('1/4 in', '1/8 in'))
    off = lambda listed: [f for f in listed[0]['findings'] if f['code'] == 'off-snap']
    tell('tools/off-snap-of-a-coarse-rule', [] if off(coarse) and not off(fine) else [off(coarse), off(fine)])
    override = run(CLI, 'steps', '--text', '--tools', kept, '--tool', 'finest=1/16 in', box).stdout.decode()
    tell('tools/the-single-value-wins', [] if 'between the marks of your rule' not in override else [override[:400]])
    with open(kept, 'w') as f:
        f.write('[tools]\nrule=sideways\n')
    for name, words in (('file', ['--tools', kept]), ('missing-file', ['--tools', kept + '.none']), ('value', ['--tool', 'pull=out']),
                        ('no-value', ['--tool', 'pull']), ('key', ['--tool', 'colour=red'])):
        a = run(CLI, 'steps', '--json', box, *words)
        tell('tools/refused/' + name, [] if a.returncode == 2 and not a.stdout and a.stderr.count(b'\n') == 1 else [a])


def long_words():
    """Words longer than a page flow on to the next ones: none is lost, none lies over the foot."""
    with open(os.path.join(SAMPLES, 'half-fold.creasecard'), encoding='utf-8') as f:
        design = json.load(f)
    many = ' '.join('%d boats lie at the quay of Harbour Street,' % n for n in range(1, 121)) + ' and one is out.'
    design['notes'] = many
    design['steps'][-1]['caption'] = many.replace('boats', 'carts')
    path = os.path.join(SCRATCH, 'long.creasecard')
    with open(path, 'w', encoding='utf-8') as f:
        json.dump(design, f)
    for sheet in SHEETS:
        for large in (False, True):
            tell('pages/long-words/%s%s' % (sheet, '/large' if large else ''), check_pages(path, sheet, large))
    raw = words_without_feet(os.path.join(SCRATCH, 'out.pdf'), design['title'])
    lost = [n for n in range(1, 121) for what in ('boats', 'carts') if '%d %s' % (n, what) not in raw]
    tell('pages/long-words/none-is-lost', lost)


samples = sorted(glob.glob(os.path.join(SAMPLES, '*.creasecard')))
with tempfile.TemporaryDirectory() as SCRATCH:
    for path in samples + sorted(glob.glob(os.path.join(CARDS, '*.creasecard'))):
        tell('replay/' + os.path.basename(path)[:-11], replay(path))
        tell('stamps/' + os.path.basename(path)[:-11], stamps(path))
    for path in samples:
        for sheet in SHEETS:
            for large in (False, True):
                tell('pages/%s/%s%s' % (os.path.basename(path)[:-11], sheet, '/large' if large else ''), check_pages(path, sheet, large))
    # Longer words: German, as it is translated.
    german = {'LANGUAGE': 'de', 'CREASEWRIGHT_LOCALE_DIR': PO}
    for path in samples[::3]:
        said = run(CLI, 'steps', '--text', path, **german).stdout.decode()
        tell('german/' + os.path.basename(path)[:-11], [] if 'Du brauchst' in said and 'You need' not in said else [said[:300]])
        for sheet, large in (('a4', False), ('a5', False), ('a5', True)):
            tell('pages/german/%s/%s%s' % (os.path.basename(path)[:-11], sheet, '/large' if large else ''), check_pages(path, sheet, large, **german))
    long_words()
    calls()
    tools()
print('1..%d' % number)
