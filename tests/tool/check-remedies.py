#!/usr/bin/python3
"""Whether the remedies of a report do what they say: every patch is applied to the design and the card is asked again.

check-remedies.py CREASEWRIGHT-CLI CARDS-FOLDER

The patches are JSON Patch (RFC 6902) with JSON Pointers (RFC 6901), applied here by those documents: `add` puts an item
before the place in a list or sets a key, `replace` and `remove` need the place to be there. Told over TAP.
"""
# SPDX-License-Identifier: GPL-3.0-or-later
import copy
import glob
import json
import os
import subprocess
import sys
import tempfile

CLI, CARDS = (os.path.abspath(x) for x in sys.argv[1:3])
SCRATCH = tempfile.mkdtemp()
count = 0


def tell(name, bad):
    global count
    count += 1
    print('%s %d %s' % ('not ok' if bad else 'ok', count, name))
    for line in bad[:4]:
        print('#', line)
    sys.stdout.flush()


def report(path, *words):
    answer = subprocess.run([CLI, 'report', *words, path], capture_output=True)
    assert answer.returncode in (0, 1) and not answer.stderr, answer
    return json.loads(answer.stdout)


def keys(pointer):
    """RFC 6901, section 4: ~1 is read before ~0."""
    assert pointer == '' or pointer[0] == '/'
    return [k.replace('~1', '/').replace('~0', '~') for k in pointer.split('/')[1:]]


def apply(design, patch):
    for operation in patch:
        *way, last = keys(operation['path'])
        at = design
        for key in way:
            at = at[int(key)] if isinstance(at, list) else at[key]
        if isinstance(at, list):
            last = int(last)
            if operation['op'] == 'add':
                assert last <= len(at)
                at.insert(last, operation['value'])
                continue
        if operation['op'] == 'remove':
            del at[last]
        elif operation['op'] == 'replace':
            at[last]
            at[last] = operation['value']
        else:
            assert operation['op'] == 'add'
            at[last] = operation['value']
    return design


def same(a, b):
    return a['code'] == b['code'] and a['pieces'] == b['pieces'] and a.get('marks') == b.get('marks') and a.get('step') == b.get('step')


n_patches = 0
for path in sorted(glob.glob(os.path.join(CARDS, '*.creasecard'))):
    name = os.path.basename(path)[:-len('.creasecard')]
    plain, known = report(path), report(path, '--remedies')
    if not plain['findings']:
        continue
    bad = []
    if any('remedies' in f for f in plain['findings']) or not all('remedies' in f for f in known['findings']):
        bad.append('remedies are told when they are asked for')
    if [{k: v for k, v in f.items() if k != 'remedies'} for f in known['findings']] != plain['findings']:
        bad.append('asking for remedies changes what is found')
    with open(path, encoding='utf-8') as f:
        design = json.load(f)
    for key in ('glue', 'steps'):  # a patch is for the design as the program writes it, which has these in any case
        design.setdefault(key, [])
    for finding in known['findings']:
        for k, remedy in enumerate(finding['remedies']):
            n_patches += 1
            out = os.path.join(SCRATCH, 'card.creasecard')
            try:
                mended = apply(copy.deepcopy(design), remedy['changes'])
            except (KeyError, IndexError, AssertionError) as error:
                bad.append('%s: %s does not apply: %r' % (finding['code'], remedy['changes'], error))
                continue
            with open(out, 'w', encoding='utf-8') as f:
                json.dump(mended, f)
            after = report(out)
            if not remedy['text'] or not remedy['changes']:
                bad.append('%s: a remedy without words or changes' % finding['code'])
            if sum(same(f, finding) for f in after['findings']) >= sum(same(f, finding) for f in plain['findings']):
                bad.append('%s is still there after “%s”' % (finding['code'], remedy['text']))
    tell('remedies/' + name, bad)
tell('remedies/there-are-some', [] if n_patches >= 20 else ['only %d' % n_patches])
print('1..%d' % count)
