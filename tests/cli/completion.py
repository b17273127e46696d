#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The bash completion and the man page name every command and every long option of the program."""
import os
import re
import shlex
import subprocess
import sys

CLI = sys.argv[1]
TOP = os.environ["LID_SOURCE"]
faults = []


def out(*arguments):
    return subprocess.run([CLI, *arguments], capture_output=True, text=True, check=False).stdout


completion = open(os.path.join(TOP, "resources", "completions", "lidleaf-cli"), encoding="utf-8").read()
manual = open(os.path.join(TOP, "resources", "man", "lidleaf-cli.1"), encoding="utf-8").read()
manual = manual.replace("\\-", "-")
commands = re.findall(r"^  ([a-z]+) ", out("--help"), re.M)
if not commands:
    faults.append("no commands in --help")
for command in commands:
    if not re.search(rf'words="[^"]*\b{command}\b', completion):
        faults.append(f"completion lacks {command}")
    if f"\n.B {command}\n" not in manual:
        faults.append(f"man page lacks {command}")
    for option in re.findall(r"--([a-z-]+)", out(command, "--help")):
        line = re.search(rf"{command}:-\*\) words=\"([^\"]*)\"", completion)
        if not line or f"--{option}" not in line[1]:
            faults.append(f"completion of {command} lacks --{option}")
        if f"--{option}" not in manual and option != "output":
            faults.append(f"man page lacks --{option}")
script = f"""
source {shlex.quote(TOP)}/resources/completions/lidleaf-cli
COMP_WORDS=({shlex.quote(CLI)} re); COMP_CWORD=1; _lidleaf_cli; echo "${{COMPREPLY[*]}}"
COMP_WORDS=({shlex.quote(CLI)} check --of as); COMP_CWORD=3; _lidleaf_cli; echo "${{COMPREPLY[*]}}"
"""
shell = subprocess.run(["bash", "-c", script], capture_output=True, text=True, check=False).stdout
if shell.split("\n")[:2] != ["read", "as-found as-left"]:
    faults.append(f"bash completes {shell!r}")
print("\n".join(faults) if faults else "completion: as agreed")
sys.exit(1 if faults else 0)
