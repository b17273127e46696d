#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""stock: files written by Python's csv module (an RFC 4180 writer that is not ours), amounts written
as the monetary sections of glibc's locales have them (localedata/locales: de_DE, en_US, fr_FR,
de_CH, en_IN), read back and held against what was written. Reservations by command."""
import csv
import io
import json
import os
import random
import tempfile

from frame import check, leave, run

SEED = 20261128
# locale: thousands, decimal mark, what the heading may say, separator a spreadsheet there writes
LOCALES = {
    "de_DE": (".", ",", ["price EUR 0,00", "Price (EUR, decimal comma)"], ";"),
    "en_US": (",", ".", ["price USD 0.00", "PRICE (USD, decimal point)"], ","),
    "fr_FR": ("\u202f", ",", ["price EUR 0,00", "price [€] 1 234,00"], ";"),
    "de_CH": ("\u2019", ".", ["price CHF 0.00", "price in CHF, decimal point"], ";"),
    "en_IN": ("in", ".", ["price INR 0.00", "price ₹ 1.00"], ","),
    "old fr_FR": ("\u00a0", ",", ["price EUR 0,00"], "\t"),
}
BINS = ["A1", "shelf \"left\"", "two, three", "four; five", "six\r\nseven", "acht\u00a0neun", "'10", "=11"]
def group(whole, thousands):
    if thousands == "in":  # en_IN: grouping 3;2
        head, tail = str(whole)[:-3], str(whole)[-3:]
        parts = []
        while head:
            parts.insert(0, head[-2:])
            head = head[:-2]
        return ",".join(parts + [tail])
    return f"{whole:,}".replace(",", thousands)


def write_amount(minor, thousands, mark, rand):
    whole, part = divmod(minor, 100)
    text = group(whole, thousands) if rand.random() < 0.7 else str(whole)
    if part or rand.random() < 0.8:
        text += f"{mark}{part:02d}"
    return text


def one_file(folder, name, rand):
    thousands, mark, headings, separator = LOCALES[name]
    columns = ["part", "label", "quantity", rand.choice(headings), "bin", "remarks"]
    rand.shuffle(columns)
    wanted, out = {}, io.StringIO(newline="")
    writer = csv.writer(out, delimiter=separator, quoting=rand.choice([csv.QUOTE_MINIMAL, csv.QUOTE_ALL]),
                        lineterminator=rand.choice(["\r\n", "\n"]))
    writer.writerow(columns)
    for i in range(40):
        minor, quantity = rand.choice([rand.randrange(10 ** 3), rand.randrange(10 ** 9)]), rand.randrange(1, 3000)
        row = {"part": f"TRN-{i}", "label": rand.choice(["32g registered", "16g 2rx4 2933"]),
               "quantity": rand.choice([str(quantity), group(quantity, thousands)]),
               "bin": rand.choice(BINS), "remarks": "\"\n,;"}
        writer.writerow([row.get(c, write_amount(minor, thousands, mark, rand)) for c in columns])
        wanted[row["part"]] = (quantity, minor, " ".join(row["bin"].replace("\u00a0", " ").split("\r\n")))
    text = out.getvalue()
    if rand.random() < 0.3:
        text = f"sep={separator}\r\n" + text
    encoding = rand.choice(["utf-8", "utf-8-sig", "utf-16"])
    path = os.path.join(folder, "shelf.csv")
    with open(path, "wb") as file:
        file.write(text.encode(encoding))
    done = run("stock", "--json", path)
    answer = json.loads(done.stdout)
    if not answer["ok"] or answer["kept_out"]:
        check(f"{name} {encoding}: {answer['reason']} {answer.get('kept_out', [])[:2]}", False)
        return
    got = {kind["part"]: (kind["free"], kind["price_minor"], kind["bin"]) for kind in answer["kinds"]}
    check(f"{name}: {[(p, got.get(p), w) for p, w in wanted.items() if got.get(p) != w][:3]}", got == wanted)


def ambiguous(folder):
    """Without a declaration: 1,234 is refused with the remedy, and the remedy works."""
    path = os.path.join(folder, "a.csv")
    with open(path, "w", encoding="utf-8") as file:
        file.write("label;price EUR;quantity\n32g 3200 registered;1,234;4\n16g 3200 registered;12,50;4\n")
    done = run("stock", path)
    check("ambiguous exit", done.returncode == 0)
    check("ambiguous says", b"line 2 is kept out" in done.stderr and b"--decimal" in done.stderr)
    check("the rest is used", b"12.50 EUR" in done.stdout and b"32 GB" not in done.stdout)
    check("point", b"1234.00 EUR" in run("stock", "--decimal", "point", path).stdout)
    comma = run("stock", "--decimal", "comma", path)
    check("comma", b"finer than the smallest coin of EUR" in comma.stderr)
    done = run("stock", "--decimal", "dot", path)
    check("wrong word", done.returncode == 1 and b"comma or point" in done.stderr)
    with open(path, "w", encoding="utf-8") as file:
        file.write("label;price\n32g 3200 registered;12,50\n")
    done = run("stock", "--json", path)
    check("no currency", done.returncode == 2 and "--currency" in json.loads(done.stdout)["reason"])
    check("told", b"12.50 EUR" in run("stock", "--currency", "EUR", path).stdout)


with tempfile.TemporaryDirectory() as place:
    dice = random.Random(SEED)
    for turn in range(10):
        for locale in LOCALES:
            one_file(place, locale, dice)
    ambiguous(place)
    reserved = os.path.join(place, "shelf.csv.reserved")
    with open(reserved, "w", encoding="utf-8") as file:
        json.dump({"format": 1, "reserved": [{"job": "118", "part": "TRN-0", "count": 1}]}, file)
    shelf = os.path.join(place, "shelf.csv")
    check("reserved is listed", b"Reserved for job 118: 1 of TRN-0" in run("stock", shelf).stdout)
    check("release", json.loads(run("stock", "--json", "--release", "118", shelf).stdout)["released"] == 1)
    check("release is done", not os.path.exists(reserved))
    check("standard input", b"12.50 EUR" in run("stock", "-", input=b"label;price EUR\n32g 3200 registered;12,50\n").stdout)
    check("no file", run("stock", os.path.join(place, "none.csv")).returncode == 2)
    check("no argument", run("stock").returncode == 1)
leave()
