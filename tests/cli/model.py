#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli check against figures_model.py, an independent reckoning from product.md 6 and 7: a
seeded slice of random jobs on the six boards and on boards changed at random.

    model.py CLI [JOBS [SEED]]"""
import json
import os
import random
import subprocess
import sys
import tempfile
from fractions import Fraction

import figures_model as model
import findings_model
import random_model
import stops_model

CLI = sys.argv[1]
JOBS = int(sys.argv[2]) if len(sys.argv) > 2 else 900
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 20261125
HERE = os.path.dirname(os.path.abspath(__file__))
PLATFORMS = os.path.join(HERE, "..", "..", "platforms")
NAMES = ["curlew-r2", "dunlin-s1", "gannet-r2", "plover-r2", "sandpiper-t1", "tern-w4"]
TALLY = {}  # (mode, whether it takes effect) -> jobs


def job_of(board, population):
    """The job document of a population, as planned."""
    modules, slots = [], []
    for n, (slot, facts) in enumerate(population["slots"].items()):
        modules.append({"id": f"m{n}", "facts": {k: {"value": v, "basis": "told"} for k, v in facts.items()}})
        slots.append({"slot": slot, "module": f"m{n}",
                      "state": "not-seen" if slot in population["not_seen"] else "filled"})
    return {"lidleaf": 1, "board": {"definition": board.d}, "modules": modules, "as_found": None,
            "stages": [{"name": "tonight", "population": {
                "processors": population["processors"], "firmware": population["firmware"],
                "mode": population["mode"], "spare_ranks": population.get("spare_ranks"),
                "mirrored_mib": population.get("mirrored_mib"), "numa_split": population["numa"],
                "setup_limit_mts": population["setup_mts"], "slots": slots}}]}


def nominal(value):
    """A third is printed by its whole part: 8000/3 is 2666."""
    return None if value is None else int(value)


def expected(board, population, unusable):
    """The keys of `check --json` that the model reckons."""
    wired = in_contact(board, population)
    f = model.figures(board, wired, unusable)
    f["fitted_mib"] += sum(m.get("capacity_mib") or 0 for s, m in population["slots"].items() if s not in wired["slots"])
    limits = {w: nominal(v) for w, v in f["limits"].items()}
    regions = f["regions"]
    share = f["even_share"]
    return {
        "fitted_mib": f["fitted_mib"], "capacity_mib": f["capacity_mib"], "usable_mib": f["usable_mib"],
        "running_mts": nominal(f["running_mts"]), "limits": limits,
        "binding": sorted(w for w, v in limits.items() if v is not None and v == nominal(f["running_mts"])),
        "peak_mbs": f["peak_mbs"], "whole_mbs": f["whole_mbs"], "best_mbs": f["best_mbs"],
        "worst_mbs": f["worst_mbs"],
        "even_share": None if share is None else model.rounded(share * 10000),
        "channels_in_use": f["channels_in_use"], "channels": f["channels"],
        "sockets_mts": [nominal(r) for r in f["sockets_mts"]],
        "regions": [[list(r) for r in one] for one in regions] if regions is not None else None,
        "nodes": [[n for n in one if n] for one in f["nodes"]] if regions is not None else None,
        "in_effect": f["effect"],
    }


def answered(one):
    """The same keys as the program answers them."""
    got = {k: one[k] for k in ("fitted_mib", "capacity_mib", "usable_mib", "running_mts", "peak_mbs",
                               "whole_mbs", "best_mbs", "worst_mbs", "channels_in_use", "channels")}
    got["limits"] = {limit["what"]: limit["mts"] for limit in one["limits"]}
    got["binding"] = sorted(limit["what"] for limit in one["limits"] if limit["binding"])
    got["even_share"] = None if one["even_share"] is None else round(one["even_share"] * 10000)
    got["sockets_mts"] = [s["running_mts"] for s in one["sockets"]]
    got["regions"] = [[[r["size_mib"], r["ways"]] for r in s["regions"]] if s["regions"] is not None else None
                      for s in one["sockets"]]
    got["nodes"] = [[n for n in one if n] for one in one["nodes"]]
    got["in_effect"] = one["mode"]["in_effect"] if one["capacity_mib"] is not None else "not looked at"
    if all(r is None for r in got["regions"]):
        got["regions"] = got["nodes"] = None
    return got


def in_contact(board, population):
    """Without the modules that do not go in."""
    out = stops_model.outside(board, population)
    return {**population, "slots": {s: m for s, m in population["slots"].items() if s not in out}}


def refusals(one):
    """Findings that say the mode is refused."""
    return [f for f in one["findings"] if f["rule"].startswith("mode-") and f["rule"] != "mode-unused"
            and f["grade"] == "loses"]


def compare(path, board, population, told, one):
    """Sentences on what differs for one job."""
    faults = []
    unusable = set(one["unusable"])
    stopped = [f for f in one["findings"] if f["stops"] == "machine"]
    if told:
        wired = in_contact(board, population)
        slots, machine = stops_model.stops(board, wired)
        slots |= set(population["slots"]) - set(wired["slots"])
        if machine != bool(stopped):
            faults.append(f"stopped: program {[f['rule'] for f in stopped]}, model {machine}")
        if slots != unusable:
            faults.append(f"unusable: program only {sorted(unusable - slots)}, model only {sorted(slots - unusable)}"
                          f" {[f['rule'] for f in one['findings'] if f['stops']]}")
        faults += findings_model.differences(
            findings_model.findings(board, wired, unusable, not stopped), one["findings"])
    if stopped:
        nulls = ["capacity_mib", "usable_mib", "running_mts", "peak_mbs", "whole_mbs", "best_mbs", "worst_mbs",
                 "even_share", "channels_in_use"]
        if [k for k in nulls if one[k] is not None] or one["limits"] or any(s["regions"] for s in one["sockets"]):
            faults.append("stopped, but figures are told")
        return [f"{path}: {f}" for f in faults]
    want, got = expected(board, population, unusable), answered(one)
    if want["in_effect"] != "not looked at" and bool(refusals(one)) != (want["in_effect"] is False):
        faults.append(f"refused by {[f['rule'] for f in refusals(one)]}, model {want['in_effect']}")
    TALLY[population["mode"], got["in_effect"]] = TALLY.get((population["mode"], got["in_effect"]), 0) + 1
    faults += [f"{key}: program {got[key]}, model {want[key]}" for key in want if got[key] != want[key]]
    return [f"{path}: {f}" for f in faults]


def main():
    rng = random.Random(SEED)
    definitions = [json.load(open(os.path.join(PLATFORMS, n + ".json"), encoding="utf-8")) for n in NAMES]
    counts = {"stopped": 0, "whole": 0}
    with tempfile.TemporaryDirectory(prefix="lid-model-") as folder:
        if os.environ.get("LID_MODEL_KEEP"):
            folder = os.environ["LID_MODEL_KEEP"]
            os.makedirs(folder, exist_ok=True)
        jobs = []
        for n in range(JOBS):
            board = model.Board(random_model.changed(rng, rng.choice(definitions)))
            population = random_model.population_of(rng, board)
            told = not random_model.forget(rng, population)
            path = os.path.join(folder, f"{n:05}.lidleaf")
            with open(path, "w", encoding="utf-8") as f:
                json.dump(job_of(board, population), f)
            jobs.append((path, board, population, told))
        faults = []
        for start in range(0, len(jobs), 300):
            some = jobs[start:start + 300]
            done = subprocess.run([CLI, "check", "--json"] + [j[0] for j in some], capture_output=True,
                                  text=True, check=False)
            lines = done.stdout.splitlines()
            if len(lines) != len(some) or done.returncode not in (0, 3):
                faults.append(f"{len(lines)} answers for {len(some)} jobs, status {done.returncode}: {done.stderr[:300]}")
                continue
            for job, line in zip(some, lines):
                one = json.loads(line)
                if not one["ok"]:
                    faults.append(f"{job[0]}: {one['reason']}")
                    continue
                counts["stopped" if one["capacity_mib"] is None else "whole"] += 1
                faults += compare(*job, one)
    print(f"{JOBS} jobs, seed {SEED}: {counts['whole']} with a capacity, {counts['stopped']} without; {len(faults)} differences")
    print(", ".join(f"{m} {e}: {n}" for (m, e), n in sorted(TALLY.items(), key=str)))
    for fault in faults[:60]:
        print(fault)
    for mode in ("mirrored", "partly-mirrored", "spared", "paired"):
        for effect in (True, False):
            if TALLY.get((mode, effect), 0) * 400 < JOBS:
                print(f"the slice no longer reaches {mode}, in effect {effect}")
                return 1
    if counts["stopped"] * 5 > JOBS * 4 or counts["whole"] * 5 < JOBS:
        print("the slice no longer reaches both sides")
        return 1
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
