#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The planner against brute force on many more random machines, with up to 200,000 fillings each, and
# a million random swaps on large boards that must not beat its front: hours on one core.
# tests/long/planner.sh [BUILD FOLDER] [LAST SEED]
# Resumable: blocks of seeds done stand in BUILD/planner.log and are not done again; delete it to
# start over. Exits 1 at the first front that differs; the log names the seed.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$top/_build}
last=${2:-50000}
export LC_ALL=C.UTF-8 LID_TEST_DATA="$top/tests/data" LID_SOURCE="$top" G_DEBUG=fatal-criticals
log=$build/planner.log
touch "$log"
run ()
{
  grep -qxF "done $1" "$log" && return 0
  shift_name=$1
  shift
  if ! said=$(env "$@" 2>&1); then
    printf 'FAILED %s\n%s\n' "$shift_name" "$said" | tee -a "$log" >&2
    exit 1
  fi
  printf '%s\ndone %s\n' "$(printf '%s\n' "$said" | grep '^#' | tail -n 2)" "$shift_name" >>"$log"
}
from=1
while [ "$from" -lt "$last" ]; do
  to=$((from + 499))
  run "seeds $from to $to" LID_SEED_FROM="$from" LID_SEED_TO="$to" LID_FILLINGS=200000 \
    "$build/tests/core/test-planner"
  from=$((to + 1))
done
run "a million swaps" LID_TRIES=1000000 "$build/tests/core/test-planner-large" -p /planner-large/attack
printf 'seeds up to %s and a million swaps: as agreed; see %s\n' "$last" "$log" | tee -a "$log"
