#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every bench, in one run of a release build: medians, and ratios against a reference beside each.
set -eu
top=$(cd "$(dirname "$0")/../.." && pwd)
. "$top/src/setup.sh"
need $build_packages $test_packages
cd "$top"
configure _rel -Dbuildtype=release
meson compile -C _rel >_rel/build.log 2>&1 || { tail -n 30 _rel/build.log >&2; exit 1; }
meson test -C _rel --benchmark --no-rebuild --verbose 2>&1 |
  grep -vE '^(INFO|$)|^[0-9]+/[0-9]+|^>>>|^(Ok|Expected Fail|Fail|Unexpected Pass|Skipped|Timeout): |Full log'

# The window, on a screen and a bus of its own.
buildtype=$(meson introspect _rel --buildoptions | tr '{' '\n' | grep '"name": "buildtype"' | sed 's/.*"value": "\([a-z]*\)".*/\1/')
echo "window, build type $buildtype"
LID_SCREEN=2560x1440x24 LID_SOURCE=$top sh tests/app/headless.sh /usr/bin/python3 tests/bench/bench-window.py _rel
