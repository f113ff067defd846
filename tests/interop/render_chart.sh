#!/bin/sh
# SPDX-License-Identifier: MIT
# The chart through two programs that are not ours: librsvg and Chromium must both draw it, and
# xmllint must find it well-formed. Usage: render_chart.sh TRUG PLAN SOURCE_DIR
# A missing tool fails the test: a picture nobody has drawn is not known to be one.
set -eu
trug=$1
plan=$2
source=$3
for tool in xmllint rsvg-convert chromium python3; do
  command -v "$tool" >/dev/null || { echo "missing: $tool" >&2; exit 1; }
done
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

"$trug" chart "$plan" --today 2026-05-01 -o "$work/bed.svg"
xmllint --nonet --noout "$work/bed.svg"

# The same input again changes nothing; a file of someone else's is left alone.
cp "$work/bed.svg" "$work/first.svg"
"$trug" chart "$plan" --today 2026-05-01 -o "$work/bed.svg" | grep -q 'nothing changed'
cmp "$work/bed.svg" "$work/first.svg"
printf '<svg xmlns="http://www.w3.org/2000/svg"/>\n' >"$work/other.svg"
cp "$work/other.svg" "$work/kept.svg"
code=0
"$trug" chart "$plan" --today 2026-05-01 -o "$work/other.svg" 2>"$work/refusal" || code=$?
test "$code" -eq 3
grep -q 'trug did not draw it' "$work/refusal"
cmp "$work/other.svg" "$work/kept.svg"
"$trug" chart "$plan" --today 2026-05-01 -o "$work/other.svg" --force
cmp "$work/other.svg" "$work/first.svg"

browser() {
  timeout 120 chromium --headless --no-sandbox --disable-gpu --no-first-run \
    --disable-background-networking --disable-component-update --disable-sync --disable-quic \
    --user-data-dir="$work/profile" --hide-scrollbars "$@" >/dev/null 2>&1
}
# A page of A4 at 96 pixels an inch is 794 by 1123.
beds=$(grep -c '^\[\[bed\]\]' "$plan")
rsvg-convert -w 794 "$work/bed.svg" -o "$work/rsvg.png"
browser --window-size=794,$((1123 * beds)) --screenshot="$work/chromium.png" "file://$work/bed.svg"
# Printed, a bed is a page, of the paper that was asked for (in points, ISO 216).
"$trug" chart "$plan" --today 2026-05-01 --paper a3 -o "$work/a3.svg"
for paper in 'bed 59[0-9.]* 84[0-9.]*' 'a3 84[0-9.]* 119[0-9.]*'; do
  name=${paper%% *}
  browser --print-to-pdf="$work/$name.pdf" "file://$work/$name.svg"
  pages=$(grep -a -c "MediaBox *\[0 0 ${paper#* }\]" "$work/$name.pdf")
  test "$pages" -eq "$beds" || { echo "$name.pdf has $pages pages" >&2; exit 1; }
done
python3 "$source/tests/interop/look_at_chart.py" "$work/bed.svg" "$work/rsvg.png" "$work/chromium.png"
