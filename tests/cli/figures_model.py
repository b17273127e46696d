# SPDX-License-Identifier: GPL-3.0-or-later
"""An independent, slow and plain reckoning of one population's figures, written from product.md
sections 6 and 7 alone: exact fractions, lists and loops. Nothing here is taken from src/core; the
two agree or one of them has read the definitions wrongly.

A board is the JSON of platforms/, a population {"slots": {slot id: facts}, "not_seen": {slot id},
"processors": [{"fitted", "model"}], "firmware", "numa", "setup_mts", "mode", "spare_ranks",
"mirrored_mib"}; facts are plain values, a
fact that is left out is not known, "persistent": True is a persistent module."""
from fractions import Fraction

import modes_model
from regions_model import narrowest_matched, regions_equal_groups, regions_layered, regions_ways

# Standard data rates, exact where they are thirds. Source: JEDEC JESD79-3, -4, -5; facts/data_rates.csv.
STEPS = {
    "DDR3": [800, 1066, 1333, 1600, 1866, 2133],
    "DDR4": [1600, 1866, 2133, 2400, 2666, 2933, 3200],
    "DDR5": [3200, 3600, 4000, 4400, 4800, 5200, 5600, 6000, 6400, 6800, 7200, 7600, 8000, 8400, 8800],
}
THIRDS = {1066: Fraction(3200, 3), 1333: Fraction(4000, 3), 1866: Fraction(5600, 3),
          2133: Fraction(6400, 3), 2666: Fraction(8000, 3), 2933: Fraction(8800, 3)}


def exact(generation, mts):
    """Settled reading 5: within 2 MT/s of a standard step it is that step."""
    for step in STEPS[generation]:
        if abs(step - mts) <= 2:
            return THIRDS.get(step, Fraction(step))
    return Fraction(mts)


def rounded(value):
    """Settled reading 9: nearest integer, halves up."""
    return None if value is None else int((2 * value + 1) // 2)


class Board:
    """A board definition with its slots, channels and sockets as plain lists."""

    def __init__(self, definition):
        self.d = definition
        self.generation = definition["takes"]["generations"][0]
        self.channels = []  # {"socket", "controller", "name", "slots": [ids in order], "soldered"}
        self.where = {}
        self.soldered = {}
        self.n_sockets = len(definition["sockets"])
        for s, socket in enumerate(definition["sockets"]):
            for c, controller in enumerate(socket["controllers"]):
                for channel in controller["channels"]:
                    ids = [slot["id"] for slot in channel["slots"]]
                    for slot in channel["slots"]:
                        self.where[slot["id"]] = len(self.channels)
                        if "soldered" in slot:
                            self.soldered[slot["id"]] = slot["soldered"]
                    self.channels.append({"socket": s, "controller": c, "name": channel["name"],
                                          "slots": ids})
        self.order = definition.get("order", {}).get("slots", [])

    def place_in_order(self, slot):
        return self.order.index(slot) if slot in self.order else -1  # soldered: there first

    def ranks(self, module):
        """Ranks as this board counts them, None where a fact is missing."""
        rules = self.d.get("ranks", {})
        fixed = rules.get("load_reduced_as")
        if fixed and module.get("kind") == "load-reduced":
            return fixed
        if fixed and "kind" not in module and "load-reduced" in self.d["takes"].get("kinds", ["load-reduced"]):
            told = self.ranks(dict(module, kind="not told, and not that"))
            return told if told == fixed else None  # it may be one
        if rules.get("count") == "label":
            return module.get("ranks")
        if "logical_ranks" not in module and (module.get("stack") in ("none", "dual")
                                              or "unbuffered" in module.get("kind", "")):
            return module.get("ranks")  # not stacked: each rank is one
        return module.get("logical_ranks")

    def firmware_place(self, level):
        names = [f["level"] for f in self.d.get("firmware", [])]
        return names.index(level) if level in names else None


def fitted_of(board, population):
    """All modules in slots, soldered ones included."""
    fitted = dict(board.soldered)
    fitted.update(population["slots"])
    return fitted


# --- rates ---------------------------------------------------------------------------------------

def in_range(wanted, value):
    """Does a row's range hold for a value? None: it may."""
    if wanted is None:
        return True
    least, most = (wanted, wanted) if isinstance(wanted, int) else wanted
    if value is None:
        return None
    return least <= value <= most


def in_set(wanted, value):
    if not wanted:
        return True
    return None if value is None else value in wanted


def rows_that_hold(board, modules, n_slots, model):
    """Rate rows that hold or may hold for the modules of one channel: (rows, whether one surely
    holds). Most ranks of any module decide; a module whose ranks are not told can only raise it."""
    ranks = [board.ranks(m) for m in modules]
    known = [r for r in ranks if r is not None]
    rows = []
    for row in board.d["rates"]:
        answers = [in_range(row.get("filled"), len(modules)),
                   in_range(row.get("slots"), n_slots),
                   in_set([row["processor"]] if "processor" in row else None, model)]
        answers += [in_set(row.get("kinds"), m.get("kind")) for m in modules]
        if len(known) == len(ranks):
            answers.append(in_range(row.get("ranks"), max(ranks)))
        elif "ranks" in row:
            most = row["ranks"] if isinstance(row["ranks"], int) else row["ranks"][1]
            answers.append(False if known and max(known) > most else None)
        if False in answers:
            continue
        rows.append(row)
        if None not in answers:
            return rows, True
    return rows, False


def missing_rows(board, population):
    """Channels of fitted processors for which the table has no row."""
    missing = set()
    fitted = fitted_of(board, population)
    for number, channel in enumerate(board.channels):
        modules = [fitted[s] for s in channel["slots"] if s in fitted]
        processor = population["processors"][channel["socket"]]
        if not modules or not processor["fitted"]:
            continue
        n_slots = len([s for s in channel["slots"] if s not in board.soldered])
        if "rates" in board.d and not rows_that_hold(board, modules, n_slots, processor["model"])[0]:
            missing.add(number)
    return missing


def channel_limits(board, population, channel):
    """{what: exact rate or None where it exists and is not told} of one channel that works."""
    fitted = fitted_of(board, population)
    modules = [fitted[s] for s in channel["slots"] if s in fitted]
    processor = population["processors"][channel["socket"]]
    g = board.generation
    limits = {}
    ratings = [(m["generation"], m.get("rated_mts")) for m in modules]
    limits["module"] = None if None in [r for _, r in ratings] else min(exact(*r) for r in ratings)
    if "rates" in board.d:
        n_slots = len([s for s in channel["slots"] if s not in board.soldered])
        rows, _ = rows_that_hold(board, modules, n_slots, processor["model"])
        values = {exact(g, row["mts"]) for row in rows}
        limits["table"] = values.pop() if len(values) == 1 else None
    models = [p for p in board.d.get("processors", []) if processor["model"] in (None, p["id"])]
    ceilings = [exact(g, p["mts"]) for p in models if "mts" in p]
    if len(set(ceilings)) == 1 and len(ceilings) == len(models):
        limits["processor"] = ceilings[0]
    elif ceilings:
        limits["processor"] = Open(min(ceilings))
    if "rate_ceiling_mts" in board.d:
        limits["board"] = exact(g, board.d["rate_ceiling_mts"])
    for level in board.d.get("firmware", []):
        if level["level"] == population.get("firmware") and "ceiling_mts" in level:
            limits["firmware"] = exact(g, level["ceiling_mts"])
    if population.get("setup_mts"):
        limits["setup"] = exact(g, population["setup_mts"])
    return limits


class Open:
    """A ceiling that is not told because the processor's model is not: one of several, at least
    so much. It makes the rate unknown only where it can bind."""

    def __init__(self, possible):
        self.possible = possible


def close(limits):
    """A group's limits by what, open ceilings resolved: left out where they cannot bind, else None."""
    told = [v for values in limits.values() for v in values if isinstance(v, Fraction)]
    closed = {}
    for what, values in limits.items():
        kept = [None if isinstance(v, Open) else v for v in values
                if not isinstance(v, Open) or not told or v.possible < min(told)]
        if kept:
            closed[what] = kept
    return closed


def least(values):
    """Least of the values, None if one of them is not told or there is none."""
    values = list(values)
    return None if not values or None in values else min(values)


def rates(board, population):
    """(machine's rate, rate of each socket, {what: least}) over channels that hold a module."""
    fitted = fitted_of(board, population)
    missing = missing_rows(board, population)
    of_socket = [{} for _ in range(board.n_sockets)]
    for number, channel in enumerate(board.channels):
        if number in missing or not population["processors"][channel["socket"]]["fitted"]:
            continue
        if not any(s in fitted for s in channel["slots"]):
            continue
        for what, value in channel_limits(board, population, channel).items():
            of_socket[channel["socket"]].setdefault(what, []).append(value)
    if board.d.get("rate_scope", "machine") == "machine":
        together = {}
        for one in of_socket:
            for what, values in one.items():
                together.setdefault(what, []).extend(values)
        closed = close(together)
        limits = {what: least(values) for what, values in closed.items()}
        machine = least(limits.values())
        return machine, [machine if one else None for one in of_socket], limits
    closed = [close(one) for one in of_socket]
    limits = {}
    for one in closed:
        for what, values in one.items():
            limits.setdefault(what, []).extend(values)
    limits = {what: least(values) for what, values in limits.items()}
    sockets = [least(least(v) for v in one.values()) for one in closed]
    return least(s for s, one in zip(sockets, of_socket) if one), sockets, limits


# --- regions and bandwidth -----------------------------------------------------------------------

def all_ways(board, population):
    """What the board lists, and what every processor fitted or the split adds."""
    d = board.d
    ways, split = set(d["interleave"]["ways"]), split_of(board, population.get("numa"))
    models = {p["model"] for p in population["processors"] if p["fitted"]}
    for also in d["interleave"].get("also", []):
        if also.get("nodes", split) == split and models <= {also.get("processor", m) for m in models}:
            ways |= set(also["ways"])
    return sorted(ways)


def regions(board, caps, population):
    """[(MiB, ways)] of one node; caps {channel number: usable MiB}."""
    model = board.d.get("interleave", {"model": "layered"})
    if model["model"] == "layered":
        return list(regions_layered(caps))
    if model["model"] == "equal-groups":
        return list(regions_equal_groups(caps, all_ways(board, population)))
    return list(regions_ways(caps, all_ways(board, population), {n: board.channels[n]["controller"] for n in caps}))


def split_of(board, split):
    """Into how many nodes a processor is cut; a split the board does not list is not made."""
    split = max(split or 1, 1)
    return 1 if board.d.get("numa") and split not in board.d["numa"] else split


def nodes_of(board, socket, split):
    """Channel numbers of each node: neighbours, evenly."""
    numbers = [n for n, c in enumerate(board.channels) if c["socket"] == socket]
    split = split_of(board, split)
    size = len(numbers) // split
    return [numbers[i * size:(i + 1) * size] for i in range(split)]


def figures(board, population, unusable):
    """Figures of product.md 6, given the slots that findings stop."""
    fitted = fitted_of(board, population)
    usable = {s: m for s, m in fitted.items() if s not in unusable and not m.get("persistent")}
    processors = population["processors"]
    running, of_socket, limits = rates(board, population)
    result = {
        "fitted_mib": sum(m.get("capacity_mib") or 0 for m in fitted.values() if not m.get("persistent")),
        "running_mts": running,
        "limits": limits,
    }
    known = all(m.get("capacity_mib") for m in usable.values())
    result["capacity_mib"] = sum(m["capacity_mib"] for m in usable.values()) if known else None
    effect = modes_model.judge(board, population, usable)  # which channels are used needs no sizes
    reckoned = known and effect.caps is not None
    result["usable_mib"] = rounded(sum(effect.caps.values())) if reckoned else None
    result["effect"] = effect.taken if known else "not looked at"
    in_use = effect.used
    result["channels_in_use"] = len(in_use)
    result["channels"] = len([c for c in board.channels if processors[c["socket"]]["fitted"]])
    if running is None:
        peak = None
    else:
        peak = sum(of_socket[board.channels[n]["socket"]] * 8 for n in in_use)
    result["peak_mbs"] = rounded(peak)
    result["sockets_mts"] = of_socket
    result["regions"] = None
    result["whole_mbs"] = result["best_mbs"] = result["worst_mbs"] = result["even_share"] = None
    if reckoned:
        bandwidth(board, population, effect, of_socket, running, result)
    return result


def shown(found):
    """Sizes in whole MiB: the sums so far are rounded, so that all of them add up."""
    so_far, sockets = Fraction(0), []
    for nodes in found:
        sockets.append([])
        for size, ways in (region for node in nodes for region in node):
            sockets[-1].append((rounded(so_far + size) - rounded(so_far), ways))
            so_far += size
    return sockets


def bandwidth(board, population, effect, of_socket, running, result):
    eta = Fraction(str(board.d.get("efficiency", {"value": 0.8})["value"]))
    whole, best, worst, found = [], [], [], []
    for socket in range(board.n_sockets):
        if not population["processors"][socket]["fitted"]:
            found.append([])
            continue
        rate = of_socket[socket] if running is not None else Fraction(1)
        mine = []
        for node in nodes_of(board, socket, population.get("numa")):
            caps = {n: effect.caps[n] for n in node}
            made = regions(board, caps, population)
            mine.append(made)
            size = sum(caps.values())
            if not size:
                continue
            speeds = [ways * rate * 8 * eta / (2 if effect.halved else 1) for _, ways in made]
            slowest = min(speeds)
            if "matched" in board.d.get("interleave", {}):
                ways = narrowest_matched(all_ways(board, population), caps, {n: board.channels[n]["controller"] for n in caps})
                slowest = min(slowest, ways * rate * 8 * eta / (2 if effect.halved else 1))
            whole.append(sum(mib / speed for (mib, _), speed in zip(made, speeds)))
            best.append(size / max(speeds))
            worst.append(size / slowest)
        found.append(mine)
    result["nodes"] = [[len(node) for node in nodes] for nodes in found]
    result["regions"] = shown(found)
    if not whole:
        return
    total = sum(effect.caps.values())
    if running is not None:
        result["whole_mbs"] = rounded(total / max(whole))
        result["best_mbs"] = rounded(total / max(best))
        result["worst_mbs"] = rounded(total / max(worst))
    all_channels = sum((of_socket[c["socket"]] or running if running is not None else Fraction(1)) * 8 * eta
                       for c in board.channels if population["processors"][c["socket"]]["fitted"])
    result["even_share"] = total / max(whole) / all_channels
