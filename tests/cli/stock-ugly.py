#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""stock-ugly: shelves as spreadsheet programs of three countries leave them, byte by byte; invented.
What a byte means is Python's own codecs' word (cp1252, latin-1, utf-16), how amounts are written that
of glibc's locales de_DE, fr_FR, en_US (localedata/locales); the rest common practice, no source. Each
file says what has to be read: part to quantity, price in cents, bin; and which lines are kept out."""
import json
import os
import tempfile

from frame import check, leave, run

R32, R16 = "32GB 2Rx4 PC4-3200AA-RB2-12", "16GB 2Rx8 PC4-3200AA-RE2-12"
DE = f"Teilenummer;Etikett;Menge;Preis EUR 0,00;Fach\r\nT-32;{R32};1.200;1.084,50 €;Fächer 3\r\nT-16;{R16};4;54,00;A10\r\n"
FR = (f"référence;étiquette;quantité;prix (EUR, virgule décimale);casier\r\nT-32;{R32};1 200;1 084,50 €;Étage 3\r\n"
      f"T-16;{R16};4;54,00;A10\r\n")
US = f"part,label,quantity,price USD 0.00,bin\r\nT-32,{R32},\"1,200\",\"$1,084.50\",Aisle 3\r\nT-16,{R16},4,54.00,A10\r\n"


def both(name):
    return {"T-32": (1200, 108450, name), "T-16": (4, 5400, "A10")}


# name, bytes, currency, what is read, lines kept out, whether the encoding was assumed
# Every byte of Windows-1252 that is a letter or a sign.
ALL = "".join(bytes([b]).decode("cp1252") for b in range(0x80, 0x100)
              if b not in (0x81, 0x8d, 0x8f, 0x90, 0x9d, 0xa0, 0xad))
FILES = [
    ("every byte of Windows-1252", DE.replace("Fächer 3", ALL).encode("cp1252"), "EUR", both(ALL), [], True),
    ("de, UTF-8 with BOM", DE.encode("utf-8-sig"), "EUR", both("Fächer 3"), [], False),
    ("de, UTF-16 LE", b"\xff\xfe" + DE.encode("utf-16-le"), "EUR", both("Fächer 3"), [], False),
    ("de, UTF-16 BE", b"\xfe\xff" + DE.encode("utf-16-be"), "EUR", both("Fächer 3"), [], False),
    ("de, Windows-1252", DE.encode("cp1252"), "EUR", both("Fächer 3"), [], True),
    ("de, Latin-1, the sign as letters", DE.replace("€", "EUR").encode("latin-1"), "EUR", both("Fächer 3"), [], True),
    ("de, Latin-9: its € is another sign, kept out", DE.encode("iso8859-15"), "EUR",
     {"T-16": (4, 5400, "A10")}, [2], True),
    ("de, a quoted line end, trailing empty columns, empty last lines",
     (DE.replace("Fächer 3", '"Fächer 3\r\noben"').replace("Fach\r\n", "Fach;;;\r\n").replace("A10\r\n", "A10;;;\r\n")
      + ";;;;;;;\r\n;;;;;;;\r\n\r\n\r\n").encode("utf-8"), "EUR", both("Fächer 3 oben"), [], False),
    ("de, tabs", DE.replace(";", "\t").encode("cp1252"), "EUR", both("Fächer 3"), [], True),
    ("de, sep= and a BOM", ("sep=;\r\n" + DE).encode("utf-8-sig"), "EUR", both("Fächer 3"), [], False),
    ("de, sep= and old line ends alone", ("sep=;\r\n" + DE).replace("\r\n", "\r").encode(), "EUR", both("Fächer 3"), [], False),
    ("de, empty lines above the headings are lines of the file", ("\r\n\r\n" + DE + f"T-9;{R16};viel;1,00;B1\r\n").encode(),
     "EUR", both("Fächer 3"), [6], False),
    ("de, comma in words, money before the figure",
     DE.replace("Preis EUR 0,00", "Preis in EUR, Dezimalkomma").replace("1.084,50 €", "€ 1.084,50").encode(), "EUR",
     both("Fächer 3"), [], False),
    ("de, other words for the same, Punkt",
     (f"Teilenummer;Etikett;Anzahl;Preis je Stück EUR Dezimalpunkt;Gutschrift EUR Punkt;Lagerplatz\r\nT-32;{R32};1200;1084.50;9.00;Fach 3\r\n"
      f"T-16;{R16};4;54.00;;A10\r\nT-16;{R16};4;54.00;viel;A10\r\n").encode(), "EUR", both("Fach 3"), [4], False),
    ("de, GROSS, Komma", DE.replace("Preis EUR 0,00", "PREIS JE STÜCK (EUR, KOMMA)").encode(), "EUR", both("Fächer 3"), [], False),
    ("fr, other words for the same",
     (f"RÉFÉRENCE;étiquette;QUANTITÉ;prix unitaire en EUR, virgule;avoir EUR;emplacement\r\nT-32;{R32};1200;1084,50;9,00;Étage 3\r\n"
      f"T-16;{R16};4;54,00;;A10\r\nT-16;{R16};4;54,00;peu;A10\r\n").encode(), "EUR", both("Étage 3"), [4], False),
    ("us, each unit, and figures parted by blanks wide as a figure",
     US.replace("price USD", "price each unit USD").replace('"1,200"', "1\u2007200").replace('"$1,084.50"', "1'084.50").encode(), "USD", both("Aisle 3"), [], False),
    ("fr, plain blanks, UTF-8", FR.encode(), "EUR", both("Étage 3"), [], False),
    ("fr, no-break blanks, Windows-1252",
     FR.replace("1 200", "1\u00a0200").replace("1 084,50 €", "1\u00a0084,50\u00a0€").encode("cp1252"), "EUR",
     both("Étage 3"), [], True),
    ("fr, narrow no-break blanks, UTF-16",
     FR.replace("1 200", "1\u202f200").replace("1 084,50 €", "1\u202f084,50\u202f€").encode("utf-16"), "EUR",
     both("Étage 3"), [], False),
    ("fr, decomposed accents in the bin stay a bin", FR.replace("Étage", "E\u0301tage").encode(), "EUR",
     both("E\u0301tage 3"), [], False),
    ("us, quoted everything", "".join(
        ",".join(f'"{cell}"' for cell in line) + "\r\n" for line in (
            ("part", "label", "quantity", "price USD 0.00", "bin"), ("T-32", R32, "1,200", "$1,084.50", "Aisle 3"),
            ("T-16", R16, "4", "54.00", "A10"))).encode(), "USD", both("Aisle 3"), [], False),
    ("us, thin and apostrophe thousands of visitors",
     US.replace('"1,200"', "1\u2009200").replace("$1,084.50", "1\u2019084.50 $").encode(), "USD", both("Aisle 3"), [], False),
    ("us, an unquoted comma in an amount costs its row", US.replace('"$1,084.50"', "$1,084.50").encode(), "USD",
     {"T-16": (4, 5400, "A10")}, [2], False),
    ("us, doubled quotes in the bin, last line without an end", US.replace("Aisle 3", '"Aisle ""3"""').rstrip().encode(),
     "USD", both('Aisle "3"'), [], False),
    # Headings as trade programs of the three countries print them (common practice, no source).
    ("de, Warenwirtschaft", DE.replace("Teilenummer;Etikett;Menge;Preis EUR 0,00;Fach", "Artikelnummer;Bezeichnung;Bestand;Stückpreis (EUR);Lagerort").replace("1.200", "1200")
     .encode("cp1252"), "EUR", both("Fächer 3"), [], True),
    ("fr, gestion", FR.replace("référence;étiquette;quantité;prix (EUR, virgule décimale);casier", "Réf.;Désignation;Qté;Prix unitaire (€);Rayon")
     .encode(), "EUR", both("Étage 3"), [], False),
    ("us, inventory", US.replace("part,label,quantity,price USD 0.00,bin", "SKU,Description,On Hand,Unit Price (USD),Location").replace('"1,200"', "1200").encode(), "USD",
     both("Aisle 3"), [], False),
    ("us, a description beside the label gives way, before it or behind", US.replace("part,label,quantity,price USD 0.00,bin",
     "SKU,label,quantity,price USD 0.00,bin,description,part").replace("T-32,", "ignored,").replace("T-16,", "ignored,")
     .replace("Aisle 3", "Aisle 3,nothing,T-32").replace("A10", "A10,nothing,T-16").encode(), "USD", both("Aisle 3"), [], False),
    ("us, of two other names the first counts", US.replace("part,label,quantity,price USD 0.00,bin",
     "part,description,quantity,price USD 0.00,bin,designation").replace("Aisle 3", "Aisle 3,nothing").encode(), "USD", both("Aisle 3"), [], False),
    ("us, a total below the table is kept out", (US + ",,,\"$1,305,798.00\",\r\nTotal,,1204,,\r\n").encode(), "USD",
     both("Aisle 3"), [4, 5], False),
]
with tempfile.TemporaryDirectory() as place:
    path = os.path.join(place, "shelf.csv")
    for name, data, currency, wanted, kept_out, assumed in FILES:
        with open(path, "wb") as file:
            file.write(data)
        done = run("stock", "--json", path)
        answer = json.loads(done.stdout)
        if not answer["ok"]:
            check(f"{name}: {answer['reason']}", False)
            continue
        got = {k["part"]: (k["free"], k["price_minor"], k["bin"]) for k in answer["kinds"]}
        check(f"{name}: {got}, not {wanted}", got == wanted)
        check(f"{name}: {answer['currency']}", answer["currency"] == currency)
        check(f"{name}: kept out {answer['kept_out']}", [k["line"] for k in answer["kept_out"]] == kept_out)
        check(f"{name}: assumed {answer['encoding_assumed']}", answer["encoding_assumed"] == assumed)
        said = run("stock", path).stderr
        check(f"{name}: it is said", (b"Windows-1252" in said) == assumed)
    # A column of prices that nobody understands is said; a shelf without prices is one.
    for head, said in ((b"label,quantity,cost each", "\u201ccost each\u201d"), (b"label,quantity", ""), (b"label,quantity,price EUR,cost each", "")):
        with open(path, "wb") as file:
            file.write(head + b"\n32g 3200 registered,4,20.00,3\n")
        told = run("stock", path).stderr.decode()
        check(f"prices not understood: {told}", (said in told) == bool(said) or not said and "headed" not in told)
        check(f"prices not understood, remedy: {told}", ("headed \u201cprice\u201d" in told) == bool(said))
    # What is text in no encoding of these: told with its line and the remedy.
    with open(path, "wb") as file:
        file.write(b"label;quantity\n32g 3200 registered;4\n\x81\x8d;1\n")
    done = run("stock", path)
    check("no encoding of these", done.returncode == 2 and b"line 3" in done.stderr and b"UTF-8" in done.stderr)
    with open(path, "wb") as file:
        file.write(b"label;quantity\n32g 3200 registered;\0004\n")
    done = run("stock", path)
    check("no text", done.returncode == 2 and b"zero bytes" in done.stderr)
    check("twenty and more", len(FILES) >= 20)
leave()
