#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""pulled-plug.py CLI [TIMES [SEED]]: plans are taken and modules put by for several jobs of one shelf, and
the program is killed (SIGKILL, signal(7)) at a random moment, also two of them side by side. After each
kill: what was saved is what it was or what it was to become, never half of it; the reservations are
whole, nobody's stand twice, and no more is put by than lies on the shelf; the next run works."""
import json
import os
import random
import signal
import subprocess
import sys
import tempfile
import time

from frame import CLI, check, leave, run

TOP = os.environ["LID_SOURCE"]
TIMES = int(sys.argv[2]) if len(sys.argv) > 2 else 60
SEED = int(sys.argv[3]) if len(sys.argv) > 3 else 20261128
JOBS = ["T-1", "T-2", "T-3", "T-4"]
SHELF = {"TW-R16-24": 7, "TW-R32-24": 7}  # less than all jobs want
TEXT = ("part,label,quantity,price EUR,bin\n"
        f"TW-R16-24,16GB 2Rx4 PC4-2400T-RB1-11,{SHELF['TW-R16-24']},28.50,B1\n"
        f"TW-R32-24,32GB 2Rx4 PC4-2400T-RB1-11,{SHELF['TW-R32-24']},61.00,B2\n")
def command(place, job):
    return [CLI, "plan", "--capacity", "128", "--stock", os.path.join(place, "shelf.csv"), "--hands", "pull",
            "--take", "1", "-o", os.path.join(place, job + ".lidleaf"), os.path.join(place, job + "-found.lidleaf")]


def start(place, job):
    return subprocess.Popen(command(place, job), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


def put_by(place):
    """Of each job, by part. Whole, or this complains."""
    path = os.path.join(place, "shelf.csv.reserved")
    held = {}
    try:
        with open(path, encoding="utf-8") as file:
            text = file.read()
    except FileNotFoundError:
        return held
    if text:  # empty: made to be locked
        try:
            entries = json.loads(text)["reserved"]
        except ValueError:
            check(f"the reservations are whole: {text[:60]!r}", False)
            return held
        for entry in entries:
            parts = held.setdefault(entry["job"], {})
            check(f"{entry['job']}: one entry a part", entry["part"] not in parts)
            parts[entry["part"]] = parts.get(entry["part"], 0) + entry["count"]
    return held


def wanted_by(place, job):
    """What the plan that was saved brings; None: none was saved. Half of a job complains."""
    path = os.path.join(place, job + ".lidleaf")
    try:
        with open(path, encoding="utf-8") as file:
            text = file.read()
    except FileNotFoundError:
        return None
    try:
        made = json.loads(text)
    except ValueError:
        check(f"{job}: the saved job is whole: {len(text)} bytes", False)
        return None
    parts = {m["id"]: m["part"] for m in made["modules"]}
    found = {s["module"] for s in made["as_found"]["slots"]}
    brings = {}
    for seat in made["stages"][-1]["population"]["slots"]:
        if seat["module"] and seat["module"] not in found:
            brings[parts[seat["module"]]] = brings.get(parts[seat["module"]], 0) + 1
    return brings


def look(place, when):
    held = put_by(place)
    for part, there in SHELF.items():
        n = sum(parts.get(part, 0) for parts in held.values())
        check(f"{when}: {n} of {part} are put by, {there} lie there", n <= there)
    for job in JOBS:
        wanted_by(place, job)
    return held


def run_whole(place, job, when):
    """Nobody kills this one: taken, or honestly not, and then what is put by is what is planned."""
    done = subprocess.run(command(place, job), capture_output=True, text=True, timeout=60, check=False)
    check(f"{when}: the next run of {job}: {done.returncode} {done.stderr[-200:]}", done.returncode in (0, 3))
    if done.returncode == 0:
        check(f"{when}: nothing that was begun lies beside the shelf",
              not [n for n in os.listdir(place) if n.startswith("shelf.csv.reserved.")])
        check(f"{when}: {job} has put by what it plans",
              look(place, when).get(job, {}) == wanted_by(place, job))
        return True
    return False


def prepare(place):
    with open(os.path.join(place, "shelf.csv"), "w", encoding="utf-8") as file:
        file.write(TEXT)
    with open(os.path.join(TOP, "resources", "example.lidleaf"), encoding="utf-8") as file:
        example = json.load(file)
    for job in JOBS:
        example.update(number=job)
        with open(os.path.join(place, job + "-found.lidleaf"), "w", encoding="utf-8") as file:
            json.dump(example, file)


def release(place, job):
    done = run("stock", "--release", job, os.path.join(place, "shelf.csv"))
    check(f"given back: {done.stderr}", done.returncode == 0)


def main(place):
    rand = random.Random(SEED)
    prepare(place)
    began = time.monotonic()
    check("the first run is taken", run_whole(place, JOBS[0], "before"))
    whole = time.monotonic() - began
    killed = taken = 0
    for turn in range(TIMES):
        several = [start(place, job) for job in rand.sample(JOBS, rand.choice([1, 1, 2]))]
        # Half of the moments where it is about to write, which is at its end.
        time.sleep(whole * (rand.uniform(0.6, 1.1) if rand.random() < 0.5 else rand.uniform(0, 1)))
        for one in several:
            one.send_signal(signal.SIGKILL)
            killed += one.wait() == -signal.SIGKILL
        look(place, f"turn {turn}")
        if rand.random() < 0.2:
            release(place, rand.choice(JOBS))
        if turn % 5 == 4:
            taken += run_whole(place, rand.choice(JOBS), f"turn {turn}")
    left = [name for name in os.listdir(place) if not name.endswith((".lidleaf", ".csv", ".reserved"))]
    print(f"# {killed} killed of {TIMES} turns, {taken} taken between, {len(left)} files begun and left beside, seed {SEED}")
    check("some were killed in time", killed > TIMES // 4)
    check("some were taken", taken > 0)


with tempfile.TemporaryDirectory() as folder:
    main(folder)
leave()
