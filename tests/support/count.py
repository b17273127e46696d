#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""count.py JUNIT: the closing line of tests/run.sh: every test case, not every test program."""
import json
import os
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
# Meson 1.0 writes a program that ran out of time into that file as if it had passed.
log = os.path.join(os.path.dirname(sys.argv[1]), "testlog.json")
with open(log, encoding="utf-8") as lines:
    late = sum(json.loads(line)["result"] in ("TIMEOUT", "INTERRUPT") for line in lines)
passed -= late
failed += late
print(f"{passed} passed, {failed} failed, {skipped} skipped")
