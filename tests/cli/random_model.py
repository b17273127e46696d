# SPDX-License-Identifier: GPL-3.0-or-later
"""Boards changed at random and random populations of them, for model.py."""
import json

import figures_model as model
import limits_model

# What a forgotten fact must not choose: without these the model does not reckon what stops.
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
    if d.get("interleave", {}).get("model") == "ways":
        d["interleave"].pop("matched", None)
        if rng.random() < 0.5:
            d["interleave"]["matched"] = {"source": "invented"}
    if "ways" in d.get("interleave", {}):
        d["interleave"]["also"] = [any_also(rng, d) for _ in range(rng.randint(1, 3))]
    if rng.random() < 0.8:
        d["modes"] = any_modes(rng, channel_names(d))
        if rng.random() < 0.1:
            del d["modes"]
    if rng.random() < 0.2:
        d["exclusions"] = [any_exclusion(rng, d)]
    any_rules(rng, d)
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


def any_rules(rng, d):
    """Grades, mixtures and limits, any of them left as they are."""
    for name in "order", "larger_first", "equal_sockets":
        if rng.random() < 0.2 and name in ("order", *(n for n in d if n == name)):
            d[name]["grade"] = rng.choice(["loses", "note", "unsure"])
    for name in "order", "larger_first", "lone":
        if name in d and rng.random() < 0.2:
            d[name].pop("source", None)
    if rng.random() < 0.3 and len(d["sockets"]) > 1:
        d["own_memory"] = rng.choice(["required", "penalty", "silent"])
        if d["own_memory"] == "required" and rng.random() < 0.5:
            d["own_modules"] = {"least": rng.randint(1, 3), "source": "invented"}
    if "lone" in d and rng.random() < 0.2:
        d["lone"]["grade"] = rng.choice(["stops", "loses", "note"])
    if rng.random() < 0.5:
        d["mixing"] = [any_mixture(rng, mix) for mix in limits_model.MIXES if rng.random() < 0.8]
    if rng.random() < 0.3:
        d["limits"] = [any_limit(rng, d) for _ in range(rng.randint(1, 6))]
    if rng.random() < 0.3:
        d["ranks"]["limits"] = [any_rank_limit(rng, d) for _ in range(rng.randint(1, 2))]
    if rng.random() < 0.3:
        d["numa_equal"] = {"nodes": rng.sample(d["numa"], rng.randint(1, len(d["numa"]))), "source": "invented"}


def any_mixture(rng, mix):
    if rng.random() < 0.3:
        return {"mix": mix, "allowed": True, "source": "invented"}
    one = {"mix": mix, "scope": rng.choice(["channel", "socket", "machine"]), "source": "invented",
           "grade": rng.choice(["stops", "loses", "loses", "unsure", "note"])}
    if one["grade"] == "stops" and rng.random() < 0.7:
        one["stops"] = rng.choice(["slots", "slots", "machine"])
    if rng.random() < 0.3:
        one["most"] = rng.randint(1, 2)
    return one


def any_limit(rng, d):
    what = rng.choice(["module", "channel", "socket", "machine"])
    one = {"what": what, "mib": rng.choice({"module": [8192, 16384, 32768, 65536], "channel": [16384, 32768, 98304],
                                            "socket": [32768, 65536, 262144], "machine": [65536, 262144, 524288]}[what]),
           "basis": rng.choice(["listed", "listed", "assumed", "bench-proven"])}
    if rng.random() < 0.2:
        one["kinds"] = [rng.choice(d["takes"]["kinds"])]
    if one["basis"] == "bench-proven":
        one["mib"] *= 2
        one.update(who="J. Marsh", when="2026-06-09", firmware=rng.choice([f["level"] for f in d["firmware"]]))
    else:
        one["source"] = "invented"
    return one


def any_rank_limit(rng, d):
    one = {"source": "invented", **rng.choice([{"most_ranks": rng.choice([1, 2, 4, 8])}, {"most_modules": 1},
                                               {"most_modules": 1, "least_module_ranks": rng.choice([2, 4])}])}
    if rng.random() < 0.4:
        one["kinds"] = [rng.choice(d["takes"]["kinds"])]
    return one


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


def filled_alike(rng, board):
    """As many modules on each of some channels, the same ones at every processor: numbers of
    channels that do not go together, and orders that are a matter of taste."""
    width = len(channel_names(board.d))
    some, depth = rng.sample(range(width), rng.randint(1, width)), rng.choice([1, 2, 2])
    return [s for n, c in enumerate(board.channels) if n % width in some
            for s in c["slots"][:depth] if s not in board.soldered] or list(board.order[:1])


def population_of(rng, board):
    """A random population: few sorts of modules, first slots first more often than not."""
    d = board.d
    sorts = [any_module(rng, d) for _ in range(rng.choice([1, 1, 1, 1, 2, 2, 3]))]
    free = [s for s in board.where if s not in board.soldered]
    n = rng.randint(1, len(free))
    if rng.random() < 0.3:
        n = len(board.order)
    chosen = board.order[:n] if rng.random() < 0.6 else rng.sample(free, n)
    if rng.random() < 0.3:
        chosen = filled_alike(rng, board)
        sorts = sorts[:1] if rng.random() < 0.8 else sorts
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
        population["numa"] = rng.choice([2, 4])  # whether the board lists it or not
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
