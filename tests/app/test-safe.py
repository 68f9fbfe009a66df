#!/usr/bin/python3
"""Nothing is lost: the program is killed in the middle of a card, the disk is full, the file read-only, or another program
writes it; each told in one sentence on the table.

"""
import os
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from e2e import FOLDER, STATE, choose_file, marks, new_sheet, ok, program, said, shot, tell, type_line  # noqa: E402

KEPT = os.path.join(STATE, 'creasewright', 'unsaved')
CARD = os.path.join(FOLDER, 'lantern.creasecard')


def kept():
    return sorted(f for f in os.listdir(KEPT) if f.endswith('.creasecard')) if os.path.isdir(KEPT) else []


def is_saved(app):
    return any(n.name == 'Saved' for n in app.all(role='status bar'))


def answer(app, words):
    app.find(words, role='push button')
    time.sleep(0.4)                       # it slides in
    app.click(words, role='push button')  # found anew: a question asked again has new buttons


def killed():
    """Saved once, drawn on, killed: the drawing is still there, and so is the file it belongs to."""
    with program() as app:
        new_sheet(app)
        type_line(app, 'score 4 1/4')
        app.key('ctrl+s')
        choose_file(app, 'Save the card', CARD)
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

    with program() as app:
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

    with program(CARD) as app:
        app.expect(lambda: len(marks(app)) == 2, what='the card')
        assert not app.all('Bring it back')
        app.key('ctrl+q')
        assert app.wait_exit() == 0
    ok('what was saved is not offered again')


def hurdles():
    with program(CARD) as app:
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
        choose_file(app, 'Save the card', other)
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
    killed()
    hurdles()


tell(main)
