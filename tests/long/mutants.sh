#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# mutants.sh BUILD [OPTION…]: every mutant of core/checks and core/figures; an hour or two on two cores.
# Stops where it is stopped and goes on there: the table is BUILD/mutants/table.tsv. Options are
# those of mutants.py: --files 'rule-*.c' looks at some files, --sample 100 at some mutants.
set -eu
build=${1:?usage: mutants.sh BUILD [OPTION…]}
shift
top=$(cd "$(dirname "$0")/../.." && pwd)
meson compile -C "$build" >/dev/null
exec nice /usr/bin/python3 "$top/tests/long/mutants.py" "$build" "$@"
