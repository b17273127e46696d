#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# headless.sh COMMAND…: runs it on a screen and a session bus of its own, with private folders;
# skipped where no such screen can be had.
if ! command -v Xvfb >/dev/null 2>&1 || ! command -v dbus-run-session >/dev/null 2>&1; then
  echo "1..0 # SKIP no screen of its own: Xvfb and dbus-run-session"
  exit 0
fi
XDG_RUNTIME_DIR=$(mktemp -d)
server=
# Waits for the server's end: one that is still closing takes the next one's socket with it.
close_screen ()
{
  if [ -n "$server" ]; then
    kill "$server" 2>/dev/null
    wait "$server" 2>/dev/null
  fi
  rm -rf "$XDG_RUNTIME_DIR"
}
trap close_screen EXIT
export XDG_RUNTIME_DIR
export XDG_CONFIG_HOME="$XDG_RUNTIME_DIR/config" XDG_DATA_HOME="$XDG_RUNTIME_DIR/data"
export GSK_RENDERER="${GSK_RENDERER:-cairo}" GDK_DEBUG="${GDK_DEBUG:-gl-disable}" GDK_BACKEND=x11
export GSETTINGS_BACKEND=memory NO_AT_BRIDGE=
unset WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS SESSION_MANAGER XAUTHORITY

# The server picks a free number itself and says it when it is ready: two runs beside each other, or
# one right after another, cannot meet on the same one.
mkfifo "$XDG_RUNTIME_DIR/number"
Xvfb -displayfd 3 -noreset -screen 0 "${LID_SCREEN:-1440x900x24}" -nolisten tcp \
  3>"$XDG_RUNTIME_DIR/number" >/dev/null 2>&1 &
server=$!
read -r number <"$XDG_RUNTIME_DIR/number" || number=
if [ -z "$number" ]; then
  echo "1..0 # SKIP no screen of its own: Xvfb did not start"
  exit 0
fi
export DISPLAY=":$number"
# The bus and what it starts say things of their own: only the command's words are the output.
status=0
# shellcheck disable=SC2016 # the inner shell's words
dbus-run-session -- sh -c 'exec "$@" 1>&4 4>&-' sh "$@" 4>&1 >&2 || status=$?
# A program that a signal ends says nothing itself, and neither does what ran it.
[ "$status" -le 128 ] || echo "# ended by signal $((status - 128)), $(kill -l $((status - 128)))" >&2
exit "$status"
