#!/usr/bin/python3
"""The slips at the side of the table under a real pointer and keyboard: a step made by hand, its marks chosen by clicking
them and its end by how far it is pulled; pieces, an outline from a picture; what must show, said of a clicked panel.

Told over TAP. Usage: gui-session.sh -- test-desk.py PROGRAM [FOLDER FOR PICTURES]
"""
import os
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from e2e import FOLDER, choose_file, current, items, new_sheet, ok, program, said, shot, steps, tell, type_line  # noqa: E402
from gui import plain_name  # noqa: E402

PICTURE = os.path.join(FOLDER, 'buoy.svg')


def step(app):
    type_line(app, 'score 4 1/4')
    type_line(app, 'score 2')
    app.key('Escape')
    app.press('Add step')
    time.sleep(0.5)
    app.key('Return')                                   # the first kind: fold
    app.expect(lambda: current(app).startswith('Step 1: Fold'), what='the new step')
    time.sleep(0.6)                                     # the slip slides in
    app.expect(lambda: len(items(app, 'Score ')) == 2, what='both scores')
    angle = 'How far s2 is folded, in degrees'
    if not app.all(angle):
        app.click(next(n for n in items(app, 'Score ') if ' 2 in' in plain_name(n.name)))
    app.expect(lambda: app.text(angle) == '180°', what='the clicked score is in the step')
    shot(app, '1-chosen')
    ok('a score goes into a step by a click on it')

    slider = app.find('How far this step is done')
    box = app._box(slider)
    app.click(slider, at=(box[2] // 2, box[3] // 2))
    app.expect(lambda: 40 < app.value('How far this step is done') < 60, what='half way')
    half = app.value('How far this step is done')
    app.press('End this step here')
    app.expect(lambda: app.text(angle) == '%d°' % round(1.8 * half), what='the end of the step')
    ok('a step ends where it is pulled to')

    app.fill('Name of this step', 'Raise the flap')
    app.key('ctrl+z')
    app.expect(lambda: app.text('Name of this step') != 'Raise the flap', what='typing taken back')
    assert app.text(angle) == '%d°' % round(1.8 * half)
    app.fill('Name of this step', 'Raise the flap')
    app.key('Return')
    app.expect(lambda: 'Step 1: Raise the flap' in steps(app), what='the name')
    app.key('ctrl+z')
    app.expect(lambda: 'Step 1: Raise the flap' not in steps(app), what='the name taken back')
    app.key('ctrl+shift+z')
    app.expect(lambda: 'Step 1: Raise the flap' in steps(app), what='the name again')
    ok('undo in a field takes back typing, then the design')

    time.sleep(0.6)                                     # the strip is made anew, with what was found out
    app.click(items(app, 'Step 1')[0])
    app.expect(lambda: current(app).startswith('Step 1'), what='the first step')
    time.sleep(0.5)
    app.key('Page_Down')
    app.expect(lambda: current(app).startswith('Step 2'), what='the second')
    app.key('Page_Down')
    app.expect(lambda: current(app).startswith('Step 3'), what='the third')
    time.sleep(0.5)
    app.key('Page_Up')
    app.expect(lambda: current(app).startswith('Step 2'), what='back again')
    ok('Page Up and Page Down on a step go one back and on')


def pieces(app):
    with open(PICTURE, 'w', encoding='utf-8') as f:
        f.write("<svg xmlns='http://www.w3.org/2000/svg' width='60mm' height='60mm' viewBox='0 0 60 60'>"
                "<circle cx='30' cy='30' r='25'/></svg>")
    app.key('F6')
    time.sleep(0.6)
    app.press('From a picture…')
    choose_file(app, 'Take an outline from a picture', PICTURE, over=False)
    app.expect(lambda: app.text('Name', role='text') == 'buoy', what='the new piece')
    app.press('Lay it on the card')
    app.expect(lambda: any('Stick buoy down' in s for s in steps(app)), what='its step')
    shot(app, '2-buoy')
    with open(PICTURE, 'w', encoding='utf-8') as f:
        f.write('<svg><path d="M0 0L')
    app.press('From a picture…')
    choose_file(app, 'Take an outline from a picture', PICTURE, over=False)
    app.expect(lambda: said(app, 'could not be taken as an outline'), what='the reason')
    ok('a piece has the outline of a picture; a broken picture is told in a sentence')


def wants(app):
    app.key('F7')
    time.sleep(0.6)
    app.fill('Width of the closed card', '4 1/4')
    app.key('Tab')
    app.fill('Height of the closed card', '5 1/2')
    app.key('Return')
    app.expect(lambda: app.text('Height of the closed card') == '5 1/2 in', what='the size')
    app.click(items(app, 'Panel 1')[0])
    choice = app.expect(lambda: [n for n in app.all('When closed') if n.getRoleName() == 'combo box'],
                        what='what is wanted of the panel')[0]
    time.sleep(0.3)
    app.click(choice)
    time.sleep(0.5)
    app.key('Down')
    time.sleep(0.2)
    app.key('Return')
    app.expect(lambda: said(app, 'must not show in front, when closed'), what='it stands in the list')
    shot(app, '3-wants')
    ok('a clicked panel must not show')


def main():
    with program() as app:
        new_sheet(app)
        step(app)
        pieces(app)
        wants(app)


tell(main)
