#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli module: keys and values of --json against product.md 11 and label_cases.csv (labels
of real modules, each row with its source), people's text, exit statuses."""
import csv
import json
import os
import subprocess
import sys
import tempfile

CLI = sys.argv[1]
DATA = os.path.join(os.environ["LID_TEST_DATA"], "label")
KEYS = ["format", "source", "ok", "reason", "label", "form", "quantity", "generation",
        "capacity_mib", "ranks", "logical_ranks", "chip_width", "rated_mts", "kind", "ecc",
        "voltages_mv", "height_mm", "die_gbit", "part", "serial"]
KIND = {("UDIMM", "no"): "unbuffered", ("UDIMM", "yes"): "ecc-unbuffered",
        ("RDIMM", "yes"): "registered", ("LRDIMM", "yes"): "load-reduced",
        ("SO-DIMM", "no"): "so-unbuffered", ("SO-DIMM", "yes"): "so-ecc-unbuffered",
        ("CSODIMM", "no"): "so-clocked-unbuffered"}
faults = []


def expect(what, got, want):
    if got != want:
        faults.append(f"{what}: got {got!r}, want {want!r}")


def run(*arguments, stdin=b"", locale="C.UTF-8"):
    done = subprocess.run([CLI, "module", *arguments], input=stdin, capture_output=True,
                          env=dict(os.environ, LC_ALL=locale), check=False)
    return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


def objects(text):
    found = [json.loads(line) for line in text.splitlines()]
    for one in found:
        expect("keys missing", [k for k in KEYS if k not in one], [])
        expect("format", one["format"], 1)
        expect("reason goes with ok", one["reason"] is None, one["ok"])
    return found


def check_cases():
    rows = list(csv.DictReader(open(os.path.join(DATA, "label_cases.csv"), encoding="utf-8")))
    status, out, err = run("--json", *[row["label"] for row in rows])
    expect("cases: status", (status, err), (0, ""))
    for row, one in zip(rows, objects(out), strict=True):
        volts = {"1.35": [1350, 1500]}.get(row["voltage_v"], [round(float(row["voltage_v"]) * 1000)])
        want = {"source": row["label"], "label": row["label"], "ok": True, "quantity": 1,
                "form": {"full": "label", "short": "short-label"}[row["form"]],
                "generation": row["generation"],
                "capacity_mib": int(float(row["capacity_gib"]) * 1024),
                "ranks": int(row["package_ranks"]), "logical_ranks": int(row["logical_ranks"]),
                "chip_width": int(row["chip_width"]), "rated_mts": int(row["rate_mts"]),
                "kind": KIND[row["module_type"], row["ecc"]], "ecc": row["ecc"] == "yes",
                "voltages_mv": volts, "height_mm": None, "die_gbit": int(row["die_gbit"]),
                "part": None, "serial": None}
        for key, value in want.items():
            expect(f"{row['id']} {key}", one[key], value)


def check_rejects():
    rows = list(csv.DictReader(open(os.path.join(DATA, "label_rejects.csv"), encoding="utf-8")))
    status, out, err = run("--json", "-", stdin="\n".join(r["label"] for r in rows).encode())
    expect("rejects: status", (status, err), (2, ""))
    for row, one in zip(rows, objects(out), strict=True):
        expect(f"{row['id']} ok", one["ok"], False)
        expect(f"{row['id']} rest null", [k for k in KEYS[4:] if one[k] is not None], [])


def check_forms():
    qr = "(L)64GB 2Rx4 PC5-4800B-RA0-1010-XT(S)0A1B2C3D(P)TP-64R-48(M)80CE"
    status, out, _ = run("--json", qr, "16x 32GB 2RX4 PC4-3200AA-RB2-12", "32g 2rx4 3200 registered")
    first, second, third = objects(out)
    expect("forms: status", status, 0)
    expect("qr", [first[k] for k in ("form", "serial", "part", "maker", "label", "capacity_mib")],
           ["qr", "0A1B2C3D", "TP-64R-48", "80CE", "64GB 2Rx4 PC5-4800B-RA0-1010-XT", 65536])
    expect("quantity", [second[k] for k in ("quantity", "form", "label")],
           [16, "label", "32GB 2Rx4 PC4-3200AA-RB2-12"])
    expect("short form", [third[k] for k in ("form", "generation", "rated_mts", "kind", "ranks")],
           ["short-form", None, 3200, "registered", 2])


def check_people():
    status, out, err = run("32GB 2Rx4 PC4-3200AA-RB2-12", "16GB 2RxB PC4-2666V-UB1-11")
    expect("people: status", status, 2)
    expect("people: first line", out.splitlines()[0], "32GB 2Rx4 PC4-3200AA-RB2-12")
    expect("people: registered", "registered DIMM, 8 check bits" in out, True)
    expect("people: field and remedy", "chip width" in err and "16GB 2Rx8" in err, True)
    status, out, _ = run("16g ecc unbuffered")
    expect("people: short form is marked", "short form" in out.splitlines()[0], True)


def check_calls():
    expect("no label", run()[0], 1)
    expect("unknown option", run("--no-such")[0], 1)
    expect("empty input", run("-")[0], 2)
    expect("empty lines", run("-", stdin=b"\n \r\n")[0], 2)
    expect("last line without end", run("-", stdin=b"\xef\xbb\xbf16g reg")[0], 0)
    status, out, _ = run("--json", "-", stdin=b"x" * 5_000_000 + b"\n16g reg\n\xff\xfe\0\n")
    expect("hostile lines", (status, [o["ok"] for o in objects(out)]), (2, [False, True, False]))
    expect("quotes forgotten", "quotes" in run("32GB", "2Rx4", "PC4-3200AA-R")[2], True)


def check_remember():
    """A label told once answers for every module of its part number."""
    machine = os.path.join(os.environ["LID_TEST_DATA"], "machines", "plover-r2.bin")
    part = "HM-32G2R4-R29"
    with tempfile.TemporaryDirectory() as folder:
        where = dict(os.environ, XDG_DATA_HOME=folder)

        def unsure():
            done = subprocess.run([CLI, "check", "--json", machine], env=where, check=False,
                                  capture_output=True, text=True)
            return [f["text"] for f in json.loads(done.stdout)["findings"]
                    if f["grade"] == "unsure" and part in f["text"]]

        expect("asked before", len(unsure()) > 0, True)
        done = subprocess.run([CLI, "module", "--remember", part, "32GB 2Rx4 PC4-2933Y-RB2-12"],
                              env=where, check=False, capture_output=True, text=True)
        expect("remember: status", (done.returncode, done.stderr), (0, ""))
        expect("not asked again", unsure(), [])
        expect("one label only", run("--remember", part, "16g reg", "16g reg")[0], 1)
        path = os.path.join(folder, "lidleaf", "parts.json")
        with open(path, "w", encoding="utf-8") as file:
            file.write("{ broken")
        done = subprocess.run([CLI, "module", "--remember", part, "16g reg"], env=where, check=False,
                              capture_output=True, text=True)
        expect("a broken memory is told", (done.returncode, path in done.stderr), (2, True))
        expect("and left as it is", open(path, encoding="utf-8").read(), "{ broken")


for check in (check_cases, check_rejects, check_forms, check_people, check_calls, check_remember):
    check()
print("\n".join(faults) if faults else "cli-module: all as expected")
sys.exit(bool(faults))
