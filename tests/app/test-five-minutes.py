#!/usr/bin/python3
"""The five-minute task: a flip card with a layer and a glue zone, from an empty sheet, counted.

Every click, drag, key and typed text is one action: at most 30 may be needed (the design's own promise), with no step
added by hand. All words that stand on the screen or are told to a screen reader on the way are looked at: none may be
one of the words of files and code that the design's table of words keeps from the maker, nor the trade's two words for
fold directions, which half of it uses the other way round.
"""
import json
import os
import re
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from e2e import FOLDER, TOOL, items, ok, program, shot, tell  # noqa: E402
from gui import plain_name  # noqa: E402

CARD = os.path.join(FOLDER, 'flip.creasecard')
MOST = 30
# screens.md, "Words on screen and page", left column, and what drawing programs and programmers say.
NOT_FOR_MAKERS = {
    'valley', 'mountain', 'hinge', 'hinges', 'freedom', 'caliper', 'polygon', 'parametric', 'vertex', 'vertices', 'node',
    'nodes', 'parameter', 'parameters', 'json', 'bond', 'bonds', 'linkage', 'residual', 'rad', 'radians', 'ticks', 'tick',
    'canvas', 'viewport', 'boolean', 'null', 'toggle', 'entity', 'object', 'instance', 'kinematic', 'dof', 'cells',
    'misfit', 'polyline', 'coordinates', 'solver', 'constraint', 'constraints',
}
actions = []
words = set()


def look(app):
    """Takes in all that is to be read or heard just now."""
    for n in app.all():
        for text in (n.name, n.description):
            for word in re.findall(r"[A-Za-z][A-Za-z'’-]*", text or ''):
                if not word.startswith('Gtk') and not word.startswith('Cw'):   # a widget without a name of its own
                    words.add(word.lower())


def did(app, what):
    actions.append(what)
    time.sleep(0.5)
    look(app)


def click(app, what, at=None, role=None, button=1):
    app.click(what, at=at, role=role, button=button)
    did(app, 'click %s' % (what if isinstance(what, str) else plain_name(what.name)))


def key(app, name):
    app.key(name)
    did(app, 'key ' + name)


def write(app, text):
    app.type(text)
    did(app, 'type ' + text)


def make(app):
    click(app, next(n for n in app.all(role='push button') if (n.name or '').startswith('8 1/2 x 5 1/2 in')))
    app.expect(lambda: app.find('Measure line', wait=False), what='the table')
    shot(app, 'sheet')
    write(app, 'score 4 1/4')                     # the bare sheet waits for a measure
    key(app, 'Return')
    app.expect(lambda: items(app, 'Score '), what='the spine')
    write(app, 'cut from 5 1/4, 1 to 7 1/4, 1 to 7 1/4, 3')
    key(app, 'Return')
    app.expect(lambda: items(app, 'Cut '), what='the slit')
    shot(app, 'slit')
    app.expect(lambda: app.find('This corner can flip: score it', wait=False), what='the offer')
    click(app, 'This corner can flip: score it')
    app.expect(lambda: len(items(app, 'Score ')) == 2, what='the crease')
    shot(app, 'flip')
    ok('a flip card: a spine, a slit, and the crease that is offered')

    panel = app.expect(lambda: items(app, 'Panel ')[0], what='the panels')
    click(app, panel)
    shot(app, 'panel')
    key(app, 'shift+F10')
    click(app, 'Lay a layer here')
    shot(app, 'menu')
    click(app, 'A rim of 1/8 in')
    app.expect(lambda: any('Stick' in plain_name(n.name) for n in items(app, 'Step ')), what='the layer is stuck on')
    shot(app, 'layer')
    ok('a layer with a rim, stuck on with its glue')

    key(app, 'F5')                                # see it move
    time.sleep(4)
    look(app)
    key(app, 'ctrl+s')
    app.expect(lambda: app.active_title() == 'Save the card', what='the file chooser')
    time.sleep(0.5)
    app.key('ctrl+a')                             # this test's own folder, not the maker's
    write(app, CARD)
    key(app, 'Return')
    app.expect(lambda: os.path.exists(CARD), what='the file')
    shot(app, 'saved')
    ok('looked at and saved')


def judge():
    with open(CARD, encoding='utf-8') as f:
        design = json.load(f)
    did_ = [s['do'] for s in design['steps']]
    assert did_.count('fold') >= 3 and 'stick' in did_, did_         # flip, close, open; the layer
    assert {s.get('rest') for s in design['steps']} >= {'closed', 'open'}
    assert len(design['pieces']) == 2 and len(design['glue']) >= 1
    ok('%d steps, none added by hand' % len(did_))
    assert len(actions) <= MOST, actions
    ok('%d actions of at most %d' % (len(actions), MOST))
    bad = sorted(words & NOT_FOR_MAKERS)
    assert len(words) > 150 and not bad, bad or len(words)
    ok('%d different words, none that a maker would have to look up' % len(words))
    if TOOL:
        run = subprocess.run([TOOL, 'check', CARD], capture_output=True, text=True)
        assert run.returncode == 0, run.stdout + run.stderr
        ok('nothing is wrong with the card')


def main():
    with program() as app:
        look(app)
        make(app)
        app.key('ctrl+q')
        assert app.wait_exit() == 0
    judge()


tell(main)
