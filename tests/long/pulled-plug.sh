#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# pulled-plug.sh BUILD [TIMES [SEED]]: the plug pulled while plans are taken and modules put by, 2,000
# times; CI takes 60. What it did stands in pulled-plug.log of the build folder.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
build=$(cd "${1:-$top/_build}" && pwd)
export LID_SOURCE="$top" LIDLEAF_PLATFORMS="$build/platforms" LC_ALL=C.UTF-8
/usr/bin/python3 "$top/tests/cli/pulled-plug.py" "$build/src/cli/lidleaf-cli" "${2:-2000}" \
  "${3:-$(date +%s)}" >"$build/pulled-plug.log" 2>&1 || { cat "$build/pulled-plug.log"; exit 1; }
cat "$build/pulled-plug.log"
