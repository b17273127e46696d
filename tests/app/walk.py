#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""walk.py LIDLEAF JOB: the main job by a screen reader's means alone: a slot filled, the finding
read, its remedy taken, all undone, the sheet exported. Every step is an action, a text or a name on
the accessibility bus; nothing is clicked and no key is pressed. Run by headless.sh."""
import os
import sys

from bus import Program, act, holds, wait


def fill_and_check(p):
    first, second = p.slot("D1"), p.slot("D2")
    assert holds(first) and not holds(second), "the example has changed"
    act(first, "slot.empty")
    wait("an empty D1", lambda: not holds(first) and first.description.startswith("empty"))
    act(p.find("tray", "1 × 16 GB"), "tray.pick-up")
    act(second, "slot.fill")
    wait("a module in D2", lambda: holds(second) and "16 GB" in second.description)
    print("ok 1 - a slot is filled:", second.description.split(".")[0])

    # Behind an empty first slot it is not seen: said by a note, and on the slot.
    note = p.find("note", "stops")
    wait("it said on the slot", lambda: "stops" in second.description)
    print("ok 2 - the finding is read:", note.name)
    act(note, "note.apply")
    wait("the module in D1", lambda: holds(first) and not holds(second))
    print("ok 3 - its remedy is taken")

    for held in ((False, True), (False, False), (True, False)):
        act(p.frame(), "win.undo")
        wait("one step less", lambda: (holds(first), holds(second)) == held)
    print("ok 4 - undone step by step")


def names(p):
    slots = [n.name for n in p.nodes("check box")]
    assert slots and len(slots) == len(set(slots)), "two slots are called alike"
    assert all(n.description for n in p.nodes("check box")), "a slot says nothing of itself"
    print("ok 5 - every slot has a name of its own and says what is in it")


def export(p):
    """The file dialog proposes a name; its own button is pressed, as a screen reader can."""
    path = p.path("bench.pdf")
    act(p.frame(), "win.export-bench")
    p.find("file name").queryEditableText().setTextContents(path)
    act(p.find("export"), "click")
    wait("the sheet", lambda: os.path.getsize(path) > 1000)
    with open(path, "rb") as file:
        assert file.read(5) == b"%PDF-"
    print("ok 6 - the bench sheet is exported\n1..6")


def main():
    with Program(sys.argv[1], sys.argv[2]) as p:
        fill_and_check(p)
        names(p)
        export(p)


main()
