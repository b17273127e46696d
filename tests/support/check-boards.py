#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds every board against the published JSON Schema with a checker that is not ours (Python's
jsonschema, draft 2020-12), and sees that the schema refuses what the loader's own cases break where
a schema can say it. Exit 77: no jsonschema here, skipped."""
import copy
import glob
import json
import os
import sys

try:
    import jsonschema
except ImportError:
    print("skipped: python3-jsonschema is not installed")
    sys.exit(77)

TOP = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
CASES = os.path.join(TOP, "tests", "data", "board")


def load(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def broken(board, case):
    """The board with the one change the case names; "at" is a JSON pointer."""
    board = copy.deepcopy(board)
    parts = case["at"].split("/")[1:]
    place = board
    for part in parts[:-1]:
        place = place[int(part)] if isinstance(place, list) else place[part]
    key = parts[-1]
    if isinstance(place, list):
        key = int(key)
    if case.get("remove"):
        del place[key]
    elif isinstance(place, list) and key == len(place):
        place.append(case["to"])
    else:
        place[key] = case["to"]
    return board


def main():
    schema = load(os.path.join(TOP, "platforms", "schema", "board.schema.json"))
    jsonschema.Draft202012Validator.check_schema(schema)
    checker = jsonschema.Draft202012Validator(schema)
    small = load(os.path.join(CASES, "small.json"))
    faults = []
    boards = sorted(glob.glob(os.path.join(TOP, "platforms", "*.json")))
    for path in boards + [os.path.join(CASES, "small.json")] + sys.argv[1:]:
        for error in checker.iter_errors(load(path)):
            faults.append(f"{path}: {error.json_path}: {error.message[:200]}")
    cases = sorted(glob.glob(os.path.join(CASES, "bad-*.json")))
    for path in cases:
        case = load(path)
        refused = not checker.is_valid(broken(small, case))
        if refused != case["schema_refuses"]:
            faults.append(f"{path}: the schema {'refuses' if refused else 'takes'} it")
    print("\n".join(faults) or f"{len(boards)} boards and {len(cases)} broken ones: as the schema says")
    return 1 if faults or len(boards) < 6 or len(cases) < 50 else 0


if __name__ == "__main__":
    sys.exit(main())
