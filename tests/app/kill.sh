#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# kill.sh LIDLEAF SOURCE: inside headless.sh. A program is really killed with work not saved; what the
# next one offers and takes up is what was.
lidleaf=$1 example=$2/resources/example.lidleaf
. "$(dirname "$0")/bus.sh"
job="$folder/gauge.lidleaf"
cp "$example" "$job"

start "$lidleaf" "$job"
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

start "$lidleaf"
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
start "$lidleaf"
wait_for enabled take-up
told $? "and offers it too"
end TERM
some
told $? "what was only offered stays"
cmp -s "$job" "$folder/before"
told $? "the job's own file was not touched"
done_telling
