#!/bin/sh
# SPDX-License-Identifier: MIT
# LibreOffice opens the order list, keeps it as a spreadsheet of its own and gives back the same rows.
# usage: spreadsheet.sh TRUG SOURCE_DIR
set -eu
trug=$1 source=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
command -v soffice >/dev/null || { echo "LibreOffice Calc is missing: sh tests/run.sh --all installs it" >&2; exit 1; }

convert() {
  soffice --headless "-env:UserInstallation=file://$folder/profile" --convert-to "$1" \
    --outdir "$2" "$3" >"$folder/log" 2>&1 || { cat "$folder/log" >&2; exit 1; }
}

"$trug" order "$source/examples/harbour-office.toml" --today 2026-05-02 --csv >"$folder/order.csv" 2>"$folder/err"
convert ods "$folder" "$folder/order.csv"
mkdir "$folder/back"
convert csv "$folder/back" "$folder/order.ods"
python3 - "$folder" <<'PYTHON'
import csv
import sys
import zipfile

folder = sys.argv[1]
rows = [list(csv.reader(open(folder + name, encoding="utf-8", newline="")))
        for name in ("/order.csv", "/back/order.csv")]
given, back = rows
assert len(given) > 10 and len(given[0]) == 13, given[:2]
assert any("," in field for row in given for field in row), "no field needs quotes"
for one, other in zip(given, back):
    assert one == other, "written %r\n read %r" % (one, other)
assert len(given) == len(back)
# The sheet itself holds numbers as numbers, so that they can be summed.
content = zipfile.ZipFile(folder + "/order.ods").read("content.xml").decode()
bulbs = sum(int(row[5]) for row in given[1:])
found = sum(content.count('office:value-type="float" office:value="%s"' % row[5]) > 0
            for row in given[1:])
assert found == len(given) - 1, "%d of %d numbers are numbers" % (found, len(given) - 1)
print("%d rows, %d of them things to buy" % (len(given), bulbs))
PYTHON
