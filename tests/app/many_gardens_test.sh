#!/bin/sh
# SPDX-License-Identifier: MIT
# The list of plans on the standard input, and examples/many-gardens/ with two shards: the same bytes
# as in one run. Needs GNU parallel.
# usage: sh many_gardens_test.sh PROGRAM SOURCE_FOLDER
set -eu
program=$1
source=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
mkdir plans whole shards
for i in 1 2 3 4 5 6 7; do
  sed "s/51d1f7a2c9e4/51d1f7a2c9e$i/; s/^length_m = 0\.9/length_m = 0.$i/" \
    "$source/examples/harbour-office.toml" >"plans/office $i.toml"
done
find plans -name '*.toml' | sort >list
printf '\r\n' >>list # a blank line, of another system

"$program" calendar --today 2026-06-01 --out-dir whole - <list >told 2>/dev/null
[ "$(wc -l <told)" = 7 ]
TRUG="$program" sh "$source/examples/many-gardens/update.sh" list shards --today 2026-06-01 \
  >/dev/null 2>&1
for i in 1 2 3 4 5 6 7; do
  # The minute of writing aside.
  for way in whole shards; do
    tr -d '\r' <"$way/office $i.ics" | sed -e ':a' -e 'N;$!ba' -e 's/\n //g' |
      sed 's/[0-9]\{8\}T[0-9]\{6\}Z/MOMENT/' >"$way.$i"
  done
  [ "$(grep -c BEGIN:VEVENT "whole.$i")" -gt 50 ]
  cmp "whole.$i" "shards.$i"
done
