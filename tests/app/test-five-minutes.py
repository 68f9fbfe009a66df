#!/usr/bin/python3
"""The five-minute task: a flip card with a layer and a glue zone, from an empty sheet, counted.

Every click, drag, key and typed text is one action: at most 30 may be needed (the design's own promise), with no step
added by hand. All words that stand on the screen or are told to a screen reader on the way are looked at: none may be
one of the words of files and code that the design's table of words keeps from the maker, nor the trade's two words for
fold directions, which half of it uses the other way round.

Told over TAP. Usage: gui-session.sh -- test-five-minutes.py PROGRAM [FOLDER FOR PICTURES]
"""
import json
import os
import re
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
os.environ['GTK_A11Y'] = 'atspi'
if not os.environ.get('DISPLAY'):
    print('1..0 # SKIP no display')
    sys.exit(0)
try:
    from gui import App, plain_name
except ImportError as e:
    print('1..0 # SKIP %s' % e)
    sys.exit(0)

PROGRAM = sys.argv[1]
SHOTS = sys.argv[2] if len(sys.argv) > 2 else os.environ.get('SCREENSHOTS')
TOOL = os.environ.get('CREASEWRIGHT_CLI')
HERE = os.path.dirname(os.path.abspath(__file__))
os.environ.setdefault('CREASEWRIGHT_DATA', os.path.join(HERE, '..', '..', 'data'))
FOLDER = tempfile.mkdtemp(prefix='creasewright-e2e.')
os.environ['XDG_STATE_HOME'] = os.path.join(FOLDER, 'state')
CARD = os.path.join(FOLDER, 'flip.creasecard')
MOST = 30
# screens.md, "Words on screen and page", left column, and what drawing programs and programmers say.
NOT_FOR_MAKERS = {
    'valley', 'mountain', 'hinge', 'hinges', 'freedom', 'caliper', 'polygon', 'parametric', 'vertex', 'vertices', 'node',
    'nodes', 'parameter', 'parameters', 'json', 'bond', 'bonds', 'linkage', 'residual', 'rad', 'radians', 'ticks', 'tick',
    'canvas', 'viewport', 'boolean', 'null', 'toggle', 'entity', 'object', 'instance', 'kinematic', 'dof', 'cells',
    'misfit', 'polyline', 'coordinates', 'solver', 'constraint', 'constraints',
}
number = 0
actions = []
words = set()


def ok(what):
    global number
    number += 1
    print('ok %d - %s' % (number, what), flush=True)


def look(app):
    """Takes in all that is to be read or heard just now."""
    for n in app.all():
        for text in (n.name, n.description):
            for word in re.findall(r"[A-Za-z][A-Za-z'’-]*", text or ''):
                if not word.startswith('Gtk') and not word.startswith('Cw'):   # a widget without a name of its own
                    words.add(word.lower())


def shot(app, name):
    if SHOTS:
        os.makedirs(SHOTS, exist_ok=True)
        time.sleep(0.5)
        app.shot(os.path.join(SHOTS, 'five-%02d-%s.png' % (len(actions), name)))


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


def items(app, *starts):
    return [n for n in app.all(role='list item') if plain_name(n.name).startswith(starts)]


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
    log = os.path.join(FOLDER, 'program.log')
    try:
        with App([PROGRAM], title='Creasewright', log=log) as app:
            look(app)
            try:
                make(app)
                app.key('ctrl+q')
                assert app.wait_exit() == 0
            except BaseException:
                shot(app, 'failed')
                raise
        judge()
        with open(log) as f:
            bad = [line for line in f if 'CRITICAL' in line or 'WARNING' in line and 'AT-SPI' not in line]
        assert not bad, bad
    except BaseException as e:
        print('not ok %d - %s: %s' % (number + 1, e.__class__.__name__, str(e).replace('\n', ' ')))
        print('1..%d' % (number + 1))
        return
    print('1..%d' % number)


main()
