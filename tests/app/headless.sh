#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# headless.sh COMMAND…: runs it on a screen and a session bus of its own, with private folders;
# skipped where no such screen can be had.
command -v xvfb-run >/dev/null 2>&1 && command -v dbus-run-session >/dev/null 2>&1 || { echo "1..0 # SKIP no screen of its own: xvfb-run and dbus-run-session"; exit 0; }
XDG_RUNTIME_DIR=$(mktemp -d)
trap 'rm -rf "$XDG_RUNTIME_DIR"' EXIT
export XDG_RUNTIME_DIR
export XDG_CONFIG_HOME="$XDG_RUNTIME_DIR/config" XDG_DATA_HOME="$XDG_RUNTIME_DIR/data"
export GSK_RENDERER="${GSK_RENDERER:-cairo}" GDK_DEBUG="${GDK_DEBUG:-gl-disable}" GDK_BACKEND=x11
export GSETTINGS_BACKEND=memory NO_AT_BRIDGE=
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS SESSION_MANAGER
xvfb-run -a -s "-screen 0 ${LID_SCREEN:-1440x900x24} -nolisten tcp" dbus-run-session -- "$@"
