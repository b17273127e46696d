# SPDX-License-Identifier: GPL-3.0-or-later
"""What stops what, by an independent slow reading of product.md 6 and 7, settled readings 1, 2 and
7; of modules whose facts are all known. Boards and populations are those of figures_model.py."""
from figures_model import exact, fitted_of, missing_rows


def kind_family(kind):
    """ECC and plain unbuffered are one kind: the rule for ECC speaks of them."""
    return kind.replace("ecc-", "") if kind else kind


def stops(board, population):
    """(set of slots stopped, whether the machine is stopped), of modules whose facts are all
    known. Product.md 6, settled readings 1 and 2, and 7; persistent modules are not looked at."""
    d = board.d
    fitted = fitted_of(board, population)
    slots, machine = set(), False
    level = board.firmware_place(population.get("firmware"))
    for slot, module in fitted.items():
        takes = d["takes"]
        if module["generation"] not in takes["generations"]:
            slots.add(slot)
        if "voltages_mv" in takes and not set(takes["voltages_mv"]) & set(module["voltages_mv"]):
            slots.add(slot)
        if not fits(takes, module):
            slots.add(slot)
        elif module["kind"] not in takes["kinds"] and is_live(board, population, slot):
            machine = True
        if module.get("height_mm", 0) > takes.get("max_height_mm", 1000):
            slots.add(slot)
        if slot in population["not_seen"]:
            slots.add(slot)
        if not population["processors"][board.channels[board.where[slot]]["socket"]]["fitted"]:
            slots.add(slot)
        for place, row in enumerate(d.get("firmware", [])):
            if level is not None and place > level and any(needs(g, module) for g in row.get("brings", [])):
                slots.add(slot)
        if level is not None and too_large_for_level(board, module, level):
            slots.add(slot)
    for number in missing_rows(board, population):
        slots |= {s for s in board.channels[number]["slots"] if s in fitted}
    for channel in board.channels:
        there = [s for s in channel["slots"] if s in fitted]
        if there and channel["slots"][0] not in fitted:
            slots |= set(there)
        slots |= over_ranks(board, fitted, sorted(there, key=board.place_in_order))
    slots |= surplus(board, population, fitted, level)
    apart, all_of_it = kept_apart(board, population, fitted)
    slots |= apart
    machine = machine or all_of_it
    live = {s: m for s, m in fitted.items() if is_live(board, population, s)}
    machine = machine or mixed(board, {s: m for s, m in live.items() if s not in board.soldered})
    lone = d.get("lone", {})
    only = list(live)
    if len(only) == 1 and only[0] not in lone.get("slots", only) and lone.get("grade") == "stops":
        machine = True
    if d.get("own_memory") == "required":
        for socket, processor in enumerate(population["processors"]):
            mine = [s for s in set(fitted) - slots if board.channels[board.where[s]]["socket"] == socket]
            if processor["fitted"] and not mine:
                machine = True
    if not set(fitted) - slots:
        machine = True
    return slots, machine


def fits(takes, module):
    """Whether it goes into the slot: form, as its kind says, and key."""
    short = takes["kinds"][0].startswith("so-")
    plain, driven = ("unbuffered", "ecc-unbuffered", "clocked-unbuffered"), ("registered", "load-reduced", "multiplexed-rank")
    for mine, others in (plain, driven), (driven, plain):  # keys of DDR5 differ (ServeTheHome)
        if module["generation"] == "DDR5" and module["kind"] in mine and not set(mine) & set(takes["kinds"]) and set(others) & set(takes["kinds"]):
            return False
    return module["generation"] in takes["generations"] and module["kind"].startswith("so-") == short


def needs(gift, module):
    if gift.get("non_binary"):
        return module["capacity_mib"] & (module["capacity_mib"] - 1) != 0
    if gift["fact"] == "stack":
        steps = ["none", "dual", "3ds"]
        return steps.index(module["stack"]) >= steps.index(gift["at_least"])
    if gift["fact"] == "rated_mts":
        return exact(module["generation"], module["rated_mts"]) >= exact(module["generation"], gift["at_least"])
    return module[gift["fact"]] >= gift["at_least"]


def too_large_for_level(board, module, level):
    """Settled reading 7: beyond listed, within bench-proven with newer firmware than fitted."""
    rows = [r for r in board.d.get("limits", [])
            if r["what"] == "module" and module["kind"] in r.get("kinds", [module["kind"]])]
    listed = [r["mib"] for r in rows if r["basis"] == "listed"]
    if not listed or module["capacity_mib"] <= max(listed):
        return False
    proven = [r for r in rows if r["basis"] == "bench-proven" and r["mib"] >= module["capacity_mib"]]
    return bool(proven) and all(board.firmware_place(r["firmware"]) > level for r in proven)


def is_live(board, population, slot):
    """A module behind an absent processor is on no wire."""
    return population["processors"][board.channels[board.where[slot]]["socket"]]["fitted"]


def surplus(board, population, fitted, level):
    """Settled reading 7 for a socket and the machine: what is beyond listed in the order of fitting,
    soldered memory first, where bench-proven needs newer firmware than fitted."""
    out = set()
    rows = board.d.get("limits", [])
    groups = {("machine", 0): [s for s in fitted if is_live(board, population, s)]}
    for slot in groups["machine", 0]:
        groups.setdefault(("socket", board.channels[board.where[slot]]["socket"]), []).append(slot)
    for (what, _), there in groups.items():
        size = sum(fitted[s]["capacity_mib"] for s in there)
        listed = max([r["mib"] for r in rows if r["what"] == what and r["basis"] != "bench-proven"], default=size)
        proven = [r for r in rows if r["what"] == what and r["basis"] == "bench-proven" and r["mib"] >= size]
        if size <= listed or level is None or not proven:
            continue
        if any(board.firmware_place(r["firmware"]) <= level for r in proven):
            continue
        there, total = sorted(there, key=board.place_in_order), 0
        for slot in there:
            total += fitted[slot]["capacity_mib"]
            if total > listed:
                out.add(slot)
    return out


def over_ranks(board, fitted, there):
    """Surplus modules of one channel, from the first in the order of fitting that passes."""
    out = set()
    for row in board.d.get("ranks", {}).get("limits", []):
        mine = [s for s in there if fitted[s]["kind"] in row.get("kinds", [fitted[s]["kind"]])
                and fitted[s]["ranks"] >= row.get("least_module_ranks", 1)]
        ranks, count = 0, 0
        for place, slot in enumerate(mine):
            ranks += board.ranks(fitted[slot])
            count += 1
            if ranks > row.get("most_ranks", ranks) or count > row.get("most_modules", count):
                out |= set(mine[place:])
                break
    return out


def kept_apart(board, population, fitted):
    """Exclusions of a board (population.md P12, P13): a module that a row speaks of keeps a slot of
    its channel empty, or lets no more than so many modules sit on each of its processor's other
    channels; (slots, whether the machine is stopped)."""
    slots, machine = set(), False
    for row in board.d.get("exclusions", []):
        out = set()
        for slot, module in fitted.items():
            home = board.where[slot]
            if not is_live(board, population, slot):
                continue
            if module["kind"] not in row.get("kinds", [module["kind"]]):
                continue
            if module["ranks"] < row.get("least_module_ranks", 1):
                continue
            if row.get("position", board.channels[home]["slots"].index(slot) + 1) \
                    != board.channels[home]["slots"].index(slot) + 1:
                continue
            for number, channel in enumerate(board.channels):
                near = number == home if row["scope"] == "channel" else \
                    number != home and channel["socket"] == board.channels[home]["socket"]
                if not near:
                    continue
                there = sorted((s for s in channel["slots"] if s in fitted), key=board.place_in_order)
                if "most_modules" in row:
                    out |= set(there[row["most_modules"]:])
                place = row.get("empty_position", 0)
                if 0 < place <= len(channel["slots"]) and channel["slots"][place - 1] in fitted:
                    out |= {channel["slots"][place - 1]} - {slot}
        if row.get("stops", "slots") == "machine":
            machine = machine or bool(out)
        else:
            slots |= out
    return slots, machine


FACT_OF = {"widths": "chip_width", "densities": "die_gbit", "capacities": "capacity_mib",
           "ranks": "ranks", "check-bits": "check_bits", "ecc": "ecc", "rates": "rated_mts"}


def mixed(board, fitted):
    """Whether a mix stops the machine; a board's row with "stops": "slots" is not looked at."""
    rows = {row["mix"]: row for row in board.d.get("mixing", [])}
    for mix in ("kinds", "ecc", "stacks", "check-bits", "widths", "densities", "capacities", "ranks"):
        row = rows.get(mix)
        if row is None and mix in ("widths", "densities", "capacities", "ranks"):
            continue  # differs between boards; this one does not say
        row = row or {"scope": "machine", "grade": "stops"}
        if row.get("allowed") or row["grade"] != "stops":
            continue
        groups = {}
        for slot, module in fitted.items():
            channel = board.where[slot]
            key = {"machine": 0, "socket": board.channels[channel]["socket"], "channel": channel}
            groups.setdefault(key[row["scope"]], []).append(module)
        for modules in groups.values():
            if mix == "kinds":
                found = {kind_family(m["kind"]) for m in modules}
            elif mix == "stacks":
                found = {m["stack"] == "3ds" and (m["capacity_mib"], m["logical_ranks"] // m["ranks"])
                         for m in modules}
            elif mix == "check-bits":
                found = {m["check_bits"] for m in modules if m["generation"] == "DDR5"}
            else:
                found = {m[FACT_OF[mix]] for m in modules}
            if len(found) > row.get("most", 1):
                return True
    return False
