# SPDX-License-Identifier: GPL-3.0-or-later
"""What rules of limits and of mixtures find, by an independent plain reckoning of modules whose
facts are all known: product.md 6, settled readings 1 to 3 and 7; shared/facts/population.md 1.1,
1.2, P12, P13. Boards and populations are those of figures_model.py. A finding is (rule, grade,
slots in the board's order, words it must hold,
basis (or basis and source, or None where it is not looked at), what it stops)."""
import figures_model as model

MIXES = {"widths": "chip_width", "densities": "die_gbit", "capacities": "capacity_mib", "ranks": "ranks",
         "check-bits": "check_bits", "ecc": "ecc", "rates": "rated_mts"}
# Physics: they stop the machine where the board is silent (population.md 1.1).
ALWAYS = ("kinds", "ecc", "stacks", "check-bits")


def in_order(board, slots):
    places = list(board.where)
    return tuple(sorted(set(slots), key=places.index))


def place(board, slot):
    """In the order of fitting: soldered memory was there first, what the order does not name comes
    last."""
    if slot in board.soldered:
        return (0, 0)
    if slot in board.order:
        return (1, board.order.index(slot))
    return (2, list(board.where).index(slot))


def size_words(mib):
    """Product.md 2: GB up to 1023, then TB with the GB behind; tenths are cut where there are any."""
    def cut(unit):
        return f"{mib // unit}" if mib % unit == 0 else f"{mib // unit}.{mib * 10 // unit % 10}"

    if mib % 1024 != 0 and mib < 10240:
        return f"{mib} MB"
    return f"{cut(1024)} GB" if mib < 1024 * 1024 else f"{cut(1024 * 1024)} TB ({cut(1024)} GB)"


def live_of(board, population):
    """Modules on some wire, soldered ones included."""
    fitted = model.fitted_of(board, population)
    return {s: m for s, m in fitted.items()
            if population["processors"][board.channels[board.where[s]]["socket"]]["fitted"]}


def socket_of(board, slot):
    return board.channels[board.where[slot]]["socket"]


# --- limits of capacity --------------------------------------------------------------------------

def judge(board, rows, mib, level):
    """(verdict, listed row or None, proven or assumed row or None); settled reading 7. What is assumed
    counts as listed only where nothing is."""
    def largest(basis):
        return max((r for r in rows if r["basis"] == basis), key=lambda r: r["mib"], default=None)

    listed = largest("listed") or largest("assumed")
    reach = [r for r in rows if r["basis"] == "bench-proven" and r["mib"] >= mib]

    def standing(row):
        needed, fitted = board.firmware_place(row["firmware"]), board.firmware_place(level)
        if row["firmware"] == level:
            return 0
        if needed is None or fitted is None:
            return 1
        return 0 if needed <= fitted else 2

    if not rows or (listed and mib <= listed["mib"]):
        return "within", None, None
    if not reach:
        guess = largest("assumed")
        return ("supposed", listed, guess) if guess and mib <= guess["mib"] else ("beyond", listed, None)
    def named(row):
        """Among equals: the older firmware where it has to come, the nearest size, the latest."""
        needed = board.firmware_place(row["firmware"])
        asked = 0 if standing(row) == 0 else float("inf") if needed is None else needed
        return standing(row), asked, row["mib"], tuple(-ord(c) for c in row["when"])

    best = min(reach, key=named)
    verdict = ("proven", "unknown", "newer")[standing(best)]
    if verdict == "proven" and not listed:
        return "within", None, None
    return verdict, listed, best


def limits(board, population):
    """Findings of the four rules of capacity."""
    live = live_of(board, population)
    level = population.get("firmware")
    groups = {"module": [[s] for s in live if s not in board.soldered], "machine": [list(live)],
              "channel": [[s for s in live if board.where[s] == c] for c in range(len(board.channels))],
              "socket": [[s for s in live if socket_of(board, s) == n] for n in range(board.n_sockets)]}
    for what, sets in groups.items():
        met = {}
        for slots in filter(None, sets):
            kinds = {live[s]["kind"] for s in slots}
            rows = [r for r in board.d.get("limits", []) if r["what"] == what
                    and ("kinds" not in r or kinds & set(r["kinds"]))]
            mib, total, over = sum(live[s]["capacity_mib"] for s in slots), 0, []
            verdict, listed, proven = judge(board, rows, mib, level)
            if verdict == "within":
                continue
            for slot in sorted(slots, key=lambda s: place(board, s)):
                total += live[slot]["capacity_mib"]
                if total > (listed["mib"] if listed else 0):
                    over.append(slot)
            one = met.setdefault(verdict, {"slots": [], "mib": 0})
            one["slots"] += over
            if mib > one["mib"]:
                one.update(mib=mib, listed=listed, proven=proven)
        for verdict, one in met.items():
            words = [f"{size_words(one['mib'])} is more", f"({size_words(one['listed']['mib'])})" if one["listed"] else "(nothing)"]
            if verdict == "proven":
                words += [one["proven"]["who"], one["proven"]["when"]]
            if verdict == "supposed":
                words += [f"Up to {size_words(one['proven']['mib'])} is only assumed"]
            elif one["proven"]:
                words += ["firmware " + one["proven"]["firmware"]]
            grade = {"proven": "note", "unknown": "unsure", "newer": "stops"}.get(verdict, "unsure")
            basis = (one["proven"] or one["listed"] or {"basis": "listed"})["basis"]
            yield (f"capacity-{what}", grade, in_order(board, one["slots"]), tuple(words),
                   (basis, (one["proven"] or one["listed"] or {}).get("source")), "slots" if grade == "stops" else None)


def sizes(board, population):
    """Sizes in between that the maker's documents do not list; what a firmware level brings is another
    rule's, and what somebody saw working is proven."""
    listed = board.d.get("takes", {}).get("sizes", {}).get("mib", [])
    proven = [r["mib"] for r in board.d.get("limits", []) if r["what"] == "module" and r["basis"] == "bench-proven"]
    brings = any(g.get("non_binary") for level in board.d.get("firmware", []) for g in level.get("brings", []))

    def odd(mib):
        brought = brings and bin(mib).count("1") > 1
        return bool(listed) and mib < max(listed) and mib not in listed + proven and not brought

    slots = [s for s, m in live_of(board, population).items() if s not in board.soldered and odd(m["capacity_mib"])]
    if slots:
        yield ("capacity-module", "unsure", in_order(board, slots), tuple(size_words(m) for m in listed),
               ("listed", board.d["takes"]["sizes"]["source"]), None)


def processors(board, population):
    """What a processor's model addresses; of an untold model the least that any addresses."""
    live = live_of(board, population)
    for n, processor in enumerate(population["processors"]):
        models = [p for p in board.d.get("processors", []) if processor["model"] in (None, p["id"])]
        by = min((p for p in models if "most_mib" in p), key=lambda p: p["most_mib"], default={})
        most = by.get("most_mib")
        mine = [s for s in live if socket_of(board, s) == n]
        mib = sum(live[s]["capacity_mib"] for s in mine)
        if most and processor["fitted"] and mib > most:
            yield ("processor-capacity", "unsure", in_order(board, mine),
                   (f"has {size_words(mib)};", f"addresses {size_words(most)}"),
                   ("listed", by.get("source", board.d.get("source"))), None)


# --- rows of a channel ---------------------------------------------------------------------------

def rank_rows(board, population):
    """A channel takes so many ranks, and so many modules of some kinds: what comes later in the
    order of fitting is too much."""
    live = live_of(board, population)
    for row in board.d.get("ranks", {}).get("limits", []):
        for rule, most in ("rank-limit", row.get("most_ranks")), ("modules-limit", row.get("most_modules")):
            over, peak = [], 0
            for number in range(len(board.channels)):
                mine = [s for s in live if board.where[s] == number
                        and live[s]["kind"] in row.get("kinds", [live[s]["kind"]])
                        and live[s]["ranks"] >= row.get("least_module_ranks", 1)]
                total = 0
                for slot in sorted(mine, key=lambda s: place(board, s)):
                    total += board.ranks(live[slot]) if rule == "rank-limit" else 1
                    if most and total > most:
                        over.append(slot)
                if most and total > most:
                    peak = max(peak, total)
            if over:
                yield (rule, "stops", in_order(board, over), (f"up to {peak}",), ("listed", row["source"]), "slots")


def exclusions(board, population):
    """Modules that keep others out (P12, P13)."""
    live = live_of(board, population)
    fitted = model.fitted_of(board, population)
    for row in board.d.get("exclusions", []):
        out, by = set(), set()
        for slot, module in live.items():
            home = board.channels[board.where[slot]]
            if module["kind"] not in row.get("kinds", [module["kind"]]) \
                    or module["ranks"] < row.get("least_module_ranks", 1) \
                    or row.get("position", home["slots"].index(slot) + 1) != home["slots"].index(slot) + 1:
                continue
            kept = set()
            for channel in board.channels:
                if (channel is home) != (row["scope"] == "channel") or channel["socket"] != home["socket"]:
                    continue
                there = sorted((s for s in channel["slots"] if s in fitted), key=lambda s: place(board, s))
                if "most_modules" in row:
                    kept |= set(there[row["most_modules"]:])
                if "empty_position" in row:
                    kept |= {s for s in there if channel["slots"].index(s) + 1 == row["empty_position"]}
            if "empty_position" in row:
                kept.discard(slot)
            out |= kept
            by |= {slot} if kept else set()
        if out:
            yield ("exclusion", "stops", in_order(board, out),
                   ("The module in " if len(by) == 1 else "The modules in ",), ("listed", row["source"]),
                   row.get("stops", "slots"))


# --- mixtures ------------------------------------------------------------------------------------

def class_of(mix, module):
    """None: the rule does not look at such a module."""
    if mix == "kinds":  # ECC is a mixture of its own
        return module["kind"].replace("ecc-", "")
    if mix == "stacks":
        height = module["logical_ranks"] // module["ranks"]
        return (height, module["capacity_mib"]) if module["stack"] == "3ds" else "plain"
    if mix == "check-bits" and (module["generation"] != "DDR5" or not module["ecc"]):
        return None
    if mix == "rates":
        return model.exact(module["generation"], module["rated_mts"])
    return module[MIXES[mix]]


def mixtures(board, population):
    """All but the classes with most capacity are blamed; on a tie the one that comes first in the
    order of fitting stays (settled reading 3)."""
    live = {s: m for s, m in live_of(board, population).items() if s not in board.soldered}
    rows = {row["mix"]: row for row in board.d.get("mixing", [])}
    for mix in ("kinds", *MIXES, "stacks"):
        row = rows.get(mix, {"scope": "machine", "grade": "stops"} if mix in ALWAYS else {"allowed": True})
        if row.get("allowed"):
            continue
        units, blamed, counts, seen = {}, [], {}, 0
        for slot in live:
            unit = {"machine": 0, "socket": socket_of(board, slot), "channel": board.where[slot]}[row["scope"]]
            value = class_of(mix, live[slot])
            if value is not None:
                units.setdefault(unit, {}).setdefault(value, []).append(slot)
        for classes in units.values():
            if len(classes) <= row.get("most", 1):
                continue
            seen += 1
            ranked = sorted(classes.values(), key=lambda c: (
                -sum(live[s]["capacity_mib"] for s in c), min(place(board, s) for s in c)))
            blamed += [s for one in ranked[row.get("most", 1):] for s in one]
            for value, one in classes.items():
                counts[value] = counts.get(value, 0) + len(one)
        if not blamed:
            continue
        words = [f"{n} × " for n in counts.values()]
        if row["scope"] == "socket":
            words.append("They meet at processor " if seen == 1 else "They meet at processors ")
        if row["scope"] == "channel":
            words.append("They meet on ")
        if row.get("most", 1) > 1:
            words.append(f"The board takes {row['most']} different ones "
                         + ("at most." if row["scope"] == "machine" else "there at most."))
        words.append({"loses": "gives away rate", "unsure": "is not known", "note": "only mentions it",
                      "stops": "does not start" if row.get("stops", "machine") == "machine" else "does not use"}[row["grade"]])
        yield (f"mixed-{mix}", row["grade"], in_order(board, blamed), tuple(words),
               ("listed", row["source"]) if mix in rows else None,
               row.get("stops", "machine") if row["grade"] == "stops" else None)


def findings(board, population):
    for part in limits, sizes, processors, rank_rows, exclusions, mixtures:
        yield from part(board, population)
