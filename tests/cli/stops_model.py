# SPDX-License-Identifier: GPL-3.0-or-later
"""What stops what, by an independent slow reading of product.md 6 and 7, settled readings 1, 2 and
7; of modules whose facts are all known. Boards and populations are those of figures_model.py."""
import limits_model
from figures_model import exact, fitted_of, missing_rows


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
    for number in missing_rows(board, population):
        slots |= {s for s in board.channels[number]["slots"] if s in fitted}
    for channel in board.channels:
        there = [s for s in channel["slots"] if s in fitted]
        if there and channel["slots"][0] not in fitted:
            slots |= set(there)
    for finding in limits_model.findings(board, population):
        slots |= set(finding[2]) if finding[5] == "slots" else set()
        machine = machine or finding[5] == "machine"
    live = {s: m for s, m in fitted.items() if is_live(board, population, s)}
    lone = d.get("lone", {})
    only = list(live)
    if len(only) == 1 and only[0] not in lone.get("slots", only) and lone.get("grade") == "stops":
        machine = True
    if d.get("own_memory") == "required":
        for socket, processor in enumerate(population["processors"]):
            mine = [s for s in set(fitted) - slots if board.channels[board.where[s]]["socket"] == socket]
            if processor["fitted"] and len(mine) < own_modules(d):
                machine = True
    if not set(fitted) - slots:
        machine = True
    return slots, machine


def outside(board, population):
    """Slots whose module does not go in at all: it has no contact, so nothing else looks at it
    (settled reading 2: that slot)."""
    takes = board.d["takes"]
    return {s for s, m in population["slots"].items()
            if m["generation"] not in takes["generations"] or not fits(takes, m)}


def own_modules(d):
    """How many modules every processor needs, where the board requires any (P8)."""
    return d.get("own_modules", {}).get("least", 1) if d.get("own_memory") == "required" else 0


def fits(takes, module):
    """Whether it goes into the slot: form, as its kind says, and key."""
    short = takes["kinds"][0].startswith("so-")
    plain, driven = ("unbuffered", "ecc-unbuffered", "clocked-unbuffered"), ("registered", "load-reduced", "multiplexed-rank")
    for mine, others in (plain, driven), (driven, plain):  # keys of DDR5 differ (ServeTheHome)
        if module["generation"] == "DDR5" and module.get("kind") in mine and not set(mine) & set(takes["kinds"]) and set(others) & set(takes["kinds"]):
            return False
    return module["generation"] in takes["generations"] and module.get("kind", module["form"]).startswith("so-") == short


def needs(gift, module):
    if gift.get("non_binary"):
        return module["capacity_mib"] & (module["capacity_mib"] - 1) != 0
    if gift["fact"] == "stack":
        steps = ["none", "dual", "3ds"]
        return steps.index(module["stack"]) >= steps.index(gift["at_least"])
    if gift["fact"] == "rated_mts":
        return exact(module["generation"], module["rated_mts"]) >= exact(module["generation"], gift["at_least"])
    return module[gift["fact"]] >= gift["at_least"]


def is_live(board, population, slot):
    """A module behind an absent processor is on no wire."""
    return population["processors"][board.channels[board.where[slot]]["socket"]]["fitted"]
