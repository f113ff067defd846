#!/bin/sh
# SPDX-License-Identifier: MIT
# What the calendar of a plan costs, from process start to exit: chosen for the first time, over the
# calendar of yesterday that still holds, and beside both `trug --version`, which is what starting the
# program costs. Instructions by callgrind, where they go, and time by hyperfine. Prints; asserts
# nothing. Needs valgrind and hyperfine.
# usage: sh tests/bench/calendar_bench.sh PROGRAM [PLAN]
set -eu
program=$1
plan=${2:-$(dirname "$0")/../../examples/harbour-office.toml}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
calendar="$program calendar $plan -o $folder/bench.ics --today 2026-06-01"

# Prints "NAME millions of instructions" of a command and keeps its profile.
instructions() {
  name=$1
  shift
  valgrind --tool=callgrind --callgrind-out-file="$folder/$name.profile" "$@" \
    >"$folder/log" 2>&1 || true
  sed -n 's/.*Collected : //p' "$folder/log" | awk -v name="$name" '{ printf "%-8s %7.1f\n", name, $1 / 1e6 }'
}

# The functions of trug that cost most, with what they call, in percent.
shares() {
  echo "$1: share of each, with what it calls"
  callgrind_annotate --inclusive=yes --threshold=100 "$folder/$1.profile" 2>/dev/null |
    sed -n 's/^ *[0-9,]* *(\( *[0-9.]*\)%) *[^ ]*:trug::\([^(]*\)(\(anonymous namespace)::\([^(]*\)\)\{0,1\}.*/\1 \2\4/p' |
    awk '!seen[$2]++ && $1 >= 2' | head -n "$2"
}

echo "millions of instructions"
# shellcheck disable=SC2086
instructions first $calendar
# shellcheck disable=SC2086
instructions holds $calendar
instructions version "$program" --version
shares first 30
shares holds 40
nproc | sed 's/$/ cores/'
hyperfine --shell=none --warmup 3 --prepare "rm -f $folder/bench.ics" "$calendar"
rm -f "$folder/bench.ics"
hyperfine --shell=none --warmup 3 "$calendar" "$program --version" "$program check $plan --today 2026-06-01" \
  "$program crop cornflower" true
