#!/usr/bin/python3
"""Nothing is lost: the program is killed in the middle of a card, the disk is full, the file read-only, or another program
writes it; each told in one sentence on the table.

Told over TAP. Usage: gui-session.sh -- test-safe.py PROGRAM [FOLDER FOR PICTURES]
Skips where there is no display or the accessibility tools are missing.
"""
import os
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
HERE = os.path.dirname(os.path.abspath(__file__))
os.environ.setdefault('CREASEWRIGHT_DATA', os.path.join(HERE, '..', '..', 'data'))
FOLDER = tempfile.mkdtemp(prefix='creasewright-e2e.')
STATE = os.path.join(FOLDER, 'state')
os.environ['XDG_STATE_HOME'] = STATE
KEPT = os.path.join(STATE, 'creasewright', 'unsaved')
CARD = os.path.join(FOLDER, 'lantern.creasecard')
number = 0


def shot(app, name):
    if SHOTS:
        os.makedirs(SHOTS, exist_ok=True)
        time.sleep(0.5)
        app.shot(os.path.join(SHOTS, 'safe-' + name + '.png'))


def ok(what):
    global number
    number += 1
    print('ok %d - %s' % (number, what), flush=True)


def marks(app):
    return [plain_name(n.name) for n in app.all(role='list item')
            if plain_name(n.name).startswith(('Score ', 'Cut ', 'Window '))]


def said(app, part):
    """What stands in the message line or the question."""
    return any(part in (n.name or '') for n in app.all())


def type_line(app, line):
    n = len(marks(app))
    app.fill('Measure line', line)
    app.key('Return')
    app.expect(lambda: len(marks(app)) > n, what='the marks of: ' + line)


def kept():
    return sorted(f for f in os.listdir(KEPT) if f.endswith('.creasecard')) if os.path.isdir(KEPT) else []


def save_as(app, path):
    app.expect(lambda: app.active_title() == 'Save the card', what='the file chooser')
    time.sleep(0.5)
    app.key('ctrl+a')
    app.type(path)
    time.sleep(0.3)
    app.key('Return')


def is_saved(app):
    return any(n.name == 'Saved' for n in app.all(role='status bar'))


def answer(app, words):
    button = app.find(words, role='push button')
    time.sleep(0.4)                       # it slides in
    app.click(button)


def killed(log):
    """Saved once, drawn on, killed: the drawing is still there, and so is the file it belongs to."""
    with App([PROGRAM], title='Creasewright', log=log) as app:
        app.fill('Size of the sheet', '8 1/2 x 5 1/2 in')
        app.key('Return')
        app.expect(lambda: app.find('Measure line', wait=False), what='the table')
        type_line(app, 'score 4 1/4')
        app.key('ctrl+s')
        save_as(app, CARD)
        app.expect(lambda: is_saved(app), what='saved')
        assert not kept(), kept()
        with open(CARD, 'rb') as f:
            first = f.read()
        type_line(app, 'cut 2 from 1 3/4 to 3 1/8')
        app.expect(lambda: kept(), what='a copy of what is not saved')
        app.proc.kill()
        app.proc.wait()
    with open(CARD, 'rb') as f:
        assert f.read() == first
    ok('killed in the middle of a card: the file is whole, a copy of the rest is kept')

    with App([PROGRAM], title='Creasewright', log=log) as app:
        app.expect(lambda: said(app, 'was not saved when the program ended'), what='the offer')
        shot(app, '1-offer')
        answer(app, 'Bring it back')
        app.expect(lambda: len(marks(app)) == 2, what='both marks')
        app.expect(lambda: any('Changes not saved' in (n.name or '') for n in app.all(role='status bar')),
                   what='it counts as not saved')
        shot(app, '2-back')
        app.key('ctrl+s')
        app.expect(lambda: is_saved(app), what='saved where it came from')
        assert not kept(), kept()
        app.key('ctrl+q')
        assert app.wait_exit() == 0
    with open(CARD, 'rb') as f:
        assert b'cut' in f.read()
    ok('after the next start it is offered, brought back and saved where it came from')

    with App([PROGRAM, CARD], log=log) as app:
        app.expect(lambda: len(marks(app)) == 2, what='the card')
        assert not app.all('Bring it back')
        app.key('ctrl+q')
        assert app.wait_exit() == 0
    ok('what was saved is not offered again')


def hurdles(log):
    with App([PROGRAM, CARD], log=log) as app:
        app.expect(lambda: len(marks(app)) == 2, what='the card')
        with open(CARD, 'rb') as f:
            before = f.read()
        type_line(app, 'score 1')
        subprocess.run(['prlimit', '--pid', str(app.proc.pid), '--fsize=200:'], check=True)
        app.key('ctrl+s')
        app.expect(lambda: said(app, 'could not be saved'), what='a full disk is told')
        shot(app, '3-full')
        with open(CARD, 'rb') as f:
            assert f.read() == before
        assert len(marks(app)) == 3
        app.key('Escape')
        app.expect(lambda: not said(app, 'could not be saved'), what='the question is gone')
        subprocess.run(['prlimit', '--pid', str(app.proc.pid), '--fsize=unlimited:'], check=True)
        ok('a full disk is told in a sentence and leaves the old file whole')

        os.chmod(CARD, 0o444)
        app.key('ctrl+s')
        app.expect(lambda: said(app, 'can be read but not changed'), what='a read-only file is told')
        shot(app, '4-read-only')
        with open(CARD, 'rb') as f:
            assert f.read() == before
        answer(app, 'Save somewhere else…')
        other = os.path.join(FOLDER, 'other.creasecard')
        save_as(app, other)
        app.expect(lambda: os.path.exists(other) and is_saved(app), what='saved elsewhere')
        ok('a read-only file is left alone and another place is offered')

        # Another program writes it.
        with open(other, 'rb') as f:
            mine = f.read()
        with open(other, 'wb') as f:
            f.write(before)
        app.expect(lambda: said(app, 'Another program has changed the file'), what='the change is told')
        shot(app, '5-changed')
        answer(app, 'Keep what is on the table')
        app.expect(lambda: not is_saved(app), what='it counts as not saved')
        app.key('ctrl+s')
        app.expect(lambda: is_saved(app), what='saved over it, as was said')
        with open(other, 'rb') as f:
            assert f.read() == mine
        with open(other, 'wb') as f:
            f.write(before)
        answer(app, 'Open the changed file')
        app.expect(lambda: len(marks(app)) == 2, what='the other program\'s card')
        app.expect(lambda: is_saved(app), what='nothing to save')
        ok('what another program has written is told; the maker says which counts')

        os.unlink(other)
        app.expect(lambda: said(app, 'is no longer there'), what='a file that went is told')
        app.expect(lambda: not is_saved(app), what='it counts as not saved')
        app.key('ctrl+s')
        app.expect(lambda: os.path.exists(other) and is_saved(app), what='it is there again')
        app.key('ctrl+q')
        assert app.wait_exit() == 0
        ok('a file that has gone is put there again')


def main():
    log = os.path.join(FOLDER, 'program.log')
    try:
        killed(log)
        hurdles(log)
        with open(log) as f:
            bad = [line for line in f if 'CRITICAL' in line or 'WARNING' in line and 'AT-SPI' not in line]
        assert not bad, bad
    except BaseException as e:
        print('not ok %d - %s: %s' % (number + 1, e.__class__.__name__, str(e).replace('\n', ' ')))
        print('1..%d' % (number + 1))
        return
    print('1..%d' % number)


main()
