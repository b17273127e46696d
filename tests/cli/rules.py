#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The catalogue of rules: all of them, in text, JSON and one page, each with an example that the
rule speaks in; the page is read by Python's own HTML parser."""
import html.parser
import json
import os
import re
import subprocess
import sys

CLI = sys.argv[1]
TOP = os.environ["LID_SOURCE"]
faults = []


class Page(html.parser.HTMLParser):
    def __init__(self):
        super().__init__()
        self.open, self.anchors, self.links, self.text = [], [], [], []

    def handle_starttag(self, tag, attrs):
        attrs = dict(attrs)
        if tag != "meta":
            self.open.append(tag)
        if tag == "section":
            self.anchors.append(attrs["id"])
        if tag == "a":
            self.links.append(attrs["href"][1:])

    def handle_endtag(self, tag):
        expect("the tag that closes", tag, self.open.pop())

    def handle_data(self, data):
        self.text.append(data)


def run(*arguments):
    done = subprocess.run([CLI, "rules", *arguments], capture_output=True, text=True, check=False)
    return done.returncode, done.stdout, done.stderr


def expect(what, got, wanted):
    if got != wanted:
        faults.append(f"{what}: {got!r}, not {wanted!r}")


files = {name[5:-2] for name in os.listdir(os.path.join(TOP, "src", "core", "checks"))
         if re.fullmatch(r"rule-.*\.c", name)}
lines = [json.loads(one) for one in run("--json")[1].splitlines()]
page = Page()
page.feed(run("--html")[1])
listed = run()[1]
expect("a rule for every file", {one["rule"] for one in lines}, files)
expect("listed", {line.split(" ")[0] for line in listed.splitlines()}, files)
expect("sections", page.anchors, [one["rule"] for one in lines])
expect("links", page.links, page.anchors)
expect("all closed", page.open, [])
for one in lines:
    text = run(one["rule"])[1]
    for key in ("why", "clears"):
        expect(f"{one['rule']}: {key} in the text", one[key] in text, True)
        expect(f"{one['rule']}: {key} on the page", one[key] in page.text, True)
    example = one["example"]
    expect(f"{one['rule']}: its sentence", example["text"] in text, True)
    expect(f"{one['rule']}: its change", [s for s in example["change"] if s not in text], [])
status, text, complaint = run("flux")
expect("none", (status, text, "“flux”" in complaint), (1, "", True))
expect("none, JSON", json.loads(run("--json", "flux")[1])["ok"], False)
expect("--html alone", run("--html", "slowed")[0], 1)
print("\n".join(faults) or "rules: as it should be")
sys.exit(1 if faults else 0)
