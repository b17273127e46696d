#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""trace: machines with a known culprit, simulated here, are started as the program proposes until it
answers. Handbook C109 (arithmetic: 16 suspects that show at once need 4 starts, ceil log2 16), C110
and C111 (S31 in shared/facts/sources.md, and common practice), the swap test of
shared/facts/population.md 7.3 (R0 to R8)."""
import json
import os
import random

from frame import check, leave, run as call
from prove import FOLDER, PLAN, TERN, board_of, job_of, path, slots_of

SEED = 20261130
TWO = "whimbrel-r2"  # two processors that may be fitted unevenly


def ask(job, *args):
    done = call("trace", "--json", *args, *(("-o", job) if args else ()), job)
    check(f"{args}: {done.returncode} {done.stderr[-200:]}", done.returncode == 0)
    return json.loads(done.stdout)


class Machine:
    """A machine with one thing wrong: @kind and what."""

    def __init__(self, board, kind, what, told=True):
        self.slots, self.kind, self.what, self.told = slots_of(board), kind, what, told
        self.touched = False

    def faults(self, placed, processors, eased):
        """@placed: slot -> module; which slots show it."""
        if self.kind == "module":
            return [s for s, m in placed.items() if m == self.what]
        if self.kind == "slot":
            return [s for s in placed if s == self.what]
        if self.kind == "channel":
            return [s for s in placed if self.slots[s] == self.what]
        if self.kind == "processor":
            number, channel = self.what
            return [s for s in placed if self.slots[s] == (processors.index(number), channel)]
        if self.kind == "seating":
            return [] if self.touched else [s for s in placed if s == self.what]
        module, slot = self.what
        return [slot] if placed.get(slot) == module and not eased else []

    def start(self, before, placed, reseated=(), processors=(1,), eased=False):
        """The options that note it."""
        if self.kind == "seating" and (self.what in reseated or placed.get(self.what) != before.get(self.what)):
            self.touched = True
        shown = self.faults(placed, [p - 1 for p in processors], eased)
        if not shown:
            return ("--clean",)
        return ("--fault", ",".join(shown)) if self.told else ("--fault-somewhere",)


def hunt(job, machine, placed, processors):
    """The last answer, and how many starts it took behind the first."""
    line, starts = ask(job, *machine.start(placed, placed, (), processors)), 0
    while line["next"] is not None and starts < 20:
        then = line["next"]
        after = {one["slot"]: one["module"] for one in then["slots"]}
        seen = machine.start(placed, after, [one["slot"] for one in then["slots"] if one["reseated"]],
                             then["processors"], then["eased"])
        before, line, placed, starts = line, ask(job, "--did", *seen), after, starts + 1
        check(f"it leaves what it said, {then['text']}", then["kind"] == "back" or len(
            line["explanations"]) <= max(then["left_at_most"], 1) or len(line["explanations"][0]["of"]) == 2)
        check("never more than before", len(line["explanations"]) <= len(before["explanations"]))
    return line, starts


def placed_of(job):
    stage = json.load(open(job, encoding="utf-8"))["stages"][0]["population"]["slots"]
    return {one["slot"]: one["module"] for one in stage if one["module"]}


def kinds(line):
    return {one["of"][0]["kind"] for one in line["explanations"]}


def places(line, key):
    return {one["of"][0][key] for one in line["explanations"]} - {None}


def check_swap_test():
    for kind, what, told in (("seating", "B1", {"seating"}), ("module", "m1", {"module"}),
                             ("margin", ("m1", "B1"), {"margin"}), ("slot", "B1", {"slot", "channel", "processor"})):
        job = job_of(TERN, PLAN)
        line, starts = hunt(job, Machine(TERN, kind, what), placed_of(job), (1,))
        check(f"{kind}: {line['answer']}", line["answer"] and kinds(line) <= told and kind in kinds(line))
        check(f"{kind} takes {starts} starts", starts <= 4)
    board = board_of(TWO)
    order = board["order"]["slots"]
    plan = {slot: (16384, "KW4R16-2400A") for slot in order[:len(order) // 2]}
    home = slots_of(board)
    for kind, what in (("processor", (0, home[order[0]][1])), ("slot", order[0]), ("module", "m0")):
        job = job_of(board, plan)
        line, starts = hunt(job, Machine(board, kind, what), placed_of(job), (1, 2))
        check(f"two processors, {kind}: {line['answer']}", line["answer"] and kind in kinds(line) and (
            kind == "slot" or kinds(line) == {kind}) and "processor" not in kinds(line) - {kind})
        check(f"two processors, {kind}: {starts} starts", starts <= 6)


def check_channel():
    plan = {**PLAN, **{slot: PLAN["A1"] for slot in ("A2", "B2", "C2", "D2")}}
    job = job_of(TERN, plan)
    line, _ = hunt(job, Machine(TERN, "channel", slots_of(TERN)["B1"]), placed_of(job), (1,))
    check(f"a channel is no slot: {line['answer']}", "channel" in kinds(line) and line["answer"] and not any(
        [one["kind"] for one in left["of"]] == ["slot"] for left in line["explanations"]))


def blamed(line):
    """The modules that are blamed alone, for what they are and not for how they sit."""
    return {one["of"][0]["module"] for one in line["explanations"] if [s["kind"] for s in one["of"]] == ["module"]}


def check_halving():
    """C109: each of 16 modules in turn, nobody can tell where."""
    board = board_of(TWO)
    order = board["order"]["slots"][:16]
    for at, slot in enumerate(order):
        job = job_of(board, {one: (16384, "KW4R16-2400A") for one in order})
        machine, placed = Machine(board, "module", f"m{at}", told=False), placed_of(job)
        line, starts = ask(job, *machine.start(placed, placed, (), (1, 2))), 0
        while len(blamed(line)) > 1 and line["next"] and starts < 20:
            then = line["next"]
            after = {one["slot"]: one["module"] for one in then["slots"]}
            line = ask(job, "--did", *machine.start(placed, after, (), then["processors"], then["eased"]))
            placed, starts = after, starts + 1
        check(f"16 suspects, the one in {slot}: {starts} starts", starts <= 4)
        check(f"it is found: {blamed(line)}", blamed(line) == {f"m{at}"})


def check_words():
    """More slots than a sentence usually names: hands cannot go by "and 4 more"."""
    board = board_of(TWO)
    then = ask(job_of(board, {slot: (16384, "KW4R16-2400A") for slot in board["order"]["slots"]}),
               "--fault-somewhere")["next"]
    check(f"hands are told every slot: {then['text']}",
          len(then["slots"]) > 8 and all(one["slot"] in then["text"] for one in then["slots"]))


def check_inference():
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    ask(job, "--reseat", "B1", "--fault", "B1")
    line = ask(job, "--swap", "B1,C1", "--fault", "C1")
    check(f"C110, R1: it follows the module, and another is clean in its slot: {line['answer']}",
          kinds(line) == {"module"} and "m1" in places(line, "module") and line["answer"])
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    line = ask(job, "--swap", "B1,C1", "--fault", "B1")
    check(f"C111, R2: it stays, two modules tried: {kinds(line)}", kinds(line) == {"slot", "channel", "processor"})
    board = board_of(TWO)
    order = board["order"]["slots"]
    job = job_of(board, {slot: (16384, "KW4R16-2400A") for slot in order[:8]})
    other = next(s for s in order[:8] if slots_of(board)[s][0] != slots_of(board)[order[0]][0])
    ask(job, "--fault", order[0])
    line = ask(job, "--swap", f"{order[0]},{other}", "--fault", order[0])
    check("C111: then swap processors, when nothing cheaper tells more", "processor" in kinds(line))
    line = ask(job, "--exchange", "1,2", "--fault", order[0])
    check("R7: it stays, so it is no processor", line["answer"] is not None or "processor" not in kinds(line))
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    line = ask(job, "--swap", "B1,C1", "--fault", "B1,C1")
    check(f"R3: at both: two faults, or a common cause: {kinds(line)}",
          all(len(one["of"]) == 2 or one["of"][0]["kind"] == "common" for one in line["explanations"])
          and "common" in {one["of"][0]["kind"] for one in line["explanations"]})
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    line = ask(job, "--clean")
    check("nothing was changed and it is gone: nothing explains that", line["contradicted"] and line["next"] is None)
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    before = len(ask(job)["explanations"])
    check("what is inconclusive tells nothing", len(ask(job, "--did", "--inconclusive")["explanations"]) == before)


def check_two():
    """Two bad modules at once: the pair is among what is left, whatever is proposed."""
    rand = random.Random(SEED)
    for _ in range(4):
        job = job_of(TERN, PLAN)
        bad = set(rand.sample(["m0", "m1", "m2", "m3"], 2))
        placed = placed_of(job)
        line = ask(job, "--fault", ",".join(s for s, m in placed.items() if m in bad))
        for _ in range(8):
            if line["next"] is None:
                break
            placed = {one["slot"]: one["module"] for one in line["next"]["slots"]}
            shown = [s for s, m in placed.items() if m in bad]
            line = ask(job, "--did", *(("--fault", ",".join(shown)) if shown else ("--clean",)))
        check(f"{bad} among {[one['text'] for one in line['explanations']]}", any(
            {s["module"] for s in one["of"]} == bad for one in line["explanations"]))


def check_common():
    """A machine that never starts, whatever is in it, may have no bad module; population.md 7.3, R3 and R8."""
    board = board_of(TWO)
    for job in (job_of(TERN, PLAN, "one.lidleaf"),
                job_of(board, {s: (16384, "KW4R16-2400A") for s in board["order"]["slots"][:8]}, "two.lidleaf")):
        line, starts = ask(job, "--fault-somewhere"), 0
        check("a setting, or the machine itself", sum(one["of"][0]["kind"] == "common" for one in line["explanations"]) == 2)
        while line["next"] is not None and starts < 20:
            line, starts = ask(job, "--did", "--fault-somewhere"), starts + 1
        check(f"never clean: {line['answer']}", "common" in kinds(line) and not line["answer"].startswith("It is"))
    job = job_of(TERN, PLAN)
    ask(job, "--fault-somewhere")
    line = ask(job, "--swap", "B1,C1", "--clean")
    check("one clean start rules it out", "common" not in kinds(line))
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    line = ask(job, "--fault", "C1")
    check(f"two slots that fit no one thing: {line['answer']}", kinds(line) == {"common"} and line["answer"] is None
          and line["next"]["kind"] == "ease" and line["doubtful"])
    text = call("trace", job).stdout.decode()
    check(f"a wrong note can be taken back, and no hands go in: {text}", "--forget-last" in text and "cord" not in text)
    line = ask(job, "--did", "--clean")
    check(f"R8: easing cures it: {line['answer']}", "It is something common" in line["answer"] and "rate" in line["answer"])
    job = job_of(TERN, PLAN)
    ask(job, "--fault-somewhere")
    line = ask(job, "--fault", "B1,C1")
    check("then two slots: two faults or a common cause are among it", {"common"} <= kinds(line) and any(
        {s["slot"] for s in one["of"]} == {"B1", "C1"} for one in line["explanations"]) and line["answer"] is None)


def check_two_slots():
    """Only two modules: an empty slot tells module from slot."""
    for kind, what in (("module", "m1"), ("slot", "B1")):
        job = job_of(TERN, {"A1": PLAN["A1"], "B1": PLAN["B1"]})
        line, starts = hunt(job, Machine(TERN, kind, what, told=False), placed_of(job), (1,))
        check(f"{kind} of two, nobody can tell where: {line['answer']} after {starts}",
              kind in kinds(line) and ("module" in kinds(line)) == (kind == "module"))


def check_full():
    """All slots filled, the last in the order of fitting at fault: another stands in for it, its own slot empty."""
    last = TERN["order"]["slots"][-1]
    job = job_of(TERN, {slot: PLAN["A1"] for slot in TERN["order"]["slots"]})
    bad = placed_of(job)[last]
    line, starts = hunt(job, Machine(TERN, "module", bad, told=False), placed_of(job), (1,))
    check(f"the last of a full board: {line['answer']} after {starts}", blamed(line) == {bad} and len(line["explanations"]) == 1)


def check_back():
    """A wrong note is taken back; a machine that was mended begins another search."""
    job = job_of(TERN, PLAN)
    ask(job, "--clean")
    line = ask(job, "--fault", "B1")
    check("a clean start before the first fault tells nothing", not line["contradicted"] and len(line["explanations"]) > 3)
    left = len(line["explanations"])
    check("a wrong note", ask(job, "--fault", "C1")["doubtful"])
    line = ask(job, "--forget-last")
    check("taken back", len(line["explanations"]) == left and line["trials"] == 2)
    ask(job, "--swap", "B1,C1", "--fault", "B1")
    line = ask(job, "--forget-last", "--swap", "B1,C1", "--fault", "C1")
    check(f"noted otherwise: {line['answer']}", kinds(line) == {"module"} and "C1" in line["answer"])
    line = ask(job, "--replaced", "C1", "--clean")
    check(f"another in its place, and it is gone: {line['answer']}", kinds(line) == {"module"} and "out of the machine" in line["answer"])
    line = ask(job, "--new", "--back", "--clean")
    check("mended: another search begins", line["explanations"] == [] and not line["contradicted"] and line["trials"] == 1)
    line = ask(job, "--fault", "D1")
    check("a later fault is one of its own", "common" not in kinds(line) and line["trials"] == 2)
    ask(job, "--new")
    check("over", ask(job)["trials"] == 0 and len(json.load(open(job, encoding="utf-8"))["trials"]) == 6)


def check_left():
    """The lid sheet shows as left: it goes along with the modules, and a fault is no proof."""
    job = job_of(TERN, PLAN)
    call("prove", "--seen-total", "65536", "-o", job, job)
    check("proved", json.load(open(job, encoding="utf-8"))["proved"])
    ask(job, "--fault", "B1")
    check("a fault, proved no more", not json.load(open(job, encoding="utf-8"))["proved"])
    ask(job, "--swap", "B1,C1", "--fault", "C1")
    kept = json.load(open(job, encoding="utf-8"))
    sits = {s["slot"]: s["module"] for s in kept["as_left"]["slots"] if s["module"]}
    check(f"as left goes along: {sits}", sits["B1"] == "m2" and sits["C1"] == "m1")
    call("prove", "--seen-total", "65536", "-o", job, job)
    check("proved once more, the search is over", ask(job)["trials"] == 0)


def check_slots():
    """Names as hands type them."""
    job = job_of(TERN, PLAN)
    check("case", ask(job, "--fault", "b1")["explanations"][0]["of"][0]["slot"] == "B1")
    for name, words in (("Q9", b"A1, A2"), ("B", b"B1 and B2")):
        done = call("trace", "--fault", name, "-o", job, job)
        check(f"{name}: {done.stderr}", done.returncode == 1 and words in done.stderr)
    done = call("trace", job)
    check("the line to type stands whole", f"lidleaf-cli trace --did --fault SLOT -o {job} {job}".encode() in done.stdout)
    other = path("with space.lidleaf")
    done = call("trace", "--fault", "B1", "-o", other, job)
    check("it goes on with the job that was saved", f"--clean -o '{other}' '{other}'".encode() in done.stdout)


def check_readme():
    """The lines of README, typed in order."""
    job, folder = path("readme.lidleaf"), os.environ["LID_SOURCE"]
    with open(os.path.join(folder, "resources", "example.lidleaf"), encoding="utf-8") as file:
        text = file.read()
    with open(job, "w", encoding="utf-8") as file:
        file.write(text)
    lines = [one.split("#")[0].split()[2:] for one in open(os.path.join(folder, "README.md"), encoding="utf-8")
             if one.strip().startswith("lidleaf-cli trace ")]
    check(f"README traces: {lines}", len(lines) >= 3)
    for i, one in enumerate(lines):
        done = call("trace", "--json", *(job if word == "left.lidleaf" else word for word in one))
        line = json.loads(done.stdout)
        check(f"{one}: {done.stderr}", done.returncode == 0 and not line["contradicted"] and not line["doubtful"])
        if i == 2:
            check(f"the third answers: {line['answer']}", kinds(line) == {"module"})


def check_kept_and_calls():
    job = job_of(TERN, PLAN)
    ask(job, "--fault", "B1")
    kept = json.load(open(job, encoding="utf-8"))
    check("the job keeps the trial", kept["trials"][0]["outcome"] == "fault" and kept["trials"][0]["at"] == ["B1"]
          and kept["history"][-1]["what"] == "traced")
    other = path("kept.lidleaf")
    for args, status in (((), 1), ((job, job), 1), ((path("none"),), 2), ((job, "--fault", "B1"), 1),
                         ((job, "-o", other), 1), ((job, "--swap", "A1,B1"), 1), ((job, "--clean", "--did", "--back", "-o", other), 1),
                         ((job, "--fault", "Q9", "-o", other), 1), ((job, "--fault", "A2", "-o", other), 1),
                         ((job, "--clean", "--swap", "A1", "-o", other), 1), ((job, "--clean", "--exchange", "1,3", "-o", other), 1),
                         ((job, "--clean", "--fault", "B1", "-o", other), 1), ((job, "--fault", "", "-o", other), 1),
                         ((job, "--fault", "A1", "--fault", "B1", "-o", other), 1), ((job, "--clean", "--swap", "A2,B2", "-o", other), 1),
                         ((job, "--clean", "--out", "A2", "-o", other), 1), ((job, "--clean", "--reseat", "A2", "-o", other), 1),
                         ((job, "--clean", "--exchange", "1,1", "-o", other), 1), ((job, "--forget-last"), 1),
                         ((job, "--fault-somewhere", "--out", "A1,B1,C1,D1", "-o", other), 1),
                         ((job, "--clean", "--replaced", "A2", "-o", other), 1), ((job, "--did", "--new", "--clean", "-o", other), 1)):
        done = call("trace", *args)
        check(f"{args}: {done.returncode}", done.returncode == status and done.stderr)
    check("nothing is written where something is wrong", not os.path.exists(other))
    kept["trials"][0]["at"] = ["Q9"]
    with open(other, "w", encoding="utf-8") as file:
        json.dump(kept, file)
    done = call("trace", other)
    check("a trial of another board is told, with its place", done.returncode == 2 and b"trials" in done.stderr)
    done = call("trace", job)
    check("a person is told", b"after 1 start" in done.stdout and b"cord" in done.stdout and b"B1" in done.stdout)


for one in (check_swap_test, check_channel, check_halving, check_words, check_inference, check_two, check_common, check_two_slots, check_full,
            check_back, check_left, check_slots, check_readme, check_kept_and_calls):
    one()
check("the folder of the tests", os.path.isdir(FOLDER))
leave()
