# SPDX-License-Identifier: GPL-3.0-or-later
"""What can be changed in a file of C, and one source that holds every change behind a switch.

Each mutant is a copy of the function it changes, under a name of its own; the function's own name
asks the global lid_mutant which copy is meant. So one compilation serves all mutants, and a mutant
costs no more than the tests that are run against it. What lies outside functions (tables) cannot be
switched: it is compiled alone."""
import functools
import hashlib
import os
import re
from collections import namedtuple

TOP = os.path.dirname(os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
CHANGES = [(r"==", "!="), (r"!=", "=="), (r"<=", "<"), (r">=", ">"),
           (r"(?<=\s)<(?=\s)", "<="), (r"(?<=\s)>(?=\s)", ">="), (r"&&", "||"), (r"\|\|", "&&"),
           (r"(?<=\s)\+(?=\s)", "-"), (r"(?<=\s)-(?=\s)", "+"), (r"(?<=\s)\*(?=\s)", "/"),
           (r"(?<=\s)/(?=\s)", "*"), (r"(?<=\s)%(?=\s)", "*"), (r"\+=", "-="),
           (r"\bTRUE\b", "FALSE"), (r"\bFALSE\b", "TRUE"),
           (r"\bMIN \(", "MAX ("), (r"\bMAX \(", "MIN ("), (r"(?<![\w.\"-])1(?![\w.])", "2"),
           (r"(?<![\w.\"])0(?![\w.])", "1")]
# Declarations (those of scope and lasting have a test of their own, on random populations), guards
# for programmers, texts, what only reserves room.
SKIP = re.compile(r"^\s*(#|/\*|\*|g_assert|G_STATIC_ASSERT|g_return|static const char|const char \*|\.(id|title|why|"
                  r"clears|source|basis|no_moves|grades|facts|cures|stops|lasting|scope)\b|\[LID_)"
                  r"|g_new|g_malloc|g_array_(sized_)?new|memset|\{ \{ 0 \} \}|= \{ 0 \}|\} else")

# One change: @line counts from 0, @start and @end are columns of it.
Mutant = namedtuple("Mutant", "path line start end new")
# A function: @first is the line of its return type, @brace of "{", @last of "}".
Function = namedtuple("Function", "name first brace last")


@functools.lru_cache(maxsize=None)
def lines_of(path):
    with open(os.path.join(TOP, path), encoding="utf-8") as file:
        return file.read().split("\n")


def mutants_of(path):
    """Every change of a file. A multi-line comment is passed over."""
    inside = False
    for number, line in enumerate(lines_of(path)):
        if inside or SKIP.search(line):
            inside = ("/*" in line or inside) and "*/" not in line
            continue
        code = re.sub(r'"(\\.|[^"\\])*"|/\*.*?\*/', lambda m: "\0" * len(m.group()), line)
        if "/*" in code:
            inside = True
            code = code[:code.index("/*")]
        if "\0" in code and re.match(r"^\s*[,\0\s);:?]*$", code):
            continue
        for pattern, new in CHANGES:
            for found in re.finditer(pattern, code):
                yield Mutant(path, number, found.start(), found.end(), new)
        found = re.match(r"^\s*(?:else )?if \((.*)\)$", code)
        if found and found.group(1).count("(") == found.group(1).count(")"):
            yield Mutant(path, number, found.start(1), found.end(1),
                         "!(" + line[found.start(1):found.end(1)] + ")")


def made(mutant):
    """The line as the mutant has it."""
    line = lines_of(mutant.path)[mutant.line]
    return line[:mutant.start] + mutant.new + line[mutant.end:]


@functools.lru_cache(maxsize=None)
def functions_of(path):
    """GNU layout: the name and both braces of a body stand in column 0."""
    lines, found = lines_of(path), []
    for brace, line in enumerate(lines):
        if line != "{" or not lines[brace - 1].endswith(")"):
            continue
        named = brace - 1
        while not re.match(r"\w+ \(", lines[named]):
            named -= 1
        first = named
        while first > 0 and re.match(r"[\w]", lines[first - 1]):
            first -= 1
        last = lines.index("}", brace)
        found.append(Function(re.match(r"\w+", lines[named])[0], first, brace, last))
    return found


def function_of(mutant):
    """None: it lies in a table, or in a function that takes any number of arguments."""
    for function in functions_of(mutant.path):
        if function.brace < mutant.line < function.last:
            head = "".join(lines_of(mutant.path)[function.first:function.brace])
            return None if "..." in head else function
    return None


def key_of(mutant):
    """Names a mutant as long as its function reads as it does, wherever that stands in the file."""
    lines, function = lines_of(mutant.path), function_of(mutant)
    first, last = (function.first, function.last) if function else (0, len(lines))
    sha = hashlib.sha256("\n".join(lines[first:last + 1]).encode()).hexdigest()[:12]
    return (mutant.path, f"{function.name if function else '-'} {sha}", str(mutant.line - first),
            f"{mutant.start}:{mutant.new}")


def arguments(head, name):
    """The names of a function's arguments."""
    inside, depth, words = head[head.index(name + " (") + len(name) + 2:head.rindex(")")], 0, [""]
    for c in inside:
        depth += (c in "([") - (c in ")]")
        if c == "," and depth == 0:
            words.append("")
        else:
            words[-1] += c
    words = [re.sub(r"\[.*\]", "", word).strip() for word in words]
    if words == ["void"]:
        return []
    return [(re.search(r"\(\*\s*(\w+)\)", word) or re.search(r"(\w+)$", word))[1] for word in words]


def switched(path, numbered):
    """The source with copies. @numbered: (number, mutant) of functions of this file. A fault the
    compiler finds in a copy is told of a file named mutant-N."""
    lines, out, at = lines_of(path), ["extern int lid_mutant;"], 0
    for function in functions_of(path):
        mine = [(n, m) for n, m in numbered if function.brace < m.line < function.last]
        if not mine:
            continue
        out += lines[at:function.first]
        at = function.last + 1
        head = lines[function.first:function.brace]
        bare = "\n".join(head)

        def copy(name, body):
            renamed = re.sub(rf"^{function.name} \(", f"{name} (", bare, flags=re.M)
            return [renamed if renamed.startswith("static") else "static " + renamed, *body]

        body = lines[function.brace:at]
        given = ", ".join(arguments(bare, function.name))
        out += [bare + ";", f'# 1 "{path}"'] + copy(function.name + "__0", body)
        for n, mutant in mine:
            changed = list(body)
            changed[mutant.line - function.brace] = made(mutant)
            out += [f'# 1 "mutant-{n}"'] + copy(f"{function.name}__{n}", changed)
        out += [f'# 1 "{path}"', bare, "{", "  switch (lid_mutant)", "    {"]
        out += [f"    case {n}: return {function.name}__{n} ({given});" for n, _ in mine]
        out += [f"    default: return {function.name}__0 ({given});", "    }", "}"]
    return "\n".join(out + lines[at:])


def alone(mutant):
    """The source with that one change."""
    lines = list(lines_of(mutant.path))
    lines[mutant.line] = made(mutant)
    return "\n".join(lines)
