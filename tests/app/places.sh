#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# places.sh LIDLEAF SOURCE: inside headless.sh. The program finds its boards, settings and
# translations from any working directory, built or moved elsewhere; several files are several
# windows, and a second program hands its files to the first.
lidleaf=$(realpath "$1") source=$2
. "$(dirname "$0")/bus.sh"
build=$(dirname "$(dirname "$(dirname "$lidleaf")")")
report="$folder/tern.txt"
cp "$source/tests/data/machines/tern-w4.txt" "$report"
unset GSETTINGS_SCHEMA_DIR LANGUAGE
cd /

# What is read is kept, and tells which board was found.
exact () { some && grep -q '"match" : "exact"' "$(files)"; }

start "$lidleaf" "$report"
wait_for exact
told $? "built: the boards are found from any working directory"
end KILL
rm -f "$kept"/*

# Installed by hand in a place nobody configured.
tree="$folder/opt"
mkdir -p "$tree/bin" "$tree/share/lidleaf" "$tree/share/glib-2.0/schemas" \
  "$tree/share/locale/xx/LC_MESSAGES"
cp "$lidleaf" "$tree/bin"
cp -r "$build/platforms" "$tree/share/lidleaf"
cp "$build/resources/gschemas.compiled" "$tree/share/glib-2.0/schemas"
printf '%s\n' 'msgid ""' 'msgstr "Content-Type: text/plain; charset=UTF-8\n"' \
  'msgid "%s – Lidleaf"' 'msgstr "%s under the lid"' |
  msgfmt -o "$tree/share/locale/xx/LC_MESSAGES/lidleaf.mo" -
LANGUAGE=xx LC_ALL=C.UTF-8
export LANGUAGE LC_ALL
start "$tree/bin/lidleaf" "$report"
wait_for exact
told $? "moved: the boards are found beside the program"
wait_for xdotool search --name '^tern, not saved under the lid$'
told $? "moved: the translations are found beside the program"
geometry=$(xdotool search --name 'under the lid$' getwindowgeometry | sed -n 's/.*Geometry: //p')
[ "${geometry%x*}" -ge 1280 ]
told $? "moved: the settings are found beside the program ($geometry)"
end KILL
rm -f "$kept"/*
unset LANGUAGE

cp "$source/resources/example.lidleaf" "$folder/one.lidleaf"
cp "$source/resources/example.lidleaf" "$folder/two.lidleaf"
cd "$folder" || exit 1
start "$lidleaf" one.lidleaf two.lidleaf
wait_for enabled save
told $? "two files: the first has a window"
window=2
wait_for enabled save
told $? "two files: the second has one too"
cp one.lidleaf three.lidleaf
timeout 20 "$lidleaf" three.lidleaf
told $? "a second program hands its file over and ends"
window=3
wait_for enabled save
told $? "it is a window of the first, named from the second's working directory"
timeout 20 "$lidleaf" one.lidleaf
window=4
sleep 1 # the program that handed it over does not wait
! call List >/dev/null 2>&1
told $? "a file that is shown is not opened twice"
end TERM
none
told $? "nothing is kept of jobs that did not change"
done_telling
