#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli read: keys of --json against product.md 11; the open data set's machines against
their manifest; jobs written and read again; exit statuses and streams."""
import csv
import glob
import json
import os
import subprocess
import sys
import tempfile

CLI = sys.argv[1]
DATA = os.environ["LID_TEST_DATA"]
SHARED = os.environ["LID_SHARED"]
KEYS = {"format", "source", "ok", "reason", "total_mib", "board", "slots", "remarks"}
SLOT_KEYS = {"slot", "name", "bank", "handle", "socket", "controller", "channel", "position",
             "told_by", "state", "capacity_mib", "generation", "kind", "rated_mts", "rated_raw",
             "configured_mts", "ranks", "chip_width", "part", "serial", "maker"}
# Where we read less than the manifest: DIMM_A1 to DIMM_A8 beside CPU1 alone. Numbers above 3 mean
# that the letter is the processor (locators.md, "Same string, different meaning"): no channel has
# eight slots.
EXCUSED = {("m0114.txt", "channel told")}
faults = []


def expect(what, got, want):
    if got != want:
        faults.append(f"{what}: got {got!r}, want {want!r}")


def run(*arguments, stdin=b"", locale="C.UTF-8"):
    done = subprocess.run([CLI, *arguments], input=stdin, capture_output=True,
                          env=dict(os.environ, LC_ALL=locale), check=False)
    return done.returncode, done.stdout.decode("utf-8", "strict" if "--json" in arguments else "replace"), \
        done.stderr.decode("utf-8", "replace")


def told(slots, key):
    """The manifest's words for how many slots tell something."""
    n = sum(1 for slot in slots if slot[key] is not None)
    if n == len(slots):
        return "all"
    return "some" if n else "none"


def check_keys():
    files = sorted(glob.glob(os.path.join(DATA, "machines", "*.*[nt]")))
    status, out, err = run("read", "--json", *files)
    expect("machines: status", (status, err), (0, ""))
    lines = [json.loads(line) for line in out.splitlines()]
    expect("machines: one line each", len(lines), len(files))
    for one in lines:
        expect(f"{one['source']}: keys missing", KEYS - one.keys(), set())
        expect(f"{one['source']}: match", one["board"]["match"], "exact")
        names = [slot["slot"] for slot in one["slots"]]
        expect(f"{one['source']}: slot unique", len(set(names)), len(names))
        for slot in one["slots"]:
            expect(f"{one['source']}: slot keys missing", SLOT_KEYS - slot.keys(), set())
            expect(f"{one['source']}: told by", slot["told_by"], "board")
            if slot["state"] == "empty":
                expect(f"{one['source']}: empty holds", slot["capacity_mib"], 0)


def check_manifest():
    """Source: "DMI Tables" data set, Linux Hardware Project, CC-BY-4.0, its manifest drawn up with
    the samples (shared/data)."""
    path = os.path.join(SHARED, "data", "manifest.csv")
    if not os.path.exists(path):
        print("manifest: not here, left out")
        return
    rows = list(csv.DictReader(open(path, encoding="utf-8")))
    files = [os.path.join(SHARED, "data", "machines", row["file"]) for row in rows]
    status, out, _ = run("read", "--json", *files)
    expect("manifest: status", status, 0)
    for row, line in zip(rows, out.splitlines(), strict=True):
        one = json.loads(line)
        slots, name = one["slots"], row["file"]
        expect(f"{name} slots", len(slots), int(row["slots"]))
        expect(f"{name} filled", sum(slot["state"] != "empty" for slot in slots),
               int(row["populated"]))
        expect(f"{name} total", one["total_mib"], int(row["total_mib"]))
        if slots and row["channel_told"] in ("all", "some", "none") and len(slots) > 1:
            if (name, "channel told") not in EXCUSED:
                expect(f"{name} channel told", told(slots, "channel"), row["channel_told"])
        if slots:
            expect(f"{name} socket told", told(slots, "socket"),
                   {"one": "all"}.get(row["socket_told"], row["socket_told"]))


def check_job():
    source = sorted(glob.glob(os.path.join(DATA, "machines", "*.*[nt]")))[0]
    with tempfile.TemporaryDirectory() as folder:
        job = os.path.join(folder, "a.lidleaf")
        expect("save", run("read", "-o", job, source)[0], 0)
        document = json.load(open(job, encoding="utf-8"))
        expect("job format", document["lidleaf"], 1)
        expect("nothing planned", document["stages"], [])
        status, out, err = run("read", "-o", "-", source)
        expect("job on standard output", json.loads(out)["lidleaf"], 1)
        expect("report on standard error", "slots" in err, True)
        expect("-o takes one machine", run("read", "-o", job, source, source)[0], 1)
        expect("unwritable", run("read", "-o", os.path.join(folder, "no", "a"), source)[0], 1)


def check_calls():
    source = sorted(glob.glob(os.path.join(DATA, "machines", "*.*[nt]")))[0]
    with open(source, "rb") as file:
        body = file.read()
    expect("standard input", run("read", "-", stdin=body)[0], 0)
    expect("no input", run("read")[0], 1)
    expect("no such option", run("read", "--odd", source)[0], 1)
    expect("no such board", run("read", "--board", "no-such-board", source)[0], 1)
    status, out, err = run("read", "/no/such/file", source)
    expect("one of two unreadable", (status, "/no/such/file" in err, len(out) > 100), (2, True, True))
    status, out, err = run("read", "--json", "/no/such/file")
    one = json.loads(out)
    expect("unreadable in JSON", (status, one["ok"], "/no/such/file" in one["reason"]),
           (2, False, True))
    status, out, err = run("read", "--json", "-", stdin=b"SMBIOS 3.2.0 present.\n")
    if status == 0:
        expect("a list without devices", (json.loads(out)["slots"], err), ([], ""))
        expect("and says so", len(json.loads(out)["remarks"]) > 0, True)
    else:
        expect("a list without devices", status, 0)
    status, out, err = run("read", "-o", "-", "-", stdin=b"SMBIOS 3.2.0 present.\n")
    expect("no job without a slot", (status, out, "no memory slot" in err), (2, "", True))


def check_odd_names():
    """A file name need not be UTF-8; JSON and jobs must be (RFC 8259 8.1)."""
    source = sorted(glob.glob(os.path.join(DATA, "machines", "*.*[nt]")))[0]
    with tempfile.TemporaryDirectory() as folder:
        odd = os.path.join(os.fsencode(folder), b"caf\xe9.txt")
        job = os.path.join(os.fsencode(folder), b"\xe9.lidleaf")
        with open(source, "rb") as file, open(odd, "wb") as copy:
            copy.write(file.read())
        status, out, _ = run("read", "--json", "-o", job, odd)
        expect("odd name", (status, json.loads(out)["source"][-8:]), (0, "caf\ufffd.txt"))
        with open(job, encoding="utf-8") as file:
            json.load(file)
        expect("odd job", run("check", job)[0] in (0, 3), True)
        status, out, _ = run("read", "--json", odd + b"x")
        expect("odd name missing", (status, json.loads(out)["ok"]), (2, False))


for check in (check_keys, check_manifest, check_job, check_calls, check_odd_names):
    check()
print("\n".join(faults) if faults else "read: as agreed")
sys.exit(1 if faults else 0)
