# SPDX-License-Identifier: GPL-3.0-or-later
"""Real mouse and keyboard (xdotool, XTEST) for the scripts of this folder. Where things lie is read
from the accessibility bus; there are pauses only between the motions of a drag."""
import os
import subprocess
import time

from bus import DEADLINE, Program, holds, settle, wait

import pyatspi

BORDER = 5  # GTK's own border of a window without a compositor; extents leave it out


def xdotool(*words):
    return subprocess.run(["xdotool", *map(str, words)], check=True, capture_output=True,
                          text=True, timeout=DEADLINE).stdout


def key(*names):
    xdotool("key", "--clearmodifiers", *names)


def write(text):
    xdotool("type", "--delay", "5", text)


def quietly(probe):
    settle()
    try:
        return probe()
    except Exception:  # a widget that went away while it was read
        return None


class Driven(Program):
    clicks = 0  # of the mouse, those that were done again too

    def __init__(self, *command, **environment):
        super().__init__(*command, **environment)
        window = wait("the window", lambda: xdotool(
            "search", "--onlyvisible", "--pid", self.process.pid).split())[-1]
        xdotool("windowactivate", window)  # nobody clicked to start it: it gets no focus of itself
        self.window = wait("the window, active", self._active)

    def _active(self):
        window = xdotool("getactivewindow").strip()
        mine = int(xdotool("getwindowpid", window)) == self.process.pid
        return window if mine else None

    def active(self, title):
        """Another window of the program has the keyboard."""
        return wait(f"the window “{title}”, active", lambda: self._active() and title in xdotool(
            "getwindowname", self._active()))

    def back(self):
        wait("the main window, active", lambda: self._active() == self.window)

    def press_until(self, name, came):
        """GTK's file dialog takes the first Return for what it completes itself."""
        def pressed():
            end = time.monotonic() + 3
            while time.monotonic() < end:
                if quietly(came):
                    return True
                time.sleep(0.1)
            if self._active() != self.window:
                key(name)
            return False
        key(name)
        wait(f"what {name} does", pressed)

    def middle(self, node):
        def settled():
            places = set()
            for _ in range(4):
                box = node.queryComponent().getExtents(pyatspi.WINDOW_COORDS)
                places.add((box.x, box.y, box.width, box.height))
                time.sleep(0.1)
            return box if len(places) == 1 and box.width > 1 else None
        box = wait("a place", settled)
        at = dict(line.split("=") for line in
                  xdotool("getwindowgeometry", "--shell", self.window).split() if "=" in line)
        return (int(at["X"]) + BORDER + box.x + box.width // 2,
                int(at["Y"]) + BORDER + box.y + box.height // 2)

    def click(self, node):
        self.clicks += 1
        xdotool("mousemove", *self.middle(node), "click", 1)

    def drag(self, source, target):
        """One motion past the threshold, one over the target: GTK starts and drops nothing else."""
        (x1, y1), (x2, y2) = self.middle(source), self.middle(target)
        xdotool("mousemove", x1, y1, "mousedown", 1)
        time.sleep(0.2)
        xdotool("mousemove_relative", 20, 10)
        time.sleep(0.3)
        xdotool("mousemove", x2, y2)
        time.sleep(0.3)
        xdotool("mousemove_relative", 2, 2)
        time.sleep(0.3)
        xdotool("mouseup", 1)

    def try_mouse(self, do, what, came):
        """On a busy machine a place moves between being read and being clicked, and the motions of a
        drag come too close together: then it is done again."""
        for last in (False, False, True):
            do()
            end = time.monotonic() + (DEADLINE if last else 10)
            while time.monotonic() < end:
                if quietly(came):
                    return
                time.sleep(0.05)
        raise SystemExit(f"not ok - never seen: {what}")

    def filled(self):
        return sorted(n.name.split(",")[0][5:] for n in self.nodes("check box") if holds(n))


def reach(there, *keys):
    """Presses the keys in turn until the focus is there."""
    for i in range(80):
        end = time.monotonic() + 0.4
        while time.monotonic() < end:
            if quietly(there):
                return
            time.sleep(0.05)
        key(keys[i % len(keys)])
    raise SystemExit("not ok - the focus never came there")


def print_to_file(p, ask=lambda: key("ctrl+p")):
    """The bench sheet, or what else is asked for, by the real print dialog; its one printer is a file, to be chosen. GTK looks
    for others first."""
    ask()
    p.active("Print")
    reach(lambda: p.find("print").getState().contains(pyatspi.STATE_SENSITIVE), "Tab", "Down")
    key("alt+p")
    path = wait("the printed file", lambda: next(
        (p.path(name) for name in os.listdir(p.path("")) if name.startswith("Bench sheet of ")
         and os.path.getsize(p.path(name)) > 1000), None))
    p.back()
    return path
