#!/bin/sh
# SPDX-License-Identifier: MIT
# Prepares the npm package ical.js for the tests that read calendars with it, once, in FOLDER.
# Needs npm and sha256sum. usage: sh tests/interop/fetch_ical_js.sh FOLDER
set -eu
[ $# -eq 1 ] || { echo "usage: sh tests/interop/fetch_ical_js.sh FOLDER" >&2; exit 2; }
package=ical.js
version=2.2.1
program=node_modules/ical.js/dist/ical.es5.cjs
checksum=02b0ab420c2b3af5bd0829b12b8becdffdc2311e62070c381cc0c60b52b0b365
checked() { echo "$checksum  $1/$program" | sha256sum --check --status 2>/dev/null; }

mkdir -p "$1"
folder=$(cd "$1" && pwd)
for tool in npm sha256sum; do
  command -v "$tool" >/dev/null 2>&1 ||
    { echo "There is no $tool: ical.js cannot be prepared." >&2; exit 3; }
done
if ! checked "$folder"; then
  npm install --silent --no-audit --no-fund --ignore-scripts --prefix "$folder" "$package@$version" \
    >"$folder/npm.log" 2>&1 ||
    { cat "$folder/npm.log" >&2; echo "npm did not fetch $package $version." >&2; exit 3; }
fi
checked "$folder" ||
  { echo "$program is not the one that was checked: its sha256 differs." >&2; exit 3; }
echo "ical.js $version is in $folder."
