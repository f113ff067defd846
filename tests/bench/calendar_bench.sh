#!/bin/sh
# SPDX-License-Identifier: MIT
# From process start to exit: the calendar of an example, written anew each time, beside `true` as
# the cost of starting any program. Prints; asserts nothing. Needs hyperfine.
# usage: sh tests/bench/calendar_bench.sh PROGRAM [PLAN]
set -eu
program=$1
plan=${2:-$(dirname "$0")/../../examples/harbour-office.toml}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
nproc | sed 's/$/ cores/'
hyperfine --shell=none --warmup 3 --prepare "rm -f $folder/bench.ics" \
  "$program calendar $plan -o $folder/bench.ics --today 2026-06-01" \
  "$program check $plan --today 2026-06-01" "$program crop cornflower" true
