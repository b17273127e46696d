#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every byte of our own documents cut and changed, every value replaced by every wrong one: hours on
# one core under the sanitizers.
# tests/long/attack-documents.sh [BUILD FOLDER] [DOCUMENT OR INVENTORY…]
# Resumable: documents done stand in BUILD/attack-documents.log and are not done again; delete it to
# start over. Exits 1 at the first that is not survived; the log names the place.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$top/_build}
[ $# -gt 0 ] && shift
[ $# -gt 0 ] || set -- parts "$top"/platforms/*.json "$top/resources/example.lidleaf" \
  "$top"/tests/data/machines/*.bin "$top"/tests/data/machines/*.txt
export LC_ALL=C.UTF-8 LID_TEST_DATA="$top/tests/data" LID_SOURCE="$top" G_DEBUG=fatal-criticals
export LSAN_OPTIONS="suppressions='$top/.ci/lsan.supp':print_suppressions=0"
export UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1 ASAN_OPTIONS=abort_on_error=1
log=$build/attack-documents.log
touch "$log"
done=0 skipped=0
for file; do
  if grep -qxF "done $file" "$log"; then
    skipped=$((skipped + 1))
    continue
  fi
  if ! said=$("$build/tests/attack/attack-documents" --all "$file" 2>&1); then
    printf 'FAILED %s\n%s\n' "$file" "$said" | tee -a "$log" >&2
    exit 1
  fi
  printf '%s: %s\ndone %s\n' "$file" "$said" "$file" >>"$log"
  done=$((done + 1))
done
printf '%s documents done, %s were done before; see %s\n' "$done" "$skipped" "$log" | tee -a "$log"
