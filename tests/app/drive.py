#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""drive.py LIDLEAF JOB: real mouse and keyboard on a screen of its own, with a window manager; see
driven.py. Run by headless.sh."""
import os
import shutil
import sys

from bus import WindowManager, has_focus, holds, wait
from driven import Driven, key, print_to_file, reach, write, xdotool

import pyatspi

LABEL = "16GB 2Rx4 PC4-2400T-RB1-11"


def is_held(node):
    return node.getState().contains(pyatspi.STATE_PRESSED)


def by_mouse(p):
    d1, d2 = p.slot("D1"), p.slot("D2")
    before = p.filled()
    p.try_mouse(lambda: p.click(d1), "D1 with the focus", lambda: has_focus(d1))
    key("Delete")
    wait("an empty D1", lambda: not holds(d1))
    p.try_mouse(lambda: p.click(p.find("tray", "1 × 16 GB")), "the module in hand",
                lambda: is_held(p.find("tray", "1 × 16 GB")))
    p.try_mouse(lambda: p.click(d2), "a module in D2", lambda: holds(d2))
    print("ok 1 - filled by mouse")
    p.try_mouse(lambda: p.drag(d2, d1), "D2 dragged to D1", lambda: holds(d1) and not holds(d2))
    p.try_mouse(lambda: p.drag(d1, p.find("label field")), "D1 dragged to the tray",
                lambda: not holds(d1))
    p.try_mouse(lambda: p.drag(p.find("tray", "1 × 16 GB"), d1), "the tray's module dragged to D1",
                lambda: holds(d1))
    print("ok 2 - dragged from slot to slot, to the tray and back")
    steps = 5
    for _ in range(steps):
        key("ctrl+z")
    wait("everything undone", lambda: p.filled() == before and p.look("tray", "1 × 16 GB") is None)
    for _ in range(2):
        key("ctrl+shift+z")
    wait("two steps done again", lambda: holds(d2) and not holds(d1))
    for _ in range(2):
        key("ctrl+z")
    wait("undone again", lambda: p.filled() == before)
    print("ok 3 - undone and done again by keys")


def by_number_pad(p):
    before = len(p.filled())
    field = p.find("label field")
    p.try_mouse(lambda: p.click(field), "the field with the focus", lambda: has_focus(field))
    write("4x " + LABEL)
    key("Return")
    p.find("tray", "4 × 16 GB")
    write("b2")
    key("KP_Enter")
    wait("a module in B2", lambda: holds(p.slot("B2")))
    for n in (2, 3, 4):  # Enter alone runs on, in the order of fitting
        key("KP_Enter")
        wait(f"{n} more slots filled", lambda: len(p.filled()) == before + n)
    for _ in range(5):
        key("ctrl+z")
    wait("all of it undone", lambda: len(p.filled()) == before)
    print("ok 4 - filled from the number pad alone, and run on")


def by_wheel(p):
    first = p.slot("A1")

    def height():
        return first.queryComponent().getExtents(pyatspi.WINDOW_COORDS).height
    before = height()
    x, y = p.middle(first)
    xdotool("mousemove", x, y, "keydown", "ctrl", "click", 4, "click", 4, "keyup", "ctrl")
    wait("a larger board", lambda: height() > before * 1.2)
    key("ctrl+0")
    wait("the whole board", lambda: abs(height() - before) <= 1)
    print("ok 5 - zoomed by wheel and key")


def to_file(p):
    with open(print_to_file(p), "rb") as file:
        assert file.read(5) == b"%PDF-"
    print("ok 6 - printed to a file")


def by_keys(binary, job):
    """From an empty window to the sheet, with no mouse."""
    with Driven(binary) as p:
        key("ctrl+o")
        p.active("Open")
        key("ctrl+l")
        write(job)
        p.press_until("Return", lambda: p.look("slot", "D1"))
        p.back()
        d1, d2 = p.slot("D1"), p.slot("D2")
        reach(lambda: has_focus(p.slot("A1")), "Tab")
        reach(lambda: has_focus(d1), "Right", "Down", "Down", "Down", "Up", "Up", "Up")
        key("Delete")
        wait("an empty D1", lambda: not holds(d1))
        reach(lambda: has_focus(p.find("tray", "1 × 16 GB")), "Tab")
        key("space")
        reach(lambda: has_focus(p.find("label field")), "shift+Tab")
        write("d2")
        key("Return")
        wait("a module in D2", lambda: holds(d2))
        note = p.find("note", "stops")
        reach(lambda: has_focus(note), "shift+Tab")
        key("Return")
        wait("the remedy taken", lambda: holds(d1) and not holds(d2))
        key("ctrl+e")
        p.active("Export")
        path = p.path("bench.pdf")
        key("ctrl+a")
        write(path)
        p.press_until("Return", lambda: os.path.getsize(path) > 1000)
    print("ok 7 - the main job by keyboard alone")


def untold_report(path):
    """An invented machine whose slot names are numbers alone."""
    lines = ["# dmidecode 3.4", "", "Handle 0x0001, DMI type 1, 27 bytes", "System Information",
             "\tProduct Name: Harbour Gauge", ""]
    for i in range(1, 9):
        lines += [f"Handle 0x{0x1100 + i:04X}, DMI type 17, 40 bytes", "Memory Device",
                  "\tForm Factor: DIMM", f"\tLocator: DIMM {i}", "\tBank Locator: Not Specified",
                  "\tSize: 16 GB" if i % 2 else "\tSize: No Module Installed", ""]
    with open(path, "w", encoding="utf-8") as file:
        file.write("\n".join(lines))


def teach(binary, folder):
    report = os.path.join(folder, "gauge.txt")
    untold_report(report)
    told = "slot DIMM 3, channel 2, place 1"
    with Driven(binary, report) as p:
        assert "channel not told" in p.slot("DIMM 3").name
        p.click(p.find("teach"))
        p.try_mouse(lambda: p.click(p.find("teach this")), "channels told",
                    lambda: any(n.name == told for n in p.nodes("check box")))
    with Driven(binary, report) as p:  # the user's board, found by itself
        wait("channels told again", lambda: any(n.name == told for n in p.nodes("check box")))
    print("ok 8 - taught in two clicks, known the next time\n1..8")


def main():
    for program in ("xdotool", "openbox"):
        if shutil.which(program) is None:
            print(f"1..0 # SKIP {program} is not installed")
            return
    binary, job = (os.path.abspath(word) for word in sys.argv[1:3])
    with WindowManager():
        with Driven(binary, job) as p:
            by_mouse(p)
            by_number_pad(p)
            by_wheel(p)
            to_file(p)
        by_keys(binary, job)
        teach(binary, os.environ["XDG_RUNTIME_DIR"])


main()
