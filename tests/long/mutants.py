#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""mutants.py BUILD [--sample N --seed S] [--files GLOB] [--seconds N] [--jobs N]

Are the tests able to fail? One thing is changed in a file of core/checks or core/figures: a
condition is inverted, a bound or number moves by one, an operator is exchanged. Only that object is
compiled, into a shared library, and the fast tests of the core run against it, the quickest first,
until one fails: the mutant is killed. One that no test notices survived.

Resumable: verdicts lie in BUILD/mutants/table.tsv; a mutant judged there is not run again as long as
its file and the tests are the same. Survivors explained in tests/long/mutants-explained.txt pass.
Exit: 0 none unexplained, 1 some, 2 it could not be run."""
import argparse
import concurrent.futures
import fnmatch
import functools
import glob
import hashlib
import json
import os
import re
import shlex
import subprocess
import sys
import threading
import time

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
# The quickest first; a program and the file it is given.
TESTS = [("core/test-" + name, None) for name in
         ("rules", "catalogue", "figures", "power", "capacity", "regions", "bandwidth",
          "bandwidth-cases", "room", "running-rate", "assessment")]
TESTS += [("outside/test-outside", "tests/outside/" + name + ".json") for name in
          ("makers-rates", "makers-rules", "open-firmware", "handbook-modes", "kernel-interleave",
           "denneman", "power")]
TESTS += [("core/test-" + name, None) for name in
          ("unknown-facts", "boards", "archetypes", "cures", "rule-declarations")]
CHANGES = [(r"==", "!="), (r"!=", "=="), (r"<=", "<"), (r">=", ">"),
           (r"(?<=\s)<(?=\s)", "<="), (r"(?<=\s)>(?=\s)", ">="), (r"&&", "||"), (r"\|\|", "&&"),
           (r"(?<=\s)\+(?=\s)", "-"), (r"(?<=\s)-(?=\s)", "+"), (r"(?<=\s)\*(?=\s)", "/"),
           (r"(?<=\s)/(?=\s)", "*"), (r"(?<=\s)%(?=\s)", "*"), (r"\+=", "-="),
           (r"\bTRUE\b", "FALSE"), (r"\bFALSE\b", "TRUE"),
           (r"\bMIN \(", "MAX ("), (r"\bMAX \(", "MIN ("), (r"(?<![\w.\"-])1(?![\w.])", "2"),
           (r"(?<![\w.\"])0(?![\w.])", "1")]
# Declarations (those of scope and lasting have a test of their own, on random populations), guards
# for programmers, texts, what only reserves room.
SKIP = re.compile(r"^\s*(#|/\*|\*|g_assert|g_return|static const char|const char \*|\.(id|title|why|"
                  r"clears|source|basis|no_moves|grades|facts|cures|stops|lasting|scope)\b|\[LID_)"
                  r"|g_new|g_malloc|g_array_new|memset|\{ \{ 0 \} \}|= \{ 0 \}|\} else")


def candidates(path):
    """(line, start, end, new text); a multi-line comment is passed over."""
    inside = False
    for number, line in enumerate(lines_of(path)):
        if inside or SKIP.search(line):
            inside = ("/*" in line or inside) and "*/" not in line
            continue
        code = re.sub(r'"(\\.|[^"\\])*"|/\*.*?\*/', lambda m: "\0" * len(m.group()), line)
        if "/*" in code:
            inside = True
            code = code[:code.index("/*")]
        if "\0" in code and re.match(r"^\s*[,\0\s);:?]*$", code):
            continue
        for pattern, new in CHANGES:
            for found in re.finditer(pattern, code):
                yield number, found.start(), found.end(), new
        found = re.match(r"^\s*(?:else )?if \((.*)\)$", code)
        if found and found.group(1).count("(") == found.group(1).count(")"):
            yield number, found.start(1), found.end(1), "!(" + line[found.start(1):found.end(1)] + ")"


@functools.lru_cache(maxsize=None)
def lines_of(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read().split("\n")


def run(command, **more):
    return subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                          check=False, **more).returncode


class Bench:
    """The tests linked once against a shared library that a mutant's takes the place of."""

    def __init__(self, build):
        self.build = os.path.abspath(build)
        self.home = os.path.join(self.build, "mutants")
        os.makedirs(os.path.join(self.home, "lib"), exist_ok=True)
        with open(os.path.join(self.build, "compile_commands.json"), encoding="utf-8") as file:
            every = json.load(file)
        self.compile = {os.path.relpath(os.path.join(one["directory"], one["file"]), TOP): one
                        for one in every if "liblidleaf-core" in one["output"]}
        self.objects = [one["output"] for one in self.compile.values()]
        self.outputs = [one["output"] for one in every]
        libs = subprocess.run(["pkg-config", "--libs", "gio-2.0", "json-glib-1.0"],
                              capture_output=True, text=True, check=True).stdout.split()
        self.libs = libs + ["-lm"]
        if self.library(self.objects, os.path.join(self.home, "lib")):
            sys.exit("mutants: the library of the core could not be linked; meson compile first")
        self.programs = {}
        for name, _ in TESTS:
            if name not in self.programs:
                self.programs[name] = self.link(name)

    def library(self, objects, folder):
        return run(["cc", "-shared", "-o", os.path.join(folder, "liblid-core-under-test.so"),
                    *objects, *self.libs], cwd=self.build)

    def link(self, name):
        """From the objects of the build, with the library in place of the archive."""
        out = os.path.join(self.home, os.path.basename(name))
        objects = [one for one in self.outputs
                   if one.startswith((f"tests/{name}.p/", "tests/libtest-support.a.p/"))]
        if run(["cc", "-o", out, *objects, "-L" + os.path.join(self.home, "lib"),
                "-llid-core-under-test", *self.libs], cwd=self.build):
            sys.exit(f"mutants: tests/{name} could not be linked; meson compile first")
        return out

    def fails(self, folder, limit=20):
        env = dict(os.environ, LD_LIBRARY_PATH=folder, LID_SOURCE=TOP, LID_BUILD=self.build,
                   LID_TEST_DATA=os.path.join(TOP, "tests", "data"), LC_ALL="C.UTF-8",
                   LID_SHARED=os.path.join(TOP, "..", "shared"), G_DEBUG="fatal-criticals",
                   XDG_DATA_HOME=os.path.join(self.home, "user-data"))
        for name, given in TESTS:
            words = [self.programs[name]] + ([os.path.join(TOP, given)] if given else [])
            said = os.path.basename(given or name).replace("test-", "").replace(".json", "")
            try:
                if run(words, env=env, timeout=limit, cwd=self.home):
                    return said
            except subprocess.TimeoutExpired:
                return said + " (endless)"
        return None

    def judge(self, path, lines, change):
        number, start, end, new = change
        folder = os.path.join(self.home, f"mutant-{threading.get_ident()}")
        os.makedirs(folder, exist_ok=True)
        source, out = os.path.join(folder, "mutant.c"), os.path.join(folder, "mutant.o")
        mutated = list(lines)
        mutated[number] = lines[number][:start] + new + lines[number][end:]
        with open(source, "w", encoding="utf-8") as file:
            file.write("\n".join(mutated))
        one = self.compile[path]
        words = [w for w in shlex.split(one["command"]) if w != "ccache" and w != "-Werror"]
        words[words.index("-o") + 1] = out
        words[words.index("-c") + 1] = source
        for flag in ("-MD",):
            words.remove(flag)
        for flag in ("-MQ", "-MF"):
            at = words.index(flag)
            del words[at:at + 2]
        if run(words + ["-O0", "-g0", "-w"], cwd=self.build):
            return "no-compile"
        objects = [out if o == one["output"] else o for o in self.objects]
        if self.library(objects, folder):
            return "no-compile"
        killer = self.fails(folder)
        return "killed by " + killer if killer else "SURVIVED"


def lot(seed, path, change):
    """A place in line by the line's own text, so that a change elsewhere moves no other mutant."""
    number, start, _, new = change
    text = f"{seed} {path} {lines_of(path)[number].strip()} {start} {new}"
    return hashlib.sha256(text.encode()).hexdigest()


def line_and_made(path, change):
    number, start, end, new = change
    line = lines_of(path)[number]
    return line.strip(), (line[:start] + new + line[end:]).strip()


def key_of(path, change):
    number, start, _, new = change
    sha = hashlib.sha256("\n".join(lines_of(path)).encode()).hexdigest()[:12]
    return path, sha, str(number + 1), f"{start}:{new}"


def digest_of_tests():
    """A verdict holds as long as the tests are the same."""
    sha = hashlib.sha256()
    for pattern in ("tests/core/*.c", "tests/cases/*/*.json", "tests/support/*", "resources/rules/*",
                    "tests/outside/*"):
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


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("build")
    ask.add_argument("--sample", type=int, default=0)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--files", default="*")
    ask.add_argument("--seconds", type=int, default=0)
    ask.add_argument("--jobs", type=int, default=2, help="mutants judged side by side")
    ask.add_argument("--again", action="store_true", help="judge survivors again")
    told = ask.parse_args()
    bench = Bench(told.build)
    whole = os.path.join(bench.home, "lib")
    if bench.fails(whole, 120):
        print("mutants: the unchanged program does not pass its own tests")
        return 2
    paths = sorted(p for p in bench.compile if re.match(r"src/core/(checks|figures)/", p)
                   and fnmatch.fnmatch(os.path.basename(p), told.files))
    mutants = [(path, change) for path in paths for change in candidates(path)]
    mutants.sort(key=lambda one: lot(told.seed, *one))
    mutants = mutants[:told.sample] if told.sample else mutants
    table_path = os.path.join(bench.home, "table.tsv")
    table, explained, tests = read_table(table_path), read_explained(), digest_of_tests()
    count, unexplained, began = {}, [], time.monotonic()
    keys = [key_of(*one) for one in mutants]

    def judge(key, one):
        """None: its time is over. Only subprocesses take time here: threads are enough."""
        verdict, by = table.get(key, (None, None))
        if verdict is not None and not (verdict == "SURVIVED" and (by != tests or told.again)):
            return verdict, False
        if told.seconds and time.monotonic() - began > told.seconds:
            return None, False
        return bench.judge(one[0], lines_of(one[0]), one[1]), True

    with open(table_path, "a", encoding="utf-8") as log, \
            concurrent.futures.ThreadPoolExecutor(told.jobs) as pool:
        for (path, change), key, (verdict, new) in zip(mutants, keys, pool.map(judge, keys, mutants)):
            if new:
                print(*key, verdict, tests, sep="\t", file=log, flush=True)
            line, made = line_and_made(path, change)
            why = explained.get((os.path.basename(path), line, made))
            if verdict == "SURVIVED" and why is None:
                unexplained.append(f"{path}:{change[0] + 1}: {line}  ->  {made}")
            kind = "not run" if verdict is None else \
                "explained" if verdict == "SURVIVED" and why else verdict.split(" ")[0]
            count[kind] = count.get(kind, 0) + 1
    print("\n".join(unexplained))
    print(f"mutants: {len(mutants)} of core/checks and core/figures: "
          + ", ".join(f"{n} {what}" for what, n in sorted(count.items())))
    return 1 if unexplained else 0


if __name__ == "__main__":
    sys.exit(main())
