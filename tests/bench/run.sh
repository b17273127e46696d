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
