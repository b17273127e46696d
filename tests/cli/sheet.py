#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""sheet: an inventory in, pages out; exit statuses and JSON as product.md 11 says."""
import json
import os
import subprocess
import tempfile

from frame import check, leave, run as call

REPORT = """Handle 0x0010, DMI type 16, 23 bytes
Physical Memory Array
\tLocation: System Board Or Motherboard
\tUse: System Memory
\tError Correction Type: Multi-bit ECC
\tNumber Of Devices: 2

Handle 0x0011, DMI type 17, 40 bytes
Memory Device
\tArray Handle: 0x0010
\tTotal Width: 72 bits
\tData Width: 64 bits
\tSize: 16 GB
\tForm Factor: DIMM
\tLocator: DIMM_A1
\tBank Locator: NODE 0 CHANNEL 0 DIMM 0
\tType: DDR4
\tSpeed: 2666 MT/s

Handle 0x0012, DMI type 17, 40 bytes
Memory Device
\tArray Handle: 0x0010
\tSize: No Module Installed
\tForm Factor: DIMM
\tLocator: DIMM_B1
\tBank Locator: NODE 0 CHANNEL 1 DIMM 0
\tType: Unknown
"""
def run(*args, text=None):
    return call("sheet", *args, input=text.encode() if text else None)


with tempfile.TemporaryDirectory() as folder:
    source = os.path.join(folder, "tide.txt")
    with open(source, "w", encoding="utf-8") as file:
        file.write(REPORT)
    for suffix, magic in ((".pdf", b"%PDF-"), (".svg", b"<?xml"), (".png", b"\x89PNG")):
        out = os.path.join(folder, "sheet" + suffix)
        done = run("--for", "lid", "-o", out, source)
        check(suffix + " exit", done.returncode == 0)
        with open(out, "rb") as file:
            check(suffix + " magic", file.read().startswith(magic))
    done = run("-o", "-", "-", text=REPORT)
    check("stdout is a PDF", done.returncode == 0 and done.stdout.startswith(b"%PDF-"))
    out = os.path.join(folder, "a.pdf")
    done = run("--json", "-o", out, source)
    answer = json.loads(done.stdout)
    check("json", answer["ok"] is True and answer["file"] == out and answer["pages"] >= 1
          and answer["format"] == 1 and answer["reason"] is None)
    for args, status, words in (
            (("--for", "balance", "--half", "-o", out, source), 1, b"whole page"),
            (("--for", "roof", "-o", out, source), 1, b"roof"),
            (("--paper", "a5", "-o", out, source), 1, b"a5"),
            (("-o", os.path.join(folder, "x.doc"), source), 1, b".pdf, .svg or .png"),
            ((source,), 1, b"-o FILE"),
            (("-o", out), 1, b"one job or inventory"),
            (("-o", out, os.path.join(folder, "none.txt")), 2, b"none.txt"),
            (("-o", os.path.join(folder, "no", "x.pdf"), source), 1, b"x.pdf")):
        done = run(*args)
        check(" ".join(args), done.returncode == status and words in done.stderr)
    # The example has notes only: no heading without a line under it.
    example = os.path.join(os.environ["LID_SOURCE"], "resources", "example.lidleaf")
    page = os.path.join(folder, "example.pdf")
    check("example", run("-o", page, example).returncode == 0)
    try:
        words = subprocess.run(["pdftotext", page, "-"], capture_output=True, check=True).stdout
        check("the example's words", b"65536 MB" in words)
        check("no empty heading", b"Know of this plan" not in words)
    except FileNotFoundError:
        print("pdftotext is not installed: words left out")
    # For the owner: both sides, figures as product.md 6 defines them. As found: channels A, C of four
    # hold 32 and 16 GB at 2133 MT/s; 16 GB of A is read alone, so 48 GB take as long as 128 GB would
    # over four channels: 3/8. In GB/s: 3/8 of 4 x 2133 1/3 x 8 x 0.8.
    page = os.path.join(folder, "owner.pdf")
    check("balance", run("--for", "balance", "-o", page, example).returncode == 0)
    try:
        words = subprocess.run(["pdftotext", page, "-"], capture_output=True, check=True).stdout
        for said in ("48 GB", "64 GB", "2 of 4", "4 of 4", "38 %", "100 %", "20.5 GB/s",
                     "61.4 GB/s", "14 to 27 GB/s", "all alike", "3.0 times", "2133 MT/s",
                     "Fit 1 new module. Move 1 to another slot."):
            check("balance says " + said, said.encode() in words.replace(b"\n", b" "))
    except FileNotFoundError:
        print("pdftotext is not installed: words left out")
    check("nothing half-written", not any(name.startswith(("a.pdf.", ".a.pdf"))
                                          for name in os.listdir(folder)))
leave()
