# SPDX-License-Identifier: GPL-3.0-or-later
"""What scripts beside this one share: the program is called, what is wrong is told and counted."""
import os
import subprocess
import sys

CLI = os.path.abspath(sys.argv[1])
wrong = []


def check(what, ok):
    if not ok:
        wrong.append(what)
        print("not ok:", what)


def run(*args, **more):
    return subprocess.run([CLI, *args], **{"capture_output": True, "timeout": 100, "check": False, **more})


def leave():
    print(f"{len(wrong)} wrong" if wrong else "as agreed")
    sys.exit(1 if wrong else 0)
