#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""prove: machines fitted as planned or not, read after power-on. The report is written here as the
text of dmidecode 3.4 (Debian 12), field by field after DMTF DSP0134, Memory Device (type 17); what a
missing sum can be is reckoned here on its own. Symptoms: shared/facts/population.md 7.2 (common
practice, no source); training of 15 minutes: handbook C112, a memory maker's FAQ KTM-012711-GEN-20."""
import copy
import json
import os
import random
import tempfile

from frame import check, leave, run as call

TOP = os.environ["LID_SOURCE"]
SEED = 20261128
EXAMPLE = json.load(open(os.path.join(TOP, "resources", "example.lidleaf"), encoding="utf-8"))
FOLDER = tempfile.mkdtemp()
VERDICTS = {"as-planned", "as-planned-as-far-as-told", "missing", "smaller", "slower", "another", "other-name",
            "not-planned"}


def run(*args):
    return call("prove", *args)


def path(name):
    return os.path.join(FOLDER, name)


def board_of(name):
    return json.load(open(os.path.join(TOP, "platforms", name + ".json"), encoding="utf-8"))


def slots_of(board):
    """Per slot id: processor, channel, in the order of the definition."""
    return {slot["id"]: (s, channel.get("name"))
            for s, socket in enumerate(board["sockets"]) for controller in socket["controllers"]
            for channel in controller["channels"] for slot in channel["slots"]}


def module(name, capacity, part):
    made = copy.deepcopy(EXAMPLE["modules"][0])
    made.update(id=name, part=part, persistent=False, bin=None, serial=None)
    made["facts"]["capacity_mib"]["value"] = capacity
    return made


def job_of(board, filled, name="job.lidleaf"):
    """@filled: slot -> (capacity in MiB, part); found the machine was empty."""
    modules = {slot: module(f"m{i}", *what) for i, (slot, what) in enumerate(filled.items())}
    job = {k: EXAMPLE[k] for k in ("lidleaf", "title", "owner", "asset", "number")}
    job["board"] = {"definition": board, "id": board["id"], "version": board["version"], "hash": ""}
    job.update(modules=list(modules.values()), as_left=None, history=[], as_found=population(board, {}),
               stages=[{"name": None, "population": population(board, modules)}])
    with open(path(name), "w", encoding="utf-8") as file:
        json.dump(job, file)
    return path(name)


def population(board, modules):
    """Processor and firmware level as the board knows them last, so that the rate is known."""
    firmware, processors = board.get("firmware"), board.get("processors")
    return {"processors": [{"fitted": True, "model": processors[-1]["id"] if processors else None}
                           for _ in board["sockets"]],
            "firmware": firmware[-1]["level"] if firmware else None,
            "mode": "plain", "spare_ranks": None, "mirrored_mib": None, "numa_split": None,
            "setup_limit_mts": None, "setup_mv": None,
            "slots": [{"slot": s, "module": modules[s]["id"] if s in modules else None,
                       "state": "filled" if s in modules else "empty", "configured_mts": None}
                      for s in slots_of(board)]}


def device(locator, bank, what):
    """What dmidecode prints of one slot; @what: None or capacity, part, rate, ranks."""
    if what is None:
        return f"Memory Device\n\tSize: No Module Installed\n\tLocator: {locator}\n\tBank Locator: {bank}\n"
    capacity, part, rate, ranks = what
    return (f"Memory Device\n\tTotal Width: 72 bits\n\tData Width: 64 bits\n\tSize: {capacity // 1024} GB\n"
            f"\tForm Factor: DIMM\n\tLocator: {locator}\n\tBank Locator: {bank}\n\tType: DDR4\n"
            f"\tType Detail: Synchronous Registered (Buffered)\n\tSpeed: 2400 MT/s\n\tPart Number: {part}\n"
            f"\tRank: {ranks}\n\tConfigured Memory Speed: {rate} MT/s\n")


def report_of(board, seen, names=None, name="after.txt"):
    """@seen: slot -> what; @names: locator of a slot that is spelt otherwise."""
    spelt = {one["slot"]: (one["locator"], one.get("bank") or "") for one in board.get("spellings", [])}
    text = "# dmidecode 3.4\nGetting SMBIOS data from sysfs.\nSMBIOS 3.2.0 present.\n"
    for i, slot in enumerate(slots_of(board)):
        locator, bank = (names or {}).get(slot) or spelt.get(slot, (slot, ""))
        text += f"\nHandle 0x{0x1100 + i:04X}, DMI type 17, 84 bytes\n" + device(locator, bank, seen.get(slot))
    with open(path(name), "w", encoding="utf-8") as file:
        file.write(text)
    return path(name)


def answer(*args):
    done = run("--json", *args)
    line = json.loads(done.stdout)
    check(f"exit status {done.returncode} of {args}", done.returncode == (0 if line["matches"] else 3))
    check(f"verdicts of the contract {args}", {s["verdict"] for s in line["slots"]} <= VERDICTS)
    return line, {s["slot"] or s["name"]: s["verdict"] for s in line["slots"]}


def others(verdicts):
    return {slot: verdict for slot, verdict in verdicts.items() if not verdict.startswith("as-planned")}


def is_said(line, *words):
    return any(all(word in advice for word in words) for advice in line["advice"])


TERN = board_of("tern-w4")
PLAN = {slot: (16384, "KW4R16-2400A") for slot in ("A1", "B1", "C1", "D1")}
FITTED = {slot: what + (2400, 2) for slot, what in PLAN.items()}


def check_verdicts():
    job = job_of(TERN, PLAN)
    line, verdicts = answer(job, report_of(TERN, FITTED))
    check("fitted as planned", line["matches"] and not others(verdicts) and line["advice"] == [])
    check("a part number tells it is the module planned", set(verdicts.values()) == {"as-planned"})
    check("every slot of the board is judged", list(verdicts) == list(slots_of(TERN)))
    for what, change, slot, verdict in (
            ("taken out", {"B1": None}, "B1", "missing"),
            ("half the size", {"B1": (8192, "KW4R16-2400A", 2400, 2)}, "B1", "smaller"),
            ("twice the size", {"B1": (32768, "KW4R16-2400A", 2400, 2)}, "B1", "another"),
            ("one rank less", {"B1": (16384, "X-1", 2400, 1)}, "B1", "another"),
            ("held down", {"B1": (16384, "KW4R16-2400A", 2133, 2)}, "B1", "slower"),
            ("one too many", {"B2": (16384, "KW4R16-2400A", 2400, 2)}, "B2", "not-planned")):
        line, verdicts = answer(job, report_of(TERN, {**FITTED, **change}))
        check(f"{what}: {others(verdicts)}", others(verdicts) == {slot: verdict} and not line["matches"])
    line, verdicts = answer(job, report_of(TERN, {**FITTED, "B1": (16384, "X-1", 2400, 2)}))
    check("another part number, nothing against it",
          line["matches"] and verdicts["B1"] == "as-planned-as-far-as-told" and "X-1" in str(line["slots"]))
    line, verdicts = answer(job, report_of(TERN, FITTED, {"B1": ("ChannelB-DIMM1", "")}))
    check(f"a slot spelt otherwise is told by its place: {others(verdicts)}",
          line["matches"] and others(verdicts) == {"B1": "other-name"} and is_said(line, "B1", "print"))
    line, verdicts = answer(job, report_of(TERN, FITTED, {"B1": ("Riser 7", "")}))
    check("a slot the board does not have is named as the machine does",
          others(verdicts) == {"B1": "missing", "Riser 7": "not-planned"})
    check_order(line, "Riser 7", "disabled", "cord")
    line, verdicts = answer(job, report_of(TERN, FITTED, {"A1": ("A1", ""), "B1": ("A1", "")}))
    check("a name given twice is said so", any("names two slots so" in one["text"] for one in line["slots"]))


def check_advice():
    job = job_of(TERN, PLAN)
    line, _ = answer(job, report_of(TERN, {**FITTED, "B1": None}))
    check("a black screen may be training: said first", "15 minutes" in line["advice"][0])
    check_order(line, "disabled", "cord", "Seat once more", "change places")
    check("it is said where", is_said(line, "disabled", "B1") and is_said(line, "Seat once more", "B1"))
    line, _ = answer(job, report_of(TERN, {**FITTED, "B1": None, "B2": FITTED["B1"]}))
    check("a module in the wrong slot", is_said(line, "planned for B1 sits in B2"))
    line, _ = answer(job, report_of(TERN, {s: w[:2] + (2133, 2) for s, w in FITTED.items()}))
    check("the setup holds it down", is_said(line, "2133", "2400") and is_said(line, "setup", "MHz"))
    line, _ = answer(job_of(TERN, {**PLAN, "B2": PLAN["B1"]}, "two.lidleaf"),
                     report_of(TERN, {**FITTED, "B1": None}))
    check("both modules of a channel at once are the channel", is_said(line, "channel B", "processor is seated"))
    check("and no module of it is blamed", not is_said(line, "Seat once more"))


def check_order(line, *words):
    """population.md 7.2: the list in the setup costs nothing and comes first; cautions before hands."""
    at = [next((i for i, advice in enumerate(line["advice"]) if word in advice), -1) for word in words]
    check(f"in this order {words}: {at}", -1 not in at and at == sorted(at) and len(set(at)) == len(at))


def check_hands():
    """Each work with hands has its caution before it, once."""
    job, left = job_of(TERN, PLAN), path("hands.lidleaf")
    for change, words in (({"B1": None, "B2": FITTED["B1"]}, ("cord", "put it where it belongs")),
                          ({"B1": (8192, "Q", 2400, 1)}, ("cord", "Compare the labels")),
                          ({"B2": (16384, "Q", 2400, 2)}, ("cord", "plan once more"))):
        line, _ = answer(job, report_of(TERN, {**FITTED, **change}))
        check_order(line, *words)
        check("the caution stands once", sum("cord" in advice for advice in line["advice"]) == 1)
    line, _ = answer(job, report_of(TERN, {**FITTED, "B1": None, "B2": FITTED["B1"]}))
    check("a slot whose module sits elsewhere is not seated again", not is_said(line, "Seat once more")
          and not is_said(line, "plan once more"))
    line, _ = answer(job, "--seen-total", "49152")
    check_order(line, "short by exactly", "cord", "Seat once more")
    line, _ = answer(job, "--seen-slots", "A1,B1,C1,D2", "--seen-total", "64GB")
    check_order(line, "cord", "may sit in D2")
    line, verdicts = answer(job, report_of(TERN, {**FITTED, "B1": (8192, "Q-8", 2400, 1)}))
    check("the size is told before the ranks, with both part numbers", verdicts["B1"] == "smaller" and any(
        "KW4R16-2400A" in s["text"] and "Q-8" in s["text"] and "capacity" in s["text"] for s in line["slots"]))
    check("the job opens", call("prove", "-o", left, job, report_of(TERN, FITTED)).returncode == 0)


def check_untold():
    """What is not told proves nothing: exit 3, and it is said what is missing."""
    job, left = job_of(TERN, PLAN), path("untold.lidleaf")
    text = open(report_of(TERN, FITTED), encoding="utf-8").read()
    first = text.replace("Size: 16 GB", "Size: Unknown", 1)
    bare = text.split("\nHandle")[0] + "\n\nHandle 0x0001, DMI type 0, 26 bytes\nBIOS Information\n\tVersion: 1.2\n"
    for what, other, words in (("a size", first, "size"), ("no device", bare, "no memory device")):
        with open(path("untold.txt"), "w", encoding="utf-8") as file:
            file.write(other)
        line, verdicts = answer(job, path("untold.txt"), "-o", left)
        check(f"{what} untold: {line['untold']}", not line["matches"] and words in line["untold"]
              and not others(verdicts) and not json.load(open(left, encoding="utf-8"))["proved"])
        check("no hands are sent in", not is_said(line, "eat"))
        check("and the slot is not called as planned", what != "a size" or "as-planned-as-far-as-told" in verdicts.values())
    line, _ = answer(job, "--seen-rate", "2400", "-o", left)
    check("a rate alone proves nothing", "rate" in line["untold"] and not json.load(open(left, encoding="utf-8"))["proved"])
    line, _ = answer(job, "--seen-total", "48 GB", "-o", left)
    kept = json.load(open(left, encoding="utf-8"))
    check("the total read is kept", kept["by_eye"] == {"total_mib": 49152} and "49152" in kept["history"][-1]["text"])
    answer(job, report_of(TERN, FITTED), "-o", left)
    check("and gone once an inventory was read", json.load(open(left, encoding="utf-8"))["by_eye"] is None)
    for told, mib in (("64GB", 65536), ("65536", 65536), ("65536 MB", 65536), ("0.0625TB", 65536)):
        check(f"{told}", answer(job, "--seen-total", told)[0]["seen_mib"] == mib)
    line, _ = answer(job, "--seen-total", "64")
    check("GB told as MB", is_said(line, "64 MB", "64 GB"))
    line, _ = answer(job, "--seen-total", str(65536 - 8192))
    check("a module smaller than planned", is_said(line, "One module of 8 GB where one of 16 GB"))


def check_cut():
    """Half a mail: the array says how many slots there are (DSP0134, type 16)."""
    array = ("\nHandle 0x1000, DMI type 16, 23 bytes\nPhysical Memory Array\n\tLocation: System Board Or Motherboard\n"
             f"\tUse: System Memory\n\tNumber Of Devices: {len(slots_of(TERN))}\n")
    head, *devices = open(report_of(TERN, FITTED), encoding="utf-8").read().split("\nHandle")
    text = head + array + "".join("\nHandle" + one.replace("Memory Device\n", "Memory Device\n\tArray Handle: 0x1000\n")
                                  for one in devices[:3])
    with open(path("cut.txt"), "w", encoding="utf-8") as file:
        file.write(text)
    line, verdicts = answer(job_of(TERN, PLAN), path("cut.txt"))
    check(f"the list is cut, and nothing of it is seated again: {line['advice']}",
          "missing" in verdicts.values() and not is_said(line, "Seat once more") and any("not whole" in n for n in line["notes"]))
    check(f"the reader's remark is there: {line['remarks']}", any("listed" in one["what"] for one in line["remarks"]))


def with_serials(text, serials):
    """@serials: one for each filled device, in the order listed."""
    parts = text.split("\tPart Number")
    return parts[0] + "".join(f"\tSerial Number: {serial}\n\tPart Number{part}" for serial, part in zip(serials, parts[1:]))


def check_serials():
    """A serial is one module's own: common practice, no source."""
    own, left = ["3A1F0011", "3A1F0012", "3A1F0013", "3A1F0014"], path("serials.lidleaf")

    def prove(job, serials, *args):
        text = with_serials(open(report_of(TERN, FITTED), encoding="utf-8").read(), serials)
        with open(path("serials.txt"), "w", encoding="utf-8") as file:
            file.write(text)
        line, _ = answer(job, path("serials.txt"), *args)
        kept = json.load(open(left, encoding="utf-8"))
        name = {m["id"]: m for m in kept["modules"]}
        return line, {s["slot"]: name[s["module"]] for s in kept["as_left"]["slots"] if s["module"]}

    line, sits = prove(job_of(TERN, PLAN), own, "-o", left)
    check("a new module takes its serial over", line["matches"] and [sits[s]["serial"] for s in PLAN] == own)
    half = json.load(open(left, encoding="utf-8"))
    half["modules"][1]["serial"] = None
    with open(path("half.lidleaf"), "w", encoding="utf-8") as file:
        json.dump(half, file)
    line, after = prove(path("half.lidleaf"), ["5B000001", own[0]] + own[2:], "-o", left)
    check("one whose serial is not known yet changed places with one whose is",
          line["matches"] and [after[s]["id"] for s in PLAN] == [sits[s]["id"] for s in ("B1", "A1", "C1", "D1")]
          and after["A1"]["serial"] == "5B000001")
    line, sits = prove(job_of(TERN, PLAN), own, "-o", left)
    line, after = prove(left, [own[1], own[0]] + own[2:], "-o", left)
    check("two alike that changed places are where their serials are",
          line["matches"] and [after[s]["id"] for s in PLAN] == [sits[s]["id"] for s in ("B1", "A1", "C1", "D1")])
    line, _ = prove(left, ["5B000000"] + own[1:])
    check(f"one like it with another serial: {line['notes']}", line["matches"] and any("A1" in n or "B1" in n for n in line["notes"]))
    line, sits = prove(left, ["5B0000" + one[-2:] for one in own], "-o", left)
    check("another machine's serials are not taken over", {m["serial"] for m in sits.values()} == set(own))
    line, _ = prove(left, ["5B0000" + one[-2:] for one in own])
    check(f"another machine with the same modules: {line['untold']}", not line["matches"] and "another machine" in line["untold"])
    short = path("short.txt")
    whole = open(report_of(TERN, FITTED), encoding="utf-8").read()
    with open(short, "w", encoding="utf-8") as file:
        file.write("\nHandle".join(whole.split("\nHandle")[:-2]))
    line, _ = answer(left, short)
    check(f"another count of slots: {line['notes']}", any("slots" in note for note in line["notes"]))
    line, _ = answer(left, report_of(TERN, FITTED, {s: (f"Riser {i}", "") for i, s in enumerate(slots_of(TERN))}))
    check(f"names of another board: {line['notes']}", any("names" in note for note in line["notes"]))
    text = report_of(board_of("gannet-r2"), {s: (16384, "Z", 2400, 2) for s in ("1A1", "1B1")},
                     {s: (f"Riser {i}", "") for i, s in enumerate(slots_of(board_of("gannet-r2")))})
    line, _ = answer(left, text)
    check(f"another machine: no hands: {line['advice']}", len(line["advice"]) == 1 and is_said(line, "machine of this job"))
    for _ in range(3):
        answer(left, report_of(TERN, {**FITTED, "D1": (8192, "Q", 2400, 2)}), "-o", left)
        kept = json.load(open(left, encoding="utf-8"))
        check(f"read again, no module more: {len(kept['modules'])}", len(kept["modules"]) == len(PLAN) + 1)
    answer(left, report_of(TERN, {**FITTED, "D1": None, "D2": FITTED["D1"]}), "-o", left)
    kept = json.load(open(left, encoding="utf-8"))
    sits = {s["slot"]: s["module"] for s in kept["as_left"]["slots"] if s["module"]}
    check(f"a module in the wrong slot is there alone: {sits}", len(sits) == len(PLAN) and "D1" not in sits and "D2" in sits)


def check_processor():
    board = board_of("gannet-r2")
    first = [s for s, (socket, _) in slots_of(board).items() if socket == 0][:2]
    second = [s for s, (socket, _) in slots_of(board).items() if socket == 1][:2]
    plan = {slot: (16384, "KW4R16-2400A") for slot in first + second}
    line, verdicts = answer(job_of(board, plan), report_of(board, {s: plan[s] + (2400, 2) for s in first}))
    check("nothing of a processor", is_said(line, "memory of processor", "fitted and seated"))
    check("its modules are missing", {s for s, v in verdicts.items() if v == "missing"} == set(second))


def readings(sizes, short):
    """Fewest modules of one size that make up what is missing, at most four; by trying."""
    fits = [(n, size) for size in set(sizes) for n in range(1, min(4, sizes.count(size)) + 1) if n * size == short]
    return min(fits) if fits else None


def check_eye():
    rand = random.Random(SEED)
    names = list(slots_of(TERN))
    for _ in range(60):
        sizes = [rand.choice((8192, 16384, 32768)) for _ in range(rand.randint(1, 8))]
        plan = {slot: (size, f"P{size}") for slot, size in zip(names, sizes)}
        job, gone = job_of(TERN, plan), rand.sample(sizes, rand.randint(0, len(sizes)))
        line, verdicts = answer(job, "--seen-total", str(sum(sizes) - sum(gone)))
        check(f"matches by the total {sizes} {gone}", line["matches"] == (not gone))
        check("slot by slot only where none can be missing", bool(verdicts) == (not gone))
        fewest = readings(sizes, sum(gone))
        says = [a for a in line["advice"] if "short by exactly" in a]
        check(f"what is missing {sizes} {gone}: {says}", bool(says) == (fewest is not None))
        if says:
            check(f"{fewest} in {says}", f"exactly {fewest[0]} module" in says[0] and f"{fewest[1] // 1024} GB" in says[0])
        check(f"half {sizes} {gone}", is_said(line, "half") == (bool(gone) and 2 * sum(gone) == sum(sizes)))
    job = job_of(TERN, PLAN)
    line, verdicts = answer(job, "--seen-slots", "A1, B1,D1,D2")
    check(f"ticked slots: {others(verdicts)}", others(verdicts) == {"C1": "missing", "D2": "not-planned"})
    check("firmware and graphics keep a little", answer(job, "--seen-total", "65024")[0]["matches"])
    check("a rate too low", not answer(job, "--seen-total", "65536", "--seen-rate", "2133")[0]["matches"])
    check("the rate expected, by its name in the setup",
          answer(job, "--seen-total", "65536", "--seen-rate", "2400")[0]["matches"])


def check_left():
    job, left = job_of(TERN, PLAN), path("left.lidleaf")
    answer(job, report_of(TERN, FITTED), "-o", left)
    kept = json.load(open(left, encoding="utf-8"))
    check("as left is what was planned", kept["proved"] and kept["history"][-1]["what"] == "proved" and {
        s["slot"]: s["module"] for s in kept["as_left"]["slots"] if s["module"]} == {
            s["slot"]: s["module"] for s in kept["stages"][0]["population"]["slots"] if s["module"]})
    answer(job, report_of(TERN, {**FITTED, "B1": None, "D1": (8192, "Q", 2400, 2)}), "-o", left)
    kept = json.load(open(left, encoding="utf-8"))
    states = {s["slot"]: (s["state"], s["module"]) for s in kept["as_left"]["slots"]}
    check("what is not seen is in its slot all the same", states["B1"] == ("not-seen", kept["modules"][1]["id"]))
    check("another module is one of its own", states["D1"][1] == kept["modules"][-1]["id"] and not kept["proved"])
    done = call("check", "--of", "as-left", left)
    check("the job opens again", done.returncode == 3 and b"B1" in done.stdout)


def check_calls():
    job, text = job_of(TERN, PLAN), report_of(TERN, FITTED)
    for args, status in (((), 1), ((job,), 1), ((job, text, text), 1), ((job, path("none.txt")), 2),
                         ((path("none"), text), 2), ((job, "--seen-slots", "Q9"), 1), ((job, "--seen-slots", ","), 3),
                         ((job, text, "--seen-total", "1"), 1), ((job, "--seen-rate", "-3"), 1), ((job, "--seen-rate", "99999"), 1),
                         ((job, "--seen-total", "128XB"), 1), ((job, "--seen-total", "-4"), 1), ((job, "--seen-total", "nan"), 1),
                         ((job, "--stage", "4", text), 1)):
        done = run(*args)
        check(f"{args}: {done.returncode}", done.returncode == status and (status == 3 or done.stderr))
    with open(path("broken.lidleaf"), "w", encoding="utf-8") as file:
        file.write('{"broken')
    done = run(path("broken.lidleaf"), text)
    check(f"a broken job: {done.stderr}", done.returncode == 2 and b"broken.lidleaf" in done.stderr and b"job" in done.stderr)
    kept = json.load(open(job, encoding="utf-8"))
    kept["stages"] = []
    with open(path("noplan.lidleaf"), "w", encoding="utf-8") as file:
        json.dump(kept, file)
    done = run(path("noplan.lidleaf"), text)
    check(f"no plan, the file is named: {done.stderr}", done.returncode == 1 and b"noplan.lidleaf: the job holds no plan" in done.stderr)
    done = run("--seen-total", "65536", job)
    check("by eye, one line for all that is alike", done.stdout.count(b"as far as was read") == 2)
    done = run(job, text)
    check("a person is told", done.returncode == 0 and b"as planned" in done.stdout and b"64 GB" in done.stdout)


if __name__ == "__main__":
    for one in (check_verdicts, check_advice, check_hands, check_untold, check_cut, check_serials, check_processor, check_eye, check_left, check_calls):
        one()
    leave()
