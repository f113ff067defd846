#!/bin/sh
# SPDX-License-Identifier: MIT
# A calendar of so many events written by trug with all its checks, by a bare loop over libical and
# by python3-icalendar (Debian's python3), in one run: seconds of processor time, the least of three
# rounds (of python one), and peak memory.
# usage: sh writer_bench.sh WRITER_BENCH [EVENTS]
set -eu
bench=$1
events=${2:-100000}
here=$(dirname "$0")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT

# Prints "seconds kilobytes" of the fastest of so many rounds; the calendar stays in the folder.
measure() {
  name=$1 rounds=$2
  shift 2
  : >"$folder/times"
  while [ "$rounds" -gt 0 ]; do
    command time -a -o "$folder/times" -f '%U %S %M' "$@" >"$folder/$name.ics"
    rounds=$((rounds - 1))
  done
  awk '{ print $1 + $2, $3 }' "$folder/times" | sort -n | head -n 1
}

trug=$(measure trug 3 "$bench" trug "$events")
libical=$(measure libical 3 "$bench" libical "$events")
python=$(measure python 1 /usr/bin/python3 "$here/writer_bench.py" "$events")
for name in trug libical python; do
  found=$(grep -c '^BEGIN:VEVENT' "$folder/$name.ics")
  [ "$found" = "$events" ] || { echo "$name wrote $found events" >&2; exit 1; }
done
echo "$events events; seconds of processor time, peak memory in MB, octets"
for name in trug libical python; do
  eval "row=\$$name"
  echo "$name $row $(wc -c <"$folder/$name.ics")"
done | awk '{ printf "%-8s %8.2f %8.0f %10d\n", $1, $2, $3 / 1000, $4; time[$1] = $2; memory[$1] = $3 }
  END { printf "trug takes %.2f times the bare loop; python3-icalendar %.0f times trug, and %.1f times its memory\n",
    time["trug"] / time["libical"], time["python"] / time["trug"], memory["python"] / memory["trug"] }'
