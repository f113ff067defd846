#!/bin/sh
# SPDX-License-Identifier: MIT
# The two versions of two_versions.sh through programs with windows: Thunderbird (a second import
# stops), Evolution's store (replaces), GNOME Calendar (a second import does nothing) and KOrganizer
# (a merge keeps both); all follow a subscription. README's table, "Into a phone", says the same.
# Each has a screen, a home and a session of its own, and asks nothing but this computer.
# usage: programs.sh TRUG SOURCE_DIR [PICTURES]   with PICTURES, a folder, the screens are kept there
# A missing tool fails the test.
set -eu
[ $# -ge 2 ] || { echo "usage: programs.sh TRUG SOURCE_DIR [PICTURES]" >&2; exit 2; }
trug=$1
pictures=${3:-}
. "$2/tests/interop/readers_common.sh"
. "$2/tests/interop/two_versions.sh"
readers=$2/tests/interop
for tool in Xvfb dbus-run-session import xdotool gdbus thunderbird gnome-calendar korganizer \
  akonadictl; do
  command -v "$tool" >/dev/null ||
    { echo "missing: $tool: sh tests/run.sh --all installs it" >&2; exit 1; }
done
"$python" -c 'import gi, icalendar; gi.require_version("ECal", "2.0")'
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

two_versions
for version in 1 2; do
  "$python" "$readers/read_calendar.py" "$work/v$version.ics" >"$work/v$version.json"
done

# screen_run FOLDER COMMAND...: on a screen and in a session of its own, with FOLDER for its home.
screen_run() {
  folder=$1
  shift
  mkdir -m 700 -p "$folder/home" "$folder/run"
  (
    unset XDG_CONFIG_HOME XDG_DATA_HOME XDG_CACHE_HOME DBUS_SESSION_BUS_ADDRESS WAYLAND_DISPLAY
    export HOME="$folder/home" XDG_RUNTIME_DIR="$folder/run" LC_ALL=C.UTF-8 TZ=Europe/London
    export GSETTINGS_BACKEND=memory LIBGL_ALWAYS_SOFTWARE=1 NO_AT_BRIDGE=1
    mkfifo "$folder/display"
    Xvfb -displayfd 3 -screen 0 1280x900x24 -nolisten tcp 3<>"$folder/display" 2>"$folder/xvfb.log" &
    xvfb=$!
    read -r number <"$folder/display"
    DISPLAY=:$number timeout 300 dbus-run-session -- "$@" >"$folder/log" 2>&1 || status=$?
    kill "$xvfb"
    exit "${status:-0}"
  ) || { cat "$folder/log" >&2; exit 1; }
  [ -z "$pictures" ] || for picture in "$folder"/*.png; do
    cp "$picture" "$pictures/$(basename "$folder")-$(basename "$picture")"
  done
}

# try PROGRAM: its driver, then what it held, as JSON.
try() {
  mkdir "$work/$1"
  screen_run "$work/$1" "$python" "$readers/program_$1.py" "$work/$1" "$work/v1.ics" "$work/v2.ics"
  for kept in "$work/$1"/*-[12].ics; do
    "$python" "$readers/read_calendar.py" "$kept" >"${kept%.ics}.json"
  done
}

# said FILE WORDS: the program must have said why; that nothing changed could have other causes.
said() {
  grep -q "$2" "$1" || { echo "$1 does not say: $2" >&2; cat "$1" >&2; exit 1; }
}

echo "Thunderbird: a second import stops at the first event it knows; a subscription follows."
try thunderbird
for kept in import-1 import-2 feed-1; do after_first "$work/thunderbird/$kept.json"; done
said "$work/thunderbird/import-2.txt" 'stopped: ID already exists'
after 12 "$work/thunderbird/feed-2.json"

echo "Evolution's store replaces; GNOME Calendar's second import does nothing; a subscription follows."
try gnome
for kept in evolution-1 gnome-1 gnome-2 feed-1; do after_first "$work/gnome/$kept.json"; done
said "$work/gnome/gnome-calendar.log" 'Error creating events: .*Object ID already exists'
for kept in evolution-2 feed-2; do after 12 "$work/gnome/$kept.json"; done

echo "KOrganizer: a second merge keeps both; a file added as a calendar, and a link, are followed."
try korganizer
for kept in import-1 file-1 feed-1; do after_first "$work/korganizer/$kept.json"; done
"$python" "$readers/doubled.py" "$work/korganizer/import-2.json" "$work/v1.json" "$work/v2.json"
for kept in file-2 feed-2; do after 12 "$work/korganizer/$kept.json"; done
