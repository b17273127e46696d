#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Speed of reading, as medians of runs that take turns, so that a busy machine slows both sides.

bench-read.py BUILD [--runs N] [--strict]
1. 2,000 text reports in one call of `lidleaf-cli read --json` against mawk counting fields over the
   same bytes: at most 5 times.
2. One dump, whole process, against (an empty program linked with the same libraries + dmidecode
   - /bin/true): at most 1.5 times.
3. Memory: the most it holds for 2,000 reports against that for 200: constant.
Reports come from ../shared beside the checkout, else from tests/data. --strict: exit 1 when over."""
import argparse
import glob
import os
import resource
import shutil
import statistics
import subprocess
import sys
import tempfile
import time

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
SHARED = os.environ.get("LID_SHARED") or os.path.join(TOP, "..", "shared")
MAWK = ["mawk", "-F: ", "{k[$1]++} END{print length(k)}"]


def run(command):
    """(seconds, most memory in KiB) of one process, output thrown away."""
    start = time.perf_counter()
    pid = os.posix_spawnp(command[0], command, os.environ, file_actions=[
        (os.POSIX_SPAWN_OPEN, 1, "/dev/null", os.O_WRONLY, 0),
        (os.POSIX_SPAWN_OPEN, 2, "/dev/null", os.O_WRONLY, 0)])
    _, status, usage = os.wait4(pid, 0)
    seconds = time.perf_counter() - start
    if status != 0:
        sys.exit(f"bench-read: {command[0]} ended with status {status}")
    return seconds, usage.ru_maxrss


def medians(commands, runs):
    times = [[] for _ in commands]
    for _ in range(runs):
        for slot, command in zip(times, commands):
            slot.append(run(command)[0])
    return [statistics.median(slot) for slot in times]


def reports(folder, count):
    source = sorted(glob.glob(f"{SHARED}/data/machines/*.txt")) \
        or sorted(glob.glob(f"{TOP}/tests/data/report/station.[bcdfqmtw]*.txt"))
    names = []
    for i in range(count):
        name = f"{folder}/{i:04}.txt"
        shutil.copyfile(source[i % len(source)], name)
        names.append(name)
    return names


def dump():
    real = f"{SHARED}/data/gen/samples/dual-24-node-channel.bin"
    return real if os.path.exists(real) else f"{TOP}/tests/data/smbios/sm3_ddr4_server.bin"


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("build")
    parser.add_argument("--runs", type=int, default=7)
    parser.add_argument("--strict", action="store_true")
    args = parser.parse_args()
    cli = f"{args.build}/src/cli/lidleaf-cli"
    os.environ["PATH"] += ":/usr/sbin:/sbin"
    os.environ["LC_ALL"] = "C.UTF-8"
    missing = [p for p in ("mawk", "dmidecode") if shutil.which(p) is None]
    if missing:
        sys.exit(f"bench-read: not installed: {', '.join(missing)}")
    over = False
    with tempfile.TemporaryDirectory(prefix="lidleaf-bench-") as folder:
        names = reports(folder, 2000)
        size = sum(os.path.getsize(n) for n in names)
        ours, mawk = medians([[cli, "read", "--json", *names], [*MAWK, *names]], args.runs)
        over |= ours > 5 * mawk
        print(f"2,000 reports ({size / 1e6:.1f} MB): {ours:.3f} s, mawk {mawk:.3f} s: "
              f"{ours / mawk:.2f} times (at most 5)")
        few = run([cli, "read", "--json", *names[:200]])[1]
        many = run([cli, "read", "--json", *names])[1]
        over |= many > few * 1.25
        print(f"most memory: {few / 1024:.1f} MiB for 200 reports, {many / 1024:.1f} MiB for 2,000")
    one = dump()
    ours, empty, other, true = medians(
        [[cli, "read", "--json", one], [f"{args.build}/tests/bench/bench-empty"],
         ["dmidecode", "--from-dump", one], ["/bin/true"]], args.runs * 15)
    base = empty + other - true
    over |= ours > 1.5 * base
    print(f"one dump: {ours * 1e3:.2f} ms, empty {empty * 1e3:.2f} + dmidecode {other * 1e3:.2f} "
          f"- true {true * 1e3:.2f} = {base * 1e3:.2f} ms: {ours / base:.2f} times (at most 1.5)")
    return 1 if over and args.strict else 0


if __name__ == "__main__":
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
    sys.exit(main())
