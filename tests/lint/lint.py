#!/usr/bin/python3
"""House rules that a machine can hold, told over TAP. Usage: lint.py TOP [BUILD]"""
import os
import re
import subprocess
import sys

TOP = os.path.abspath(sys.argv[1])
ROOMS = ['units', 'geometry', 'design', 'panel', 'fold', 'contact', 'glue', 'sight', 'trim', 'check', 'prepare', 'make', 'text', 'start']
VISIBLE = {'README.md', 'DEVELOPERS.md', 'meson.build', 'src', 'data', 'ui', 'tests', 'po', 'LICENSE'}
count = 0
failed = 0


def tell(name, bad):
    global count, failed
    count += 1
    failed += bool(bad)
    print('%sok %d %s' % ('not ' if bad else '', count, name))
    for line in list(bad)[:20]:
        print('# ' + line)


def tracked():
    run = subprocess.run(['git', '-C', TOP, 'ls-files', '-co', '--exclude-standard'], capture_output=True, text=True)
    if run.returncode == 0 and run.stdout:
        return sorted(f for f in run.stdout.split('\n') if f and os.path.exists(os.path.join(TOP, f)))
    found = []
    for folder, folders, files in os.walk(TOP):
        folders[:] = [d for d in folders if not d.startswith('.') and not d.startswith('build')]
        found += [os.path.relpath(os.path.join(folder, f), TOP) for f in files]
    return sorted(found)


FILES = tracked()
CODE = [f for f in FILES if f.endswith(('.c', '.h'))]
OURS = [f for f in CODE if f.startswith('src/')]


def text(path):
    with open(os.path.join(TOP, path), encoding='utf-8', errors='replace') as f:
        return f.read()


def strip_comments(code):
    return re.sub(r'/\*.*?\*/|//[^\n]*', lambda m: '\n' * m.group(0).count('\n'), code, flags=re.S)


def top_level():
    seen = {f.split('/')[0] for f in FILES if not f.startswith('.')}
    tell('top level holds exactly what was agreed', sorted(seen ^ VISIBLE))


def formatted():
    bad = []
    for i in range(0, len(CODE), 40):
        run = subprocess.run(['clang-format', '--dry-run', '-Werror', '--style=file'] + CODE[i:i + 40], cwd=TOP,
                             capture_output=True, text=True)
        bad += sorted({m.group(1) for m in re.finditer(r'^(\S+?):\d+:\d+: error', run.stderr, re.M)})
    tell('code is as clang-format leaves it', bad)


def lengths():
    tell('no source file over 800 lines', ['%s: %d' % (f, text(f).count('\n')) for f in OURS if text(f).count('\n') > 800])
    bad = []
    for f in OURS:
        if text(f).count('\n') > 500 and 'over 500 lines' not in text(f)[:2500].lower():
            bad.append('%s: %d lines, and no reason ("Over 500 lines because ...") at its top' % (f, text(f).count('\n')))
    tell('a file over 500 lines says why', bad)


def licences():
    tell('every source names its licence', [f for f in CODE if 'SPDX-License-Identifier: GPL-3.0-or-later' not in text(f)[:3000]])


def borders():
    bad = []
    for f in OURS:
        for header in re.findall(r'#\s*include\s*[<"]([^>"]+)[>"]', text(f)):
            kernel = f.startswith('src/kernel/')
            if kernel and re.match(r'(gtk|gdk|gsk|cairo|pango)', header):
                bad.append('%s includes %s' % (f, header))
            if f.startswith('src/draw/') and re.match(r'(gtk|gdk|gsk)', header):
                bad.append('%s includes %s' % (f, header))
            if f.startswith('src/tool/') and re.match(r'(gtk|gdk|gsk)/', header):
                bad.append('%s includes %s' % (f, header))
            if (header == 'geos_c.h' and not f.endswith('/cw-engine.h')) or (
                    header.endswith('/cw-engine.h') and not f.endswith(('/cw-engine.c', '/cw-region.c', '/cw-edges.c', '/cw-edge-index.c', '/cw-edge-index.h'))):
                bad.append('%s includes %s' % (f, header))
            if kernel and '/' in header and header.split('/')[0] in ROOMS:
                room = f.split('/')[2]
                if ROOMS.index(header.split('/')[0]) > ROOMS.index(room):
                    bad.append('%s (%s) includes %s: rooms point one way' % (f, room, header))
            if header.endswith('-private.h') and os.path.dirname(header) not in ('', f.split('/')[2] if kernel else ''):
                bad.append('%s includes another room\'s %s' % (f, header))
    tell('arrows point one way', bad)


def globals_():
    bad = []
    for f in OURS:
        if not f.startswith('src/kernel/') or not f.endswith('.c'):
            continue
        for n, line in enumerate(strip_comments(text(f)).split('\n'), 1):
            if re.match(r'static\s+(?!const\b|inline\b)[A-Za-z_][\w \*]*\b\w+(\[[^\]]*\])*\s*(=|;)', line) and '(' not in line.split('=')[0]:
                bad.append('%s:%d: %s' % (f, n, line.strip()))
    tell('the kernel keeps no globals', bad)


def small_numbers():
    bad = []
    for f in OURS:
        if not f.startswith('src/kernel/') or f.endswith('cw-tolerance.h') or f.endswith('cw-house.h'):
            continue
        for n, line in enumerate(strip_comments(text(f)).split('\n'), 1):
            if re.search(r'\b\d+(\.\d*)?[eE]-\d+|\b0\.0+\d', line):
                bad.append('%s:%d: %s' % (f, n, line.strip()))
    tell('every tolerance has a name in cw-tolerance.h', bad)


def words():
    bad = []
    for f in FILES:
        if f.startswith(('src/', 'ui/', 'data/', 'po/')) and not f.endswith(('.png',)):
            for n, line in enumerate(text(f).split('\n'), 1):
                if re.search(r'"[^"]*\b(valley|mountain)\b[^"]*"|>[^<]*\b(valley|mountain)\b', line, re.I) and 'refused word' not in line:
                    bad.append('%s:%d' % (f, n))
    tell('toward and away, never the words with two meanings', bad)
    bad = []
    for f in FILES:
        if f.endswith(('.png', '.pdf')) or f == 'tests/lint/lint.py':
            continue
        for n, line in enumerate(text(f).split('\n'), 1):
            if re.search(r'(^|[^A-Za-z0-9_.])/(work|farm|root)/', line):
                bad.append('%s:%d' % (f, n))
    tell('no path of one machine', bad)


def translations():
    listed = {x for x in text('po/POTFILES.in').split('\n') if x and not x.startswith('#')}
    bad = []
    for f in FILES:
        marked = False
        if f.startswith('src/') and f.endswith('.c'):
            marked = re.search(r'(?<![A-Za-z_])(_|N_|C_|NC_|ngettext) \(\s*"', strip_comments(text(f)))
        elif f.startswith('ui/') and f.endswith('.ui'):
            marked = 'translatable="yes"' in text(f)
        elif f.startswith('data/') and f.endswith(('.desktop.in', '.metainfo.xml.in', '.gschema.xml')):
            marked = True
        if marked and f not in listed:
            bad.append(f + ' has words to translate and is not in po/POTFILES.in')
    bad += [f + ' is in po/POTFILES.in and not in the tree' for f in listed if f not in FILES]
    order = [x for x in text('po/POTFILES.in').split('\n') if x and not x.startswith('#')]
    if order != sorted(order):
        bad.append('po/POTFILES.in is not sorted')
    tell('all words can be translated: POTFILES', bad)
    bad = []
    for f in FILES:
        if f.startswith('ui/') and f.endswith('.ui'):
            for n, line in enumerate(text(f).split('\n'), 1):
                if re.search(r'<property name="(label|title|tooltip-text|placeholder-text|tooltip-markup)">[^<]*[A-Za-z]', line):
                    bad.append('%s:%d: %s' % (f, n, line.strip()))
                if re.search(r'<attribute name="label">', line):
                    bad.append('%s:%d: %s' % (f, n, line.strip()))
    tell('all words can be translated: templates', bad)


def resources():
    listing = text('ui/creasewright.gresource.xml')
    bad = [f for f in FILES if f.startswith('ui/') and f.endswith(('.ui', '.css', '.svg')) and os.path.relpath(f, 'ui') not in listing]
    tell('every template is in the resource list', bad)


def docs():
    bad = []
    for f in OURS:
        if not f.endswith('.c') or '/app/' in f:
            continue
        code = text(f)
        for m in re.finditer(r'^[A-Za-z_][\w \*]*\n(cw_\w+) \(', code, re.M):
            before = code[:m.start()].rstrip()
            if not before.endswith('*/') or '/**' not in before[before.rfind('/*'):][:4]:
                bad.append('%s: %s' % (f, m.group(1)))
    tell('every public function of kernel and drawing says what it does', bad)


for check in (top_level, formatted, lengths, licences, borders, globals_, small_numbers, words, translations, resources, docs):
    check()
print('1..%d' % count)
sys.exit(0)
