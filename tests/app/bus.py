# SPDX-License-Identifier: GPL-3.0-or-later
"""The program seen from the accessibility bus: started, found, walked, acted on. What the scripts of
this folder look for by name stands in the one table below. Nothing waits for time: wait() asks
until it sees what it expects."""
import os
import subprocess
import sys
import tempfile
import time

try:
    import gi
    gi.require_version("Atspi", "2.0")
    from gi.repository import Atspi, GLib
    import pyatspi
except (ImportError, ValueError):
    print("1..0 # SKIP python3-pyatspi is not installed")
    sys.exit(0)

DEADLINE = int(os.environ.get("LID_DEADLINE", "120"))  # seconds; a busy machine under the sanitizers is slow, not wrong

# role, how the name begins
NAMES = {
    "slot": ("check box", "slot {},"),
    "tray": ("push button", "{}"),
    "label field": ("text", "Label or slot name"),
    "teach": ("push button", "Teach the channels"),
    "teach this": ("push button", "Teach This"),
    "note": ("link", "{}"),
    "file name": ("text", "Name:"),  # GTK's dialog, and its button as we call it
    "print": ("push button", "_Print Print"),
    "export": ("push button", "Export"),
    "work out a plan": ("push button", "Work Out a Plan"),
    "shelf": ("push button", "From "),
    "wish": ("panel", "What is wished"),
    "what is wished": ("push button", "What is wished"),
    "amount": ("text", "How much"),
    "stock path": ("text", "Stock file"),
    "plan": ("table cell", "{}"),
    "said of plans": ("status bar", "{}"),
}

# A call on the bus is given up after 0.8 s otherwise: too soon on a busy machine.
Atspi.set_timeout(int(DEADLINE * 1000 / 4), int(DEADLINE * 1000 / 2))


def settle():
    """What the bus has said meanwhile: without it a child that came later is never seen."""
    context = GLib.MainContext.default()
    while context.pending():
        context.iteration(False)


def wait(what, probe, shown=None):
    end = time.monotonic() + DEADLINE
    while time.monotonic() < end:
        settle()
        try:
            found = probe()
        except Exception:  # a widget that went away while it was read
            found = None
        if found:
            return found
        time.sleep(0.05)
    if shown is not None:
        print("\n".join(f"# {n.getRoleName()} “{n.name}”" for n in shown()), file=sys.stderr)
    raise SystemExit(f"not ok - never seen: {what}")


def walk(node):
    yield node
    for child in node:
        if child is not None:
            yield from walk(child)


def holds(node):
    return node.getState().contains(pyatspi.STATE_CHECKED)


def has_focus(node):
    return node.getState().contains(pyatspi.STATE_FOCUSED)


def act(node, name):
    actions = node.queryAction()
    names = [actions.getName(i) for i in range(actions.nActions)]
    if name not in names:
        raise SystemExit(f"not ok - {node.name}: no action {name}, only {names}")
    actions.doAction(names.index(name))


class WindowManager:
    """openbox, for as long as the block lasts; nothing is started before it answers. A program that
    maps its window while a manager still takes over the screen may be left without one."""

    def __enter__(self):
        self.process = subprocess.Popen(["openbox"], stdout=subprocess.DEVNULL,
                                        stderr=subprocess.DEVNULL)
        wait("the window manager", lambda: subprocess.run(
            ["xdotool", "get_num_desktops"], check=True, capture_output=True, timeout=10))
        return self

    def __exit__(self, *_):
        self.process.terminate()
        self.process.wait()


def on_bus():
    desktop = pyatspi.Registry.getDesktop(0)
    desktop.set_cache_mask(Atspi.Cache.NONE)  # what is asked is what is there
    return [a for a in desktop if a is not None and a.name.startswith("lidleaf")]


class Program:
    """The program with a folder of its own to work in, on the bus as long as the block lasts."""

    def __init__(self, *command, **environment):
        self.folder = tempfile.TemporaryDirectory()
        self.process = subprocess.Popen(
            [os.path.abspath(word) if os.path.exists(word) else word for word in command],
            cwd=self.folder.name, env={**os.environ, **environment})
        try:
            self.app = wait("the program on the accessibility bus", self._first)
        except SystemExit:
            self._end()
            raise

    def _first(self):
        if self.process.poll() is not None:
            raise SystemExit(f"not ok - the program ended with {self.process.returncode}")
        app = next((a for a in on_bus() if a.childCount > 0), None)
        if app is not None:
            app.set_cache_mask(Atspi.Cache.NONE)
        return app

    def _end(self):
        self.process.terminate()
        try:
            self.process.wait(DEADLINE)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        self.folder.cleanup()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self._end()
        wait("the program gone from the bus", lambda: not on_bus())

    def path(self, name):
        return os.path.join(self.folder.name, name)

    def nodes(self, role=None):
        return [n for n in walk(self.app) if role is None or n.getRoleName() == role]

    def look(self, key, part=""):
        """The node of the table, or None."""
        role, name = NAMES[key]
        begins = name.format(part)
        return next((n for n in self.nodes(role) if n.name.startswith(begins)), None)

    def find(self, key, part=""):
        return wait(f"{key} {part}", lambda: self.look(key, part), self.nodes)

    def slot(self, name):
        return self.find("slot", name)

    def frame(self):
        return self.nodes("frame")[0]
