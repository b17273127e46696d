#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli boards: the list against platforms/, one board, teaching and being found again, exit
statuses. Keys of --json: product.md 11."""
import glob
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

CLI = sys.argv[1]
SOURCE = os.environ["LID_SOURCE"]
MACHINES = os.path.join(os.environ["LID_TEST_DATA"], "machines")
KEYS = ["format", "source", "ok", "reason", "id", "name", "sockets", "channels", "slots"]
home = tempfile.mkdtemp(prefix="lidleaf-")
faults = []


def expect(what, got, want):
    if got != want:
        faults.append(f"{what}: got {got!r}, want {want!r}")


def run(*arguments):
    done = subprocess.run([CLI, *arguments], capture_output=True, check=False,
                          env=dict(os.environ, XDG_DATA_HOME=home, LC_ALL="C.UTF-8"))
    return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def slots_of(board):
    return [slot for socket in board["sockets"] for controller in socket["controllers"]
            for channel in controller["channels"] for slot in channel["slots"]]


def check_list():
    status, text, _ = run("boards", "--json")
    found = {one["id"]: one for one in map(json.loads, text.splitlines())}
    expect("list status", status, 0)
    files = sorted(glob.glob(os.path.join(SOURCE, "platforms", "*.json")))
    expect("boards listed", sorted(found), [os.path.basename(f)[:-5] for f in files])
    for path in files:
        board = load(path)
        one = found[board["id"]]
        expect("keys missing", [k for k in KEYS if k not in one], [])
        expect(board["id"] + " name", one["name"], board["name"])
        expect(board["id"] + " sockets", one["sockets"], len(board["sockets"]))
        expect(board["id"] + " slots", one["slots"], len(slots_of(board)))
    status, text, _ = run("boards")
    expect("list rows", len(text.splitlines()), len(files) + 1)


def check_one():
    status, text, _ = run("boards", "sandpiper-t1", "--json")
    one = json.loads(text)
    expect("one status", status, 0)
    expect("definition", one["definition"], load(os.path.join(SOURCE, "platforms",
                                                               "sandpiper-t1.json")))
    status, text, _ = run("boards", "sandpiper-t1")
    for words in ("DIMM 2 (sand latches), DIMM 1 (slate latches)",
                  "32 GB bench-proven bench 2, Heron Point workshop on 2026-02-11 with firmware 1.8",
                  "any 2 2 2 any any 2400 MT/s typical, from memory", "one module any 16 GB listed",
                  "Source of the ways from memory"):
        expect("said: " + words, words in re.sub(" +", " ", text), True)
    for board, words in (("scoter-r2", "Ways 6 too, where every processor fitted is “processor of the third series” ["),
                         ("scoter-r2", "Channels of 4 nodes A+B, C+D, E+F, G+H"),
                         ("plover-r2", "Channels of 2 nodes A+B+C, D+E+F"),
                         ("dipper-s1", "ECC not needed; works where all modules have it"),
                         ("gannet-r2", "Ways 5 too, where a processor is cut into 2 nodes [")):
        status, text, _ = run("boards", board)
        expect("said of " + board, words in re.sub(" +", " ", text), True)
    status, text, _ = run("boards", os.path.join(SOURCE, "platforms", "dunlin-s1.json"))
    expect("by file", (status, "soldered: 8 GB" in text), (0, True))


def check_page():
    """The page in all three formats; a page of several sheets makes several pictures."""
    for name, head in (("page.pdf", b"%PDF"), ("page.svg", b"<?xml"), ("page.png", b"\x89PNG")):
        path = os.path.join(home, name)
        status, text, _ = run("boards", "curlew-r2", "--page", "-o", path)
        files = [line.split(" written")[0] for line in text.splitlines()]
        expect(name + " status", (status, len(files) > 0), (0, True))
        expect(name + " files", len(files) == 1, name.endswith("pdf"))
        for file in files:
            with open(file, "rb") as one:
                expect(file, one.read(len(head)), head)
            os.remove(file)
    for want, arguments in ((1, ["curlew-r2", "--page"]), (1, ["--page", "-o", "x.pdf"]),
                            (1, ["curlew-r2", "--page", "-o", "x.txt"]),
                            (1, ["curlew-r2", "--paper", "a4"]),
                            (1, ["curlew-r2", "--page", "--paper", "a0", "-o", "x.pdf"]),
                            (1, ["no-such-board", "--page", "-o", "x.pdf"])):
        status, text, complaint = run("boards", *arguments)
        expect(f"status of {arguments}", (status, text, complaint.count("\n")), (want, "", 1))


def check_calls():
    for want, arguments in ((1, ["no-such-board"]), (1, ["a", "b"]), (1, ["-o", "x"]),
                            (1, ["--teach", "by-channel:2", "x"]),
                            (1, ["--teach", "by-colour", "-o", "-",
                                 os.path.join(MACHINES, "gannet-r2.bin")]),
                            (1, ["--teach", "channels:PROC 1 DIMM 1+PROC 2 DIMM 1,...", "-o", "-",
                                 os.path.join(MACHINES, "gannet-r2.bin")]),
                            (2, ["--teach", "by-channel:2", "-o", "-", "/dev/null/nothing"]),
                            (2, ["/dev/null/nothing.json"])):
        status, text, complaint = run("boards", *arguments)
        expect(f"status of {arguments}", status, want)
        expect(f"complaint of {arguments}", (text, complaint.count("\n")), ("", 1))


def check_teaching():
    """Twelve slots a processor, channels not told by the names: taught two to a channel."""
    machine = os.path.join(MACHINES, "gannet-r2.bin")
    folder = os.path.join(home, "lidleaf", "boards")
    os.makedirs(folder)
    path = os.path.join(folder, "Heron 7.json")
    status, text, _ = run("boards", "--teach", "by-channel:2", "-o", path, machine)
    expect("taught", status, 0)
    expect("preview", " 1 PROC 1 DIMM 1, PROC 1 DIMM 2\n" in re.sub(" +", " ", text), True)
    board = load(path)
    expect("id", board["id"], "heron-7")
    expect("fingerprint", [(p["product"], p["board"], p["slots"], p["arrays"])
                           for p in board["fingerprints"]], [("Gannet R2", "GNT-R2", 24, 2)])
    expect("no serial in a board", "2026" in json.dumps(board["sockets"]), False)
    found = json.loads(run("read", "--json", machine)[1])
    expect("found again", (found["board"]["id"], found["board"]["match"]), ("heron-7", "exact"))
    pairs = {}
    for slot in found["slots"]:
        pairs.setdefault((slot["socket"], slot["channel"]), []).append(slot["position"])
    expect("told by", {slot["told_by"] for slot in found["slots"]}, {"board"})
    expect("two to a channel", (len(pairs), {tuple(sorted(p)) for p in pairs.values()}),
           (12, {(1, 2)}))
    os.remove(path)
    found = json.loads(run("read", "--json", machine)[1])
    expect("gone again", found["board"]["id"], "gannet-r2")
    pairs = [f"PROC {p} DIMM {n}+PROC {p} DIMM {n + 6}" for p in (1, 2) for n in range(1, 7)]
    status, text, _ = run("boards", "--teach", "channels:" + ",".join(pairs), "-o", path, machine)
    expect("slot by slot", (status, " F PROC 2 DIMM 6, PROC 2 DIMM 12\n" in re.sub(" +", " ", text)), (0, True))
    os.remove(path)
    status, text, other = run("boards", "--teach", "by-channel:2", "-o", "-", machine)
    expect("printed", (status, json.loads(text)["about"] != "", " 1 PROC 1 DIMM 1, " in re.sub(" +", " ", other)),
           (0, True, True))


def check_broken_board():
    path = os.path.join(home, "lidleaf", "boards", "broken.json")
    with open(path, "w", encoding="utf-8") as file:
        file.write('{"format": 1, "id": "broken"}')
    status, text, complaint = run("boards")
    expect("broken one said, others listed", (status, "tern-w4" in text, "broken.json: version: is "
           "missing" in complaint), (2, True, True))


try:
    check_list()
    check_one()
    check_page()
    check_calls()
    check_teaching()
    check_broken_board()
finally:
    shutil.rmtree(home)
print("\n".join(faults) or "boards: as it should be")
sys.exit(1 if faults else 0)
