#!/usr/bin/python3
"""The published JSON Schema against design files, told over TAP. Usage: schema.py TOP

Independent of the program: Python's own JSON reader, the jsonschema package (JSON Schema, draft 2020-12) and a second
writing of the layout rules.
- every design we ship or keep as a test is valid, every y_ and n_whole_ file of the corpus too (those n_whole_ files are
  wrong only as a whole, which no schema can say);
- every n_schema_ file is JSON and is refused; every n_text_ file is refused by Python's reader or by a limit of ours;
- the golden file of a version has the layout that DEVELOPERS.md promises.
"""
import glob
import json
import os
import sys

try:
    import jsonschema
except ImportError:
    print('1..0 # SKIP python3-jsonschema is not installed')
    sys.exit(0)

TOP = os.path.abspath(sys.argv[1])
count = 0
OPEN = {1: {'papers', 'pieces', 'glue', 'steps', 'wants'}, 2: {'pieces'}, 3: {'marks', 'names', 'art'}}


def tell(name, bad):
    global count
    count += 1
    print('%sok %d %s' % ('not ' if bad else '', count, name))
    for line in bad[:20]:
        print('# ' + line)


def files(*pattern):
    return sorted(glob.glob(os.path.join(TOP, *pattern), recursive=True))


def no_twins(pairs):
    if len(dict(pairs)) < len(pairs):
        raise ValueError('a key twice')
    return dict(pairs)


def no_constant(word):
    raise ValueError(word)


def finite(word):
    number = float(word)
    if number in (float('inf'), float('-inf')):
        raise ValueError('too large')
    return number


def read(path):
    with open(path, 'rb') as f:
        text = f.read().decode('utf-8-sig')
    if '\\u0000' in text:
        raise ValueError('a zero')
    tree = json.loads(text, object_pairs_hook=no_twins, parse_constant=no_constant, parse_float=finite)
    json.dumps(tree, ensure_ascii=False).encode('utf-8')  # refuses half surrogate pairs
    if depth(tree) > 32:
        raise ValueError('too deep')
    return tree


def depth(tree):
    entries = tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else ()
    return (1 + max(map(depth, entries), default=0)) if isinstance(tree, (dict, list)) else 0


def inline(v):
    if isinstance(v, dict):
        return '{ ' + ', '.join('%s: %s' % (inline(k), inline(x)) for k, x in v.items()) + ' }' if v else '{}'
    if isinstance(v, list):
        return '[' + ', '.join(map(inline, v)) + ']'
    return json.dumps(v, ensure_ascii=False)


def lay(v, key, level, taken):
    is_open = level == 0 or key in OPEN.get(level, ())
    if not isinstance(v, (dict, list)) or not v or (not is_open and taken + len(inline(v)) < 140):
        return inline(v)
    pad = '  ' * (level + 1)
    if isinstance(v, list):
        rows = [pad + lay(x, key, level + 1, len(pad)) for x in v]
    else:
        heads = [pad + inline(k) + ': ' for k in v]
        rows = [h + lay(v[k], k, level + 1, len(h)) for k, h in zip(v, heads)]
    ends = '{}' if isinstance(v, dict) else '[]'
    return ends[0] + '\n' + ',\n'.join(rows) + '\n' + '  ' * level + ends[1]


with open(os.path.join(TOP, 'data', 'creasecard.schema.json'), encoding='utf-8') as schema_file:
    schema = json.load(schema_file)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)


def faults(paths, valid):
    bad = []
    for path in paths:
        errors = list(validator.iter_errors(read(path)))
        if valid != (not errors):
            why = errors[0].json_path + ': ' + errors[0].message[:150] if errors else 'found valid'
            bad.append('%s: %s' % (os.path.basename(path), why))
    return bad if paths else ['no such files']


corpus = os.path.join('tests', 'fuzz', 'design')
tell('shipped designs are valid', faults(files('data', 'samples', '*.creasecard'), True))
tell('designs kept as tests are valid', faults(files('tests', 'golden', '**', '*.creasecard'), True))
tell('corpus: what must be accepted is valid', faults(files(corpus, 'y_*'), True))
tell('corpus: what is wrong only as a whole is valid by itself', faults(files(corpus, 'n_whole_*'), True))
tell('corpus: what is wrong by itself is refused', faults(files(corpus, 'n_schema_*'), False))

bad = []
for path in files(corpus, 'n_text_*'):
    try:
        read(path)
        bad.append(os.path.basename(path))
    except (ValueError, RecursionError):
        pass
tell('corpus: what is no JSON is none to another reader either', bad)

bad = []
for path in files('tests', 'golden', 'versions', '*.creasecard'):
    with open(path, encoding='utf-8') as f:
        if lay(read(path), None, 0, 0) + '\n' != f.read():
            bad.append(os.path.basename(path))
tell('layout: two spaces, one line where it fits', bad)

golden = json.dumps(read(os.path.join(TOP, 'tests', 'golden', 'versions', 'v1.creasecard')))
named = set()


def collect(part):
    if isinstance(part, dict):
        named.update(part.get('properties', {}))
        for x in part.values():
            collect(x)
    elif isinstance(part, list):
        for x in part:
            collect(x)


collect(schema)
tell('the golden file uses every key of the schema', sorted(k for k in named if '"%s":' % k not in golden))
print('1..%d' % count)
