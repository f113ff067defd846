#!/bin/sh
# SPDX-License-Identifier: MIT
# Prepares the real weather records of frost_records_test.cpp in FOLDER, once: tables of the npm
# package vega-datasets 3.2.1 (United States government data) and the data set Chicago of the R
# package modeldata (Debian: r-cran-modeldata). Needs npm, tar, sha256sum and Rscript.
# usage: sh tests/interop/fetch_weather.sh FOLDER
set -eu
[ $# -eq 1 ] || { echo "usage: sh tests/interop/fetch_weather.sh FOLDER" >&2; exit 2; }
package=vega-datasets
version=3.2.1
checksum=6f72fda460a9863fae5fcb32f85bcd49e1761fdea6dc6cf9f4962472881cc5a3
tables="seattle-weather.csv weather.csv seattle-weather-hourly-normals.csv"
chicago_lines=5699  # the heading and 5698 days

complete() {
  for table in $tables chicago.csv; do
    [ -s "$1/$table" ] || return 1
  done
}

mkdir -p "$1"
folder=$(cd "$1" && pwd)
if complete "$folder"; then
  echo "The weather records are in $folder."
  exit 0
fi
for tool in npm tar sha256sum Rscript; do
  command -v "$tool" >/dev/null 2>&1 ||
    { echo "There is no $tool: the weather records cannot be prepared." >&2; exit 3; }
done

work=$(mktemp -d "$folder/new-XXXXXX")
trap 'rm -rf "$work"' EXIT
cd "$work"
npm pack --silent "$package@$version" >npm.log 2>&1 ||
  { cat npm.log >&2; echo "npm did not fetch $package $version." >&2; exit 3; }
archive="$package-$version.tgz"
echo "$checksum  $archive" | sha256sum --check --status ||
  { echo "$archive is not the package that was checked: its sha256 differs." >&2; exit 3; }
for table in $tables; do
  tar -xzf "$archive" --strip-components=2 "package/data/$table"
done
Rscript -e 'library(modeldata); data(Chicago)' \
  -e 'columns <- c("date", "temp_min", "temp", "temp_max")' \
  -e 'write.csv(Chicago[, columns], "chicago.csv", row.names = FALSE)' >r.log 2>&1 ||
  { cat r.log >&2; echo "R did not write the record of Chicago." >&2; exit 3; }
[ "$(wc -l <chicago.csv)" -eq "$chicago_lines" ] ||
  { echo "The record of Chicago has not $chicago_lines lines." >&2; exit 3; }
complete . || { echo "A weather record is missing or empty." >&2; exit 3; }
for table in $tables chicago.csv; do mv "$table" "$folder/$table"; done
echo "The weather records are in $folder."
