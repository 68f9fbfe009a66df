"""Reads designs' lengths and asks the program for reports, for the checks that are scripts."""
import json
import os
import subprocess
import tempfile

PER_INCH = 8128
UNITS = {'in': PER_INCH, 'mm': 320, 'cm': 3200}


def ticks(text, unit):
    """Length text as ticks; only the simple forms the cards use."""
    words = text.replace('-', ' -').split()
    if words[-1] in UNITS:
        unit = words.pop()
    total, sign = 0.0, 1
    for w in words:
        if w.startswith('-'):
            sign, w = -1, w[1:]
        if w:
            total += float(w.split('/')[0]) / float(w.split('/')[1]) if '/' in w else float(w)
    return round(sign * total * UNITS[unit])


def report(cli, design):
    """The report on a design, misses of the hand left out, or nothing and what was said."""
    with tempfile.NamedTemporaryFile('w', suffix='.creasecard', delete=False) as f:
        json.dump(design, f)
    run = subprocess.run([cli, 'report', '--quick', f.name], capture_output=True, text=True, timeout=120)
    os.unlink(f.name)
    if run.returncode not in (0, 1):
        return None, run.stderr.strip()
    return json.loads(run.stdout), None
