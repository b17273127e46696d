#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, runs every test. The last line counts them.
# tests/run.sh [FOLDER [MESON OPTION…]]: another build folder, as .ci/run does for the sanitizers.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/src/setup.sh"
need $build_packages $test_packages
cd "$top"
folder=${1:-_build}
[ $# -gt 0 ] && shift
configure "$folder" "$@"
meson compile -C "$folder" >"$folder/build.log" 2>&1 || { tail -n 30 "$folder/build.log" >&2; exit 1; }
# One more than there are cores: the tests of the window wait more than they reckon.
status=0
meson test -C "$folder" --no-rebuild --print-errorlogs --num-processes $(($(nproc) + 1)) || status=$?
/usr/bin/python3 tests/support/count.py "$folder/meson-logs/testlog.junit.xml"
exit "$status"
