#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""stages.py LIDLEAF JOB: a plan in two visits: with a real mouse, by keys alone, by a screen reader's
means alone; tonight's own bench sheet exported and read by pdftotext (poppler-utils). Run by
headless.sh."""
import json
import os
import shutil
import subprocess
import sys

from bus import Program, WindowManager, act, has_focus, holds, wait, walk
from driven import Driven, key, print_to_file, reach, write

TONIGHT = "This is what can be done tonight"


def said(p, words):
    wait(words, lambda: any(words in n.name for n in p.nodes("status bar")), p.nodes)


def cards(p):
    """A cell that is called as its card, the card with figures and sentence, its buttons by name."""
    found = []
    for cell in p.nodes("table cell"):
        panel = next((n for n in walk(cell) if n.getRoleName() == "panel" and n.name), None)
        if panel is not None:
            assert cell.name == panel.name, (cell.name, panel.name)
            assert "GB" in panel.name and "touched" in panel.description, panel.description
            found.append({n.name: n for n in walk(cell) if n.getRoleName() == "push button"})
    return found


def both(p):
    return wait("two visits", lambda: (lambda c: c if len(c) == 2 else None)(cards(p)), p.nodes)


def check_names(p):
    """Nothing is called as GTK would call it, and the count says what it counts and of how many."""
    count = next(n for n in p.nodes("spin button") if n.name.startswith("How many are not there of HM-16G2R4-R24"))
    assert count.description == "of 1 missing", count.description
    page = next(n for n in p.nodes("panel") if n.name == "Tonight and later")
    bad = [(n.getRoleName(), n.name) for n in walk(page) if n.getRoleName() not in ("scroll bar", "filler")
           and n.name.startswith(("Gtk", "Lid", "_"))]
    assert not bad, bad


def is_tonight(path):
    text = subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True,
                          text=True, timeout=60).stdout
    assert "48 GB" in text and "64 GB" not in text, text


def by_mouse(binary, job):
    with Driven(binary, job) as p:
        before = p.filled()
        key("ctrl+d")
        said(p, TONIGHT)
        is_tonight(print_to_file(p, lambda: p.click(both(p)[0]["Print Its Bench Sheet…"])))
        p.click(both(p)[0]["Plan This and No More"])
        wait("tonight taken", lambda: p.filled() == [s for s in before if s != "D1"])
        key("ctrl+z")
        wait("the plan as before", lambda: p.filled() == before)
    print("ok 1 - by mouse: tonight printed, taken and undone as one step")


def by_keys(binary, job):
    with Driven(binary, job) as p:
        before = p.filled()
        key("ctrl+d")
        said(p, TONIGHT)
        key("ctrl+a")
        write("0")
        key("Return")
        said(p, "All that the plan brings is there")
        key("Up")
        said(p, TONIGHT)
        reach(lambda: has_focus(both(p)[0]["Plan This and No More"]), "Tab")
        key("Return")
        wait("tonight taken", lambda: p.filled() == [s for s in before if s != "D1"])
    print("ok 2 - by keys alone")


def by_bus(binary, job):
    """Nothing clicked, no key pressed."""
    with Program(binary, job) as p:
        p.slot("D1")
        before = sorted(n.name for n in p.nodes("check box") if holds(n))
        act(p.frame(), "win.stages")
        said(p, TONIGHT)
        check_names(p)
        path = p.path("tonight.pdf")
        act(both(p)[0]["Export It…"], "click")
        p.find("file name").queryEditableText().setTextContents(path)
        act(wait("the dialog's Export", lambda: next(
            (n for n in p.nodes("push button") if n.name.startswith("Export") and "…" not in n.name),
            None)), "click")
        wait("the sheet", lambda: os.path.getsize(path) > 1000)
        is_tonight(path)
        act(both(p)[0]["Plan This and No More"], "click")
        wait("tonight taken",
             lambda: sorted(n.name for n in p.nodes("check box") if holds(n)) != before)
        act(p.frame(), "win.undo")
        wait("the plan as before",
             lambda: sorted(n.name for n in p.nodes("check box") if holds(n)) == before)
    print("ok 3 - by a screen reader's means alone, tonight's sheet exported\n1..3")


def main():
    for program in ("xdotool", "openbox", "pdftotext"):
        if shutil.which(program) is None:
            print(f"1..0 # SKIP {program} is not installed")
            return
    binary, example = (os.path.abspath(word) for word in sys.argv[1:3])
    job = os.path.join(os.environ["XDG_RUNTIME_DIR"], "to-buy.lidleaf")
    with open(example, encoding="utf-8") as file:
        made = json.load(file)
    made["modules"][3]["bin"] = None  # still to be bought: it is for D1
    with open(job, "w", encoding="utf-8") as file:
        json.dump(made, file)
    with WindowManager():
        by_mouse(binary, job)
        by_keys(binary, job)
    by_bus(binary, job)


main()
