#!/usr/bin/python3
"""Step cards for the web as other programs read them. Told over TAP.

check-web.py CREASEWRIGHT-CLI SAMPLES

Rules of the HTML Living Standard (WHATWG) that can be checked without a browser: doctype, language, nesting, content of
lists and tables, unique ids; read by Python's html.parser and, being XML-compatible, by its XML reader; by HTML Tidy where
it is installed. WCAG 2.2: text alternatives (1.1.1), headings in order (1.3.1), language of the page (3.1.1), contrast of the
colours of the style sheet (1.4.3), nothing to fetch. What is said is what `steps --text` says, in the same order.
"""
import base64
import glob
import html
import html.parser
import json
import os
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ET
import zlib

CLI, SAMPLES = (os.path.abspath(x) for x in sys.argv[1:3])
number = 0


def tell(name, bad):
    global number
    number += 1
    print('%sok %d /tool/web/%s' % ('not ' if bad else '', number, name))
    for line in list(bad)[:8]:
        print('# %s' % (line,))


def run(*words):
    env = {k: v for k, v in os.environ.items() if k not in ('DISPLAY', 'LANGUAGE', 'LANG', 'SOURCE_DATE_EPOCH')}
    env['LC_ALL'] = 'C.UTF-8'
    return subprocess.run(words, capture_output=True, env=env, timeout=60)


VOID = {'meta', 'img'}
PARENTS = {'li': {'ul', 'ol'}, 'tr': {'thead', 'tbody'}, 'th': {'tr'}, 'td': {'tr'}, 'thead': {'table'}, 'tbody': {'table'},
           'dt': {'dl'}, 'dd': {'dl'}, 'figcaption': {'figure'}, 'title': {'head'}, 'meta': {'head'}, 'style': {'head'},
           'head': {'html'}, 'body': {'html'}, 'main': {'body'}}
KNOWN = set(PARENTS) | {'html', 'ul', 'ol', 'table', 'dl', 'figure', 'img', 'p', 'h1', 'h2', 'h3', 'section', 'strong'}
NOT_IN_P = {'p', 'ul', 'ol', 'table', 'dl', 'figure', 'section', 'h1', 'h2', 'h3'}


class Reader(html.parser.HTMLParser):
    def __init__(self):
        super().__init__(convert_charrefs=True)
        self.open, self.bad, self.ids, self.headings, self.images, self.said, self.lang, self.doctype = [], [], [], [], [], [], None, None

    def handle_decl(self, decl):
        self.doctype = decl

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag not in KNOWN:
            self.bad.append('<%s> is not expected' % tag)
        parent = self.open[-1] if self.open else None
        if tag in PARENTS and parent not in PARENTS[tag]:
            self.bad.append('<%s> in <%s>' % (tag, parent))
        if parent in ('ul', 'ol') and tag != 'li':
            self.bad.append('<%s> in a list' % tag)
        if 'p' in self.open and tag in NOT_IN_P:
            self.bad.append('<%s> in a paragraph' % tag)
        if tag == 'html':
            self.lang = attrs.get('lang')
        if 'id' in attrs:
            self.ids.append(attrs['id'])
        if tag in ('h1', 'h2', 'h3'):
            self.headings.append(int(tag[1]))
        if tag == 'img':
            self.images.append(attrs)
        for key, value in attrs.items():
            if key in ('src', 'href') and not value.startswith('data:image/'):
                self.bad.append('fetches ' + value)
            if key.startswith('on'):
                self.bad.append('a script in ' + key)
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag):
        if tag in VOID:
            return
        if not self.open or self.open[-1] != tag:
            self.bad.append('</%s> closes <%s>' % (tag, self.open[-1:]))
        else:
            self.open.pop()

    def handle_data(self, data):
        if data.strip() and 'style' not in self.open and 'title' not in self.open:
            self.said.append(data)


def luminance(colour):
    """WCAG 2.2, definition of relative luminance."""
    c = colour.lstrip('#')
    c = ''.join(x * 2 for x in c) if len(c) == 3 else c
    v = [int(c[i:i + 2], 16) / 255 for i in (0, 2, 4)]
    v = [x / 12.92 if x <= 0.04045 else ((x + 0.055) / 1.055) ** 2.4 for x in v]
    return 0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2]


def contrast(a, b):
    a, b = sorted((luminance(a), luminance(b)))
    return (b + 0.05) / (a + 0.05)


def squeeze(text):
    return re.sub(r'\s+', ' ', text).strip()


def check(path, out, more=()):
    answer = run(CLI, 'steps', path, '-o', out)
    if answer.returncode not in (0, 1) or answer.stdout or answer.stderr:
        return [answer]
    with open(out, encoding='utf-8') as f:
        page = f.read()
    reader = Reader()
    reader.feed(page)
    reader.close()
    bad = list(reader.bad)
    if reader.doctype is None or reader.doctype.lower() != 'doctype html':
        bad.append('doctype: %s' % reader.doctype)
    if reader.lang != 'en':
        bad.append('language: %s' % reader.lang)
    if reader.open:
        bad.append('left open: %s' % reader.open)
    if len(set(reader.ids)) != len(reader.ids):
        bad.append('an id is there twice')
    if reader.headings.count(1) != 1 or reader.headings[0] != 1:
        bad.append('headings: %s' % reader.headings)
    if any(b > a + 1 for a, b in zip(reader.headings, reader.headings[1:])):
        bad.append('a level of headings is left out: %s' % reader.headings)
    for image in reader.images:
        if not image.get('alt', '').strip():
            bad.append('a picture without words')
        kind, packed = image['src'][5:].split(';base64,')
        data = base64.b64decode(packed, validate=True)
        if kind == 'image/svg+xml':
            root = ET.fromstring(data)
            if root.tag != '{http://www.w3.org/2000/svg}svg' or not root.get('width', '').endswith('pt'):
                bad.append('not an SVG of true size')
            # 96 CSS pixels are 72 points (CSS Values and Units 4, 6.2).
            if abs(float(root.get('width')[:-2]) * 96 / 72 - float(image['width'])) > 1:
                bad.append('drawn at another size')
    try:
        ET.fromstring(page)
    except ET.ParseError as error:
        bad.append('as XML: %s' % error)
    if shutil.which('tidy'):
        tidy = subprocess.run(['tidy', '-q', '-e', out], capture_output=True)
        bad += tidy.stderr.decode().split('\n')[:4] if tidy.returncode else []
    sheet = re.search(r'<style>(.*?)</style>', page, re.S).group(1)
    ink, ground = re.search(r'body\{[^}]*[;{]color:(#\w+);background:(#\w+)', sheet).groups()
    if contrast(ink, ground) < 4.5:
        bad.append('ink %s on %s' % (ink, ground))
    for line in re.findall(r'solid (#\w+)', sheet):
        if contrast(line, ground) < 3:
            bad.append('a line %s on %s' % (line, ground))
    # Everything the plain text says of the steps, in its order.
    said = squeeze(' '.join(reader.said)) + ' ' + squeeze(' '.join(i['alt'] for i in reader.images))
    text = run(CLI, 'steps', '--text', path).stdout.decode()
    at = 0
    for line in text[text.index('\nMake the card\n'):].split('\n'):
        line = squeeze(re.sub(r'^\s+[!?-] ', '', line))
        if not line or re.match(r'\[|- ', line):
            continue
        found = said.find(line, at)
        if found < 0:
            bad.append('not said, or not here: ' + line)
        else:
            at = found
    for words in re.findall(r'\[Picture: (.*)\]', text):
        if words not in [i['alt'] for i in reader.images]:
            bad.append('no picture is told as: ' + words)
    bad += ['not there: ' + x for x in more if x not in said]
    return bad


def png(width, height):
    """A picture of one colour (PNG, ISO/IEC 15948:2004)."""
    def chunk(kind, data):
        return struct.pack('>I', len(data)) + kind + data + struct.pack('>I', zlib.crc32(kind + data))
    rows = b''.join(b'\0' + b'\xc0\x80\x40' * width for _ in range(height))
    return (b'\x89PNG\r\n\x1a\n' + chunk(b'IHDR', struct.pack('>IIBBBBB', width, height, 8, 2, 0, 0, 0))
            + chunk(b'IDAT', zlib.compress(rows)) + chunk(b'IEND', b''))


def own(scratch, photo):
    with open(os.path.join(SAMPLES, 'half-fold.creasecard'), encoding='utf-8') as f:
        design = json.load(f)
    design['title'] = 'Reeds & "terns" <of the marsh>'
    design['author'] = 'A. Maker'
    design['supplies'] = ['a pinch of sand', {'name': 'thread', 'amount': '2 in', 'used_in': 'the bow'}]
    design['changes'] = [{'date': '2031-02-03', 'what': 'wider mat'}, 'first made']
    design['steps'][0].update(photo=photo, minutes=4, caption='Mind 3 < 4.')
    path = os.path.join(scratch, 'own.creasecard')
    with open(path, 'w', encoding='utf-8') as f:
        json.dump(design, f)
    return path


with tempfile.TemporaryDirectory() as scratch:
    out = os.path.join(scratch, 'out.html')
    for path in sorted(glob.glob(os.path.join(SAMPLES, '*.creasecard'))):
        tell('samples/' + os.path.basename(path)[:-11], check(path, out))
    os.mkdir(os.path.join(scratch, 'pictures'))
    with open(os.path.join(scratch, 'pictures', 'one.png'), 'wb') as f:
        f.write(png(3, 2))
    path = own(scratch, 'pictures/one.png')
    bad = check(path, out, ('Reeds & "terns" <of the marsh>', 'a pinch of sand', '2 in, thread, the bow', '2031-02-03: wider mat', 'first made',
                            'Mind 3 < 4.', 'about 4 minutes', 'Photograph: '))
    with open(out, encoding='utf-8') as f:
        page = f.read()
    if base64.b64encode(png(3, 2)).decode() not in page:
        bad.append('the photograph is not in the page as it is')
    if '<meta name="author" content="A. Maker"/>' not in page:
        bad.append('no author')
    tell('own-words-and-photographs', bad)
    run(CLI, 'steps', path, '-o', os.path.join(scratch, 'again.html'))
    with open(os.path.join(scratch, 'again.html'), encoding='utf-8') as f:
        tell('same-file-twice', [] if f.read() == page else ['they differ'])
    with open(os.path.join(scratch, 'words.png'), 'w') as f:
        f.write('no picture')
    for name, photo in (('missing', 'pictures/two.png'), ('no-picture', 'words.png'), ('elsewhere', '../one.png'), ('absolute', '/etc/hostname'),
                        ('address', 'file:///etc/hostname')):
        kept = os.path.join(scratch, name + '.html')
        with open(kept, 'w') as f:
            f.write('mine')
        a = run(CLI, 'steps', own(scratch, photo), '-o', kept)
        with open(kept) as f:
            tell('photographs/refused/' + name, [] if a.returncode == 2 and a.stderr.count(b'\n') == 1 and f.read() == 'mine' else [a])
    a = run(CLI, 'steps', path, '-o', out, '--large-type')
    tell('refused/large-type', [] if a.returncode == 2 and a.stderr.count(b'\n') == 1 else [a])
print('1..%d' % number)
