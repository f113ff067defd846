#!/bin/sh
# SPDX-License-Identifier: MIT
# Five libraries that are not ours read the calendars of the example plans: python3-icalendar,
# python3-vobject, ruby-icalendar, ical.js (npm) and libical. All must agree with `trug jobs`.
# usage: readers.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL
# A missing tool fails the test: a calendar that nobody else has read is not known to be one.
set -eu
[ $# -eq 4 ] || { echo "usage: readers.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL" >&2; exit 2; }
trug=$1
source=$2
. "$source/tests/interop/readers_common.sh"
readers_from "$source" "$3" "$4"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# write_and_read USE: the calendar of $plan, for import or as a feed, through all readers.
write_and_read() {
  rm -f "$work/year.ics"
  write_quietly "$plan" --today 2026-06-01 --for "$1" -o "$work/year.ics"
  read_with_all "$work/year.ics" "$work"
  "$python" "$readers/readers.py" "$plan" "$work/jobs.json" "$work"/read-*.json
}

plans=0
for plan in "$source"/examples/*.toml; do
  grep -q '^garden = ' "$plan" || continue
  "$trug" jobs "$plan" --today 2026-06-01 --json >"$work/jobs.json"
  write_and_read import
  plans=$((plans + 1))
done
[ "$plans" -gt 0 ] || { echo "No example plan has a garden." >&2; exit 1; }
write_and_read feed

# The comparison itself can fail: events moved by a month must be seen by each reader.
sed 's/^\(DT[SE].*:20..\)06/\107/' "$work/year.ics" >"$work/moved.ics"
read_with_all "$work/moved.ics" "$work"
for reading in "$work"/read-*.json; do
  if "$python" "$readers/readers.py" "$plan" "$work/jobs.json" "$reading" 2>"$work/seen"; then
    echo "$reading: moved events were not seen." >&2
    exit 1
  fi
  grep -q ' start: 20..-07-.*, 20..-06-.* wanted' "$work/seen" || { cat "$work/seen" >&2; exit 1; }
done
