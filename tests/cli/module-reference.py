#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""lidleaf-cli module against an independent reader of the same grammar, facts/checks/
label_reference.py beside the checkout, on labels made at random and on random changes of them.
Skipped where that reader is not there. Where the two are known to differ, and why:
differs_by_design()."""
import importlib.util
import json
import os
import random
import re
import subprocess
import sys

CLI = sys.argv[1]
REFERENCE = os.path.join(os.environ["LID_SHARED"], "facts", "checks", "label_reference.py")
LABELS, MUTANTS = 4000, 5
CARDS = "ABCDEFGHJKLMNPRTUVWY"
KIND = {("UDIMM", "no"): "unbuffered", ("UDIMM", "yes"): "ecc-unbuffered",
        ("RDIMM", "yes"): "registered", ("LRDIMM", "yes"): "load-reduced",
        ("SO-DIMM", "no"): "so-unbuffered", ("SO-DIMM", "yes"): "so-ecc-unbuffered",
        ("72b-SO-UDIMM", "yes"): "so-ecc-unbuffered", ("CSODIMM", "no"): "so-clocked-unbuffered"}


def load_reference():
    spec = importlib.util.spec_from_file_location("label_reference", REFERENCE)
    module = importlib.util.module_from_spec(spec)
    sys.dont_write_bytecode = True
    spec.loader.exec_module(module)
    return module


def make(rng):
    """A label after the EBNF of facts/module_label.md, whose capacity comes out most times."""
    generation = rng.choice("345")
    stack = rng.choice(["", "", "D", "S2", "S4", "S8"]) if generation != "3" else ""
    ranks, width = rng.choice("124"), rng.choice(["4", "8", "16"])
    logical = int(ranks) * (int(stack[1:]) if stack.startswith("S") else 1)
    die = rng.choice({"3": [1, 2, 4, 8], "4": [4, 8, 12, 16], "5": [16, 24, 32, 20]}[generation])
    mib = die * 64 * logical * 128 // int(width)
    capacity = f"{mib // 1024}GB" if mib % 1024 == 0 else f"{mib}MB"
    head = f"{capacity} {ranks}{stack}R{rng.choice('xxxX')}{width} PC{generation}"
    card = rng.choice(CARDS) + rng.choice(["", rng.choice(CARDS)]) + rng.choice("0123456789P")
    card = rng.choice([card] * 9 + ["ZZZ"])
    revision = rng.choice(["10", "11", "12", "13"])
    suffix = rng.choice(["", "", "-D3", "-MA0"])
    if generation == "3":
        tail = (rng.choice(["", "L", "U"]) + "-"
                + rng.choice(["6400", "8500", "10600", "12800", "14900", "17000"])
                + rng.choice("UERLS"))
        full = f"-{rng.choice(['9', '09', '11', '13'])}-{revision}-{card}{suffix}"
    elif generation == "4":
        tail = "-" + rng.choice(["2133P", "2400T", "2666V", "2933Y", "3200AA", "3200W", "2400V"])
        tail += "-" + rng.choice("UERLST")
        full = f"{card}-{revision}{suffix}"
    else:
        tail = f"-{rng.randrange(3200, 9300, 400)}{rng.choice(['A', 'AN', 'B', 'BN', 'C'])}"
        tail += "-" + rng.choice("UERPLSTV")
        full = f"{card}-{revision}{rng.choice(['10', '11'])}-{rng.choice(['XT', 'NT', 'IT', 'A1T'])}"
    return head + tail + (full if rng.random() < 0.8 else "")


def mutate(rng, text):
    at = rng.randrange(len(text))
    byte = rng.choice("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZx -")
    return rng.choice([text[:at] + byte + text[at + 1:], text[:at] + text[at + 1:],
                       text[:at] + byte + text[at:], text[:at] + text[at] + text[at:]])


def differs_by_design(text, ours):
    """Texts on which the readers differ because the grammar's page or product.md says so."""
    return (ours["form"] == "short-form" or (ours["quantity"] or 1) > 1  # not in that reader
            or re.search(r"\dQ\d*R", text)                    # QDP: not in the EBNF
            or re.search(r"R[xX]0", text)                     # x08 is not printed
            or re.search(r"PC[345][LU]?-0", text)             # nor is 02666
            or re.search(r"PC5-\d+[A-Z]+-[CM]", text)         # clocked, multiplexed: from memory
            or re.search(r"[A-Z](Z|ZZ[^Z])-\d|[A-Y]Z(-|$)", text)  # Z stands in ZZZ only
            or re.search(r"-[A-Z][A-Z]P-\d\d", text)          # last P is a revision, not a letter
            or not text.strip())


def main():
    if not os.path.exists(REFERENCE):
        return 77
    reference = load_reference()
    rng = random.Random(20310402)
    texts = []
    for _ in range(LABELS):
        label = make(rng)
        texts += [label] + [mutate(rng, label) for _ in range(MUTANTS)]
    texts = [text for text in texts if text.strip()]
    done = subprocess.run([CLI, "module", "--json", "-"], input="\n".join(texts).encode(),
                          capture_output=True, check=False)
    faults, taken = [], 0
    for text, line in zip(texts, done.stdout.decode().splitlines(), strict=True):
        ours = json.loads(line)
        if differs_by_design(text, ours):
            continue
        try:
            theirs = reference.parse(text)
        except reference.Bad as refusal:
            if ours["ok"]:
                faults.append(f"{text}: taken, but the reference says: {refusal}")
            continue
        taken += 1
        if not ours["ok"]:
            faults.append(f"{text}: {ours['reason']}, but the reference takes it")
            continue
        want = {"generation": theirs["generation"], "ranks": theirs["package_ranks"],
                "capacity_mib": round(float(theirs["capacity_gib"]) * 1024),
                "logical_ranks": theirs["logical_ranks"], "chip_width": theirs["chip_width"],
                "rated_mts": theirs["rate_mts"], "ecc": theirs["ecc"] == "yes",
                "kind": KIND[theirs["module_type"], theirs["ecc"]],
                "die_gbit": int(theirs["die_gbit"]),
                "form": {"full": "label", "short": "short-label"}[theirs["form"]]}
        faults += [f"{text}: {key} is {ours[key]!r}, the reference says {value!r}"
                   for key, value in want.items() if ours[key] != value]
    print("\n".join(faults[:20]))
    print(f"{len(texts)} texts, {taken} taken by both, {len(faults)} differences")
    return 1 if faults or taken < LABELS // 2 else 0


sys.exit(main())
