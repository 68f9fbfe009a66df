#!/usr/bin/python3
"""The step cards page as a person uses it: words changed by keyboard, sheet and type chosen, saved, printed to a file.

What comes out is read back by poppler. Sizes: ANSI letter, ISO 216:2007 (A5).
"""
import os
import shutil
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), '..', 'support'))
from e2e import DATA, FOLDER, choose_file, ok, program, shot, tell  # noqa: E402
from gui import plain_name  # noqa: E402

CARD = shutil.copy(os.path.join(DATA, 'samples', 'half-fold.creasecard'), os.path.join(FOLDER, 'note.creasecard'))


def read(*words):
    return subprocess.run(words, capture_output=True, text=True, check=True).stdout


def place(app):
    """What the bar says: 'Page 1 of 5'."""
    return next((n.name for n in app.all(role='status bar') if (n.name or '').startswith(('Page ', 'Making'))), '')


def focused(app, node=None):
    """The name of what has the focus."""
    for n in node if node is not None else app.acc:
        if app.has(n, 'focused') and n.getRoleName() != 'frame':
            return plain_name(n.name)
        inner = focused(app, n)
        if inner is not None:
            return inner
    return None


def words(app):
    """Names of all the words on the pages that can be changed."""
    return [plain_name(n.name) for n in app.all(role='push button') if n.description == 'Change these words']


def tab_to(app, wanted, most=40):
    for _ in range(most):
        name = focused(app)
        if name is not None and wanted(name):
            return name
        app.key('Tab')
        time.sleep(0.1)
    raise AssertionError('Tab does not reach it; it stands at %r' % focused(app))


def look(app):
    app.key('alt+2')
    app.expect(lambda: place(app).startswith('Page 1 of'), timeout=30, what='the pages')
    app.expect(lambda: focused(app) == 'Lighthouse note', what='the focus is on the title')
    names = [plain_name(n.name) for n in app.all()]
    for said in ('You need', 'Make it', 'Page 1 of'):
        assert any(n.startswith(said) for n in names), said
    shot(app, '1-letter')
    ok('the second page of the window shows the pages, and their words can be heard')


def change_words(app):
    app.key('Return')
    app.expect(lambda: app.find('Title of the card', role='text', wait=False), what='the entry')
    time.sleep(0.4)
    app.key('ctrl+a')
    app.type('Harbour at night')
    app.key('Tab')
    app.type('A maker')
    shot(app, '2-words')
    app.key('Return')
    app.expect(lambda: 'Harbour at night' in words(app), timeout=30, what='the new title on the page')
    app.expect(lambda: 'By: A maker' in words(app), what='the author on the page')
    app.expect(lambda: focused(app) == 'Harbour at night', what='the focus is back')
    ok('the title of the card and its author are written by keyboard')

    step = tab_to(app, lambda name: name[:1].isdigit())
    app.key('F2')
    app.expect(lambda: app.find('Title of this step', role='text', wait=False), what='the entry of the step')
    time.sleep(0.4)
    app.key('Tab')
    app.type('Mind the lamp.')
    app.key('ctrl+Return')
    app.expect(lambda: 'Mind the lamp.' in words(app), timeout=30, what='the caption on the page')
    assert step in words(app), step
    shot(app, '3-caption')
    app.key('ctrl+z')
    app.expect(lambda: 'Mind the lamp.' not in words(app), timeout=30, what='the undone caption')
    app.key('Return')
    app.expect(lambda: app.find('Title of this step', role='text', wait=False), what='the entry of the step')
    time.sleep(0.4)
    app.key('ctrl+a')
    app.type('never')
    app.key('Escape')
    time.sleep(0.6)
    assert not any('never' in w for w in words(app))
    ok('a caption is written, taken back, and given up with Escape')


def choose(app):
    letters = int(place(app).split()[-1])
    app.click('Large type', role='check box')
    app.expect(lambda: place(app).startswith('Page') and int(place(app).split()[-1]) > letters, timeout=30,
               what='more pages in large type')
    app.click('Large type', role='check box')
    app.expect(lambda: place(app).endswith(' %d' % letters), timeout=30, what='as many as before')
    off = lambda: any('between the marks of your rule' in (n.name or '') for n in app.all(role='label'))
    assert not off()
    app.fill('Its finest mark', '3 in')   # the one score is at 5 in
    app.key('Return')
    app.expect(off, timeout=30, what='the pages for a rule with a mark every 3 inches')
    app.fill('It reaches', 'far')
    app.key('Return')
    app.expect(lambda: any('far' in (n.name or '') for n in app.all(role='alert') + app.all(role='notification')),
               what='what is wrong is said')
    app.fill('It reaches', '12 in')
    app.key('Return')
    app.press('Usual tools')
    app.expect(lambda: app.text('Its finest mark') == '', what='the usual tools')
    shot(app, '4-tools')
    ok('type and tools are chosen beside the pages')


def from_menu(app, menu, item):
    app.click(menu, role='push button')
    time.sleep(0.4)
    app.click(item, role='menu item')


def save(app, item, name, title):
    path = os.path.join(FOLDER, name)
    from_menu(app, 'Save pages', item)
    choose_file(app, title, path)
    app.expect(lambda: os.path.exists(path), timeout=30, what=path)
    return path


def files(app):
    n = int(place(app).split()[-1])
    pdf = save(app, 'Step cards as PDF…', 'cards.pdf', 'Save the step cards')
    info, said = read('pdfinfo', pdf), read('pdftotext', pdf, '-')
    assert 'Pages:           %d\n' % n in info and '612 x 792 pts' in info, info
    assert 'Harbour at night' in said and 'Creasewright' in said and 'A maker' in said
    shot(app, '5-saved')
    svg = save(app, 'Templates as SVG…', 'templates.svg', 'Save the templates')
    with open(svg, encoding='utf-8') as f:
        text = f.read()
    assert 'score-toward' in text and 'mm"' in text[:400]
    template = save(app, 'Templates as PDF…', 'templates.pdf', 'Save the templates')
    assert '100 %' in read('pdftotext', template, '-')
    ok('step cards and templates are saved and read back')


def inside(node, name, role):
    for n in node:
        found = n if plain_name(n.name) == name and n.getRoleName() == role else inside(n, name, role)
        if found is not None:
            return found
    return None


def to_paper(app):
    app.key('ctrl+p')
    app.expect(lambda: app.xwindow('Print'), what='the print dialog')
    time.sleep(1)
    app.click('Print to File')
    time.sleep(0.5)
    shot(app, '6-print')
    dialog = next(n for n in app.acc if plain_name(n.name) == 'Print')
    app.click(inside(dialog, 'Print', 'push button'))
    path = os.path.join(FOLDER, 'Harbour at night.pdf')   # beside the card, named for it
    app.expect(lambda: os.path.exists(path), timeout=30, what='the printed file')
    time.sleep(1)
    info = read('pdfinfo', path)
    assert '612 x 792 pts' in info, info
    assert read('pdftotext', '-bbox', path, '-').count('<word') == \
        read('pdftotext', '-bbox', os.path.join(FOLDER, 'cards.pdf'), '-').count('<word')
    ok('the print dialog prints the pages at their own size')


def main():
    with program(CARD) as app:
        app.expect(lambda: app.find('Measure line', wait=False), what='the table')
        look(app)
        change_words(app)
        choose(app)
        files(app)
        to_paper(app)
        app.key('alt+1')
        app.expect(lambda: app.find('Measure line', wait=False), what='the table again')
        app.key('ctrl+w')
        app.expect(lambda: app.find('Throw changes away', role='push button', wait=False), what='the question')
        app.click('Throw changes away')
        assert app.wait_exit() == 0
    ok('closed without a complaint')


tell(main)
