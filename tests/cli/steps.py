#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""steps: random plans on defined boards, walked step by step by a bench of our own: a machine, a mat
with numbered places, blanks. What product.md 9 says of the order is checked on the walk; hands are
counted another way (settled reading 11). Lists as CSV are read by Python's csv module."""
import copy
import csv
import io
import json
import os
import random
import re
import shutil
import subprocess
import tempfile

from frame import check, leave, run as call

TOP = os.environ["LID_SOURCE"]
SEED = 20261129
EXAMPLE = json.load(open(os.path.join(TOP, "resources", "example.lidleaf"), encoding="utf-8"))
BOARDS = ["tern-w4", "curlew-r2", "gannet-r2", "egret-w8"]


def run(*args):
    return call("steps", *args)


def module(name, part, persistent=False, bin_=None, serial=None):
    made = copy.deepcopy(EXAMPLE["modules"][0])
    made.update(id=name, part=part, persistent=persistent, bin=bin_, serial=serial)
    return made


def population(slots, filled, firmware, mode, processors):
    return {"processors": processors, "firmware": firmware, "mode": mode, "spare_ranks": None,
            "mirrored_mib": None, "numa_split": None, "setup_limit_mts": None, "setup_mv": None,
            "slots": [{"slot": s, "module": filled.get(s), "state": "filled" if s in filled else "empty",
                       "configured_mts": None} for s in slots]}


def random_job(rand):
    board = json.load(open(os.path.join(TOP, "platforms", rand.choice(BOARDS) + ".json"), encoding="utf-8"))
    job = {k: EXAMPLE[k] for k in ("lidleaf", "title", "owner", "asset", "number")}
    job.update(as_left=None, history=[])
    job["board"] = {"definition": board, "id": board["id"], "version": board["version"], "hash": ""}
    slots = [slot["id"] for socket in board["sockets"] for controller in socket["controllers"]
             for channel in controller["channels"] for slot in channel["slots"]]
    modules = [module(f"m{i}", rand.choice("PQR"), rand.random() < 0.1, serial=f"S{i}") for i in range(2 * len(slots))]
    found, plan, at = {}, {}, iter(modules)
    for slot in slots:
        if rand.random() < 0.5:
            found[slot] = next(at)["id"]
    pool = list(found.values()) + [next(at)["id"] for _ in range(len(slots) // 2)]
    rand.shuffle(pool)
    for slot in slots:
        if slot in found and rand.random() < 0.5 and found[slot] in pool:
            plan[slot] = found[slot]
            pool.remove(found[slot])
    for slot in slots:
        if slot not in plan and pool and rand.random() < 0.5:
            plan[slot] = pool.pop()
    for m in modules:
        if m["id"] not in found.values() and rand.random() < 0.7:
            m.update(bin=rand.choice(["A2", "A10", "B1", "=x", 'C "1"']), serial=None)
    cpus = [{"fitted": True, "model": None} for _ in board["sockets"]]
    fewer = copy.deepcopy(cpus)
    fewer[-1]["fitted"] = rand.random() < 0.8
    levels = [None, "1.0", "2.2"]
    job["modules"] = modules
    job["as_found"] = population(slots, found, rand.choice(levels), rand.choice(["plain", "mirrored"]), rand.choice([cpus, fewer]))
    job["stages"] = [{"name": None, "population": population(slots, plan, rand.choice(levels), "plain", rand.choice([cpus, fewer]))}]
    return job, board, slots, found, plan


def count_hands(modules, slots, found, plan):
    """Stays cost nothing; of each part as many as leave a slot and as enter one move; a module that
    holds data is only itself."""
    def kind(name):
        m = modules[name]
        return ("data", name) if m["persistent"] else ("part", m["part"])
    # The facts of all parts are the same, so all modules without data stand for each other.
    def same(name):
        return kind(name) if modules[name]["persistent"] else "any"
    out, into = {}, {}
    for slot in slots:
        a, b = found.get(slot), plan.get(slot)
        if a and b and same(a) == same(b):
            continue
        if a:
            out[same(a)] = out.get(same(a), 0) + 1
        if b:
            into[same(b)] = into.get(same(b), 0) + 1
    return sum(max(out.get(k, 0), into.get(k, 0)) for k in set(out) | set(into))


def walk(name, job, board, answer, slots, found, plan):
    modules = {m["id"]: m for m in job["modules"]}
    machine, mat, blanks = dict(found), {}, {s for s in slots if s not in found}
    has_blanks = board.get("airflow", {}).get("blanks", False)
    phase, order = 0, []
    before = {"firmware": 0, "pull": 1, "processor": 2, "blank": 3, "fit": 3, "setting": 5}
    for n, step in enumerate(answer["steps"], 1):
        check(f"{name}: numbered", step["n"] == n)
        kind, slot = step["kind"], step["slot"]
        if kind in before:
            check(f"{name}: {kind} out of order", before[kind] >= phase)
            phase = max(phase, before[kind])
        if kind == "pull":
            check(f"{name}: pulls what is there", machine.get(slot) == step["module"])
            check(f"{name}: a place of its own", step["mat"] not in mat)
            check(f"{name}: release", step["release"] == modules[step["module"]]["persistent"])
            check(f"{name}: release is said", not step["release"] or "written release" in step["text"])
            mat[step["mat"]] = machine.pop(slot)
        elif kind == "blank":
            check(f"{name}: blank where there is no module", slot not in machine)
            blanks ^= {slot}
        elif kind == "fit":
            check(f"{name}: the slot is free", slot not in machine and (not has_blanks or slot not in blanks))
            machine[slot] = mat.pop(step["mat"]) if step["mat"] else step["module"]
            order.append(slot)
    check(f"{name}: same slots filled", set(machine) == set(plan))
    for slot, there in machine.items():
        wanted = modules[plan[slot]]
        check(f"{name}: {slot} holds what was planned", there == plan[slot]
              or not (wanted["persistent"] or modules[there]["persistent"]))
    if has_blanks:
        check(f"{name}: blanks", blanks == {s for s in slots if s not in plan})
    listed = board.get("order", {}).get("slots", [])
    ranks = [listed.index(s) for s in order if s in listed]
    check(f"{name}: the board's order", ranks == sorted(ranks))
    check(f"{name}: hands {answer['hands']}", answer["hands"] == count_hands(modules, slots, found, plan))
    return len(mat)


def check_lists(name, path, answer, leaving):
    rows = {}
    for kind in ("pick", "pull", "tags"):
        text = run("--list", kind, "-o", "-", path).stdout.decode()
        rows[kind] = list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
    new = [s for s in answer["steps"] if s["kind"] == "fit" and not s["mat"]]
    check(f"{name}: picked", sum(int(r["quantity"]) for r in rows["pick"]) == len(new))
    check(f"{name}: for slots", sorted(s for r in rows["pick"] for s in r["slots"].split()) == sorted(
        s for step in new for s in step["slot"].split()) or any(" " in s["slot"] for s in new))
    bins = [r["bin"] for r in rows["pick"]]
    check(f"{name}: bins as people count, none last {bins}", bins == sorted(bins, key=[
        "'=x", "A2", "A10", "B1", 'C "1"', ""].index))
    check(f"{name}: pull list", [int(r["mat"]) for r in rows["pull"]] == [s["mat"] for s in answer["steps"] if s["kind"] == "pull"])
    check(f"{name}: a tag for each that leaves", len(rows["tags"]) == leaving
          and all(r["to"] == "owner" and r["serial"].startswith("S") for r in rows["tags"]))


def check_sheet(name, path, answer):
    """Of more steps than are told one by one, a tick each says what hands need (pdftotext of poppler-utils
    reads it): which pulled module leaves, and where on the mat a fitted one lies."""
    pulls, fits = ([s for s in answer["steps"] if s["kind"] == kind] for kind in ("pull", "fit"))
    sheet = os.path.join(PLACE, "bench.pdf")
    done = call("sheet", "-o", sheet, path)
    text = subprocess.run(["pdftotext", "-layout", sheet, "-"], capture_output=True, check=True).stdout.decode()
    text = text.replace("\u00a0", " ")
    check(f"{name}: sheet", done.returncode == 0)
    moved = {s["mat"] for s in fits if s["mat"]}
    for s in fits if len(fits) > 14 else []:
        check(f"{name}: {s['slot']} from mat {s['mat']}", not s["mat"] or re.search(
            rf"\b{re.escape(s['slot'])}, mat {s['mat']}\b", text))
    for s in pulls if len(pulls) > 14 else []:
        check(f"{name}: {s['slot']} out", (f"{s['slot']}, out" in text) == (s["mat"] not in moved))
    return len(fits) > 14


with tempfile.TemporaryDirectory() as PLACE:
    large = 0
    dice = random.Random(SEED)
    for turn in range(60):
        made, a_board, all_slots, was, shall = random_job(dice)
        file = os.path.join(PLACE, "job.lidleaf")
        with open(file, "w", encoding="utf-8") as out:
            json.dump(made, out)
        done = run("--json", file)
        said = json.loads(done.stdout)
        label = f"{turn} {a_board['id']}"
        if not said["ok"]:
            check(label + said["reason"], False)
            continue
        left = walk(label, made, a_board, said, all_slots, was, shall)
        if turn < 20 and shutil.which("pdftotext"):
            large += check_sheet(label, file, said)
        if turn < 20:
            check_lists(label, file, said, left)
    check("sheets with many steps", large > 0 or not shutil.which("pdftotext"))
    for suffix, magic in ((".csv", b"job,machine"), (".pdf", b"%PDF-"), (".png", b"\x89PNG")):
        target = os.path.join(PLACE, "tags" + suffix)
        check(suffix, run("--list", "tags", "--to", "stock", "-o", target, file).returncode == 0)
        check(suffix + " magic", open(target, "rb").read().startswith(magic))
    example = os.path.join(TOP, "resources", "example.lidleaf")
    text = run(example).stdout.decode()
    check("cautions before hands", 0 < text.find("Every supply cord out") < text.find("Pull A2"))
    check("release only where data is", "written release" not in text)
    for args, status, words in ((("--list", "pick", example), 1, b"-o FILE"), (("-o", "x.csv", example), 1, b"--list"),
                                (("--list", "all", "-o", "-", example), 1, b"pick, pull, tags"),
                                (("--stage", "2", example), 1, b"no stage 2"), ((), 1, b"one job"),
                                ((os.path.join(PLACE, "none"),), 2, b"none"),
                                ((os.path.join(TOP, "tests/data/machines/plover-r2.bin"),), 1, b"no plan")):
        done = run(*args)
        check(" ".join(args), done.returncode == status and words in done.stderr)
    blank = copy.deepcopy(EXAMPLE)
    blank["as_found"] = None
    json.dump(blank, open(file, "w", encoding="utf-8"))
    done = run(file)
    check("nothing found", done.returncode == 1 and b"what was found" in done.stderr)
    # Stages: tonight what is there, later the rest; each with its own steps and sheet.
    both = copy.deepcopy(EXAMPLE)
    both["modules"][3]["bin"] = None  # still to be bought: it is for D1
    file, split = os.path.join(PLACE, "both.lidleaf"), os.path.join(PLACE, "split.lidleaf")
    json.dump(both, open(file, "w", encoding="utf-8"))
    done = json.loads(call("stages", "--json", "-o", split, file).stdout)
    check("stages", [(s["n"], s["hands"], s["stops"], s["usable_mib"]) for s in done["stages"]]
          == [(1, 1, False, 49152), (2, 1, False, 65536)])
    first, second = (json.loads(run("--json", "--stage", n, split).stdout)["steps"] for n in "12")
    check("what it brings", [(b["part"], b["quantity"], b["missing"]) for b in done["brings"]]
          == [("HM-16G2R4-R24", 1, 1)] and done["every_way"])
    check("in words", "until the rest is there" in done["stages"][0]["text"])
    check("tonight", [s["slot"] for s in first if s["kind"] == "fit"] == ["B1"])
    check("later", [s["slot"] for s in second if s["kind"] == "fit"] == ["D1"])
    check("stages survive", json.load(open(split, encoding="utf-8"))["stages"][1]["population"]
          == both["stages"][0]["population"])
    done = call("sheet", "--stage", "1", "-o", os.path.join(PLACE, "one.pdf"), split)
    check("sheet of a stage", done.returncode == 0)
    for number, usable in (("1", 49152), ("2", 65536)):
        done = call("check", "--json", "--stage", number, split)
        check("check of a stage", done.returncode == 0 and json.loads(done.stdout)["usable_mib"] == usable)
    done = call("check", "--stage", "1", "--of", "as-found", split)
    check("a stage is planned", done.returncode == 1 and b"--of planned" in done.stderr)
    # The shelf has none of it for this job, then one; tonight alone as the plan.
    shelf, one = os.path.join(PLACE, "shelf.csv"), os.path.join(PLACE, "one.lidleaf")
    for part, left in (("OTHER", 1), ("HM-16G2R4-R24", 0)):
        with open(shelf, "w", encoding="utf-8") as out:
            out.write(f"part,label,quantity\n{part},16g 2rx4 2400 registered,1\n")
        done = json.loads(call("stages", "--json", "--stock", shelf, file).stdout)
        check("the shelf is asked", [b["missing"] for b in done["brings"]] == [left])
    done = call("stages", "--tonight-only", "-o", one, file)
    tonight = json.load(open(one, encoding="utf-8"))["stages"]
    check("tonight alone", done.returncode == 0 and len(tonight) == 1 and tonight[0]["population"]
          == json.load(open(split, encoding="utf-8"))["stages"][0]["population"])
    for args, words in ((["--missing", "X", "-o", split, file], b"no module of the part"),
                        (["--missing", "HM-16G2R4-R24=0", "-o", split, file], b"N from 1 to 9999"),
                        (["--missing", "HM-16G2R4-R24", file], b"-o JOB"),
                        (["--tonight-only", file], b"-o JOB"),
                        (["-o", split, example], b"nothing of the plan is missing")):
        done = call("stages", *args)
        check(" ".join(args), done.returncode == 1 and words in done.stderr)
leave()
