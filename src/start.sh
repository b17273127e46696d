#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# From a fresh checkout to the example job: installs what is missing, builds, and opens the example
# in the window; without a display it checks the example and writes its bench sheet and lid sheet.
set -eu
top=$(cd "$(dirname "$0")/.." && pwd)
. "$top/src/setup.sh"
need $build_packages
cd "$top"
configure _build
meson compile -C _build >_build/build.log 2>&1 || { tail -n 30 _build/build.log >&2; exit 1; }

if [ -n "${WAYLAND_DISPLAY:-}${DISPLAY:-}" ]; then
  # A copy: saving must not change the checkout.
  [ -e _build/example.lidleaf ] || cp resources/example.lidleaf _build/example.lidleaf
  exec "$top/_build/src/app/lidleaf" "$top/_build/example.lidleaf"
fi

cli=$top/_build/src/cli/lidleaf-cli
job=$top/resources/example.lidleaf
"$cli" check "$job" || [ $? -eq 3 ]
echo
"$cli" sheet --for bench -o "$top/_build/example-bench.pdf" "$job"
"$cli" sheet --for lid -o "$top/_build/example-lid.pdf" "$job"
