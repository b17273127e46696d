#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Speed and memory of the window against a bare one, as medians of runs that take turns.

bench-window.py BUILD [--runs N] [--frames N] [--strict]     on a screen: see run.sh
1. Start: the job of 24 slots ("plover" of tests/drawing/scenes.c, a board of platforms/) to its first
   frame, against a window with one label: at most 2 times with GL off, 1.5 with GL. Wall and
   processor time; the most memory held, a second later: at most 1.5 times.
2. Frames at 192 slots against a bare board of as many: one edit at most 2 times an edit there, which
   fills or empties a slot and counts in a status line; a full redraw at most 1.5 times that of all.
   Beside it, without a limit: an edit with as found beside it, and with the lid off where the job's
   board tells places.
--strict: exit 1 when over, by processor time: others work on this machine too."""
import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time

RENDERERS = [("cairo, GL off", {"GSK_RENDERER": "cairo", "GDK_DEBUG": "gl-disable"}, 2.0),
             ("GL", {"GSK_RENDERER": "gl", "GDK_DEBUG": ""}, 1.5)]


def run(command, env):
    env = {**os.environ, **env, "GTK_A11Y": "none",
           "LID_BENCH_STARTED": str(time.monotonic_ns() // 1000)}
    done = subprocess.run(command, env=env, capture_output=True, text=True, timeout=600, check=False)
    if done.returncode != 0:
        sys.exit(f"bench-window: {' '.join(command)}: {done.stderr}")
    return done.stdout.splitlines()


def start(command, env):
    told = {line.split(": ")[0]: line.split(": ")[1].split() for line in run(command, env)}
    wall, cpu, size, renderer = told["first frame"]
    return float(wall), float(cpu), int(told["settled"][0]) / 1024, size, renderer


def frames(command, env):
    rows = (line.split() for line in run(command, env))
    return {r[0]: (float(r[1]), float(r[2]), *r[3:]) for r in rows if len(r) == 5}


def ratio(words, ours, bare, unit, most):
    limit = f" (at most {most})" if most is not None else ""
    print(f"  {words}: {ours:.2f} {unit}, bare {bare:.2f}: {ours / bare:.2f} times{limit}")
    return most is not None and ours > most * bare


def measure_start(folder, job, name, env, most, runs):
    over = False
    pairs = []
    for _ in range(runs + 1):
        pairs.append((start([f"{folder}/bench-start", job], env),
                      start([f"{folder}/bare-window"], env)))
    pairs = pairs[1:]  # the first reads from disk
    ours, bare = pairs[0]
    print(f"start, 24 slots, {name}: {ours[4]} {ours[3]}, {bare[4]} {bare[3]}, n = {runs}")
    for words, at, unit, limit in (("wall", 0, "ms", most), ("processor time", 1, "ms", most),
                                   ("most memory", 2, "MiB", 1.5)):
        hit = ratio(words, statistics.median(p[0][at] for p in pairs),
                    statistics.median(p[1][at] for p in pairs), unit, limit)
        over |= hit and at > 0
    return over


def measure_frames(folder, job, name, env, n, turns=3):
    over = False
    rows = {"by channel": [], "bare": []}
    for _ in range(turns):
        rows["by channel"].append(frames([f"{folder}/bench-frames", job, str(n)], env))
        rows["bare"].append(frames([f"{folder}/bare-frames", str(n)], env))
    print(f"frames, 192 slots, {name}: {rows['bare'][0]['one'][3]}, {rows['bare'][0]['one'][2]}, "
          f"n = {turns} x {n}")
    for words, act, against, most in (("edit", "edit", "edit", 2), ("full redraw", "all", "all", 1.5),
                                      ("full redraw, laid out anew", "anew", "all", None),
                                      ("edit, before and after", "sides", "edit", None),
                                      ("edit, lid off", "lid", "edit", None)):
        if act not in rows["by channel"][0]:
            print(f"  {words}: the board of this job tells no places")
            continue
        for at, what in ((0, "wall"), (1, "processor time")):
            hit = ratio(f"{words}, {what}", statistics.median(r[act][at] for r in rows["by channel"]),
                        statistics.median(r[against][at] for r in rows["bare"]), "ms", most)
            over |= hit and at == 1
    return over


def measure_large(folder, job, name, env, n, size=("2500", "1400")):
    """With notes in both margins: what an edit damages is many small pieces."""
    ours = frames([f"{folder}/bench-frames", job, str(n), *size], env)["edit"]
    bare = frames([f"{folder}/bare-frames", str(n), *size], env)["edit"]
    print(f"frames, 192 slots, {name}, {bare[2]}")
    for at, what in ((0, "wall"), (1, "processor time")):
        ratio(f"edit, {what}", ours[at], bare[at], "ms", None)


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("build")
    parser.add_argument("--runs", type=int, default=9)
    parser.add_argument("--frames", type=int, default=60)
    parser.add_argument("--strict", action="store_true")
    args = parser.parse_args()
    folder = f"{args.build}/tests/bench"
    os.environ["LIDLEAF_PLATFORMS"] = f"{args.build}/platforms"
    over = False
    with tempfile.TemporaryDirectory(prefix="lidleaf-bench-") as temp:
        jobs = {scene: f"{temp}/{scene}.lidleaf" for scene in ("plover", "onehundredninetytwo")}
        for scene, path in jobs.items():
            run([f"{folder}/bench-job", scene, path], {})
        for name, env, most in RENDERERS:
            over |= measure_start(folder, jobs["plover"], name, env, most, args.runs)
        for name, env, _ in RENDERERS:
            over |= measure_frames(folder, jobs["onehundredninetytwo"], name, env, args.frames)
            measure_large(folder, jobs["onehundredninetytwo"], name, env, args.frames)
    return 1 if over and args.strict else 0


if __name__ == "__main__":
    sys.exit(main())
