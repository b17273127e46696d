#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""walk.py LIDLEAF JOB: the main job by a screen reader's means alone. Every step is an action, a
text or a name on the accessibility bus; nothing is clicked and no key is pressed. Waits for what it
expects, never for time. Run by headless.sh."""
import re
import subprocess
import sys
import time

try:
    import pyatspi
except ImportError:
    print("1..0 # SKIP python3-pyatspi is not installed")
    sys.exit(77)

DEADLINE = 30


def wait(what, probe):
    end = time.monotonic() + DEADLINE
    while time.monotonic() < end:
        try:
            found = probe()
        except Exception:  # a widget that went away while it was read
            found = None
        if found:
            return found
        time.sleep(0.05)
    raise SystemExit(f"never seen: {what}")


def walk(node):
    yield node
    for child in node:
        if child is not None:
            yield from walk(child)


def app_on_bus():
    return next((a for a in pyatspi.Registry.getDesktop(0) if a is not None and a.name == "lidleaf"), None)


def find(app, role, name):
    return wait(f"{role} “{name}”", lambda: next(
        (n for n in walk(app) if n.getRoleName() == role and n.name.startswith(name)), None))


def act(node, name):
    actions = node.queryAction()
    names = [actions.getName(i) for i in range(actions.nActions)]
    if name not in names:
        raise SystemExit(f"{node.name}: no action {name}, only {names}")
    actions.doAction(names.index(name))


def checked(node):
    return node.getState().contains(pyatspi.STATE_CHECKED)


def main():
    process = subprocess.Popen([sys.argv[1], sys.argv[2]])
    try:
        app = wait("the program", app_on_bus)
        first, second = (find(app, "check box", f"slot {n},") for n in ("D1", "D2"))
        frame = next(n for n in walk(app) if n.getRoleName() == "frame")
        assert checked(first) and not checked(second), "the example has changed"

        act(first, "slot.empty")
        wait("an empty D1", lambda: not checked(first) and first.description.startswith("empty"))
        act(find(app, "push button", "1 × 16 GB"), "tray.pick-up")
        act(second, "slot.fill")
        wait("a module in D2", lambda: checked(second) and "16 GB" in second.description)
        print("ok 1 - a slot is filled:", second.description.split(".")[0])

        # Behind an empty first slot it is not seen: said by a note, and on the slot.
        note = wait("a finding", lambda: next(
            (n for n in walk(app) if n.getRoleName() == "link" and n.name.startswith("stops")), None))
        assert "stops" in second.description, second.description
        print("ok 2 - the finding is read:", note.name)

        act(note, "note.apply")
        wait("the module in D1", lambda: checked(first) and not checked(second))
        print("ok 3 - its remedy is taken")

        for step in range(3):
            act(frame, "win.undo")
            wait("one step less", lambda: (checked(first), checked(second))
                 == [(False, True), (False, False), (True, False)][step])
        print("ok 4 - undone step by step")

        names = [n.name for n in walk(app) if n.getRoleName() == "check box"]
        assert len(names) == len(set(names)), "two slots are called alike"
        used = ("push button", "check box", "text", "link", "list item")
        bad = [n.name for n in walk(app)
               if n.getRoleName() in used and re.match("Gtk|Lid[A-Z]|_", n.name)]
        assert not bad, f"type names read aloud: {bad}"
        print("ok 5 - every slot has a name of its own\n1..5")
    finally:
        process.terminate()
        process.wait()


main()
