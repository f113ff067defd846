#!/bin/sh
# SPDX-License-Identifier: MIT
# A calendar and its next version, a week later, when the last frost has moved by seven days, one
# planting is gone and another has come, through clients that are not ours: khal (replaces),
# Radicale (replaces) and calcurse (doubles), and the five libraries of readers.sh.
# usage: import_twice.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL
# A missing tool fails the test.
set -eu
[ $# -eq 4 ] ||
  { echo "usage: import_twice.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL" >&2; exit 2; }
trug=$1
. "$2/tests/interop/readers_common.sh"
. "$2/tests/interop/import_khal.sh"
readers_from "$2" "$3" "$4"
for tool in khal calcurse; do
  command -v "$tool" >/dev/null || { echo "missing: $tool" >&2; exit 1; }
done
"$python" -c 'import radicale'
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# plan LAST_FROST CROP: a made-up garden with every character that iCalendar escapes in its names.
plan() {
  cat <<END
flowering_year = 2027
began = 2026-01-01
title = "Mühlgraben; Beete, 2027 🌼"
garden = "6d1c0a52-8f3b-4e77-a0c9-3b5e91d4f286"
[place]
latitude = 53.3
last_frost = "$1"
first_frost = "6 October"
frost_meaning = "garden"
[wish]
vases_per_week = 1
stems_per_vase = 10
from = "1 June"
to = "20 September"
[[bed]]
name = "Mühlgraben; bed, upper 🌼"
length_m = 3.3
width_m = 0.9
[[bed.stretch]]
length_m = 1.2
crops = ["cosmos"]
[[bed.stretch]]
length_m = 0.9
crops = ["cornflower"]
[[bed.stretch]]
length_m = 1.1
crops = ["$2"]
END
}

today_1=2027-03-01
today_2=2027-03-08
plan "11 May" zinnia >"$work/plan-1.toml"
plan "18 May" sunflower >"$work/plan-2.toml"
"$trug" jobs "$work/plan-1.toml" --today $today_1 --json >"$work/jobs-1.json"
write_quietly "$work/plan-1.toml" --today $today_1 -o "$work/year.ics"
cp "$work/year.ics" "$work/v1.ics"
# The jobs of the second are those for someone who holds the first.
{ echo 'calendar = "year.ics"'; cat "$work/plan-2.toml"; } >"$work/plan-2-told.toml"
"$trug" jobs "$work/plan-2-told.toml" --today $today_2 --json >"$work/jobs-2.json"
write_quietly "$work/plan-2.toml" --today $today_2 -o "$work/year.ics"
cp "$work/year.ics" "$work/v2.ics"

after_first() {
  "$python" "$readers/readers.py" "$work/plan-1.toml" "$work/jobs-1.json" "$@"
}
after() {
  order=$1
  shift
  "$python" "$readers/import_twice.py" "$order" "$work/plan-1.toml" "$work/jobs-1.json" \
    "$work/plan-2.toml" "$work/jobs-2.json" $today_2 "$@"
}

echo "The libraries:"
for version in 1 2; do
  mkdir "$work/v$version"
  read_with_all "$work/v$version.ics" "$work/v$version"
done
after_first "$work"/v1/read-*.json
after 12 "$work"/v2/read-*.json

echo "khal replaces by UID, whatever the SEQUENCE:"
khal_prepare "$work/khal"
khal_import "$work/v1.ics" "$work/khal-1"
after_first "$work"/khal-1-*.json
khal_import "$work/v2.ics" "$work/khal-2"
after 12 "$work"/khal-2-*.json
khal_import "$work/v2.ics" "$work/khal-3"
cmp "$work/khal-2.ics" "$work/khal-3.ics"
khal_import "$work/v1.ics" "$work/khal-4"
after 121 "$work"/khal-4-*.json

echo "Radicale replaces the whole calendar:"
mkdir "$work/radicale"
"$python" "$readers/import_radicale.py" "$work/radicale" "$work/v1.ics" "$work/v2.ics"
for version in 1 2; do
  mkdir "$work/radicale/$version"
  read_with_all "$work/radicale/radicale-$version.ics" "$work/radicale/$version"
done
after_first "$work"/radicale/1/read-*.json
after 12 "$work"/radicale/2/read-*.json

echo "calcurse doubles:"
mkdir -p "$work/calcurse" "$work/home"
for version in 1 2; do
  HOME=$work/home LC_ALL=C.UTF-8 calcurse -D "$work/calcurse" -q -i "$work/v$version.ics"
  cp "$work/calcurse/apts" "$work/apts-$version"
done
"$python" "$readers/import_calcurse.py" "$work/apts-1" "$work/v1/read-icalendar.json"
"$python" "$readers/import_calcurse.py" "$work/apts-2" \
  "$work/v1/read-icalendar.json" "$work/v2/read-icalendar.json"
