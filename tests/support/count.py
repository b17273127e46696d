#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""count.py JUNIT: the closing line of tests/run.sh: every test case, not every test program."""
import sys
import xml.etree.ElementTree as tree

passed = failed = skipped = 0
for case in tree.parse(sys.argv[1]).getroot().iter("testcase"):
    if case.find("failure") is not None or case.find("error") is not None:
        failed += 1
    elif case.find("skipped") is not None:
        skipped += 1
    else:
        passed += 1
print(f"{passed} passed, {failed} failed, {skipped} skipped")
