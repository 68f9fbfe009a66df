#!/usr/bin/python3
"""One path through the program as a person walks it: a new card typed and folded, saved, closed, opened again.

Told over TAP. Usage: gui-session.sh -- test-typing.py PROGRAM [FOLDER FOR PICTURES]
(the folder may also be named by the environment: SCREENSHOTS). Skips where there is no display or the
accessibility tools are missing.
"""
import os
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
os.environ['GTK_A11Y'] = 'atspi'          # meson's other window tests use the test back end
if not os.environ.get('DISPLAY'):
    print('1..0 # SKIP no display')
    sys.exit(0)
try:
    from gui import App, plain_name, sh
except ImportError as e:
    print('1..0 # SKIP %s' % e)
    sys.exit(0)

PROGRAM = sys.argv[1]
SHOTS = sys.argv[2] if len(sys.argv) > 2 else os.environ.get('SCREENSHOTS')
TOOL = os.environ.get('CREASEWRIGHT_CLI')
FOLDER = tempfile.mkdtemp(prefix='creasewright-e2e.')
CARD = os.path.join(FOLDER, 'lantern.creasecard')
HERE = os.path.dirname(os.path.abspath(__file__))
DATA = os.environ.setdefault('CREASEWRIGHT_DATA', os.path.join(HERE, '..', '..', 'data'))
GATE = os.path.join(DATA, 'samples', 'gate-fold.creasecard')
number = 0


def shot(app, name):
    if SHOTS:
        os.makedirs(SHOTS, exist_ok=True)
        time.sleep(0.4)
        app.shot(os.path.join(SHOTS, name + '.png'))


def ok(what):
    global number
    number += 1
    print('ok %d - %s' % (number, what), flush=True)


def steps(app):
    """Names of the step cards, in order."""
    return [plain_name(n.name) for n in app.all(role='list item') if plain_name(n.name).startswith('Step ')]


def marks(app):
    return [plain_name(n.name) for n in app.all(role='list item')
            if plain_name(n.name).startswith(('Score ', 'Cut ', 'Window '))]


def type_line(app, line):
    app.fill('Measure line', line)
    app.key('Return')
    app.expect(lambda: app.text('Measure line') == '', what='the measure line is taken: ' + line)


def current(app):
    for n in app.all(role='list item'):
        if app.has(n, 'selected') and (plain_name(n.name).startswith('Step ') or plain_name(n.name) == 'The flat sheet'):
            return plain_name(n.name)


def window_of(app):
    for n in app.acc:
        if n.getRoleName() == 'frame':
            return plain_name(n.name)


def make(app):
    shot(app, '01-start')
    app.fill('Size of the sheet', '8 1/2 x 5 1/2 in')
    app.key('Return')
    app.expect(lambda: app.find('Measure line', wait=False), what='the table')
    shot(app, '02-blank')
    ok('a new card from a typed size')

    app.fill('Measure line', 'score 9')
    app.expect(lambda: app.all(role='status bar') and any('off the piece' in (n.name or '') for n in app.all(role='status bar')),
               what='what is wrong is said while typing')
    ok('a measure that cannot be is said in words before Enter')

    app.fill('Measure line', 'score 4 1/4')
    app.expect(lambda: any('Enter adds' in (n.name or '') for n in app.all(role='status bar')), what='preview in words')
    shot(app, '03-preview')
    app.key('Return')
    app.expect(lambda: any(s.startswith('Score') and '4 1/4' in s for s in marks(app)), what='the score on the sheet')
    app.expect(lambda: any('Fold the card shut' in s for s in steps(app)), what='its fold step')
    shot(app, '04-score')
    ok('a typed score brings its fold step')

    type_line(app, 'cut 2 from 1 3/4 to 3 1/8')
    app.expect(lambda: any(s.startswith('Cut') for s in marks(app)), what='the cut on the sheet')
    shot(app, '05-cut')
    ok('a typed cut lies on the sheet')

    app.fill('Measure line', 'score 1')
    app.key('ctrl+z')
    app.expect(lambda: app.text('Measure line') != 'score 1', what='undo of typing')
    app.expect(lambda: any(s.startswith('Cut') for s in marks(app)), what='the cut is still there')
    app.fill('Measure line', 'x')
    app.key('Escape')
    app.key('ctrl+z')
    app.expect(lambda: not any(s.startswith('Cut') for s in marks(app)), what='undo of the cut')
    app.key('ctrl+shift+z')
    app.expect(lambda: any(s.startswith('Cut') for s in marks(app)), what='redo of the cut')
    ok('undo takes back typing first, then the design')


def measure(app):
    cut = next(n for n in app.all(role='list item') if plain_name(n.name).startswith('Cut '))
    app.click(cut)
    app.expect(lambda: app.find('Where the mark ends', wait=False), what='the measures of the cut')
    app.fill('Where the mark ends', '4 in')
    app.key('Return')
    app.expect(lambda: any(s.startswith('Cut') and '4 in' in s for s in marks(app)), what='the cut reaches 4 in')
    app.key('Up')
    app.expect(lambda: app.text('Where the mark ends') == '4 1/16 in', what='one step of the maker\'s marks')
    shot(app, '06-measures')
    ok('a selected mark is changed by its measures, and steps by 1/16')


def fold(app):
    first = next(s for s in steps(app) if s.startswith('Step 1'))
    app.click(first)
    app.expect(lambda: current(app) == first, what='the first step is current')
    app.expect(lambda: app.value('How far this step is done') == 100, what='the fold is done')
    shot(app, '07-folded')
    app.key('Page_Up')
    app.expect(lambda: current(app) == 'The flat sheet', what='back to the flat sheet')
    app.press('Play')
    app.expect(lambda: current(app) == steps(app)[-1] and app.value('How far this step is done') == 100, timeout=30,
               what='played to the end')
    ok('picking a step up folds the card; playing runs to the end')

    app.click(first, times=2)
    app.expect(lambda: app.find('Name of this step', role='text', wait=False), what='the entry for a name')
    time.sleep(0.3)
    app.key('ctrl+a')
    app.type('Fold in half')
    app.key('Return')
    app.expect(lambda: 'Step 1: Fold in half' in steps(app), what='the new name')
    ok('a step is renamed')


def save_as(app, keys, path):
    """Asks for the file chooser and types a whole path into it."""
    app.key(keys)
    app.expect(lambda: app.active_title() == 'Save the card', what='the file chooser')
    time.sleep(0.5)                       # it takes keys a little later than it is shown
    app.key('ctrl+a')
    app.type(path)
    time.sleep(0.3)
    app.key('Return')


def save(app):
    save_as(app, 'ctrl+s', CARD)
    app.expect(lambda: os.path.exists(CARD), what='the file')
    app.expect(lambda: any(n.name == 'Saved' for n in app.all(role='status bar')), what='the title says it is saved')
    shot(app, '08-saved')
    ok('saved')


def close(app):
    app.key('ctrl+w')
    assert app.wait_exit() == 0
    ok('closed, with nothing to ask')


def reopen(app):
    with open(CARD, 'rb') as f:
        before = f.read()
    app.expect(lambda: len(steps(app)) >= 2 and 'Step 1: Fold in half' in steps(app), what='the steps again')
    app.expect(lambda: len(marks(app)) == 2, what='the marks again')
    shot(app, '09-reopened')
    app.press('Menu')
    time.sleep(0.4)
    app.key('Escape')
    time.sleep(0.2)
    # a change and its undo leave the same design; save as writes the same bytes beside it
    type_line(app, 'score 1')
    app.key('ctrl+z')
    app.expect(lambda: len(marks(app)) == 2, what='the undone score')
    copy = os.path.join(FOLDER, 'copy.creasecard')
    save_as(app, 'ctrl+shift+s', copy)
    app.expect(lambda: os.path.exists(copy), what='the copy')
    with open(copy, 'rb') as f:
        assert f.read() == before
    ok('reopened; saved again to the same bytes')

    type_line(app, 'score 1')
    app.key('ctrl+w')
    app.expect(lambda: app.find('Save first', role='push button', wait=False), what='the question about changes')
    shot(app, '10-asked')
    app.click('Throw changes away')
    assert app.wait_exit() == 0
    with open(copy, 'rb') as f:
        assert f.read() == before
    ok('unsaved changes are asked about and thrown away only when told so')


def reorder(app):
    app.expect(lambda: len(steps(app)) > 2, what='the sample')
    names = lambda: [s.split(': ', 1)[1] for s in steps(app)]
    before = names()
    swapped = [before[1], before[0]] + before[2:]
    for _ in range(40):                   # the beginning of the row comes into sight
        if current(app) == 'The flat sheet':
            break
        app.key('Page_Up')
        time.sleep(0.3)
    time.sleep(1)                         # and to rest
    first, second = app.place(steps(app)[0]), app.place(steps(app)[1])
    hand = ['xdotool', 'mousemove', *first, 'mousedown', 1]
    for i in range(1, 16):
        hand += ['mousemove', round(first[0] + (second[0] - first[0]) * i / 15), first[1], 'sleep', 0.02]
    sh(*hand, 'sleep', 0.3, 'mouseup', 1)
    app.expect(lambda: names() == swapped, what='the steps in another order')
    shot(app, '11-reordered')
    app.key('ctrl+z')
    app.expect(lambda: names() == before, what='the old order')
    app.click(steps(app)[1])
    app.key('alt+Left')
    app.expect(lambda: names() == swapped, what='the other order by keys')
    # With nothing to mend the findings are folded away by themselves; the key folds them out, and away again.
    shown = app.has(app.find('Findings', role='push button'), 'pressed')
    app.key('F9')
    app.expect(lambda: app.has(app.find('Findings', role='push button'), 'pressed') != shown,
               what='the findings the other way')
    app.key('ctrl+z')
    app.expect(lambda: names() == before, what='the old order again')
    ok('steps are put in another order by hand and by keys, and undone')


def main():
    log = os.path.join(FOLDER, 'program.log')
    try:
        with App([PROGRAM], title='Creasewright', log=log) as app:
            try:
                make(app)
                measure(app)
                fold(app)
                save(app)
                close(app)
            except BaseException:
                shot(app, 'failed')
                raise
        with App([PROGRAM, CARD], log=log) as app:
            try:
                reopen(app)
            except BaseException:
                shot(app, 'failed')
                raise
        with App([PROGRAM, GATE], log=log) as app:
            try:
                reorder(app)
            except BaseException:
                shot(app, 'failed')
                raise
        with open(log) as f:
            bad = [line for line in f if 'CRITICAL' in line or 'WARNING' in line and 'AT-SPI' not in line]
        assert not bad, bad
        if TOOL:
            run = subprocess.run([TOOL, 'check', CARD], capture_output=True, text=True)
            assert run.returncode in (0, 1), run.stderr
            ok('the program without a window reads the same file')
    except BaseException as e:
        print('not ok %d - %s: %s' % (number + 1, e.__class__.__name__, str(e).replace('\n', ' ')))
        print('1..%d' % (number + 1))
        return
    print('1..%d' % number)


main()
