#!/usr/bin/python3
"""Counts passed, failed and skipped tests from meson's JSON test logs.

count-tests.py FAILED-STAGES LOG.json...   A TAP test counts each of its points, any other test counts as one. A TAP
program that broke off or failed without a failing point counts as one failure; so does each failed stage (a build that
broke). The last line is 'N passed, N failed[, N skipped]'; the exit status is 0 only when nothing failed and something ran.
"""
import json
import re
import sys

POINT = re.compile(r'^(not )?ok\b(.*)$')


def main():
    stages = int(sys.argv[1])
    passed = failed = skipped = 0
    for path in sys.argv[2:]:
        for line in open(path, encoding='utf-8'):
            test = json.loads(line)
            ok = test['result'] in ('OK', 'EXPECTEDFAIL', 'SKIP')
            points = [POINT.match(x) for x in (test.get('stdout') or '').splitlines()]
            points = [p for p in points if p]
            bad = sum(1 for p in points if p.group(1) and '# TODO' not in p.group(2))
            skip = sum(1 for p in points if not p.group(1) and '# SKIP' in p.group(2).upper())
            if not points:
                passed += test['result'] in ('OK', 'EXPECTEDFAIL')
                skipped += test['result'] == 'SKIP'
            else:
                passed += len(points) - bad - skip
                skipped += skip
            failed += bad
            if not ok and not bad:
                failed += 1
            if not ok:
                print('failed: %s (%s, %s)' % (test['name'], test['result'], path.rsplit('/', 1)[-1]))
    if stages:
        print('a stage did not build or run: see above')
        failed += 1
    line = '%d passed, %d failed' % (passed, failed)
    if skipped:
        line += ', %d skipped' % skipped
    print(line)
    sys.exit(0 if passed and not failed else 1)


main()
