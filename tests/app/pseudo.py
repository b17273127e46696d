#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""pseudo.py SOURCE POTFILES FOLDER STAMP: a language that nobody speaks, from the program's own texts:
each stands in ⟦ ⟧ and is a third longer. What the window shows without these marks was never offered
to a translator; what is cut off now is cut off in many a real language."""
import os
import re
import subprocess
import sys

KEYWORDS = ["_", "N_", "C_:1c,2", "NC_:1c,2", "ngettext:1,2", "g_dngettext:2,3", "g_dpgettext2:2c,3"]
HEADER = ('msgid ""\nmsgstr "Content-Type: text/plain; charset=UTF-8\\n"\n'
          '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n\n')


def longer(text):
    """Marks inside the line ends, which must stay where they are; padding in words, so that it wraps."""
    body = text.strip("\n")
    if not body:
        return text
    start = text[:len(text) - len(text.lstrip("\n"))]
    pad = "~" * max(1, len(body) * 3 // 10)
    words = " ".join(pad[i:i + 5] for i in range(0, len(pad), 5))
    return f"{start}⟦{body} {words}⟧{text[len(start) + len(body):]}"


def quoted(text):
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"').replace("\n", "\\n").replace(
        "\t", "\\t") + '"'


def unquoted(lines):
    joined = "".join(re.findall(r'"(.*)"', "\n".join(lines)))
    return re.sub(r"\\(.)", lambda m: {"n": "\n", "t": "\t"}.get(m[1], m[1]), joined)


def entries(pot):
    """Each message as a table of msgctxt, msgid, msgid_plural."""
    for block in pot.split("\n\n")[1:]:
        entry, key = {}, None
        for line in block.splitlines():
            if line.startswith("#"):
                if line.startswith("#,"):
                    entry["flags"] = line
                continue
            word = re.match(r"(\w+(?:\[\d\])?) ", line)
            key = word[1] if word else key
            entry.setdefault(key, []).append(line)
        if "msgid" in entry:
            yield {k: v if k == "flags" else unquoted(v) for k, v in entry.items()}


def main():
    source, potfiles, folder, stamp = sys.argv[1:5]
    pot = subprocess.run(
        ["xgettext", "--from-code=UTF-8", "--add-comments", "-D", source, "-f", potfiles, "-o", "-",
         *(f"--keyword={k}" for k in KEYWORDS), "--flag=g_strdup_printf:1:c-format",
         "--flag=g_string_append_printf:2:c-format"],
        check=True, capture_output=True, text=True).stdout
    out = [HEADER]
    n = 0
    for entry in entries(pot):
        n += 1
        if "flags" in entry:
            out.append(entry["flags"] + "\n")
        if "msgctxt" in entry:
            out.append(f"msgctxt {quoted(entry['msgctxt'])}\n")
        out.append(f"msgid {quoted(entry['msgid'])}\n")
        if "msgid_plural" in entry:
            out.append(f"msgid_plural {quoted(entry['msgid_plural'])}\n"
                       f"msgstr[0] {quoted(longer(entry['msgid']))}\n"
                       f"msgstr[1] {quoted(longer(entry['msgid_plural']))}\n\n")
        else:
            out.append(f"msgstr {quoted(longer(entry['msgid']))}\n\n")
    place = os.path.join(folder, "xx", "LC_MESSAGES")
    os.makedirs(place, exist_ok=True)
    subprocess.run(["msgfmt", "--check-format", "-o", os.path.join(place, "lidleaf.mo"), "-"],
                   input="".join(out), check=True, text=True)
    with open(stamp, "w", encoding="utf-8") as file:
        file.write(f"{n} texts\n")


main()
