#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# random-actions.sh BUILD [SECONDS [SEED]]: hands that know nothing, ten minutes of them, in slices of
# a minute with a seed each. What is done stands in random-actions.log of the build folder: a run
# that was stopped goes on with its next slice; a finished one begins anew.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "${1:-$top/_build}" && pwd)
seconds=${2:-600}
log="$build/random-actions.log"
if [ -z "${3:-}" ] && grep -q '^begun ' "$log" 2>/dev/null && ! grep -q '^end' "$log"; then
  seed=$(sed -n 's/^begun .* seed //p' "$log")
  seconds=$(sed -n 's/^begun \([0-9]*\) .*/\1/p' "$log")
else
  seed=${3:-$(date +%s)}
  echo "begun $seconds seconds, seed $seed" >"$log"
fi
export LID_SOURCE="$top" LIDLEAF_PLATFORMS="$build/platforms" GTK_A11Y="${GTK_A11Y:-none}" \
  LC_ALL=C.UTF-8 G_DEBUG=fatal-criticals
slice=0
while [ $((slice * 60)) -lt "$seconds" ]; do
  length=$((seconds - slice * 60))
  [ "$length" -gt 60 ] && length=60
  slice=$((slice + 1))
  grep -q "^ok slice $slice " "$log" && continue
  part="$build/random-actions.$slice.log"
  status=0
  sh "$top/tests/app/headless.sh" "$build/tests/app/random-actions" "$length" \
    $((seed + slice)) >"$part" 2>&1 || status=$?
  if [ "$status" -ne 0 ]; then
    # Why first: a fatal message, or the signal, which headless.sh names; then what was done last,
    # and where it was in the program (random-trace.c).
    grep -E 'CRITICAL|ERROR|runtime error|ended by signal' "$part" | tail -n 5 >&2
    tail -n 100 "$part" >&2
    echo "not ok slice $slice, seed $((seed + slice)); its log: $part" >&2
    exit 1
  fi
  if grep -q 'GDK_IS_MONITOR' "$part"; then
    echo "# slice $slice: a popover had no monitor, once; what led to it:" >&2
    grep -E -A 100 'GDK_IS_MONITOR' "$part" | grep -E '^# [0-9]+:|^/' >&2 || true
  fi
  echo "ok slice $slice seed $((seed + slice)): $(sed -n 's/^ok 1 - //p' "$part")" | tee -a "$log"
done
echo end >>"$log"
