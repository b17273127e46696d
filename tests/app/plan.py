#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""plan.py LIDLEAF JOB: plans with a shelf and a wish, one taken, undone, taken again and printed: with
a real mouse, its clicks counted; by keys alone; by a screen reader's means alone. pdftotext
(poppler-utils) reads what was printed. Run by headless.sh."""
import os
import shutil
import subprocess
import sys

from bus import Program, WindowManager, act, has_focus, holds, wait, walk
from driven import Driven, key, print_to_file, reach, write

MOST_CLICKS = 6  # the project's own: plan, shelf, wish, amount, take; one to spare
SHELF = """part,label,quantity,price EUR,bin
TW-R16-24,16GB 2Rx4 PC4-2400T-RB1-11,12,28.50,B1
TW-R32-24,32GB 2Rx4 PC4-2400T-RB1-11,8,61.00,B2
"""


def cards(p):
    """What a screen reader is told of each plan: a cell that is called as its card, the card with
    its figures and what it costs, a button that says whose it is."""
    found = []
    for cell in p.nodes("table cell"):
        parts = [n for n in walk(cell)]
        panel = next((n for n in parts if n.getRoleName() == "panel" and n.name), None)
        button = next((n for n in parts if n.name == "Take This Plan"), None)
        if panel is not None and button is not None:
            found.append((cell, panel, button))
    return found


def check_cards(found):
    names = [panel.name for _, panel, _ in found]
    assert len(found) > 1 and len(set(names)) == len(names), names
    for cell, panel, button in found:
        assert cell.name == panel.name == button.description, (cell.name, button.description)
        assert "GB" in panel.name and "hand" in panel.description, panel.description
        assert button.getRoleName() == "push button"


def plans_shown(p):
    said = wait("plans to choose from", lambda: next(
        (n for n in p.nodes("status bar") if "to choose from" in n.name), None), p.nodes)
    found = cards(p)
    check_cards(found)
    return said, found


def printed_text(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], check=True, capture_output=True,
                          text=True, timeout=60).stdout


def by_mouse(binary, job, shelf):
    with Driven(binary, job) as p:
        before = p.filled()
        p.click(p.find("work out a plan"))
        plans_shown(p)
        p.click(p.find("shelf"))
        p.active("Choose a Stock File")
        key("ctrl+l")
        write(shelf)
        p.press_until("Return", lambda: p.look("shelf").name == "From shelf.csv")
        p.back()
        p.click(p.find("what is wished"))
        key("Down")
        key("Return")
        p.click(p.find("amount"))
        write("128 GB")
        wait("a plan that buys", lambda: any("28.50" in n.description or "EUR" in n.description
                                             for _, n, _ in cards(p)), p.nodes)
        _, found = plans_shown(p)
        p.click(found[0][2])
        wait("the plan taken", lambda: p.filled() != before)
        taken, clicks = p.filled(), p.clicks
        assert clicks <= MOST_CLICKS, f"{clicks} clicks"
        print(f"ok 1 - a plan taken from the shelf in {clicks} clicks")
        key("ctrl+z")
        wait("the plan undone", lambda: p.filled() == before)
        key("ctrl+shift+z")
        wait("the plan done again", lambda: p.filled() == taken)
        print("ok 2 - undone and done again as one step")
        text = printed_text(print_to_file(p))
        assert "TW-R" in text and ("B1" in text or "B2" in text), text
        print("ok 3 - printed: the sheet says what to fetch")


def as_found(p):
    return next(button for _, panel, button in cards(p) if "as found" in panel.name)


def by_keys(binary, job):
    with Driven(binary, job) as p:
        before = p.filled()
        key("ctrl+l")
        plans_shown(p)
        reach(lambda: has_focus(as_found(p)), "Tab")
        key("Return")
        wait("the plan taken", lambda: p.filled() != before)
        key("ctrl+z")
        wait("the plan undone", lambda: p.filled() == before)
    print("ok 4 - by keys alone")


def by_bus(binary, job, shelf):
    """Nothing clicked, no key pressed."""
    with Program(binary, job) as p:
        p.slot("D1")
        before = sorted(n.name for n in p.nodes("check box") if holds(n))
        act(p.frame(), "win.plan")
        plans_shown(p)
        act(p.find("wish"), "wish.reach")
        p.find("amount").queryEditableText().setTextContents("900 TB")
        wait("that it cannot be", lambda: p.nodes("status bar") and not cards(p) and any(
            n.name and "to choose from" not in n.name for n in p.nodes("status bar")), p.nodes)
        act(p.find("wish"), "wish.more")
        p.find("stock path").queryEditableText().setTextContents(shelf)
        wait("the shelf", lambda: p.look("shelf").name == "From shelf.csv")
        p.find("amount").queryEditableText().setTextContents("128 GB")
        wait("a plan that buys", lambda: any("EUR" in n.description for _, n, _ in cards(p)), p.nodes)
        act(p.find("wish"), "wish.rearrange")
        plans_shown(p)
        act(as_found(p), "click")
        wait("the plan taken",
             lambda: sorted(n.name for n in p.nodes("check box") if holds(n)) != before)
        act(p.frame(), "win.undo")
        wait("the plan undone",
             lambda: sorted(n.name for n in p.nodes("check box") if holds(n)) == before)
        path = p.path("bench.pdf")
        act(p.frame(), "win.export-bench")
        p.find("file name").queryEditableText().setTextContents(path)
        act(p.find("export"), "click")
        wait("the sheet", lambda: os.path.getsize(path) > 1000)
    print("ok 5 - by a screen reader's means alone")


def board_page(binary, job):
    """The page of the board, from the menu's action to a file."""
    with Program(binary, job) as p:
        p.slot("D1")
        act(p.frame(), "win.about-board")
        preview = wait("the board's page", lambda: next(
            (n for n in p.nodes("frame") if n.name == "Tern W4"), None))
        act(next(n for n in walk(preview) if n.name == "Export…"), "click")
        path = p.path("board.pdf")
        p.find("file name").queryEditableText().setTextContents(path)
        act(wait("the dialog's Export", lambda: next(
            (n for n in p.nodes("push button") if n.name.startswith("Export")
             and "…" not in n.name), None)), "click")
        wait("the page", lambda: os.path.getsize(path) > 1000)
        assert "Order of fitting" in printed_text(path)
    print("ok 6 - the board's page exported\n1..6")


def main():
    for program in ("xdotool", "openbox", "pdftotext"):
        if shutil.which(program) is None:
            print(f"1..0 # SKIP {program} is not installed")
            return
    binary, job = (os.path.abspath(word) for word in sys.argv[1:3])
    shelf = os.path.join(os.environ["XDG_RUNTIME_DIR"], "shelf.csv")
    with open(shelf, "w", encoding="utf-8") as file:
        file.write(SHELF)
    with WindowManager():
        by_mouse(binary, job, shelf)
        by_keys(binary, job)
    by_bus(binary, job, shelf)
    board_page(binary, job)


main()
