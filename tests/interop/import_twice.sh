#!/bin/sh
# SPDX-License-Identifier: MIT
# The two versions of two_versions.sh through clients that are not ours: khal (replaces), Radicale
# (replaces) and calcurse (doubles), and the five libraries of readers.sh.
# usage: import_twice.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL
# A missing tool fails the test.
set -eu
[ $# -eq 4 ] ||
  { echo "usage: import_twice.sh TRUG SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL" >&2; exit 2; }
trug=$1
. "$2/tests/interop/readers_common.sh"
. "$2/tests/interop/two_versions.sh"
. "$2/tests/interop/import_khal.sh"
readers_from "$2" "$3" "$4"
for tool in khal calcurse; do
  command -v "$tool" >/dev/null || { echo "missing: $tool" >&2; exit 1; }
done
"$python" -c 'import radicale'
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

two_versions

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
