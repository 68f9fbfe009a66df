"""What all runs of the whole program under a real pointer and keyboard have in common: told over TAP, skipped where there is
no display or the accessibility tools are missing, pictures on the way.

A test is started as gui-session.sh -- test-NAME.py PROGRAM [FOLDER FOR PICTURES]; the folder may also be named by the
environment: SCREENSHOTS.
"""
import contextlib
import os
import sys
import tempfile
import time

os.environ['GTK_A11Y'] = 'atspi'          # meson's other window tests use the test back end
if not os.environ.get('DISPLAY'):
    print('1..0 # SKIP no display')
    sys.exit(0)
try:
    from gui import App, plain_name
except ImportError as e:
    print('1..0 # SKIP %s' % e)
    sys.exit(0)

NAME = os.path.basename(sys.argv[0])[len('test-'):-len('.py')]
PROGRAM = sys.argv[1]
SHOTS = sys.argv[2] if len(sys.argv) > 2 else os.environ.get('SCREENSHOTS')
TOOL = os.environ.get('CREASEWRIGHT_CLI')
DATA = os.environ.setdefault('CREASEWRIGHT_DATA', os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', '..', 'data'))
FOLDER = tempfile.mkdtemp(prefix='creasewright-e2e.')
STATE = os.environ['XDG_STATE_HOME'] = os.path.join(FOLDER, 'state')
number = 0


def ok(what):
    global number
    number += 1
    print('ok %d - %s' % (number, what), flush=True)


def shot(app, name):
    if SHOTS:
        os.makedirs(SHOTS, exist_ok=True)
        time.sleep(0.5)
        app.shot(os.path.join(SHOTS, '%s-%s.png' % (NAME, name)))


@contextlib.contextmanager
def program(*arguments):
    """The program while it runs; it must not have complained."""
    log = os.path.join(FOLDER, 'program.log')
    with App([PROGRAM, *arguments], title=None if arguments else 'Creasewright', log=log) as app:
        try:
            yield app
        except BaseException:
            shot(app, 'failed')
            raise
    with open(log) as f:
        bad = [line for line in f if 'CRITICAL' in line or 'WARNING' in line and 'AT-SPI' not in line]
    assert not bad, bad


def tell(test):
    try:
        test()
    except BaseException as e:
        print('not ok %d - %s: %s' % (number + 1, e.__class__.__name__, str(e).replace('\n', ' ')))
        print('1..%d' % (number + 1))
        return
    print('1..%d' % number)


# --- what stands in the window -------------------------------------------------------------------------------------

def items(app, *starts):
    return [n for n in app.all(role='list item') if plain_name(n.name).startswith(starts)]


def steps(app):
    """Names of the step cards, in order."""
    return [plain_name(n.name) for n in items(app, 'Step ')]


def current(app):
    """The step card that is looked at."""
    return next((plain_name(n.name) for n in items(app, 'Step ', 'The flat sheet') if app.has(n, 'selected')), None)


def marks(app):
    return [plain_name(n.name) for n in items(app, 'Score ', 'Cut ', 'Window ')]


def said(app, part):
    """Whether this is to be read anywhere."""
    return any(part in (n.name or '') for n in app.all())


# --- what a maker does ---------------------------------------------------------------------------------------------

def new_sheet(app, size='8 1/2 x 5 1/2 in'):
    app.fill('Size of the sheet', size)
    app.key('Return')
    app.expect(lambda: app.find('Measure line', wait=False), what='the table')


def type_line(app, line):
    app.fill('Measure line', line)
    app.key('Return')
    app.expect(lambda: app.text('Measure line') == '', what='the measure line is taken: ' + line)


def choose_file(app, title, path, over=True):
    """Types a whole path into a file chooser, over what stands there."""
    app.expect(lambda: app.active_title() == title, what='the file chooser')
    time.sleep(0.5)
    if over:
        app.key('ctrl+a')
    app.type(path)
    time.sleep(0.3)
    app.key('Return')
