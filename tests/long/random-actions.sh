#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# random-actions.sh BUILD [SECONDS [SEED]]: ten minutes of hands that know nothing.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "${1:-$top/_build}" && pwd)
export LID_SOURCE="$top" LIDLEAF_PLATFORMS="$build/platforms" GTK_A11Y=none LC_ALL=C.UTF-8
status=0
sh "$top/tests/app/headless.sh" "$build/tests/app/random-actions" "${2:-600}" "${3:-$(date +%s)}" \
  >"$build/random-actions.log" 2>&1 || status=$?
cat "$build/random-actions.log"
exit "$status"
