#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The reader of SMBIOS tables against an independent program on random dumps (dumps.py): dmidecode
3.4 (Debian package of that name) tells what is in each dump, its words are taken apart here, and
every field that both tell must agree. What dmidecode cannot tell is excused field by field in
told_by_put(), with the reason; there what was put into the dump is held against our reading.

The same dump must read alike as the kernel's two files and as the bare table; and dmidecode's own
text through our reader of reports must give the same slots where the text tells them.

  random_dumps.py LIDLEAF-CLI [COUNT [SEED [FIRST]]]     SEED and number give the same dump again
"""
import json
import os
import random
import subprocess
import sys
import tempfile
from collections import Counter

import dumps

CLI = sys.argv[1]
COUNT = int(sys.argv[2]) if len(sys.argv) > 2 else 300
SEED = sys.argv[3] if len(sys.argv) > 3 else "20240"
FIRST = int(sys.argv[4]) if len(sys.argv) > 4 else 0
ENVIRONMENT = dict(os.environ, LC_ALL="C.UTF-8", PATH=os.environ["PATH"] + ":/usr/sbin:/sbin")
BATCH = 100
# Words of the standard (DSP0134 7.18.2) for which product.md 11 has a generation.
GENERATIONS = {"DDR", "DDR2", "DDR2 FB-DIMM", "DDR3", "DDR4", "DDR5", "LPDDR", "LPDDR2", "LPDDR3", "LPDDR4",
               "LPDDR5", "HBM", "HBM2"}
COMPARED = ("name", "bank", "state", "capacity_mib", "generation", "rated_raw", "configured_mts", "ranks",
            "part", "serial", "maker")
PLACES = ("slot", "socket", "controller", "channel", "position", "told_by")
faults = []
excused = Counter()
compared = Counter()


def clean(raw):
    """Foreign bytes as they are shown: UTF-8, else Latin-1; control characters and no-break blanks are
    blanks; ends trimmed; at most 256 characters."""
    try:
        text = raw.strip(bytes(range(33))).decode("utf-8")
    except UnicodeDecodeError:
        text = raw.strip(bytes(range(33))).decode("latin-1")
    return "".join(" " if ord(c) < 32 or 127 <= ord(c) <= 160 else c for c in text).strip()[:256].strip()


def dmidecode(path):
    done = subprocess.run(["dmidecode", "--from-dump", path], capture_output=True, env=dict(ENVIRONMENT, LC_ALL="C"),
                          check=True)
    answers, now, text = [], None, done.stdout.decode("ascii")
    for line in text.split("\n"):
        if line.startswith("Handle "):
            now = {"Handle": line[7:13]} if "DMI type 17," in line else None
            if now:
                answers.append(now)
        elif now is not None and line.startswith("\t") and ":" in line:
            key, value = line[1:].split(":", 1)
            now[key] = value[1:]
    return text, answers


def number(value):
    """"2666 MT/s", "4"; null where nothing is told."""
    digits = (value or "").split(" ")[0]
    return int(digits) or None if digits.isdigit() else None


def mebibytes(value):
    if value == "No Module Installed":
        return 0
    digits, _, unit = value.partition(" ")
    if not digits.isdigit():
        return None
    return int(digits) * {"kB": 1, "MB": 1 << 10, "GB": 1 << 20, "TB": 1 << 30}[unit] // 1024


def state(answer):
    form, kind, detail = answer["Form Factor"], answer["Type"], answer["Type Detail"]
    technology = answer.get("Memory Technology", "")
    if answer["Size"] == "No Module Installed":
        return "empty"
    if kind == "Logical non-volatile device" or "Non-Volatile" in detail or technology.startswith("NVDIMM") \
            or technology.endswith("persistent memory"):
        return "persistent"
    return "soldered" if form in ("Chip", "Row Of Chips", "Die") or kind.startswith("LPDDR") else "filled"


def put_text(device, field):
    """None where product.md's rules leave a text out: filler, or no string at all."""
    raw = device.put[field] if device.covers(field) else None
    if raw is None or raw in dumps.FILLERS and field not in ("name", "bank"):
        return None
    text = clean(raw)
    return None if text in ("", "Not Specified", "<BAD INDEX>") else text


def put_rate(device, field):
    if not device.covers(field):
        return None
    rate, extended = getattr(device, field), getattr(device, "extended_" + field)
    if rate == 0xffff:
        rate = extended if device.covers("extended_" + field) else 0
    return rate or None


def put_state(device):
    if device.size in (0, 0x8000):
        return "empty"
    technology = device.technology if device.covers("technology") else 0
    if device.type == 0x1f or device.detail & 0x1000 or 4 <= technology <= 7:
        return "persistent"
    return "soldered" if device.form in (5, 11, 16) or 0x1b <= device.type <= 0x1e or device.type == 0x23 \
        else "filled"


def between(device, field, printed_from):
    """dmidecode prints in the steps of the standard's versions (its source, case 17: lengths 17h, 1Bh,
    1Ch, 22h, 34h, 5Ch): a structure longer than a field needs but short of the step is left out."""
    return device.covers(field) and device.length < printed_from


def told_by_put(device):
    """What dmidecode 3.4 does not tell or tells wrongly: field -> what was put in, and why."""
    out = {}

    def excuse(field, value, why):
        out[field] = value
        excused[why] += 1

    for field in ("name", "bank", "maker", "serial", "part"):
        raw = device.put[field] or b""
        if device.covers(field) and any(byte < 32 or byte > 126 for byte in raw):
            excuse(field, put_text(device, field) or ("" if field in ("name", "bank") else None),
                   "text: a dot for every byte outside ASCII")
    if device.type == 0x25:
        excuse("generation", "DDR5", "type 25h (MRDIMM): <OUT OF SPEC>")
    if device.type == 0x24:
        excuse("generation", "HBM3", "type 24h (HBM3): <OUT OF SPEC>")
    for field, step in (("maker", 0x1b), ("serial", 0x1b)):
        if between(device, field, step):
            excuse(field, put_text(device, field), "length: " + field + " covered, printed from 1Bh on")
    if device.speed == 0xffff and between(device, "extended_speed", 0x5c):
        excuse("rated_raw", put_rate(device, "speed"), "length: extended speed covered, printed from 5Ch on")
    if between(device, "technology", 0x34):
        excuse("state", put_state(device), "length: technology covered, printed from 34h on")
    if device.size == 0x7fff and device.covers("extended") and device.extended == 0:
        excuse("capacity_mib", None, "size 7FFFh with an extended size of 0: a module, size not told")
    if device.size == 0x8000:
        excuse("state", "empty", "size 8000h: nothing in KiB is nothing")
    return out


def expected(answer, device):
    ranks = number(answer.get("Rank"))
    out = {"name": clean(answer["Locator"].encode()), "bank": clean(answer["Bank Locator"].encode()),
           "state": state(answer), "capacity_mib": mebibytes(answer["Size"]),
           "generation": answer["Type"] if answer["Type"] in GENERATIONS else None,
           "rated_raw": number(answer.get("Speed")), "configured_mts": number(answer.get("Configured Memory Speed")),
           "ranks": ranks if ranks in (1, 2, 4, 8) else None}
    for key, field in (("part", "Part Number"), ("serial", "Serial Number"), ("maker", "Manufacturer")):
        value = answer.get(field, "")
        out[key] = None if value.encode() in dumps.FILLERS or not value.strip() else clean(value.encode())
    for key in ("name", "bank"):
        out[key] = "" if out[key] in ("Not Specified", "<BAD INDEX>") else out[key]
    out.update(told_by_put(device))
    if out["state"] == "empty":  # product.md 11: an empty slot tells nothing of a module
        out.update({key: None for key in COMPARED[4:]}, capacity_mib=0)
    return out


def is_storage(answer):
    return answer["Type"] in ("Flash", "ROM", "EEPROM", "FEPROM", "EPROM")


def check_dump(where, dump, answers, reading):
    """dmidecode's words against our reading, slot by slot in the order listed."""
    kept = [(answer, device) for answer, device in zip(answers, dump.devices, strict=True)
            if not is_storage(answer) and device.array not in dump.flash]
    if len(kept) != len(reading["slots"]):
        faults.append(f"{where}: {len(reading['slots'])} slots, dmidecode has {len(kept)}")
        return
    total = 0
    for (answer, device), slot in zip(kept, reading["slots"]):
        want = expected(answer, device)
        total += want["capacity_mib"] or 0
        if slot["handle"] != int(answer["Handle"], 16) or slot["handle"] != device.handle:
            faults.append(f"{where}: handle {slot['handle']}, dmidecode has {answer['Handle']}")
        for key in COMPARED:
            compared[key] += 1
            if slot[key] != want[key]:
                faults.append(f"{where} handle {answer['Handle']} {key}: got {slot[key]!r}, want {want[key]!r}")
    if reading["total_mib"] != total:
        faults.append(f"{where}: total {reading['total_mib']}, want {total}")


def not_in_text(dump, device):
    """Keys that the text cannot tell as the table does, for the reasons of told_by_put()."""
    out = set()
    for field in ("name", "bank", "maker", "serial", "part"):
        raw = device.put[field] or b""
        if any(byte < 32 or byte > 126 for byte in raw):
            out.add(field)
        if field in ("maker", "serial") and between(device, field, 0x1b):
            out.add(field)
    if device.type in (0x24, 0x25):  # <OUT OF SPEC>; a rate is snapped by the generation
        out |= {"generation", "kind", "rated_mts"}
    if device.form in (0x11, 0x12, 0x13) or device.technology == 8:
        out.add("kind")
    if device.speed == 0xffff and between(device, "extended_speed", 0x5c):
        out |= {"rated_raw", "rated_mts"}
    if between(device, "technology", 0x34):
        out |= {"state", "kind"}
    # Names with dots for letters are other names, and where a slot is follows from all of them.
    return out if dump.ascii_only else out | set(PLACES)


def check_text(where, dump, table, text):
    devices = {device.handle: device for device in dump.devices}
    if [slot["handle"] for slot in text["slots"]] != [slot["handle"] for slot in table["slots"]]:
        faults.append(f"{where}: the text gives other slots than the table")
        return
    for told, slot in zip(text["slots"], table["slots"]):
        for key in set(slot) - not_in_text(dump, devices[slot["handle"]]):
            compared["text " + key] += 1
            if told[key] != slot[key]:
                faults.append(f"{where} handle 0x{slot['handle']:04X} {key}: text {told[key]!r}, table {slot[key]!r}")


def write(folder, number_, dump):
    """The dump in its four forms: names of the inputs."""
    base = os.path.join(folder, f"d{number_}")
    os.mkdir(base)
    forms = {"dump": base + ".bin", "folder": base, "table": base + ".tab", "text": base + ".txt"}
    text = None
    for path, data in ((forms["dump"], dump.dump), (forms["table"], dump.table),
                       (os.path.join(base, "DMI"), dump.table), (os.path.join(base, "smbios_entry_point"), dump.entry)):
        with open(path, "wb") as file:
            file.write(data)
    text, answers = dmidecode(forms["dump"])
    with open(forms["text"], "w", encoding="ascii") as file:
        file.write(text)
    return forms, answers


def check_batch(numbers):
    with tempfile.TemporaryDirectory() as folder:
        made = []
        for n in numbers:
            dump = dumps.Dump(random.Random(f"{SEED}-{n}"))
            made.append((n, dump, *write(folder, n, dump)))
        inputs = [path for _, _, forms, _ in made for path in forms.values()]
        done = subprocess.run([CLI, "read", "--json", *inputs], capture_output=True, env=ENVIRONMENT, check=False)
        readings = iter(json.loads(line) for line in done.stdout.decode("utf-8").splitlines())
        if done.returncode != 0:
            faults.append(f"dumps {numbers}: exit status {done.returncode}: {done.stderr[:300]!r}")
        for n, dump, forms, answers in made:
            where, given = f"dump {SEED}-{n}", {form: next(readings) for form in forms}
            bad = [form for form, reading in given.items() if not reading["ok"]]
            if bad:
                faults.append(f"{where}: {bad[0]} not read: {given[bad[0]]['reason']}")
                continue
            check_dump(where, dump, answers, given["dump"])
            for form in ("folder", "table"):
                for key in ("slots", "total_mib", "board", "remarks"):
                    if given[form][key] != given["dump"][key]:
                        faults.append(f"{where}: {form} reads otherwise than the dump: {key}")
            check_text(where, dump, given["dump"], given["text"])


try:
    subprocess.run(["dmidecode", "--version"], capture_output=True, env=ENVIRONMENT, check=True)
except FileNotFoundError:
    print("dmidecode is not installed")
    sys.exit(77)
for start in range(FIRST, FIRST + COUNT, BATCH):
    check_batch(range(start, min(start + BATCH, FIRST + COUNT)))
print("\n".join(faults[:60]) if faults else f"random dumps: {COUNT} agree")
print(f"{sum(compared.values())} fields compared; excused:")
print("\n".join(f"  {count} {why}" for why, count in sorted(excused.items())))
sys.exit(1 if faults else 0)
