#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# kill.sh LIDLEAF JOB: inside headless.sh. A program is really killed with work not saved; what the
# next one offers and takes up is what was. The window's actions are called over the session bus, as
# the desktop calls them.
lidleaf=$1 example=$2
command -v gdbus >/dev/null 2>&1 || { echo "1..0 # SKIP no gdbus"; exit 0; }
folder=$(mktemp -d) n=0 bad=0 pid= pids=
# shellcheck disable=SC2086
trap 'kill -KILL $pids 2>/dev/null; rm -rf "$folder"' EXIT
export XDG_DATA_HOME="$folder/data" XDG_CONFIG_HOME="$folder/config" GTK_A11Y=none
kept="$XDG_DATA_HOME/lidleaf/recovery"
job="$folder/gauge.lidleaf"
cp "$example" "$job"

told () # told OK WHAT
{
  n=$((n + 1))
  if [ "$1" = 0 ]; then echo "ok $n - $2"; else echo "not ok $n - $2"; bad=1; fi
}

wait_for () # wait_for COMMAND…: up to 20 s
{
  i=0
  while ! "$@" >/dev/null 2>&1; do
    i=$((i + 1))
    [ $i -lt 200 ] || return 1
    sleep .1
  done
}

call () # call METHOD ARGUMENTS…: of the first window's actions
{
  method=$1; shift
  gdbus call --session --timeout 5 --dest org.lidleaf.Lidleaf \
    --object-path /org/lidleaf/Lidleaf/window/1 --method "org.gtk.Actions.$method" "$@"
}

enabled () { call Describe "$1" | grep -q '^((true'; }
disabled () { call Describe "$1" | grep -q '^((false'; }
act () { call Activate "$1" '[]' '{}' >/dev/null; }
files () { ls "$kept"/*.recovery 2>/dev/null; }
differ () { ! cmp -s "$1" "$2"; }
some () { [ -n "$(files)" ]; }
none () { [ -z "$(files)" ]; }

start () # start FILE…
{
  "$lidleaf" "$@" >"$folder/log" 2>&1 &
  pid=$! pids="$pids $!"
  wait_for call List
}

end () # end SIGNAL
{
  kill "-$1" "$pid"
  wait "$pid" 2>/dev/null
}

start "$job"
told $? "the program runs and shows the job"
disabled take-up
told $? "nothing is offered where nothing was left"
# Saved once, the file is written as this program writes it: from then on bytes can be compared.
wait_for enabled save && act save
wait_for differ "$job" "$example"
cp "$job" "$folder/saved"
act left-from-planned
wait_for some
told $? "an edit is kept by itself"
sed 1d "$(files)" >"$folder/before"
differ "$folder/before" "$folder/saved"
told $? "what is kept is not what is on disk"
end KILL
some
told $? "it outlives kill -KILL"
cmp -s "$job" "$folder/saved"
told $? "the job's own file is as it was"

start
wait_for enabled take-up
told $? "the next program offers it"
# A program on another bus, as another seat has, and the same home.
cp "$(files)" "$folder/first"
act take-up
wait_for enabled save
told $? "it is taken up"
dbus-run-session -- sh -c '"$0" >/dev/null 2>&1 & p=$!
  for i in 1 2 3 4 5 6 7 8 9 10 11 12 13 14 15 16 17 18 19 20; do
    sleep .2; gdbus call --session --dest org.lidleaf.Lidleaf \
      --object-path /org/lidleaf/Lidleaf/window/1 \
      --method org.gtk.Actions.Describe take-up 2>/dev/null && break; done; kill $p' "$lidleaf" \
  2>/dev/null | grep -q '^((false'
told $? "a second program does not take it from the first"
act save
wait_for cmp -s "$job" "$folder/before"
told $? "taken up and saved, the job is what it was before the kill, byte for byte"
wait_for none
told $? "saved, nothing is kept beside it"

wait_for enabled plan-from-found && act undo
act left-from-planned
act plan-from-found
end TERM
some
told $? "told to end in the middle of an edit, it keeps the edit first"
start
wait_for enabled take-up
told $? "and offers it too"
end TERM
some
told $? "what was only offered stays"
cmp -s "$job" "$folder/before"
told $? "the job's own file was not touched"
echo "1..$n"
exit $bad
