#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli check: keys of --json against product.md 11, exit statuses, people's text. Machines
are the invented ones of tests/data/machines; the plan is made here, out of what was read."""
import json
import os
import re
import subprocess
import sys
import tempfile

CLI = sys.argv[1]
DATA = os.environ["LID_TEST_DATA"]
PLOVER = os.path.join(DATA, "machines", "plover-r2.bin")
KEYS = ["format", "source", "ok", "reason", "of", "board", "fitted_mib", "unusable",
        "capacity_mib", "usable_mib", "running_mts", "limits", "peak_mbs", "whole_mbs", "best_mbs",
        "worst_mbs", "even_share", "channels_in_use", "channels", "sockets", "findings"]
FINDING = ["rule", "grade", "stops", "slots", "text", "basis", "source", "remedy"]
FIGURES = ["capacity_mib", "usable_mib", "running_mts", "peak_mbs", "whole_mbs", "best_mbs",
           "worst_mbs", "even_share", "channels_in_use", "channels"]
NEVER = ["compatible", "supported", "certified", "qualified", "validated", "recommended", "optimal",
         "best practice", "score", "MHz"]
faults = []


def expect(what, got, want):
    if got != want:
        faults.append(f"{what}: got {got!r}, want {want!r}")


def run(*arguments, command="check", stdin=b"", locale="C.UTF-8"):
    done = subprocess.run([CLI, command, *arguments], input=stdin, capture_output=True,
                          env=dict(os.environ, LC_ALL=locale), check=False)
    return done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8")


def objects(text):
    return [json.loads(line) for line in text.splitlines()]


def check_shape(one):
    expect("keys missing", [k for k in KEYS if k not in one], [])
    for limit in one["limits"]:
        expect("limit", list(limit), ["what", "mts", "binding"])
        expect("binding", limit["binding"], limit["mts"] == one["running_mts"])
    for socket in one["sockets"]:
        expect("socket", list(socket), ["socket", "running_mts", "channels", "regions"])
    for finding in one["findings"]:
        expect("finding", list(finding), FINDING)
        expect("stops", finding["stops"] in ("machine", "slots"), finding["grade"] == "stops")
        expect("sentence", finding["text"].endswith("."), True)
        if finding["remedy"]:
            for move in finding["remedy"]["moves"]:
                expect("move", list(move), ["module", "from", "to"])


def found():
    status, out, err = run("--json", PLOVER)
    expect("as found: status", (status, err), (0, ""))
    one = objects(out)[0]
    check_shape(one)
    expect("of", one["of"], "as-found")
    expect("board", one["board"], "plover-r2")
    # By hand: 13 modules of 32 GB, two on channel 1-A, one on each other channel. The busiest
    # channel has 64 GB, so reading all 416 GB takes as long as 416/64 = 6.5 channels need: 6.5/12.
    # Model: product.md 6.
    expect("fitted", one["fitted_mib"], 13 * 32768)
    expect("share", re.search(r'"even_share":([0-9.]+)', out)[1], "0.5417")
    expect("in use", (one["channels_in_use"], one["channels"]), (12, 12))
    expect("running", one["running_mts"], 2666)
    # 8000/3 MT/s × 8 bytes × 12 channels, rounded once: standards.md 1.
    expect("peak", one["peak_mbs"], 256000)
    expect("regions", one["sockets"][0]["regions"],
           [{"size_mib": 6 * 32768, "ways": 6}, {"size_mib": 32768, "ways": 1}])


def make_job(folder, name, change):
    path = os.path.join(folder, name)
    status, _, err = run("-o", path, PLOVER, command="read")
    expect("read", (status, err), (0, ""))
    with open(path, encoding="utf-8") as file:
        job = json.load(file)
    plan = json.loads(json.dumps(job["as_found"]))
    change({slot["slot"]: slot for slot in plan["slots"]})
    job["stages"] = [{"name": "tonight", "population": plan}]
    with open(path, "w", encoding="utf-8") as file:
        json.dump(job, file)
    return path


def to_second_slot(slots):
    slots["1-B2"].update(module=slots["1-B1"]["module"], state="filled")
    slots["1-B1"].update(module=None, state="empty", configured_mts=None)


def power(folder):
    """Ranges of the modules add up to the range of all; a module moved adds nothing, all taken out
    give back all there was."""
    def watts(path, *more):
        power_of = objects(run("--json", *more, path)[1])[0]["power"]
        for end in ("low_mw", "high_mw"):
            expect("power: " + end, power_of[end] or 0,
                   sum(module[end] or 0 for module in power_of["modules"]))
        return power_of
    moved = make_job(folder, "moved.lidleaf", to_second_slot)
    empty = make_job(folder, "empty.lidleaf", all_out)
    before = watts(moved, "--of", "as-found")
    expect("power as found",
           (before["added"], len(before["modules"]) > 0, 0 < before["low_mw"] < before["high_mw"]),
           (None, True, True))
    expect("moved", watts(moved)["added"], {"low_mw": 0, "high_mw": 0})
    expect("taken out", watts(empty)["added"],
           {"low_mw": -before["high_mw"], "high_mw": -before["low_mw"]})
    expect("sources", [m["slot"] for m in before["modules"] if not m["source"]], [])


def all_out(slots):
    for slot in slots.values():
        slot.update(module=None, state="empty", configured_mts=None)


def planned(folder):
    path = make_job(folder, "second.lidleaf", to_second_slot)
    status, out, err = run("--json", path)
    one = objects(out)[0]
    check_shape(one)
    expect("planned: status", (status, err), (3, ""))
    expect("planned: of", one["of"], "planned")
    expect("unusable", one["unusable"], ["1-B2"])
    first = one["findings"][0]
    expect("first", (first["rule"], first["grade"], first["stops"], first["slots"]),
           ("first-slot", "stops", "slots", ["1-B2"]))
    expect("remedy", [(m["from"], m["to"]) for m in first["remedy"]["moves"]], [("1-B2", "1-B1")])
    expect("usable", (one["fitted_mib"], one["capacity_mib"]), (13 * 32768, 12 * 32768))
    status, out, _ = run("--json", "--of", "as-found", path)
    expect("--of as-found", (status, objects(out)[0]["of"]), (0, "as-found"))
    status, out, _ = run("--json", "--of", "as-left", path)
    expect("--of as-left", (status, objects(out)[0]["ok"]), (1, False))
    text(path)


def stopped(folder):
    path = make_job(folder, "empty.lidleaf", all_out)
    status, out, _ = run("--json", path)
    one = objects(out)[0]
    check_shape(one)
    expect("stopped: status", status, 3)
    expect("stopped: figures", [one[k] for k in FIGURES], [None] * len(FIGURES))
    expect("stopped: lists", (one["limits"], one["unusable"], one["fitted_mib"]), ([], [], 0))
    expect("stopped: channels", len(one["sockets"][0]["channels"]), 6)
    expect("stopped: regions", one["sockets"][0]["regions"], [])
    status, out, _ = run(path)
    expect("says so", "Does not start" in out, True)


def text(path):
    status, out, err = run(path)
    expect("text: status", (status, err), (3, ""))
    expect("worst first", out.splitlines()[1], "stops: 1-B2")
    expect("what to do", "What to do: Move the module to the first slot" in out, True)
    expect("a model", "by a model, not a measurement" in out, True)
    expect("binding", len(re.findall(r"\(binds\)", out)) >= 1, True)
    expect("words never used", [w for w in NEVER if w in out], [])


def as_mode(folder, **settings):
    """The thirteen modules of 32 GB, two ranks each, as found, and a memory mode asked for."""
    path = make_job(folder, "mode.lidleaf", lambda slots: None)
    with open(path, encoding="utf-8") as file:
        job = json.load(file)
    job["stages"][0]["population"].update(settings)
    for module in job["modules"]:
        for fact, value in (("ranks", 2), ("logical_ranks", 2), ("chip_width", 4), ("kind", "registered")):
            module["facts"][fact] = {"value": value, "basis": "label"}
    with open(path, "w", encoding="utf-8") as file:
        json.dump(job, file)
    _, out, _ = run("--json", path)
    return objects(out)[0], run(path)[1]


def modes(folder):
    """Spared: each of twelve channels sets a rank of 16 GB aside. Mirrored: seven modules on a
    processor are none of 6 or 12, so the mode is refused and plain figures hold. Product.md 6."""
    one, out = as_mode(folder, mode="spared", spare_ranks=1)
    expect("spared", (one["mode"]["in_effect"], one["capacity_mib"], one["usable_mib"]),
           (True, 13 * 32768, 13 * 32768 - 12 * 16384))
    expect("spared, by socket", [sum(r["size_mib"] for r in s["regions"]) for s in one["sockets"]],
           [7 * 32768 - 6 * 16384, 6 * 32768 - 6 * 16384])
    expect("spared: text", "spared by 1 rank" in out and "of which 224 GB can be used" in out, True)
    one, out = as_mode(folder, mode="mirrored")
    refused = {f["rule"]: f["grade"] for f in one["findings"] if f["rule"].startswith("mode-")}
    expect("mirrored", (one["mode"]["in_effect"], one["usable_mib"]), (False, 13 * 32768))
    expect("each demand a finding", refused, {"mode-counts": "loses", "mode-pairs": "loses"})
    expect("refused: text", "mirrored, refused: starts in plain mode, unprotected" in out, True)
    one, out = as_mode(folder, mode="mirrored", numa_split=4)
    expect("no such split", [f["rule"] for f in one["findings"] if f["rule"] == "numa-split"], ["numa-split"])
    expect("one node", one["nodes"], [[2], [1]])
    expect("assumptions", [a["id"] for a in one["assumptions"]][:3],
           ["efficiency", "bytes-per-transfer", "modules-per-channel"])


def folded(folder):
    """Two facts of one part stand in one line, and where each is printed is said once; --json
    keeps one finding per fact and part (product.md 3)."""
    path = os.path.join(folder, "report.txt")
    device = ("Handle 0x{0:04x}, DMI type 17, 40 bytes\nMemory Device\n\tSize: {1}\n\tLocator: A{0}\n"
              "\tType: DDR4\n\tSpeed: 2400 MT/s\n\tPart Number: {2}\n\n")
    with open(path, "w", encoding="utf-8") as file:
        file.write(device.format(1, "16 GB", "TIDE-16") + device.format(2, "16 GB", "TIDE-16")
                   + device.format(3, "16 GB", "WEIR-16"))
    _, out, _ = run(path)
    _, lines, _ = run("--json", path)
    asked = [f for f in objects(lines)[0]["findings"] if f["rule"] == "unknown-facts"]
    facts = len(asked) // 2
    expect("asks for more than one fact of both parts", (facts > 1, len(asked)), (True, facts * 2))
    expect("one line a part", re.findall(r"Not told of part (\S+):", out), ["TIDE-16", "WEIR-16"])
    for finding in asked:
        where = finding["text"].split("Where to read it: ")[1].rstrip(".")
        expect(f"said once: {where}", out.count(where), 1)


def several(folder):
    missing = os.path.join(folder, "nobody.lidleaf")
    second = os.path.join(folder, "second.lidleaf")
    status, out, _ = run("--json", second, missing, PLOVER)
    expect("unreadable beats stops", status, 2)
    expect("one object per input", [o["ok"] for o in objects(out)], [True, False, True])
    status, out, err = run(missing)
    expect("unreadable", (status, out, missing in err), (2, "", True))
    expect("no input", run()[0], 1)
    expect("wrong --of", run("--of", "tomorrow", PLOVER)[0], 1)
    with open(PLOVER, "rb") as file:
        status, out, _ = run("--json", "-", stdin=file.read())
    expect("standard input", (status, objects(out)[0]["board"]), (0, "plover-r2"))


def socket_not_told():
    """Two processors, and names that tell channels only: the channels are listed all the same."""
    text = "".join(f"Handle 0x000{n}, DMI type 4, 42 bytes\nProcessor Information\n"
                   f"\tSocket Designation: CPU{n}\n\tStatus: Populated, Enabled\n\n" for n in (1, 2))
    for n, (name, size) in enumerate((("A1", "16 GB"), ("A2", "16 GB"), ("B1", "16 GB"), ("B2", "Unknown"))):
        text += (f"Handle 0x001{n}, DMI type 17, 40 bytes\nMemory Device\n\tSize: {size}\n\tForm Factor: DIMM\n"
                 f"\tLocator: ONBOARD DIMM_{name}\n\tBank Locator: Channel {name[0]}\n\tType: DDR4\n\tSpeed: 2666 MT/s\n\n")
    _, out, _ = run("--json", "-", stdin=text.encode())
    one = objects(out)[0]
    check_shape(one)
    here = [s for s in one["sockets"] if s["socket"] is None]
    expect("channels of no told socket", [[c["channel"] for c in s["channels"]] for s in here], [["A", "B"]])
    expect("regions not known", [s["regions"] for s in one["sockets"]], [None] * len(one["sockets"]))
    expect("a size not told", (one["capacity_mib"], one["fitted_mib"]), (None, 3 * 16384))
    asked = [f for f in one["findings"] if f["rule"] == "unknown-facts" and "capacity" in f["text"]]
    expect("the size is asked for", [(f["grade"], f["slots"]) for f in asked], [("unsure", ["ONBOARD DIMM_B2"])])


def main():
    found()
    socket_not_told()
    with tempfile.TemporaryDirectory() as folder:
        planned(folder)
        power(folder)
        stopped(folder)
        several(folder)
        folded(folder)
        modes(folder)
    print("\n".join(faults) if faults else "check: nothing to say")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
