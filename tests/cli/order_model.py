# SPDX-License-Identifier: GPL-3.0-or-later
"""The board's order of fitting and what it costs to be out of it (product.md 6, settled reading 2;
shared/facts/population.md P1, P12, 4.1, 4.3, 4.5); part of findings_model.py."""
from fractions import Fraction

import figures_model as model
from alike_model import time_of
from limits_model import in_order, socket_of
from regions_model import narrowest_matched


def behind_empty(load, slot):
    first = load.board.channels[load.board.where[slot]]["slots"][0]
    return first != slot and first not in model.fitted_of(load.board, load.population)


def kept_empty(load, slot):
    """P12, P13: nobody is sent to where a module that is fitted lets none in."""
    board, home = load.board, load.board.where[slot]
    channel = board.channels[home]
    for row in board.d.get("exclusions", []):
        full = len([s for s in channel["slots"] if s in model.fitted_of(board, load.population)])
        if channel["slots"].index(slot) + 1 != row.get("empty_position") \
                and full < row.get("most_modules", full + 1):
            continue
        for other, module in load.live.items():
            near = board.where[other] == home
            at = board.channels[board.where[other]]["slots"].index(other) + 1
            if near == (row["scope"] == "channel") and socket_of(board, other) == channel["socket"] \
                    and module["kind"] in row.get("kinds", [module["kind"]]) \
                    and module["ranks"] >= row.get("least_module_ranks", 1) and row.get("position", at) == at:
                return True
    return False


def order_of_fitting(load):
    """The last that is filled belongs into the first that is empty, and so on inwards; what sits
    behind an empty first slot, or alone, is another rule's."""
    board = load.board
    loose = [s for s in load.live if s not in board.soldered]
    if not board.order or not loose or ("lone" in board.d and len(load.live) == 1):
        return
    found = {"costs": ([], []), "taste": ([], []), "slower": ([], [])}
    for socket in range(board.n_sockets):
        if not load.population["processors"][socket]["fitted"]:
            continue
        mine = [s for s in board.order if socket_of(board, s) == socket]
        empty = [s for s in mine if s not in load.live and not kept_empty(load, s)]
        last = [s for s in reversed(mine) if s in loose and not behind_empty(load, s)]
        moves = [(s, e) for s, e in zip(last, empty) if mine.index(e) < mine.index(s)]
        if moves:
            late, early = found[price_of(load, socket, moves)]
            late += [s for s, _ in moves]
            early += [e for _, e in moves]
    grade = board.d.get("order", {}).get("grade", "loses")
    for price, (late, early) in found.items():
        if late:
            yield ("order-of-fitting", grade if price == "costs" else "note", in_order(board, late),
                   ("which the order names earlier." if price == "costs" else
                    "keep each pair alike" if works_by_pairs(load) else
                    "they would be read no faster" if price == "taste" else "its slowest part slower",
                    "still empty " + board_names(board, early)),
                   ("listed", board.d["order"].get("source", board.d.get("source"))))


def works_by_pairs(load):
    """A memory mode of pairs has an order of its own: the board's is only a note then."""
    mode = load.population.get("mode", "plain")
    return load.board.d.get("order", {}).get("grade", "loses") == "loses" and any(
        m["id"] == mode and m.get("pairs") for m in load.board.d.get("modes", []))


def board_names(board, slots):
    """The first of them, as the board prints it."""
    slot = in_order(board, slots)[0]
    for controller in (k for s in board.d["sockets"] for k in s["controllers"]):
        for one in (s for c in controller["channels"] for s in c["slots"]):
            if one["id"] == slot:
                return one.get("name", slot)
    return slot


def price_of(load, socket, moves):
    """population.md 4.3: all in one region, and in the board's order on more channels, yet no faster:
    a matter of taste. 4.1 K6: no faster there, and the slowest region slower. 4.5: nodes apart."""
    board, numbers = load.board, load.of(socket)
    grade = board.d.get("order", {}).get("grade", "loses")
    here = {s: m for s, m in load.live.items() if socket_of(board, s) == socket}
    if works_by_pairs(load):
        return "taste"
    if grade != "loses" or load.population.get("mode", "plain") != "plain" or any(s in board.soldered for s in here):
        return "costs"

    def caps(where):
        sizes = {c: 0 for c in numbers}
        counts = {c: 0 for c in numbers}
        for slot, module in where.items():
            sizes[board.where[slot]] += module["capacity_mib"]
            counts[board.where[slot]] += 1
        return sizes, [n for n in counts.values() if n]

    now, counts = caps(here)
    then, others = caps({dict(moves).get(s, s): m for s, m in here.items()})
    parts = model.nodes_of(board, socket, load.population.get("numa"))

    def look(sizes):
        """(every node one region, its controllers alike too, the longest time, that at its slowest,
        how far the nodes are apart, a controller with two channels in use more than another)"""
        one, alike, longest, slow, held, lopsided = True, True, 0, Fraction(0), [], False
        for part in parts:
            regions = model.regions(board, {c: sizes[c] for c in part}, load.population)
            of_controller = {}
            for c in part:
                k = board.channels[c]["controller"]
                of_controller[k] = of_controller.get(k, 0) + sizes[c]
            one = one and len(regions) <= 1
            alike = alike and len(set(of_controller.values())) == 1
            used = [sum(1 for c in part if sizes[c] and board.channels[c]["controller"] == k) for k in of_controller]
            lopsided = lopsided or max(used) - min(used) > 1
            longest = max(longest, time_of(regions))
            fewest = min([1000] + [ways for _, ways in regions])
            if "matched" in board.d.get("interleave", {}) and sum(sizes[c] for c in part):
                fewest = min(fewest, narrowest_matched(
                    model.all_ways(board, load.population), {c: sizes[c] for c in part},
                    {c: board.channels[c]["controller"] for c in part}))
            slow = max(slow, Fraction(sum(sizes[c] for c in part), fewest))
            held.append(sum(sizes[c] for c in part))
        return one, alike, longest, slow, max(held) - min(held), lopsided

    one, alike, time, slow, apart, lopsided = look(now)
    one_then, alike_then, time_then, slow_then, apart_then, _ = look(then)
    if time_then < time or max(others) < max(counts) or (lopsided and alike_then) \
            or (one_then and apart > 0 and apart_then == 0):
        return "costs"
    spoils = slow_then > slow or slow_then == slow and (
        apart_then > apart or (len(parts) > 1 and one and alike and not (one_then and alike_then)))
    if spoils or (one and len(others) > len(counts)):
        return "taste" if one else "slower"
    return "costs"
