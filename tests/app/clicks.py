#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""clicks.py LIDLEAF MACHINES: from a report to a printed bench sheet with a real mouse
(xdotool, XTEST), every press of its button counted, a drag as one and the dialogs' own buttons too.
The counts that must hold are the project's own: 12 where the channels are not told, 6 where they are.
What is clicked is found by its accessible name. Then the same by keys alone. Run by headless.sh."""
import os
import shutil
import subprocess
import sys
import time

from bus import DEADLINE, Program, WindowManager, wait

import gi
import pyatspi

BORDER = 5  # GTK's own border of a window without a compositor; extents leave it out
HERE = os.path.dirname(os.path.abspath(__file__))
MOST_UNTOLD, MOST_TOLD = 12, 6


def xdotool(*words):
    return subprocess.run(["xdotool", *map(str, words)], check=True, capture_output=True,
                          text=True, timeout=DEADLINE).stdout


class Mouse(Program):
    def __init__(self, *command):
        super().__init__(*command)
        self.clicks = 0
        self.main = wait("the window", lambda: xdotool(
            "search", "--onlyvisible", "--pid", self.process.pid).split())[-1]
        xdotool("windowactivate", self.main)
        wait("the window, active", lambda: xdotool("getactivewindow").strip() == self.main)

    def named(self, role, name):
        """Shown in a window that is there, and of some size."""
        def probe():
            for node in self.nodes(role):
                if node.name.startswith(name):
                    box = node.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
                    if box.width > 1:
                        return node
            return None
        return wait(f"{role} “{name}”", probe, self.nodes)

    def dialog_or_main(self):
        active = xdotool("getactivewindow").strip()
        mine = int(xdotool("getwindowpid", active)) == self.process.pid
        return active if mine else self.main

    def middle(self, node):
        def settled():
            first, second = None, None
            for _ in range(2):
                first, second = second, node.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
                time.sleep(0.15)
            same = (first.x, first.y, first.width) == (second.x, second.y, second.width)
            return second if same and second.width > 1 else None
        box = wait(f"a place of {node.name}", settled)
        window = self.dialog_or_main()
        border = BORDER if window == self.main else 0  # a dialog has the window manager's
        return ("--window", window, border + box.x + box.width // 2,
                border + box.y + box.height // 2)

    def click(self, role, name):
        self.clicks += 1
        xdotool("mousemove", *self.middle(self.named(role, name)))
        time.sleep(0.1)
        xdotool("click", 1)

    def drag_in(self, window):
        """One motion past the threshold, one over the target: GTK starts and drops nothing else."""
        self.clicks += 1
        xdotool("windowmove", window, 1290, 300, "windowraise", window)
        time.sleep(0.5)
        xdotool("mousemove", "--window", window, 60, 45, "mousedown", 1)
        for move in (("mousemove_relative", "--", -20, 10),
                     ("mousemove", "--window", self.main, 400, 400), ("mousemove_relative", 2, 2)):
            time.sleep(0.4)
            xdotool(*move)
        time.sleep(0.5)
        xdotool("mouseup", 1)

    def dialog(self, title):
        wait(f"the window “{title}”", lambda: title in xdotool(
            "getwindowname", xdotool("getactivewindow").strip()))


def is_pdf(path):
    with open(path, "rb") as file:
        return file.read(5) == b"%PDF-" and os.path.getsize(path) > 1000


class Offer:
    """Another program with the report on its clipboard and to be dragged out of it."""

    def __init__(self, report):
        self.process = subprocess.Popen(["/usr/bin/python3", os.path.join(HERE, "offer.py"), report])
        self.window = wait("the other program", lambda: xdotool(
            "search", "--onlyvisible", "--name", "^offer$").split())[-1]
        time.sleep(0.5)

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait()


def told_now(p):
    """Of the slots on the board; those of the teaching page are named without a channel."""
    names = [n.name for n in p.nodes("check box") if ", channel " in n.name]
    return bool(names) and all("not told" not in name for name in names)


def teach(p):
    p.click("push button", "Teach the channels")
    p.click("list item", "all first slots")
    p.click("push button", "Teach This")
    wait("channels told", lambda: told_now(p), p.nodes)


def printed(p):
    return wait("the sheet", lambda: any(
        is_pdf(p.path(name)) for name in os.listdir(p.path(""))
        if name.startswith("Bench sheet of ")))


def print_sheet(p):
    """The real print dialog; its one printer is a file, to be chosen."""
    p.click("push button", "Bench sheet")
    p.dialog("Print")
    p.click("label", "Print to File")
    wait("a printer chosen", lambda: p.find("print").getState().contains(pyatspi.STATE_SENSITIVE))
    p.click("push button", "_Print Print")
    printed(p)


def run(binary, report, way, told, most):
    with Offer(report) as offer, Mouse(binary) as p:
        if way == "paste":
            p.click("push button", "Paste a Report")
        else:
            p.drag_in(offer.window)
        wait("the board", lambda: p.nodes("check box"), p.nodes)
        assert told == told_now(p), "told or not"
        if not told:
            teach(p)
        print_sheet(p)
        if p.clicks > most:
            raise SystemExit(f"not ok - {p.clicks} clicks, {most} are the most")
        return p.clicks


def by_keys(binary, report):
    """From an untold report on the clipboard to the printed sheet, no mouse."""
    with Offer(report), Mouse(binary) as p:
        xdotool("mousemove", 1430, 890)
        xdotool("key", "ctrl+shift+v")
        wait("the board", lambda: p.nodes("check box"), p.nodes)
        xdotool("key", "ctrl+t")
        p.named("list item", "all first slots")
        xdotool("key", "Down")
        xdotool("key", "Return")
        wait("channels told", lambda: told_now(p), p.nodes)
        xdotool("key", "ctrl+p")
        p.dialog("Print")
        for _ in range(40):
            if p.find("print").getState().contains(pyatspi.STATE_SENSITIVE):
                break
            xdotool("key", "Tab")
            xdotool("key", "Down")
            time.sleep(0.3)
        xdotool("key", "alt+p")
        printed(p)


def untold_report(path):
    """An invented machine whose slot names are numbers alone."""
    lines = ["# dmidecode 3.4", "", "Handle 0x0001, DMI type 1, 27 bytes", "System Information",
             "\tProduct Name: Reading room", ""]
    for i in range(1, 9):
        lines += [f"Handle 0x{0x1100 + i:04X}, DMI type 17, 40 bytes", "Memory Device",
                  "\tForm Factor: DIMM", f"\tLocator: DIMM {i}", "\tBank Locator: Not Specified",
                  "\tSize: 16 GB" if i % 2 else "\tSize: No Module Installed", ""]
    with open(path, "w", encoding="utf-8") as file:
        file.write("\n".join(lines))


def forget_boards():
    shutil.rmtree(os.path.join(os.environ["XDG_DATA_HOME"], "lidleaf"), ignore_errors=True)


def main():
    for program in ("xdotool", "openbox"):
        if shutil.which(program) is None:
            print(f"1..0 # SKIP {program} is not installed")
            return
    try:
        gi.require_version("Gtk", "4.0")  # for offer.py
    except ValueError:
        print("1..0 # SKIP GTK 4 is not there for python")
        return
    binary, machines = (os.path.abspath(word) for word in sys.argv[1:3])
    report = os.path.join(os.environ["XDG_RUNTIME_DIR"], "reading-room.txt")
    untold_report(report)
    n = 0
    with WindowManager():
        for way in ("paste", "drop"):
            for told, file, most in ((True, os.path.join(machines, "dunlin-s1.txt"), MOST_TOLD),
                                     (False, report, MOST_UNTOLD)):
                forget_boards()
                clicks, n = run(binary, file, way, told, most), n + 1
                print(f"ok {n} - channels {'' if told else 'not '}told, {way}, printed: "
                      f"{clicks} clicks", flush=True)
        forget_boards()
        by_keys(binary, report)
    print(f"ok {n + 1} - channels not told, pasted, taught and printed by keys alone")
    print(f"1..{n + 1}")


main()
