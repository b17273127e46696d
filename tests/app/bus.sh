# SPDX-License-Identifier: GPL-3.0-or-later
# Sourced inside headless.sh by tests that run the program itself. Its actions are called over the
# session bus, as the desktop calls them; what a test says is TAP.
command -v gdbus >/dev/null 2>&1 || { echo "1..0 # SKIP no gdbus"; exit 0; }
folder=$(mktemp -d) n=0 bad=0 pid= pids=
# shellcheck disable=SC2086 # a list of words
trap 'kill -KILL $pids 2>/dev/null; rm -rf "$folder"' EXIT
export XDG_DATA_HOME="$folder/data" XDG_CONFIG_HOME="$folder/config" GTK_A11Y=none
unset LIDLEAF_PLATFORMS
kept="$XDG_DATA_HOME/lidleaf/recovery"

told () # told OK WHAT
{
  n=$((n + 1))
  if [ "$1" = 0 ]; then echo "ok $n - $2"; else echo "not ok $n - $2"; bad=1; fi
}

done_telling () { echo "1..$n"; exit $bad; }

wait_for () # wait_for COMMAND…: up to 20 s
{
  i=0
  while ! "$@" >/dev/null 2>&1; do
    i=$((i + 1))
    [ $i -lt 200 ] || return 1
    sleep .1
  done
}

call () # call METHOD ARGUMENTS…: of the actions of window $window, the first if not set
{
  method=$1; shift
  gdbus call --session --timeout 5 --dest org.lidleaf.Lidleaf \
    --object-path "/org/lidleaf/Lidleaf/window/${window:-1}" --method "org.gtk.Actions.$method" "$@"
}

enabled () { call Describe "$1" | grep -q '^((true'; }
disabled () { call Describe "$1" | grep -q '^((false'; }
act () { call Activate "$1" '[]' '{}' >/dev/null; }
files () { ls "$kept"/*.recovery 2>/dev/null; }
differ () { ! cmp -s "$1" "$2"; }
some () { [ -n "$(files)" ]; }
none () { [ -z "$(files)" ]; }

start () # start PROGRAM FILE…
{
  "$@" >"$folder/log" 2>&1 &
  pid=$! pids="$pids $!"
  wait_for call List
}

end () # end SIGNAL
{
  kill "-$1" "$pid"
  wait "$pid" 2>/dev/null
}
