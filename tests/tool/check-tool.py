#!/usr/bin/python3
"""How creasewright-cli behaves as a program: exit statuses, what goes where, files it cannot read. Told over TAP.

check-tool.py CREASEWRIGHT-CLI CARDS-FOLDER

The statuses are the tool page's (0 no error, 1 an error found, 2 cannot read or wrong call); that help and version go to
standard output and faults to standard error is the GNU coding standards' "Command-Line Interfaces".
"""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

CLI, CARDS = (os.path.abspath(x) for x in sys.argv[1:3])
GOOD = os.path.join(CARDS, '01-half-fold.creasecard')
BAD = os.path.join(CARDS, '01-half-fold-broken-1.creasecard')
SHEET = (8.5, 5.5)  # inches, of the good card
number = 0


def run(*words, **settings):
    """Runs with no display and plain settings unless told otherwise."""
    env = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'WAYLAND_DISPLAY', 'LANGUAGE', 'LANG')}
    env['LC_ALL'] = settings.pop('locale', 'C.UTF-8')
    return subprocess.run([CLI, *words], capture_output=True, env=env, timeout=60, **settings)


def tell(name, right, answer=None):
    global number
    number += 1
    print('%sok %d /tool/%s' % ('' if right else 'not ', number, name))
    if not right and answer is not None:
        print('# status %d, %r' % (answer.returncode, (answer.stderr or answer.stdout)[:300]))


def one_line(answer):
    return answer.stderr.count(b'\n') == 1 and answer.stderr.endswith(b'\n')


def refused(name, answer, *parts):
    """Status 2, nothing on standard output, one line on standard error with these parts."""
    said = answer.stderr.decode()
    tell(name, answer.returncode == 2 and answer.stdout == b'' and one_line(answer) and all(p in said for p in parts), answer)


def calls():
    for words in (['--version'], ['--help'], ['-h'], ['help'], ['check', '--help'], ['report', '--help'], ['show', '--help']):
        a = run(*words)
        tell('help/%s' % ' '.join(words), a.returncode == 0 and a.stderr == b'' and b'creasewright-cli' in a.stdout, a)
    offered = [line.split()[0] for line in run('--help').stdout.decode().splitlines() if line.startswith('  ')][1:]
    tell('help/every-command-offered-helps', len(offered) >= 3 and all(run(c, '--help').returncode == 0 for c in offered))
    refused('call/no-command', run())
    refused('call/unknown-command', run('fly', GOOD), 'fly')
    refused('call/unknown-option', run('check', '--wide', GOOD), '--wide')
    refused('call/check-without-file', run('check'), 'check')
    refused('call/report-without-file', run('report'), 'report')
    refused('call/report-with-two-files', run('report', GOOD, GOOD), 'report')


def answers():
    a = run('check', GOOD)
    tell('check/nothing-wrong', a.returncode == 0 and a.stderr == b'' and GOOD.encode() in a.stdout, a)
    b = run('check', BAD)
    tell('check/an-error', b.returncode == 1 and b.stderr == b'' and b'error' in b.stdout, b)
    both = run('check', GOOD, BAD)
    tell('check/several-files', both.returncode == 1 and both.stdout == a.stdout + b.stdout, both)
    listed = run('check', '--json', GOOD, BAD)
    entries = json.loads(listed.stdout)
    tell('check/json', listed.returncode == 1 and [e['verdict'] for e in entries] == ['notes', 'errors']
         and entries[1]['findings'][0]['code'] == 'score-stops-short' and entries[1]['file'] == BAD, listed)
    some = run('check', GOOD, '/no/such/card', BAD)
    tell('check/one-of-several-missing', some.returncode == 2 and some.stdout == both.stdout and one_line(some), some)

    r = run('report', BAD)
    tell('report/also-with-an-error', r.returncode == 1 and json.loads(r.stdout)['verdict'] == 'errors' and r.stderr == b'', r)
    tell('report/no-minus-zero', b'-0,' not in r.stdout and b'-0]' not in r.stdout and b'-0 ' not in r.stdout)
    odd = os.path.join(SCRATCH, '--report')
    shutil.copy(GOOD, odd)
    tell('report/a-file-like-an-option', run('report', '--', '--report', cwd=SCRATCH).returncode == 0)

    locales = subprocess.run(['locale', '-a'], capture_output=True, text=True).stdout.split()
    other = next((x for x in locales if x.lower().startswith(('de_', 'fr_', 'nl_')) and 'utf' in x.lower()), None)
    same = run('report', BAD, locale=other).stdout == r.stdout if other else True
    tell('report/same-bytes-in-%s%s' % (other or 'another-locale', '' if other else ' # SKIP no such locale here'), same)
    tell('report/same-bytes-in-the-C-locale', run('report', BAD, locale='C').stdout == r.stdout)
    if os.path.exists('/dev/full'):
        with open('/dev/full', 'wb') as full:
            env = dict(os.environ, LC_ALL='C.UTF-8')
            for words in (['report', GOOD], ['check', GOOD], ['check', '--json', GOOD]):
                a = subprocess.run([CLI, *words], stdout=full, stderr=subprocess.PIPE, env=env, timeout=60)
                tell('full-disk/%s' % ' '.join(words[:-1]), a.returncode == 2 and one_line(a), None)


def files():
    with open(GOOD, 'rb') as f:
        whole = f.read()

    def file(name, content):
        path = os.path.join(SCRATCH, name)
        with open(path, 'wb') as f:
            f.write(content)
        return path

    for command in ('check', 'report'):
        refused('%s/missing' % command, run(command, '/no/such/card.creasecard'), '/no/such/card.creasecard')
        refused('%s/a-folder' % command, run(command, SCRATCH), SCRATCH)
        refused('%s/empty' % command, run(command, file('empty', b'')), 'empty')
        refused('%s/cut-short' % command, run(command, file('short', whole[:len(whole) // 2])), 'short')
        refused('%s/not-text' % command, run(command, file('noise', bytes(range(256)) * 8)), 'noise')
        refused('%s/not-a-design' % command, run(command, file('other', b'{"format": "a shopping list"}')), 'other', 'format')
        refused('%s/newer' % command, run(command, file('newer', whole.replace(b'"version": 1', b'"version": 99'))), 'newer')
        wrong = whole.replace(b'"5 1/2 in"', b'"5 1/2 inched"', 1)
        refused('%s/names-the-place' % command, run(command, file('wrong', wrong)), 'wrong', 'pieces[0].outline[0]')
        refused('%s/deep' % command, run(command, file('deep', b'[' * 100000)), 'deep')
    huge = os.path.join(SCRATCH, 'huge')
    with open(huge, 'wb') as f:
        f.truncate(3 << 30)
    refused('check/huge', run('check', huge), 'huge')
    os.unlink(huge)
    locked = file('locked', whole)
    os.chmod(locked, 0)
    if os.access(locked, os.R_OK):
        tell('check/not-allowed # SKIP this user may read everything', True)
    else:
        refused('check/not-allowed', run('check', locked), 'locked')
    a = run('check', file('spaces and ümlauts.creasecard', whole))
    tell('check/odd-names', a.returncode == 0 and 'spaces and ümlauts'.encode() in a.stdout, a)


def points(path):
    """Width and height of a picture in points (1/72 in): SVG in pt, PDF user space (ISO 32000), PNG at two pixels a point."""
    with open(path, 'rb') as f:
        data = f.read()
    if path.endswith('.png'):
        return tuple(int.from_bytes(data[i:i + 4], 'big') / 2 for i in (16, 20))
    if path.endswith('.svg'):
        return tuple(float(x) for x in re.search(rb'<svg[^>]* width="([\d.]+)pt" height="([\d.]+)pt"', data).groups())
    return tuple(float(x) for x in re.search(rb'/MediaBox *\[ *0 0 ([\d.]+) ([\d.]+)', data).groups())


def pictures():
    sizes = []
    for end in ('svg', 'pdf', 'png'):
        out = os.path.join(SCRATCH, 'flat.' + end)
        a = run('show', GOOD, '--flat', '-o', out)
        tell('show/flat-%s' % end, a.returncode == 0 and a.stdout == b'' and a.stderr == b'' and os.path.getsize(out) > 2000, a)
        sizes.append(points(out))
    tell('show/one-size-in-every-kind', all(abs(a - b) < 0.51 for s in sizes for a, b in zip(s, sizes[0])))
    # The sheet of this card is 8 1/2 x 5 1/2 in: at true size the outline's corners lie 612 and 396 points apart.
    with open(os.path.join(SCRATCH, 'flat.svg'), encoding='utf-8') as f:
        paths = re.findall(r'<path[^>]* d="([^"]*)"', f.read())
    boxes = []
    for path in paths:
        xy = [float(x) for x in re.findall(r'-?[\d.]+', path)]
        boxes.append((max(xy[0::2]) - min(xy[0::2]), max(xy[1::2]) - min(xy[1::2])) if len(xy) >= 8 else (0, 0))
    sheet = {tuple(sorted((w, h))) for w, h in boxes}
    width, height = SHEET
    tell('show/true-size', any(abs(a - height * 72) < 0.02 and abs(b - width * 72) < 0.02 for a, b in sheet))

    out = os.path.join(SCRATCH, 'card.svg')
    for words in ([], ['--state', 'close'], ['--state', 'close', '--fraction', '0.5', '--from', 'front'], ['--from', 'back']):
        a = run('show', GOOD, *words, '-o', out)
        tell('show/card %s' % ' '.join(words), a.returncode == 0 and a.stderr == b'', a)
    plain = os.path.join(SCRATCH, 'plain.svg')
    shaded = os.path.join(SCRATCH, 'shaded.svg')
    for name, words in (('flat', ['--flat']), ('card', ['--state', 'close', '--from', 'front'])):
        a, b = run('show', GOOD, *words, '-o', plain), run('show', GOOD, *words, '--glue', '-o', shaded)
        tell('show/glue %s' % name, a.returncode == b.returncode == 0 and b.stderr == b''
             and os.path.getsize(shaded) > os.path.getsize(plain) + 500, b)
    a = run('show', '--flat', GOOD, '-o', out)
    tell('show/flat-before-the-file', a.returncode == 0, a)
    a = run('show', BAD, '-o', out)
    tell('show/an-error-found', a.returncode == 1, a)

    with open(out, 'rb') as f:
        before = f.read()
    refused('show/no-output', run('show', GOOD), '-o')
    refused('show/no-such-kind', run('show', GOOD, '-o', os.path.join(SCRATCH, 'card.bmp')), 'card.bmp')
    refused('show/no-such-step', run('show', GOOD, '--state', 'fly', '-o', out), 'fly')
    refused('show/no-such-piece', run('show', GOOD, '--flat', 'wing', '-o', out), 'wing')
    refused('show/no-such-side', run('show', GOOD, '--from', 'above', '-o', out), 'above')
    refused('show/fraction-too-large', run('show', GOOD, '--state', 'close', '--fraction', '1.5', '-o', out), '--fraction')
    refused('show/flat-and-state', run('show', GOOD, '--flat', '--state', 'close', '-o', out), '--flat')
    refused('show/missing', run('show', '/no/such/card.creasecard', '-o', out), '/no/such/card.creasecard')
    refused('show/nowhere', run('show', GOOD, '-o', os.path.join(SCRATCH, 'none', 'card.svg')), 'card.svg')
    with open(out, 'rb') as f:
        tell('show/refused-leaves-the-old-picture', f.read() == before)


with tempfile.TemporaryDirectory() as SCRATCH:
    calls()
    answers()
    files()
    pictures()
print('1..%d' % number)
