# SPDX-License-Identifier: GPL-3.0-or-later
"""What a memory mode demands and leaves, by an independent plain reckoning from product.md 6
("Usable capacity", "Expected bandwidth", settled readings 1 and 8) and shared/facts/population.md 3.
Boards, populations and facts are those of figures_model.py; a population also has "mode",
"spare_ranks" and "mirrored_mib"."""
from fractions import Fraction

import figures_model

# Facts that decide whether two modules may stand for each other: product.md 3, "rule-relevant".
RELEVANT = ["generation", "kind", "form", "capacity_mib", "ranks", "logical_ranks", "stack", "chip_width",
            "rated_mts", "ecc", "check_bits", "die_gbit", "voltages_mv", "height_mm"]
ALIKE = {"capacity": ["capacity_mib"], "organisation": ["capacity_mib", "kind", "ranks", "chip_width"],
         "part": RELEVANT}


class Effect:
    """Whether the mode takes effect: True, False, or None where it is not told. caps: what each
    channel gives to regions, exactly; None where that is not known. used: channels in use."""

    def __init__(self, taken, caps, used, halved=False):
        self.taken, self.caps, self.used, self.halved = taken, caps, used, halved


def told(module, fact):
    """A fact's value, rates by their exact step; None where it is not known."""
    value = module.get(fact)
    if fact == "rated_mts" and value is not None:
        return figures_model.exact(module["generation"], value)
    return tuple(value) if isinstance(value, list) else value


def alike(level, a, b):
    """True, False, or None where an unknown fact decides."""
    pairs = [(told(a, fact), told(b, fact)) for fact in ALIKE[level]]
    if any(None not in pair and pair[0] != pair[1] for pair in pairs):
        return False
    return None if any(None in pair for pair in pairs) else True


def both(answers):
    """All of them: False beats not told, not told beats True."""
    answers = list(answers)
    return False if False in answers else None if None in answers else True


def pairs_of(board, rule):
    """(a, b) channel numbers of every socket that has both."""
    found = []
    for first, second in rule.get("pairs", []):
        for socket in range(board.n_sockets):
            mine = {c["name"]: n for n, c in enumerate(board.channels) if c["socket"] == socket}
            if first in mine and second in mine:
                found.append((mine[first], mine[second]))
    return found


def pair_is_alike(board, usable, level, a, b):
    """Slot by slot: both empty, or both filled and alike."""
    answers = []
    left, right = board.channels[a]["slots"], board.channels[b]["slots"]
    for place in range(max(len(left), len(right))):
        one = usable.get(left[place]) if place < len(left) else None
        other = usable.get(right[place]) if place < len(right) else None
        if (one is None) != (other is None):
            answers.append(False)
        elif one is not None:
            answers.append(alike(level, one, other))
    return both(answers)


def demands_of_counts(board, rule, by_channel, pairs):
    """So many modules on a processor that has any; so many on each channel in use."""
    answers = []
    allowed = rule.get("modules_per_socket")
    for socket in range(board.n_sockets):
        n = sum(len(by_channel[c]) for c, channel in enumerate(board.channels) if channel["socket"] == socket)
        if allowed and n:
            answers.append(n in allowed)
    paired = {c for pair in pairs for c in pair} or set(by_channel)
    for c, modules in by_channel.items():
        if modules and c in paired:
            answers.append(len(modules) >= rule.get("least_modules_of_channel", 1))
    return both(answers)


def spared_of(board, modules, k):
    """MiB of the k largest ranks; None where a module's ranks are not told."""
    ranks = []
    for module in modules:
        count = board.ranks(module)
        if count is None:
            return None
        ranks += [Fraction(module.get("capacity_mib") or 1, count)] * count
    return sum(sorted(ranks, reverse=True)[:k])


def judge(board, population, usable):
    """Effect of the population's mode on its usable modules. Where a size is not known, only which
    channels are used means something."""
    mode = population.get("mode", "plain")
    by_channel = {n: [usable[s] for s in c["slots"] if s in usable] for n, c in enumerate(board.channels)}
    size = {n: Fraction(sum(m.get("capacity_mib") or 1 for m in modules)) for n, modules in by_channel.items()}
    filled = {n for n, modules in by_channel.items() if modules}
    plain = Effect(True, size, filled)
    refused = Effect(False, size, filled)
    if mode == "plain":
        return plain
    offered = board.d.get("modes")
    rule = next((m for m in offered or [] if m["id"] == mode), None)
    if offered is not None and rule is None:
        return refused
    silent = rule is None
    rule = rule or {}
    pairs = pairs_of(board, rule)
    split = population.get("numa") or 1
    if "numa-split" in rule.get("not_with", []) and split > 1:
        return refused
    answers = [demands_of_counts(board, rule, by_channel, pairs)]
    if mode == "spared":
        return spared(board, population, rule, silent, by_channel, size, filled, answers, refused)
    if "alike" in rule:
        answers += [pair_is_alike(board, usable, rule["alike"], a, b) for a, b in pairs]
    if pairs:
        answers.append(any(a in filled and b in filled for a, b in pairs))
    if mode == "partly-mirrored":
        return partly(population, rule, silent, size, filled, answers, refused)
    if both(answers) is False:
        return refused
    if not pairs or both(answers) is None:
        return Effect(None, None, filled)
    small = {}
    for a, b in pairs:
        small[a] = small[b] = min(size[a], size[b])
    share = Fraction(1, 2) if mode == "mirrored" else 1
    caps = {n: small.get(n, 0) * share for n in size}
    used = {c for a, b in pairs if a in filled and b in filled for c in (a, b)}
    return Effect(True, caps, used, halved=mode == "paired")


def spared(board, population, rule, silent, by_channel, size, filled, answers, refused):
    k = population.get("spare_ranks") or 1
    needs = max(k + 1, rule.get("least_ranks_of_channel", 0))
    answers.append(k <= rule.get("most_ranks", k))
    gone = {n: spared_of(board, modules, k) for n, modules in by_channel.items()}
    for n, modules in by_channel.items():
        if modules:
            answers.append(None if gone[n] is None else sum(board.ranks(m) for m in modules) >= needs)
    if both(answers) is False:
        return refused
    if both(answers) is None:
        return Effect(None, None, filled)
    return Effect(None if silent else True, {n: size[n] - gone[n] for n in size}, filled)


def partly(population, rule, silent, size, filled, answers, refused):
    mirrored, total = population.get("mirrored_mib") or 0, sum(size.values())
    answers.append(2 * mirrored <= total)
    answers.append(mirrored % rule.get("step_mib", 1) == 0)
    if both(answers) is False:
        return refused
    if both(answers) is None:
        return Effect(None, None, filled)
    share = 1 - Fraction(mirrored, total) if total else 1
    return Effect(None if silent or not mirrored else True, {n: v * share for n, v in size.items()}, filled)
