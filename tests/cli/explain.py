#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Words and rules explained: every rule a check can name has its text, in one wording."""
import json
import os
import re
import subprocess
import sys

CLI = sys.argv[1]
TOP = os.environ["LID_SOURCE"]
faults = []


def run(*arguments):
    done = subprocess.run([CLI, *arguments], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def expect(what, got, wanted):
    if got != wanted:
        faults.append(f"{what}: {got!r}, not {wanted!r}")


status, text, _ = run("explain", "even share", "rank-limit")
expect("two", (status, text.startswith("even share\n"), "\nrank-limit: ranks a channel takes\n" in text),
       (0, True, True))
status, text, complaint = run("explain", "flux")
expect("neither", (status, text, "“flux”" in complaint), (1, "", True))
line = json.loads(run("explain", "--json", "flux")[1])
expect("neither, JSON", (line["ok"], line["source"]), (False, "flux"))
expect("as an option", run("check", "--explain", "rank-limit")[:2], run("explain", "rank-limit")[:2])
example = os.path.join(TOP, "resources", "example.lidleaf")
status, text, complaint = run("check", "--explain", "rank-limit", example)
expect("alone", (status, text, complaint != ""), (1, "", True))

lines = [json.loads(one) for one in run("explain", "--json")[1].splitlines()]
rules = {one["rule"]: one for one in lines if "rule" in one}
files = {name[5:-2] for name in os.listdir(os.path.join(TOP, "src", "core", "checks"))
         if re.fullmatch(r"rule-.*\.c", name)}
expect("a text for every rule file", files - set(rules), set())
for name, one in rules.items():
    expect(name, [key for key in ("title", "grades", "why", "clears", "basis", "known_from")
                  if not one[key]], [])
    expect(f"{name} in words", one["why"] in run("explain", name)[1], True)
cautions = {one["caution"]: one for one in lines if "caution" in one}
expect("cautions", len(cautions) >= 25, True)
for name, one in cautions.items():
    expect(name, [key for key in ("moment", "text", "why", "known_from") if not one[key]], [])
    expect(f"{name} in words", f"{name}: {one['text']}" in run("explain", name)[1], True)
status, text, _ = run("explain", "strap")
expect("strap", (status, "Make it safe" in text, "S20.20" in text), (0, True, True))
page = run("explain", "bandwidth")[1]
expect("bandwidth", [words for words in ("Its constants", "0.8 of the peak", "from memory", "67 %, 67 % and 44 %",
                                         "Where it is known to be off", "8 bytes a transfer")
                     if words not in page], [])
listed = run("explain")[1]
for one in lines:
    expect("listed", (one.get("rule") or one.get("caution") or one["word"]) in listed, True)
for finding in json.loads(run("check", "--json", example)[1])["findings"]:
    expect("a finding's rule", run("explain", finding["rule"])[0], 0)
print("\n".join(faults) or "explain: as it should be")
sys.exit(1 if faults else 0)
