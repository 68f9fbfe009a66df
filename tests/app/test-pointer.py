#!/usr/bin/python3
"""A card made with nothing but the pointer and a few keys, in the real program with real input events.

From an empty sheet: the spine, a cornered slit, the slanted score between its ends, the card pulled shut; saved, undone to
the same bytes, done again. Told over TAP. Usage: gui-session.sh -- test-pointer.py PROGRAM [FOLDER FOR PICTURES]
"""
# SPDX-License-Identifier: GPL-3.0-or-later
import json
import os
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from gui import App, sh  # noqa: E402

PROGRAM = sys.argv[1]
PICTURES = sys.argv[2] if len(sys.argv) > 2 else None
WIDTH, HEIGHT = 11.0, 5.5
EMPTY = {
    'format': 'creasewright design', 'version': 1, 'title': 'Drawn by hand',
    'measure': {'unit': 'in', 'snap': '1/16 in', 'hand': '1/32 in', 'give': '1/32 in'},
    'papers': [{'id': 'card', 'name': 'Oat card', 'caliper': '0.3 mm', 'front': '#e8d9b8', 'back': '#e8d9b8'}],
    'pieces': [{'id': 'base', 'name': 'Card base', 'paper': 'card', 'ground': True,
                'outline': [['0 in', '0 in'], ['11 in', '0 in'], ['11 in', '5 1/2 in'], ['0 in', '5 1/2 in']],
                'marks': []}],
    'glue': [], 'steps': [],
}
count = 0
failed = 0


def tell(name, good, more=''):
    global count, failed
    count += 1
    failed += not good
    print('%sok %d %s' % ('' if good else 'not ', count, name))
    if not good and more:
        print('# %s' % more)
    sys.stdout.flush()


def picture(name):
    if PICTURES:
        time.sleep(0.3)
        a.shot(os.path.join(PICTURES, name + '.png'))


def at(x, y):
    """Pixels from the sheet's top left corner of a place in inches."""
    box = a._box(a.find('Sheet', role='image'))
    return x * box[2] / WIDTH, y * box[3] / HEIGHT


def sheet_drag(start, end, mods=()):
    a.drag('Sheet', at(*start), at(*end), role='image', mods=mods, hold=0.05)
    time.sleep(0.3)


def sheet_click(x, y, times=1):
    a.click('Sheet', at=at(x, y), role='image', times=times)
    time.sleep(0.45)  # two clicks nearer in time would be a double click


def read():
    with open(path, encoding='utf-8') as f:
        return f.read()


def saved(condition):
    """Saves and reads the file until it says so."""
    a.key('ctrl+s')
    a.expect(lambda: condition(json.loads(read())), timeout=5, what='the file to say so')
    return json.loads(read())


def marks(design):
    return design['pieces'][0]['marks']


def try_to(name, act):
    try:
        act()
        tell(name, True)
    except Exception as e:  # a step that fails is told, the next is tried all the same
        tell(name, False, str(e).replace('\n', ' '))


def draw_spine():
    a.key('s')
    sheet_drag((5.5, 0.02), (5.53, 5.47))
    design = saved(lambda d: len(marks(d)) == 1)
    assert marks(design)[0]['kind'] == 'score'
    assert marks(design)[0]['line'] == [['5 1/2 in', '0 in'], ['5 1/2 in', '5 1/2 in']], marks(design)[0]
    assert any(s['do'] == 'fold' for s in design['steps']), 'a new score brings its fold step'


def draw_slit():
    a.key('c')
    sheet_click(7, 1.5)
    sheet_click(9, 1.52)
    a.move('Sheet', at(9.02, 3), role='image')
    picture('2-slit-under-way')
    sheet_click(9.02, 3.5)
    a.key('Return')
    design = saved(lambda d: len(marks(d)) == 2)
    assert marks(design)[1]['kind'] == 'cut'
    assert marks(design)[1]['line'] == [['7 in', '1 1/2 in'], ['9 in', '1 1/2 in'], ['9 in', '3 1/2 in']], marks(design)[1]


def see_offer():
    a.find('This corner can flip: score it')
    picture('3-offer')
    a.click('No')


def draw_slant():
    a.key('s')
    sheet_drag((7.03, 1.47), (9.03, 3.53))
    design = saved(lambda d: len(marks(d)) == 3)
    assert marks(design)[2]['line'] == [['7 in', '1 1/2 in'], ['9 in', '3 1/2 in']], marks(design)[2]
    a.key('Escape')


def free_slant():
    """With Shift a line nearly upright stays as it is drawn."""
    a.key('s')
    sheet_drag((2, 1), (2.125, 4), mods=('shift',))
    design = saved(lambda d: len(marks(d)) == 4)
    assert marks(design)[3]['line'] == [['2 in', '1 in'], ['2 1/8 in', '4 in']], marks(design)[3]
    a.key('ctrl+z')
    a.key('Escape')
    a.key('Escape')
    saved(lambda d: len(marks(d)) == 3)


def move_and_turn():
    """The spine goes half an inch to the left by the hand and a sixteenth back by the key, and folds the other way."""
    way = marks(json.loads(read()))[0]['fold']
    sheet_drag((5.5, 5), (5.01, 5.03))
    design = saved(lambda d: marks(d)[0]['line'][0][0] == '5 in')
    assert marks(design)[0]['line'] == [['5 in', '0 in'], ['5 in', '5 1/2 in']], marks(design)[0]
    a.key('Right')
    a.key('t')
    design = saved(lambda d: marks(d)[0]['fold'] != way)
    assert marks(design)[0]['line'][0] == ['5 1/16 in', '0 in'], marks(design)[0]
    for _ in range(3):
        a.key('ctrl+z')
    a.key('Escape')
    saved(lambda d: marks(d)[0]['line'][0][0] == '5 1/2 in' and marks(d)[0]['fold'] == way)


def stays_on_paper():
    """A score pushed off the sheet stops at its edge."""
    sheet_drag((5.5, 5), (-1, 5.02))
    design = saved(lambda d: marks(d)[0]['line'][0][0] != '5 1/2 in')
    assert marks(design)[0]['line'] == [['0 in', '0 in'], ['0 in', '5 1/2 in']], marks(design)[0]
    a.key('ctrl+z')
    a.key('Escape')
    saved(lambda d: marks(d)[0]['line'][0][0] == '5 1/2 in')


def pull_shut():
    box = a._box(a.find('Card', role='image'))
    before = a.description('Card', role='image')
    # The left panel: the right one has the corner, and the larger part of the card stays still.
    start = (box[2] * 0.2, box[3] * 0.55)
    a.drag('Card', start, (box[2] * 0.62, box[3] * 0.33), role='image', steps=40, hold=0.3)
    picture('5-pulled')
    after = a.description('Card', role='image')
    assert after != before, after


def items():
    for n in ('Score', 'Cut'):
        assert [i for i in a.all(role='list item') if i.name.startswith(n)], n + ' can be reached'


def undo_all():
    for _ in range(12):
        a.key('ctrl+z')
        time.sleep(0.05)
    a.key('ctrl+s')
    a.expect(lambda: read() == start_text, timeout=5, what='the first bytes')


def redo_all():
    for _ in range(12):
        a.key('ctrl+shift+z')
        time.sleep(0.05)
    a.key('ctrl+s')
    a.expect(lambda: read() == drawn_text, timeout=5, what='the drawn bytes')


with tempfile.TemporaryDirectory() as folder:
    path = os.path.join(folder, 'drawn.creasecard')
    with open(path, 'w', encoding='utf-8') as f:
        json.dump(EMPTY, f)
    with App([PROGRAM, path], log=os.path.join(folder, 'log')) as a:
        a.find('Sheet', role='image')
        time.sleep(0.5)
        # The first bytes are the program's own: draw and undo, then save.
        a.click('Sheet', at=at(1, 5), role='image')
        a.key('s')
        sheet_drag((2, 0), (2, 5.5))
        a.key('ctrl+s')
        a.key('ctrl+z')
        saved(lambda d: not marks(d))
        start_text = read()
        picture('0-empty')
        try_to('the spine by press, drag and release', draw_spine)
        picture('1-spine')
        try_to('a cornered slit by clicks', draw_slit)
        try_to('the corner is offered to flip', see_offer)
        try_to('a slanted score between the ends of the slit', draw_slant)
        picture('4-drawn')
        drawn_text = read()
        try_to('every mark can be reached', items)
        try_to('the card pulled shut', pull_shut)
        try_to('everything undone gives the first bytes', undo_all)
        try_to('everything redone gives the drawn bytes', redo_all)
        try_to('Shift leaves a slant alone', free_slant)
        try_to('a mark moved by hand and key, and turned over', move_and_turn)
        try_to('a mark pushed off the sheet stops at its edge', stays_on_paper)
        picture('6-edge')
    with App([PROGRAM, path], log=os.path.join(folder, 'log')) as a:
        a.find('Sheet', role='image')
        try_to('opened again it has its marks', items)
        picture('7-again')
print('1..%d' % count)
sys.exit(1 if failed else 0)
