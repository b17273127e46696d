#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""make-checks.py OUTPUT: every check against something outside the project, by strength, written
from the data the tests run on, so that the page cannot say what is not tested."""
import csv
import json
import os
import sys

TOP = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
OUTSIDE = os.path.join(TOP, "outside")
DATA = os.path.join(TOP, "data")
STRENGTHS = {
    "published": "A document or a program's source anybody can open says so.",
    "arithmetic": "It follows by reckoning from definitions.",
    "common practice": "The trade works so, or a maker's guide that is not named here says so of one board.",
    "from memory": "Known to the author; the source was not at hand.",
    "own algorithm": "A regression: it shows a change of our own output, not a truth.",
}


def rows(*path):
    with open(os.path.join(DATA, *path), encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def strength_of(text):
    if text.startswith("own algorithm"):
        return "own algorithm"
    if text not in STRENGTHS:
        sys.exit(f"no strength: {text}")
    return text


def cases():
    """(file, title, case) of every case of tests/outside/."""
    for name in sorted(os.listdir(OUTSIDE)):
        if name.endswith(".json"):
            with open(os.path.join(OUTSIDE, name), encoding="utf-8") as file:
                whole = json.load(file)
            for group in whole["groups"]:
                for one in group["cases"]:
                    yield name, whole["title"], one


def checks():
    """(strength, where, check, source, note)"""
    for name, _, one in cases():
        row = one.get("handbook", one.get("row"))
        yield (one["strength"], f"outside/{name}", one["case"] + (f" ({row})" if row else ""),
               one["source"], one.get("disagreement", ""))
    for row in rows("handbook", "handbook_checks.csv"):
        if row["area"] in ("peak", "capacity", "identity") or row["area"].startswith("regions "):
            yield (strength_of(row["strength"]), "outside/test-handbook.c",
                   f"{row['input']}: {row['expected']} ({row['id']})", row["source"], "")
        elif row["area"] == "isolate":
            yield (strength_of(row["strength"]), "outside/test-trace.c",
                   f"{row['input']}: {row['expected']} ({row['id']})", row["source"], "")
    for row in rows("handbook", "bandwidth_cases.csv"):
        yield ("arithmetic", "core/test-bandwidth-cases.c",
               f"{row['case']}: {row['peak_mb_s']} MB/s ({row['id']})",
               "facts/standards.md 1, after JEDEC's exact rates", "")
    for row in rows("label", "label_cases.csv"):
        yield ("published" if row["status"] == "confirmed" else "from memory", "core/test-label.c",
               f"{row['label']} ({row['id']})", row["source"], row["note"])
    for row in rows("archetypes", "rates.csv"):
        counts = "/".join(row[n] for n in ("one", "two", "three") if row[n])
        yield ("from memory" if row["says"] == "from memory" else "common practice",
               "core/test-archetypes.c",
               f"{row['board']}, {row['kind']} of {row['ranks']} ranks at {row['voltage']} mV: {counts}",
               f"archetypes.csv: {row['says']}", "")


def beside(name):
    with open(os.path.join(OUTSIDE, name), encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def cell(text):
    return " ".join(str(text).split()).replace("|", "\\|")


def main():
    every = list(checks())
    out = ["# Checks against something outside the project", "",
           "Generated from the data the tests run on. C and a number is a row of "
           "`tests/data/handbook/handbook_checks.csv`; S and K are explained below.", "",
           "| strength | checks | what it means |", "| --- | ---: | --- |"]
    for strength, means in STRENGTHS.items():
        out.append(f"| {strength} | {sum(one[0] == strength for one in every)} | {means} |")
    titles = {title: name for name, title, _ in cases()}
    out += ["", "## Sources with a file of their own", ""]
    out += [f"- `outside/{name}`: {title}" for title, name in sorted(titles.items(), key=lambda t: t[1])]
    out += ["", "## Codes", ""]
    out += [f"- {row['code']}: {row['source']}" for row in beside("codes.csv")]
    out += ["", "## Where sources disagree", ""]
    out += [f"- {cell(check)}: {cell(note)}" for _, where, check, _, note in every
            if note and where.startswith("outside/")]
    out += ["", "## Rows of the handbook that are not checked", ""]
    out += [f"- {row['id']}: {row['reason']}" for row in beside("rows-elsewhere.csv")]
    for strength in STRENGTHS:
        out += ["", f"## {strength[0].upper()}{strength[1:]}", "", "| check | source | where |",
                "| --- | --- | --- |"]
        out += [f"| {cell(check)} | {cell(source)} | `tests/{where}` |"
                for kind, where, check, source, _ in every if kind == strength]
    with open(sys.argv[1], "w", encoding="utf-8") as file:
        file.write("\n".join(out) + "\n")


if __name__ == "__main__":
    main()
