# SPDX-License-Identifier: GPL-3.0-or-later
"""Channels that all hold the same and are read in parts all the same, because only some numbers of
channels go together (shared/facts/population.md 4.1, 4.3); part of findings_model.py."""
from fractions import Fraction

import figures_model as model
import modes_model
from limits_model import in_order, place


def time_of(regions):
    return sum(Fraction(size, ways) for size, ways in regions)


def speed_words(mbs):
    """MB/s as GB/s: tenths below a hundred, halves up (product.md 6, settled reading 9)."""
    mbs = model.rounded(mbs)
    tenths = (mbs + 50) // 100
    return f"{(mbs + 500) // 1000} GB/s" if tenths >= 1000 else f"{tenths // 10}.{tenths % 10} GB/s"


def split_of(load, caps, socket):
    """(in use, fewer, more, their speeds, slots) where fewer channels alike are read faster."""
    board = load.board
    used = [c for c in load.of(socket) if caps[c]]
    others = [c for c in load.of(socket) if not caps[c]]
    if len(used) < 2 or len({caps[c] for c in used}) > 1:
        return None
    parts = model.regions(board, {c: caps[used[0]] for c in used}, load.population)

    def speed(n):
        channels = (used + others)[:n]
        return sum(caps[used[0]] for _ in channels) / time_of(model.regions(board, {c: caps[used[0]] for c in channels}, load.population))

    speeds = {n: speed(n) for n in range(1, len(used) + len(others) + 1)}
    now = speeds[len(used)]
    fewer = max(range(1, len(used)), key=lambda n: speeds[n])
    more = max(range(len(used) + 1, len(speeds) + 1), key=lambda n: speeds[n], default=0)
    more = more if more and speeds[more] > now else 0
    if len(parts) < 2 or speeds[fewer] <= now:
        return None
    # All hold the same: too many are those that were filled last.
    rest = sorted(used, key=lambda c: min(place(board, s) for s in load.on([c])))[fewer:]
    return (len(used), fewer, more, now, speeds[fewer], speeds.get(more)), load.on(rest)


def split_regions(load):
    board, population = load.board, load.population
    caps = modes_model.judge(board, population, load.usable).caps
    if (population.get("numa") or 1) > 1 or caps is None or not sum(caps.values()):
        return
    running, of_socket, _ = model.rates(board, population)
    halved = modes_model.judge(board, population, load.usable).halved
    eta = Fraction(str(board.d.get("efficiency", {"value": 0.8})["value"])) / (2 if halved else 1)
    groups = {}
    for socket in range(board.n_sockets):
        split = split_of(load, caps, socket) if load.sockets[socket] else None
        if split:
            channel = of_socket[socket] * 8 * eta if running is not None else None
            one = groups.setdefault((split[0], channel), {"slots": [], "n": 0})
            one["slots"] += split[1]
            one["n"] += 1
    for ((in_use, fewer, more, now, least, most), channel), one in groups.items():
        words = [f"The {in_use} channels in use at {'processor ' if one['n'] == 1 else 'each of the processors '}"]
        if channel is None:
            words.append(f"{fewer} of them alone would be read faster")
        else:
            words += [f"reaches {speed_words(now * channel)} there", f"reach {speed_words(least * channel)} with only {fewer} of them{', or' if more else '.'}"]
            words += [f"or {speed_words(most * channel)} with {more} filled alike"] if more else []
        yield ("split-regions", "loses", in_order(board, one["slots"]), tuple(words),
               ("listed", board.d["interleave"].get("source")))
