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
import stops_model

CLI = sys.argv[1]
JOBS = int(sys.argv[2]) if len(sys.argv) > 2 else 900
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 20261125
HERE = os.path.dirname(os.path.abspath(__file__))
PLATFORMS = os.path.join(HERE, "..", "..", "platforms")
NAMES = ["curlew-r2", "dunlin-s1", "gannet-r2", "plover-r2", "sandpiper-t1", "tern-w4"]
# What a forgotten fact must not choose: without these the model does not reckon what stops.
TALLY = {}  # (mode, whether it takes effect) -> jobs
FORGETTABLE = ["kind", "ranks", "logical_ranks", "chip_width", "rated_mts", "capacity_mib", "die_gbit"]


def changed(rng, definition):
    """The board, or the board with another region model, scope of the rate, ceiling or split."""
    d = json.loads(json.dumps(definition))
    if rng.random() < 0.5:
        return d
    if rng.random() < 0.5:
        d["rate_scope"] = rng.choice(["socket", "machine"])
    if rng.random() < 0.5:
        ways = sorted({1} | set(rng.sample(range(2, 13), rng.randint(0, 4))))
        d["interleave"] = rng.choice([{"model": "layered"}, {"model": "ways", "ways": ways},
                                      {"model": "equal-groups", "ways": ways}])
    if rng.random() < 0.3:
        d["rate_ceiling_mts"] = rng.choice(model.STEPS[d["takes"]["generations"][0]])
    if rng.random() < 0.3:
        d["efficiency"] = {"value": rng.choice([0.75, 0.9, 1]), "source": "invented"}
    d["numa"] = [n for n in (1, 2, 4) if len(channel_names(d)) % n == 0 and (n == 1 or rng.random() < 0.7)]
    if "ways" in d.get("interleave", {}):
        d["interleave"]["also"] = [any_also(rng, d) for _ in range(rng.randint(1, 3))]
    if rng.random() < 0.8:
        d["modes"] = any_modes(rng, channel_names(d))
        if rng.random() < 0.1:
            del d["modes"]
    if rng.random() < 0.2:
        d["exclusions"] = [any_exclusion(rng, d)]
    if rng.random() < 0.3:
        d["mixing"] = [{"mix": m, "allowed": True, "source": "invented"}
                       for m in ("widths", "densities", "capacities", "ranks", "rates")]
    return d


def any_also(rng, d):
    """More numbers of ways, with a processor, under a split, or both."""
    also = {"ways": rng.sample(range(2, 13), rng.randint(1, 3)), "source": "invented"}
    which = rng.choice(["processor", "nodes", "both"])
    if which != "nodes":
        also["processor"] = rng.choice(d["processors"])["id"]
    if which != "processor":
        also["nodes"] = rng.choice(d["numa"])
    return also


def channel_names(definition):
    """Of the first processor; the others are alike."""
    return [c["name"] for k in definition["sockets"][0]["controllers"] for c in k["channels"]]


def any_modes(rng, names):
    """Modes with demands at random; a channel may be left without a partner."""
    modes = []
    for mode in rng.sample(["mirrored", "partly-mirrored", "spared", "paired"], rng.randint(1, 4)):
        one = {"id": mode, "source": "invented"}
        if mode == "spared":
            if rng.random() < 0.5:
                one["most_ranks"] = rng.randint(1, 3)
            if rng.random() < 0.2:
                one["least_ranks_of_channel"] = rng.randint(1, 4)
        elif rng.random() < 0.9:
            mine = list(names) if rng.random() < 0.5 else rng.sample(names, len(names))
            keep = rng.choice([len(mine) // 2] * 3 + [max(len(mine) // 2 - 1, 1)])
            one["pairs"] = [mine[2 * i:2 * i + 2] for i in range(keep)]
            if rng.random() < 0.6:
                one["alike"] = rng.choice(["capacity", "organisation", "part"])
        if mode == "partly-mirrored" and rng.random() < 0.4:
            one["step_mib"] = 1024
        if rng.random() < 0.15:
            one["modules_per_socket"] = sorted(rng.sample(range(1, 17), 6))
        if rng.random() < 0.15:
            one["least_modules_of_channel"] = 2
        if rng.random() < 0.3:
            one["not_with"] = rng.choice([["numa-split"], ["numa-split", "paired"], ["spared"]])
        modes.append(one)
    return modes


def any_exclusion(rng, definition):
    one = {"scope": rng.choice(["channel", "socket"]), "source": "invented"}
    if rng.random() < 0.7:
        one["least_module_ranks"] = rng.choice([2, 4])
    if rng.random() < 0.4:
        one["kinds"] = [rng.choice(definition["takes"]["kinds"])]
    if rng.random() < 0.4:
        one["position"] = rng.randint(1, 2)
    one.update(rng.choice([{"empty_position": 2}, {"most_modules": 1}]))
    if rng.random() < 0.5:
        one["stops"] = rng.choice(["slots", "machine"])
    return one


def any_mode(rng, definition, slots):
    """A mode asked for, mostly one of the board's, with its parameter."""
    if rng.random() < 0.4:
        return {"mode": "plain"}
    offered = [m["id"] for m in definition.get("modes", [])]
    every = ["mirrored", "partly-mirrored", "spared", "paired"]
    mode = rng.choice(offered) if offered and rng.random() < 0.9 else rng.choice(every)
    total = sum(m["capacity_mib"] for m in slots.values())
    return {"mode": mode, "spare_ranks": rng.choice([None, 1, 1, 2, 3]) if mode == "spared" else None,
            "mirrored_mib": rng.choice([0, 1000, total // 8, total // 4, total // 2, total * 5 // 8])
            if mode == "partly-mirrored" else None}


def any_module(rng, definition):
    """Facts of a plausible module, mostly of what the board takes."""
    takes = definition["takes"]
    generation = takes["generations"][0]
    kind = rng.choice(takes["kinds"]) if rng.random() < 0.97 else rng.choice(
        ["unbuffered", "registered", "ecc-unbuffered"])
    if rng.random() < 0.01:
        generation = {"DDR4": "DDR5", "DDR5": "DDR4"}[generation]
    ranks = rng.choice([1, 2, 2] + ([4] if kind == "load-reduced" else []))
    height = rng.choice([1, 1, 1, 1, 2, 4]) if kind == "registered" else 1
    width = rng.choice([8, 8, 16]) if kind.startswith("so-") else rng.choice([4, 4, 8])
    die = rng.choice([8, 16] if generation == "DDR4" else [16, 16, 24, 32])
    ecc = kind not in ("unbuffered", "so-unbuffered")
    check_bits = 0 if not ecc else 8 if generation == "DDR4" else rng.choice([16, 16, 16, 16, 8])
    return {
        "generation": generation, "kind": kind, "form": "so-dimm" if kind.startswith("so-") else "dimm",
        "capacity_mib": ranks * height * (64 // width) * die * 1024 // 8,
        "ranks": ranks, "logical_ranks": ranks * height,
        "stack": "3ds" if height > 1 else rng.choice(["none", "none", "dual"]) if ranks == 4 else "none",
        "chip_width": width, "rated_mts": rng.choice(model.STEPS[generation][1:]) - rng.choice([0, 0, 1]),
        "ecc": ecc, "check_bits": check_bits, "die_gbit": die,
        "voltages_mv": [1200] if generation == "DDR4" else [1100],
        "height_mm": 30 if kind.startswith("so-") else 31.25,
    }


def population_of(rng, board):
    """A random population: few sorts of modules, first slots first more often than not."""
    d = board.d
    sorts = [any_module(rng, d) for _ in range(rng.choice([1, 1, 1, 1, 2, 2, 3]))]
    free = [s for s in board.where if s not in board.soldered]
    n = rng.randint(1, len(free))
    if rng.random() < 0.3:
        n = len(board.order)
    chosen = board.order[:n] if rng.random() < 0.6 else rng.sample(free, n)
    if rng.random() < 0.5:  # the slots behind an empty first one stay empty
        chosen = [s for s in chosen
                  if board.channels[board.where[s]]["slots"][0] in list(chosen) + list(board.soldered)]
    slots = {s: dict(rng.choice(sorts)) for s in chosen}
    models = [p["id"] for p in d["processors"]]
    one = rng.choice(models)
    processors = [{"fitted": True, "model": one if rng.random() < 0.9 else rng.choice(models)}
                  for _ in range(board.n_sockets)]
    if board.n_sockets > 1 and rng.random() < 0.1:
        processors[1]["fitted"] = False
        if rng.random() < 0.7:
            slots = {s: m for s, m in slots.items() if board.channels[board.where[s]]["socket"] == 0}
    levels = [f["level"] for f in d["firmware"]]
    population = {"slots": slots, "not_seen": set(), "processors": processors,
                  "firmware": levels[-1] if rng.random() < 0.6 else rng.choice(levels),
                  "numa": rng.choice(d.get("numa", [1])) if rng.random() < 0.3 else None,
                  **any_mode(rng, d, slots),
                  "setup_mts": rng.choice(model.STEPS[board.generation]) if rng.random() < 0.1 else None}
    if d.get("numa") and rng.random() < 0.03:
        population["numa"] = 4  # whether the board lists it or not
    if slots and rng.random() < 0.1:
        population["not_seen"] = set(rng.sample(sorted(slots), 1))
    return population


def forget(rng, population):
    """Drop a fact of one sort, or the model of the processors; returns whether it did."""
    if rng.random() > 0.15 or not population["slots"]:
        return False
    if rng.random() < 0.2:
        for processor in population["processors"]:
            processor["model"] = None
        return True
    victim = dict(rng.choice(list(population["slots"].values())))
    fact = rng.choice(FORGETTABLE)
    for module in population["slots"].values():
        if module == victim:
            del module[fact]
            if fact == "ranks" and rng.random() < 0.5:
                module.pop("logical_ranks", None)
    return True


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
    f = model.figures(board, population, unusable)
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
        slots, machine = stops_model.stops(board, population)
        if machine != bool(stopped):
            faults.append(f"stopped: program {[f['rule'] for f in stopped]}, model {machine}")
        if slots != unusable:
            faults.append(f"unusable: program only {sorted(unusable - slots)}, model only {sorted(slots - unusable)}"
                          f" {[f['rule'] for f in one['findings'] if f['stops']]}")
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
            board = model.Board(changed(rng, rng.choice(definitions)))
            population = population_of(rng, board)
            told = not forget(rng, population)
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
