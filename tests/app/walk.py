#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""walk.py LIDLEAF JOB: the main job by a screen reader's means alone: a slot filled, the finding
read, its remedy taken, all undone, the sheet exported. Every step is an action, a text or a name on
the accessibility bus; nothing is clicked and no key is pressed. Run by headless.sh."""
import os
import re
import sys

from bus import Program, act, holds, wait

import pyatspi

# Inside GTK's own widgets, menus and lists to choose from too: nothing to name there.
GTKS = {"GtkScrollbar", "GtkRange", "GtkBuiltinIcon", "GtkStackPage",
        "GtkPopoverContent", "GtkListItemWidget"}


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


def has_size(node):
    """GTK 4.8 says of hidden widgets too that they are visible, and of none that it is showing."""
    try:
        return node.queryComponent().getExtents(pyatspi.WINDOW_COORDS).width > 0
    except NotImplementedError:
        return False


def plain_names(p):
    """GTK calls what has no name after its type, and reads the sign of an access key aloud."""
    seen = set()

    def look(where):
        shown = [n for n in p.nodes() if n.getRoleName() == "panel" or has_size(n)]
        bad = [f"{n.getRoleName()} “{n.name}”" for n in shown
               if re.match(r"Gtk|Lid[A-Z]|_", n.name) and n.name not in GTKS]
        assert not bad, f"{where}: {bad}"
        seen.update(n.name for n in shown)

    look("the window")
    assert {"Start", "Job", "Board", "Teach the Channels"} <= seen, "a page without its name"
    act(p.slot("D1"), "slot.menu")
    wait("the menu of a slot", lambda: any(n.name.startswith("Fill Every Slot") for n in p.nodes()))
    look("the menu of a slot")
    act(p.slot("D1"), "slot.why")  # another takes its place
    for action, shown in (("win.facts", "Owner"), ("win.before-after", "as found"),
                          ("win.preview", "page 1 of")):
        act(p.frame(), action)
        wait(f"what {action} shows", lambda: any(shown in n.name for n in p.nodes()), p.nodes)
        look(action)
    assert len(seen) > 60, f"{len(seen)} names: too little was looked at"
    print(f"ok 7 - {len(seen)} names, none of a type, none with the sign of an access key\n1..7")


def export(p):
    """The file dialog proposes a name; its own button is pressed, as a screen reader can."""
    path = p.path("bench.pdf")
    act(p.frame(), "win.export-bench")
    p.find("file name").queryEditableText().setTextContents(path)
    act(p.find("export"), "click")
    wait("the sheet", lambda: os.path.getsize(path) > 1000)
    with open(path, "rb") as file:
        assert file.read(5) == b"%PDF-"
    print("ok 6 - the bench sheet is exported")


def main():
    with Program(sys.argv[1], sys.argv[2]) as p:
        fill_and_check(p)
        names(p)
        export(p)
        plain_names(p)


main()
