# SPDX-License-Identifier: GPL-3.0-or-later
"""The programs of the tests, linked against a library of the core that holds the mutants."""
import collections
import concurrent.futures
import json
import math
import os
import re
import shlex
import signal
import subprocess
import sys
import threading

from mutant_source import TOP, alone, function_of, made, switched

# The quickest first; a program and the file it is given.
TESTS = [("core/test-" + name, None) for name in
         ("rules", "mode-pairs", "catalogue", "figures", "power", "capacity", "regions",
          "bandwidth", "bandwidth-cases", "matched", "room", "mode-demands", "mode-shares",
          "mode-words", "running-limits", "running-rate", "assessment", "assumptions")]
TESTS += [("outside/test-outside", "tests/outside/" + name + ".json") for name in
          ("makers-rates", "makers-rules", "open-firmware", "handbook-modes", "kernel-interleave",
           "denneman", "power")]
TESTS += [("core/test-" + name, None) for name in
          ("unknown-facts", "boards", "archetypes", "remedy", "rule-declarations", "cures", "cures-all")]
CLI = "src/cli/lidleaf-cli"
TESTS += [(CLI, "tests/cli/model.py")]
TESTS += [("core/test-" + name, None) for name in ("mode-pairs-least", "cures-best")]
SWITCH = """#include <stdlib.h>
int lid_mutant;
__attribute__ ((constructor)) static void
switch_on (void)
{
  const char *told = getenv ("LID_MUTANT");
  lid_mutant = told != NULL ? atoi (told) : 0;
}
"""


def run(command, **more):
    return subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
                          check=False, **more).returncode


def run_timed(command, **more):
    """Its status, and the seconds of processor that it and its own processes took: a busy machine
    must not make a mutant look endless."""
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, **more)
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    return process.returncode, used.ru_utime + used.ru_stime


def said(test):
    return re.sub(r"^test-|\.\w+$", "", os.path.basename(test[1] or test[0]))


class Bench:
    """@numbered: {number: mutant}. With @sanitize, reading past the end of something counts."""

    def __init__(self, build, numbered, jobs, sanitize=False):
        self.build, self.numbered, self.jobs = os.path.abspath(build), numbered, jobs
        self.flags = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all"] if sanitize else []
        self.home = os.path.join(self.build, "mutants", "sanitized" if sanitize else "plain")
        os.makedirs(os.path.join(self.home, "lib"), exist_ok=True)
        with open(os.path.join(self.build, "compile_commands.json"), encoding="utf-8") as file:
            every = json.load(file)
        self.compile = {os.path.relpath(os.path.join(one["directory"], one["file"]), TOP): one
                        for one in every if "liblidleaf-core" in one["output"]}
        self.outputs = [one["output"] for one in every]
        libs = subprocess.run(["pkg-config", "--libs", "gio-2.0", "json-glib-1.0", "pangocairo"],
                              capture_output=True, text=True, check=True).stdout.split()
        self.libs = libs + ["-lm"] + self.flags
        self.no_compile, self.killers = set(), collections.defaultdict(collections.Counter)
        self.limits, self.trying = {}, {test: threading.Lock() for test in TESTS}
        self.lib = os.path.join(self.home, "lib")

    def make(self):
        """One library with every mutant that can be switched, and the programs linked to it."""
        files = collections.defaultdict(list)
        for n, mutant in self.numbered.items():
            if function_of(mutant):
                files[mutant.path].append((n, mutant))
        with concurrent.futures.ThreadPoolExecutor(self.jobs) as pool:
            made_of = dict(zip(files, pool.map(self.compile_switched, files, files.values())))
        switch = os.path.join(self.home, "switch.c")
        with open(switch, "w", encoding="utf-8") as file:
            file.write(SWITCH)
        if run(["cc", "-c", "-fPIC", "-o", switch[:-1] + "o", switch]):
            sys.exit("mutants: the switch does not compile")
        self.objects = {path: made_of.get(path, one["output"]) for path, one in self.compile.items()}
        if self.library(self.objects, self.lib):
            sys.exit("mutants: the library of the core could not be linked; meson compile first")
        self.programs = {name: self.link(name) for name in dict.fromkeys(one for one, _ in TESTS)}

    def limit_of(self, test):
        """Three times what the unchanged program takes, which must pass it; tried when first asked,
        since most mutants are killed by the first test."""
        with self.trying[test]:
            if test not in self.limits:
                failed, took = self.fails(test, self.lib, 0, 300)
                if failed:
                    sys.exit(f"mutants: the unchanged program does not pass {said(test)}")
                self.limits[test] = max(3 * took, 3)
        return self.limits[test]

    def words_of(self, path, source, out):
        words = [w for w in shlex.split(self.compile[path]["command"])
                 if w not in ("ccache", "-Werror", "-MD")]
        words[words.index("-o") + 1] = out
        words[words.index("-c") + 1] = source
        for flag in ("-MQ", "-MF"):
            at = words.index(flag)
            del words[at:at + 2]
        return words + ["-O1", "-g0", "-w", "-fPIC", "-fmax-errors=0", *self.flags]

    def compile_switched(self, path, mine):
        base = os.path.join(self.home, os.path.basename(path))
        while True:
            with open(base, "w", encoding="utf-8") as file:
                file.write(switched(path, [one for one in mine if one[0] not in self.no_compile]))
            told = subprocess.run(self.words_of(path, base, base[:-1] + "o"), cwd=self.build,
                                  capture_output=True, text=True, check=False)
            if told.returncode == 0:
                return base[:-1] + "o"
            faulty = {int(n) for n in re.findall(r"^mutant-(\d+):\d+:\d+: error", told.stderr, re.M)}
            if not faulty - self.no_compile:
                sys.exit(f"mutants: {path} with its copies does not compile:\n{told.stderr[:2000]}")
            self.no_compile |= faulty

    def library(self, objects, folder):
        return run(["cc", "-shared", "-o", os.path.join(folder, "liblid-core-under-test.so"),
                    *objects.values(), os.path.join(self.home, "switch.o"), *self.libs],
                   cwd=self.build)

    def link(self, name):
        """From the objects of the build, with the library in place of the archive."""
        out = os.path.join(self.home, os.path.basename(name))
        own = (CLI + ".p/", "src/drawing/") if name == CLI \
            else (f"tests/{name}.p/", "tests/libtest-support.a.p/")
        objects = [one for one in self.outputs if one.startswith(own)]
        if run(["cc", "-o", out, *objects, "-L" + self.lib, "-llid-core-under-test", *self.libs],
               cwd=self.build):
            sys.exit(f"mutants: {name} could not be linked; meson compile first")
        return out

    def fails(self, test, folder, number, limit):
        """The test's name if it fails, and how long it took."""
        name, given = test
        env = dict(os.environ, LD_LIBRARY_PATH=folder, LID_SOURCE=TOP, LID_BUILD=self.build,
                   LID_TEST_DATA=os.path.join(TOP, "tests", "data"), LC_ALL="C.UTF-8",
                   LID_SHARED=os.path.join(TOP, "..", "shared"), G_DEBUG="fatal-criticals",
                   XDG_DATA_HOME=os.path.join(self.home, "user-data"), LID_MUTANT=str(number),
                   ASAN_OPTIONS="detect_leaks=0",
                   G_SLICE="always-malloc")
        words = [self.programs[name]] + ([os.path.join(TOP, given)] if given else [])
        if name == CLI:
            words = ["/usr/bin/python3", os.path.join(TOP, given), self.programs[name]]
        words = ["prlimit", f"--cpu={math.ceil(limit)}", *words]
        status, took = run_timed(words, env=env, cwd=self.home)
        return said(test) + " (endless)" * (status == -signal.SIGXCPU) if status else "", took

    def judge(self, number):
        """The test that noticed, or SURVIVED. Those that killed the function's others go first."""
        mutant, folder = self.numbered[number], self.lib
        function = function_of(mutant)
        if function is None:
            folder = os.path.join(self.home, f"alone-{threading.get_ident()}")
            os.makedirs(folder, exist_ok=True)
            source = os.path.join(folder, "mutant.c")
            with open(source, "w", encoding="utf-8") as file:
                file.write(alone(mutant))
            if run(self.words_of(mutant.path, source, source[:-1] + "o"), cwd=self.build) \
                    or self.library({**self.objects, mutant.path: source[:-1] + "o"}, folder):
                return "no-compile"
        elif number in self.no_compile:
            return "no-compile"
        near = self.killers[mutant.path, function.name if function else None]
        for test in sorted(TESTS, key=lambda test: -near[test]):
            by, _ = self.fails(test, folder, number, self.limit_of(test))
            if by:
                near[test] += 1
                return "killed by " + by
        return "SURVIVED"
