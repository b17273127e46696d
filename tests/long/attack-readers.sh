#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every byte of every input there is, cut and changed: hours on one core under the sanitizers.
# tests/long/attack-readers.sh [BUILD FOLDER] [FOLDER WITH SAMPLES…]
# Resumable: files done stand in BUILD/attack-readers.log and are not done again; delete it to start
# over. Exits 1 at the first input that crashes, hangs or is read wrongly; the log names it.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=${1:-$top/_build}
[ $# -gt 0 ] && shift
[ $# -gt 0 ] || set -- "$top/tests/data/smbios" "$top/tests/data/report" \
  "$top/../shared/data/smbios" "$top/../shared/data/gen/samples" \
  "$top/../shared/data/machines" "$top/../shared/data/machines-other-forms"
export LC_ALL=C.UTF-8 LID_TEST_DATA="$top/tests/data" LID_SHARED="$top/../shared"
log=$build/attack-readers.log
touch "$log"
done=0 skipped=0
for folder in "$@"; do
  [ -d "$folder" ] || continue
  for file in "$folder"/*.bin "$folder"/*.txt; do
    [ -f "$file" ] || continue
    if grep -qxF "done $file" "$log"; then
      skipped=$((skipped + 1))
      continue
    fi
    if ! said=$("$build/tests/attack/attack-readers" --every-byte "$file" 2>&1); then
      printf 'FAILED %s\n%s\n' "$file" "$said" | tee -a "$log" >&2
      exit 1
    fi
    printf '%s: %s\n' "$file" "$said" >>"$log"
    printf 'done %s\n' "$file" >>"$log"
    done=$((done + 1))
  done
done
printf '%s files done, %s were done before; see %s\n' "$done" "$skipped" "$log" | tee -a "$log"
