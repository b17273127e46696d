# SPDX-License-Identifier: GPL-3.0-or-later
"""What rules of balance, order and rate find, by an independent plain reckoning of modules whose
facts are all known: product.md 6 and 7; shared/facts/population.md P1, P3 to P6, P8, P10, P11, 4.3.
Boards and populations are those of figures_model.py. A finding is (rule, grade, slots in the
board's order, words it must hold, basis or None where it is not
looked at, what it stops); where the last is left out it stops nothing."""
import figures_model as model
import limits_model
import modes_model
import stops_model
from alike_model import split_regions
from limits_model import in_order, live_of, size_words, socket_of
from order_model import behind_empty, order_of_fitting


class Load:
    """The usable modules, channel by channel and processor by processor."""

    def __init__(self, board, population, unusable):
        self.board, self.population = board, population
        self.live = live_of(board, population)
        self.usable = {s: m for s, m in self.live.items() if s not in unusable}
        self.channels = [[m for s, m in self.usable.items() if board.where[s] == c] for c in range(len(board.channels))]
        self.sockets = [[m for s, m in self.usable.items() if socket_of(board, s) == n] for n in range(board.n_sockets)]

    def of(self, socket):
        return [c for c, channel in enumerate(self.board.channels) if channel["socket"] == socket]

    def mib(self, channel):
        return sum(m["capacity_mib"] for m in self.channels[channel])

    def ranks(self, channel):
        return sum(self.board.ranks(m) for m in self.channels[channel])

    def on(self, channels):
        """The fitted slots there: what is not used is there too."""
        return [s for s in self.live if self.board.where[s] in channels]


def name_of(board, socket):
    return board.d["sockets"][socket].get("name", str(socket + 1))


def nodes(load, socket):
    """The channels that are read together: of a processor, or of each node it is cut into (4.5)."""
    return model.nodes_of(load.board, socket, load.population.get("numa"))


def uneven_channels(load):
    """Node by node; nodes that hold different amounts, each even, are noted."""
    uneven, shuffled, apart, bare, slots = [], [], [], [], []
    for socket in range(load.board.n_sockets):
        parts = nodes(load, socket)
        before = len(uneven)
        here = {"uneven": [], "shuffled": []}
        for part in parts:
            used = [c for c in part if load.channels[c]]
            sizes, counts = [load.mib(c) for c in used], [len(load.channels[c]) for c in used]
            ranks = [load.ranks(c) for c in used]
            if len(set(sizes)) > 1:
                here["uneven"].append(f"hold from {size_words(min(sizes))} to {size_words(max(sizes))}: what is above")
                slots += load.on([c for c in used if load.mib(c) == max(sizes)])
            elif len(set(counts)) > 1:
                here["shuffled"].append(f"hold {size_words(max(sizes))}, but in different numbers of modules: {min(counts)} to {max(counts)}")
            elif len(set(ranks)) > 1:
                here["shuffled"].append(f"hold {size_words(max(sizes))}, but in different numbers of ranks: {min(ranks)} to {max(ranks)}")
        uneven += here["uneven"][:1]
        shuffled += here["shuffled"][:1]
        held = [sum(load.mib(c) for c in part) for part in parts if any(load.channels[c] for c in part)]
        if len(uneven) == before and 0 < len(held) < len(parts) and sum(map(bool, (load.channels[c] for c in load.of(socket)))) > 1:
            bare.append("has memory of its own")
        if len(uneven) == before and len(set(held)) > 1:
            apart.append(f"hold from {size_words(min(held))} to {size_words(max(held))}: each is read by its own cores")
    if uneven:
        yield ("uneven-channels", "loses", in_order(load.board, slots), named(load, uneven), "physics")
    if shuffled:
        yield ("uneven-channels", "note", (), named(load, shuffled), "physics")
    if apart:
        yield ("uneven-channels", "note", (),
               (apart[0], "The nodes of processor " if len(apart) == 1 else "The nodes of each of the processors "), "physics")
    if bare:
        yield ("uneven-channels", "note", (),
               (bare[0], "Not every node of processor " if len(bare) == 1 else "Not every node of processors "), "physics")


def named(load, told):
    """What is told of the first; on several processors they are named, one or more."""
    if max(len(nodes(load, s)) for s in range(load.board.n_sockets)) > 1:
        return (told[0], "In a node of processor " if len(told) == 1 else "In a node of each of the processors ")
    if load.board.n_sockets == 1:
        return (told[0],)
    return (told[0], "At processor " if len(told) == 1 else "At processors ")


def uneven_controllers(load):
    """Spread over the controllers first (P4); where none has two channels, idle channels say it. A number of
    channels alike that is read as one and cannot be spread more evenly is noted, and so is an odd one, with a
    module each."""
    found, slots, done = {"loses": [], "one": [], "odd": []}, {"loses": [], "one": [], "odd": []}, []
    for socket, part in ((s, part) for s in range(load.board.n_sockets) for part in nodes(load, s)):
        groups = {}
        for c in part:
            groups.setdefault(load.board.channels[c]["controller"], []).append(c)
        if len(load.sockets[socket]) < 2 or max(map(len, groups.values())) == 1 or socket in done:
            continue
        weight = {k: (len([c for c in g if load.channels[c]]), sum(map(load.mib, g))) for k, g in groups.items()}
        low, high = min(weight.values()), max(weight.values())
        if low == high:
            continue
        done.append(socket)
        fullest = min(k for k in weight if weight[k] == high)
        counts = [w[0] for w in weight.values()]
        sizes = [load.mib(c) for c in part if load.mib(c)]
        interleave = load.board.d.get("interleave", {"model": "layered"})
        together = interleave["model"] == "layered" or len(sizes) in model.all_ways(load.board, load.population)
        grade = "loses"
        if max(counts) - min(counts) <= 1 and len(set(sizes)) == 1:
            grade = "one" if together and len(sizes) % 2 == 0 else \
                "odd" if max(len(load.channels[c]) for c in part) == 1 else "loses"
        slots[grade] += load.on(groups[fullest])
        found[grade].append(f"the most has {size_words(high[1])} (channels in use: {high[0]}), the least {size_words(low[1])} ({low[0]})")
    for grade in found:
        if found[grade]:
            yield ("uneven-controllers", "loses" if grade == "loses" else "note", in_order(load.board, slots[grade]),
                   (found[grade][0], "of processor " if len(found[grade]) == 1 else "of processors ",
                    {"loses": ").", "one": "more evenly, and", "odd": "spread more evenly."}[grade]), "physics")


def idle_channels(load):
    """Of processors with memory; a channel in none of the pairs a mode works with is not missed."""
    board, mode = load.board, load.population.get("mode", "plain")
    rule = next((m for m in board.d.get("modes", []) if m["id"] == mode), {})
    pairs = modes_model.pairs_of(board, rule)
    every = [c for c in range(len(board.channels)) if load.sockets[board.channels[c]["socket"]]
             and (load.channels[c] or not pairs or any(c in pair for pair in pairs))]
    idle = [c for c in every if not load.channels[c]]
    if idle:
        yield ("idle-channels", "loses", in_order(board, [board.channels[c]["slots"][0] for c in idle]),
               (f"Channels in use: {len(every) - len(idle)} of {len(every)};", "carries nothing" if len(idle) == 1 else "carry nothing"), "physics")


def processors(load):
    """Memory at every processor (P8), and as much at each (P5)."""
    board, fitted = load.board, [p["fitted"] for p in load.population["processors"]]
    without = [n for n in range(board.n_sockets) if fitted[n] and not load.sockets[n]]
    if without and load.usable:
        required = board.d.get("own_memory") == "required"
        yield ("processor-without-memory", "stops" if required else "loses", (),
               tuple(name_of(board, n) for n in without), "listed" if required else "physics",
               "machine" if required else None)
    few = [n for n in range(board.n_sockets) if fitted[n] and 0 < len(load.sockets[n]) < stops_model.own_modules(board.d)]
    if few:
        yield ("processor-without-memory", "stops", (),
               ("Too few usable modules", *(name_of(board, n) for n in few)), "listed", "machine")
    mine = [n for n in range(board.n_sockets) if load.sockets[n]]
    sums = [(sum(m["capacity_mib"] for m in load.sockets[n]), len(load.sockets[n])) for n in mine]
    grade = board.d.get("equal_sockets", {}).get("grade")
    other = [i for i, one in enumerate(sums) if one != sums[0]]
    if other:
        words = [f"processor {name_of(board, mine[i])} has {size_words(sums[i][0])} ({n}{sums[i][1]})"
                 for i, n in ((0, "modules: "), (other[0], ""))]
        yield ("unmatched-sockets", grade or "loses", (), tuple(words), None)
        return
    facts = ("capacity_mib", "ranks", "kind", "chip_width")
    rows = [[tuple(load.usable[s][f] for f in facts) if s in load.usable else None
             for s in board.where if socket_of(board, s) == n] for n in mine]
    other = [i for i, row in enumerate(rows) if any(a != b for a, b in zip(rows[0], row))]
    if other:
        yield ("unmatched-sockets", grade or "note", (),
               (f"Processors {name_of(board, mine[0])} and {name_of(board, mine[other[0]])} have the same",), None)


def lone(load):
    board, rule = load.board, load.board.d.get("lone", {})
    only = list(load.live)
    if rule and len(only) == 1 and only[0] not in board.soldered and only[0] not in rule["slots"]:
        places = [s for s in rule["slots"] if load.population["processors"][limits_model.socket_of(board, s)]["fitted"]]
        yield ("lone-module", rule.get("grade", "stops"), (only[0],),
               ("One module alone belongs in " + ("one of " if len(places) > 1 else ""),),
               ("listed", rule.get("source", board.d.get("source"))),
               rule.get("stops", "machine") if rule.get("grade", "stops") == "stops" else None)


def first_slot(load):
    behind = [s for s in load.live if behind_empty(load, s)]
    channels = {load.board.where[s] for s in behind}
    if behind:
        yield ("first-slot", "stops", in_order(load.board, behind),
               ("The first slot of the channel is" if len(channels) == 1 else "The first slots of these channels are",), "physics", "slots")


def larger_first(load):
    """Within a channel more ranks first, then more capacity (P10, P11)."""
    board, wrong = load.board, []
    for channel in board.channels:
        there = [s for s in channel["slots"] if s in load.live and s not in board.soldered]
        keys = [(-board.ranks(load.live[s]), -load.live[s]["capacity_mib"]) for s in there]
        wrong += [s for s, key, belongs in zip(there, keys, sorted(keys)) if key != belongs]
    if wrong:
        yield ("larger-first", board.d.get("larger_first", {}).get("grade", "loses"), in_order(board, wrong),
               ("modules sit out of order",),
               ("common practice", board.d["larger_first"].get("source", board.d.get("source"))
                if "larger_first" in board.d else "common practice, no source"))


# --- figures -------------------------------------------------------------------------------------

def slowed(load):
    """One finding, whatever binds; it loses where the same modules on more channels run faster
    (settled reading 6)."""
    board, population = load.board, load.population
    running, _, limits = model.rates(board, population)
    ratings = {s: model.exact(m["generation"], m["rated_mts"]) for s, m in load.live.items()}
    if running is None or not ratings or max(ratings.values()) <= running:
        return
    binding = {w for w, v in limits.items() if v == running}
    slots, fewer, most = [], [], 0
    if "module" in binding:
        slots += [s for s, r in ratings.items() if r == running]
    missing = model.missing_rows(board, population)
    for number, channel in enumerate(board.channels):
        there = [s for s in channel["slots"] if s in load.live]
        if "table" not in binding or not there or number in missing:
            continue
        if model.channel_limits(board, population, channel)["table"] != running:
            continue
        slots += there
        most = max(most, len(there))
        fewer.append(any(faster(load, channel, there, n, running) for n in range(1, len(there))))
    fewer = any(fewer) and all(fewer) and not binding - {"table", "inventory"}
    places = sum(min(len(c["slots"]), most - 1) for c in board.channels if population["processors"][c["socket"]]["fitted"])
    loses = binding == {"table"} and fewer and len([s for s in load.live if s not in board.soldered]) <= places
    says = {"module": "Other modules, which are rated lower,", "processor": "The processor holds",
            "board": "The board holds", "firmware": "The firmware level holds", "setup": "A setting in setup",
            "table": "fewer modules on the channel run faster" if fewer else "The board's rate table holds"}
    words = [says[w] for w in binding] + ["spread over more channels would run faster"] * loses
    yield ("slowed", "loses" if loses else "note", in_order(board, slots), tuple(words), "listed")


def faster(load, channel, there, n, running):
    """Whether @n of such modules on the channel run faster by the table; most ranks decide."""
    modules = sorted((load.live[s] for s in there), key=load.board.ranks)[-n:]
    processor = load.population["processors"][channel["socket"]]
    n_slots = len([s for s in channel["slots"] if s not in load.board.soldered])
    rows, sure = model.rows_that_hold(load.board, modules, n_slots, processor["model"])
    return sure and model.exact(load.board.generation, rows[0]["mts"]) > running


def numa(load):
    board, split = load.board, load.population.get("numa") or 1
    offered = board.d.get("numa") or []
    if split > 1 and offered and split not in offered:
        yield ("numa-split", "loses", (), (f"Set to {split} nodes", " or ".join(map(str, offered))), ("listed", board.d.get("numa_source", board.d.get("numa_equal", board.d).get("source"))))
        return
    if split not in board.d.get("numa_equal", {}).get("nodes", []):
        return
    uneven = []
    for socket in range(board.n_sockets):
        numbers = load.of(socket)
        sizes = [load.mib(c) for c in numbers]
        held = [s for s in sizes if s]
        added = set(model.all_ways(board, load.population)) - set(board.d["interleave"]["ways"]) if "ways" in board.d["interleave"] else ()
        one = split == 1 and len(set(held)) == 1 and (2 * len(held) == len(sizes) or len(held) in added)
        if not held or len(sizes) % split or one:
            continue
        width = len(sizes) // split
        if any(len(set(sizes[i * width:(i + 1) * width])) > 1 for i in range(split)):
            uneven.append(name_of(board, socket))
    if uneven:
        yield ("numa-split", "loses", (), (f"With {'one node' if split == 1 else f'{split} nodes'} a processor",
                                           "of processor " if len(uneven) == 1 else "of processors "),
               ("listed", board.d["numa_equal"]["source"]))


def findings(board, population, unusable, starts):
    """All that these rules find, of a population of which @unusable slots are stopped."""
    load = Load(board, population, unusable)
    parts = [uneven_channels, uneven_controllers, idle_channels, processors, lone, first_slot, order_of_fitting,
             larger_first, numa]
    for part in parts + [slowed, split_regions] * starts:
        yield from part(load)
    yield from limits_model.findings(board, population)


RULES = {"uneven-channels", "uneven-controllers", "idle-channels", "processor-without-memory", "unmatched-sockets",
         "lone-module", "first-slot", "order-of-fitting", "larger-first", "slowed", "numa-split",
         "split-regions",
         "capacity-module", "capacity-channel", "capacity-socket", "capacity-machine", "processor-capacity",
         "rank-limit", "modules-limit", "exclusion", "mixed-kinds", "mixed-ecc", "mixed-stacks", "mixed-check-bits",
         "mixed-widths", "mixed-densities", "mixed-capacities", "mixed-ranks", "mixed-rates"}


def differences(expected, found):
    """Sentences on what the program found and the model did not, or the other way round."""
    left = [f for f in found if f["rule"] in RULES]
    faults = []
    for rule, grade, slots, words, basis, *stops in expected:
        same = [f for f in left if f["rule"] == rule and f["grade"] == grade and tuple(f["slots"]) == slots
                and all(w in f["text"] for w in words) and basis in (None, f["basis"], (f["basis"], f["source"]), (f["basis"], None)) and f["stops"] == (stops[0] if stops else None)]
        if same:
            left.remove(same[0])
        else:
            near = [(f["grade"], f["slots"], f["text"]) for f in found if f["rule"] == rule]
            faults.append(f"model {rule} {grade} {slots} {words} {basis}, program {near}")
    return faults + [f"program only: {f['rule']} {f['grade']} {f['slots']} {f['text']}" for f in left]
