#!/bin/sh
# SPDX-License-Identifier: MIT
# From a clean clone to a calendar: installs the packages that are missing, builds trug and writes
# the calendar of examples/harbour-office.toml to a new folder.
# usage: sh examples/first-calendar.sh
set -eu
cd "$(dirname "$0")/.."

sh examples/install-packages.sh
echo "Building trug (a few minutes the first time) ..."
cmake -S . -B .build/release -G Ninja -DCMAKE_BUILD_TYPE=Release >.build-log 2>&1 ||
  { cat .build-log >&2; rm -f .build-log; exit 70; }
rm -f .build-log
cmake --build .build/release --target trug

trug=.build/release/src/app/trug
folder=$(mktemp -d "${TMPDIR:-/tmp}/trug-XXXXXX")
echo
"$trug" jobs examples/harbour-office.toml
echo
"$trug" calendar examples/harbour-office.toml -o "$folder/harbour-office.ics"
echo
echo "The calendar lies at $folder/harbour-office.ics: open it with any calendar."
echo "The program is $trug. To have it as 'trug', with its manual:"
echo "  cmake --install .build/release --prefix ~/.local"
