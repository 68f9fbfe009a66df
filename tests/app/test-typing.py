#!/usr/bin/python3
"""One path through the program as a person walks it: a new card typed and folded, saved, closed, opened again.
"""
import os
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from e2e import DATA, FOLDER, TOOL, choose_file, current, marks, new_sheet, ok, program, shot, steps, tell  # noqa: E402
from e2e import type_line  # noqa: E402
from gui import plain_name, sh  # noqa: E402

CARD = os.path.join(FOLDER, 'lantern.creasecard')
GATE = os.path.join(DATA, 'samples', 'gate-fold.creasecard')


def window_of(app):
    for n in app.acc:
        if n.getRoleName() == 'frame':
            return plain_name(n.name)


def make(app):
    shot(app, '01-start')
    new_sheet(app)
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


def save(app):
    app.key('ctrl+s')
    choose_file(app, 'Save the card', CARD)
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
    app.key('ctrl+shift+s')
    choose_file(app, 'Save the card', copy)
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
    with program() as app:
        make(app)
        measure(app)
        fold(app)
        save(app)
        close(app)
    with program(CARD) as app:
        reopen(app)
    with program(GATE) as app:
        reorder(app)
    if TOOL:
        run = subprocess.run([TOOL, 'check', CARD], capture_output=True, text=True)
        assert run.returncode in (0, 1), run.stderr
        ok('the program without a window reads the same file')


tell(main)
