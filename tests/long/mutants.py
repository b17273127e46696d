#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""mutants.py BUILD [--sample N --seed S] [--files GLOB] [--seconds N] [--jobs N] [--plain]

Are the tests able to fail? One thing is changed in a file of core/checks or core/figures: a
condition is inverted, a bound or number moves by one, an operator is exchanged. The fast tests of
the core run against it, those first that noticed its neighbours, until one fails: the mutant is
killed. One that no test notices is tried again under the sanitizers, and survived if they are silent
too. mutant_source.py says what is changed, and how all changes fit into one compilation.

Resumable: verdicts lie in BUILD/mutants/table.tsv; a mutant judged there is not run again as long as
its function is the same, a survivor as long as the tests are. Survivors explained in
tests/long/mutants-explained.txt pass; an explanation of a change that is noticed after all, or that
can no longer be made, is a fault. Exit: 0 none unexplained, 1 some, 2 it could not be run."""
import argparse
import concurrent.futures
import fnmatch
import glob
import hashlib
import json
import os
import re
import sys
import time

from mutant_bench import TESTS, Bench
from mutant_source import TOP, key_of, lines_of, made, mutants_of


def lot(seed, mutant):
    """A place in line by the line's own text, so that a change elsewhere moves no other mutant."""
    text = f"{seed} {mutant.path} {lines_of(mutant.path)[mutant.line].strip()} {mutant.start} {mutant.new}"
    return hashlib.sha256(text.encode()).hexdigest()


def digest_of_tests():
    """That it survived holds as long as the tests are the same."""
    sha = hashlib.sha256(repr(TESTS).encode())
    programs = [f"tests/{name}.c" for name, given in TESTS if given is None]
    for pattern in (*programs, "tests/cases/*/*.json", "tests/support/*", "resources/rules/*",
                    "tests/outside/test-outside.c", "tests/outside/outside-*.c",
                    "tests/outside/*.json", "tests/cli/*model.py"):
        for path in sorted(glob.glob(os.path.join(TOP, pattern))):
            with open(path, "rb") as file:
                sha.update(file.read())
    return sha.hexdigest()[:12]


def read_table(path):
    table = {}
    if os.path.exists(path):
        with open(path, encoding="utf-8") as file:
            for line in file:
                cells = line.rstrip("\n").split("\t")
                if len(cells) == 6:
                    table[tuple(cells[:4])] = (cells[4], cells[5])
    return table


def read_explained():
    """file, the line as it is, as it was made, why no test can notice; tabs between"""
    explained = {}
    with open(os.path.join(TOP, "tests", "long", "mutants-explained.txt"), encoding="utf-8") as file:
        for line in file:
            cells = [cell.strip() for cell in line.split("\t")]
            if len(cells) == 4 and not line.startswith("#"):
                explained[tuple(cells[:3])] = cells[3]
    return explained


def files_of_core(build):
    with open(os.path.join(build, "compile_commands.json"), encoding="utf-8") as file:
        paths = [os.path.relpath(os.path.join(one["directory"], one["file"]), TOP)
                 for one in json.load(file)]
    return sorted({path for path in paths if re.match(r"src/core/(checks|figures)/.*\.c$", path)})


def untrue(explained, mutants, verdicts, whole):
    """Explanations that explain nothing: sentences. Whether a change is there only the whole run knows."""
    found = {}
    for n, mutant in mutants.items():
        key = (os.path.basename(mutant.path), lines_of(mutant.path)[mutant.line].strip(), made(mutant).strip())
        found.setdefault(key, []).append(verdicts.get(n, "not run").split(" ")[0])
    faults = [f"explained, but a test notices it: {' | '.join(key)}"
              for key in explained if set(found.get(key, [])) == {"killed"}]
    if whole:
        faults += [f"explained, but there is no such change: {' | '.join(key)}"
                   for key in explained if key not in found]
    return faults


class Table:
    """The verdicts, those of before among them."""

    def __init__(self, told, mutants, explained):
        self.path, self.told = os.path.join(told.build, "mutants", "table.tsv"), told
        self.explained = explained
        self.mutants, self.keys = mutants, {n: key_of(m) for n, m in mutants.items()}
        self.before, self.tests = read_table(self.path), digest_of_tests()
        self.verdicts, self.began = {}, time.monotonic()
        for n, key in self.keys.items():
            verdict, by = self.before.get(key, (None, None))
            if verdict and (verdict != "SURVIVED" or (by == self.tests and not told.again)):
                self.verdicts[n] = verdict

    def judge(self, numbers, sanitize):
        """Those of @numbers that have no verdict yet. Only subprocesses take time: threads do."""
        todo = {n: self.mutants[n] for n in numbers}
        if not todo:
            return
        bench = Bench(self.told.build, todo, self.told.jobs, sanitize)
        bench.make()

        def one(n):
            if not self.told.seconds or time.monotonic() - self.began < self.told.seconds:
                return bench.judge(n)
            return None

        with open(self.path, "a", encoding="utf-8") as log, \
                concurrent.futures.ThreadPoolExecutor(self.told.jobs) as pool:
            for n, verdict in zip(todo, pool.map(one, todo)):
                if verdict and sanitize and verdict.startswith("killed"):
                    verdict += " under the sanitizers"
                if verdict:
                    self.verdicts[n] = verdict
                if verdict and (sanitize or n in self.explained or verdict != "SURVIVED"):
                    print(*self.keys[n], verdict, self.tests, sep="\t", file=log, flush=True)


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("build")
    ask.add_argument("--sample", type=int, default=0)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--files", default="*")
    ask.add_argument("--seconds", type=int, default=0)
    ask.add_argument("--jobs", type=int, default=2, help="mutants judged side by side")
    ask.add_argument("--again", action="store_true", help="judge survivors again")
    ask.add_argument("--plain", action="store_true", help="no second try under the sanitizers")
    told = ask.parse_args()
    os.makedirs(os.path.join(told.build, "mutants"), exist_ok=True)
    every = [m for path in files_of_core(told.build)
             if fnmatch.fnmatch(os.path.basename(path), told.files) for m in mutants_of(path)]
    if told.sample:
        every = sorted(sorted(every, key=lambda m: lot(told.seed, m))[:told.sample])
    mutants, explained = dict(enumerate(every, 1)), read_explained()

    def why(n):
        mutant = mutants[n]
        return explained.get((os.path.basename(mutant.path), lines_of(mutant.path)[mutant.line].strip(),
                              made(mutant).strip()))

    table = Table(told, mutants, {n for n in mutants if why(n)})
    if told.sample:  # what is explained is tried by the whole table only: a survivor takes longest
        table.verdicts.update({n: "SURVIVED" for n in table.explained})
    table.judge([n for n in mutants if n not in table.verdicts], False)
    known = {n for n in mutants if table.before.get(table.keys[n]) == ("SURVIVED", table.tests)}
    if not told.plain:
        table.judge([n for n in mutants if table.verdicts.get(n) == "SURVIVED" and not why(n)
                     and (told.again or n not in known)], True)
    count, left = {}, []
    for n, mutant in mutants.items():
        verdict = table.verdicts.get(n, "not run")
        if verdict == "SURVIVED" and not why(n):
            left.append(f"{mutant.path}:{mutant.line + 1}: {lines_of(mutant.path)[mutant.line].strip()}"
                        f"  ->  {made(mutant).strip()}")
        kind = "explained" if verdict == "SURVIVED" and why(n) else verdict.split(" ")[0]
        count[kind] = count.get(kind, 0) + 1
    for line in left:
        print("no test notices this change: kill it by a case, or explain it in "
              f"tests/long/mutants-explained.txt: {line}")
    wrong = untrue(explained, mutants, table.verdicts, not told.sample and told.files == "*")
    print(*wrong, sep="\n", end="\n" if wrong else "")
    print(f"mutants: {len(mutants)} of core/checks and core/figures: "
          + ", ".join(f"{n} {what}" for what, n in sorted(count.items())))
    return 1 if left or wrong else 0


if __name__ == "__main__":
    sys.exit(main())
