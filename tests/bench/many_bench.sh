#!/bin/sh
# SPDX-License-Identifier: MIT
# The calendars of many drawn gardens in one process: written for the first time, then again with
# nothing changed. Prints gardens a second, processor time a garden and peak memory.
# usage: sh many_bench.sh PROGRAM [GARDENS]
set -eu
program=$1
gardens=${2:-1000}
here=$(cd "$(dirname "$0")" && pwd)
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
mkdir plans out
python3 - "$here/../occupancy" "$here/../../crops" "$gardens" <<'PYTHON'
import sys
sys.path.insert(0, sys.argv[1])
import draw, occupancy
sheets = occupancy.read_sheets(sys.argv[2])
for number in range(int(sys.argv[3])):
    with open("plans/garden-%d.toml" % number, "w") as file:
        file.write(draw.draw(number, sheets)[0].replace('calendar = "garden.ics"\n', ""))
PYTHON
find plans -name '*.toml' | sort >list
nproc | sed 's/$/ cores/'
for round in first again; do
  command time -f '%e %U %S %M' -o cost "$program" calendar --today 2027-02-01 --out-dir out - <list \
    >told 2>&1 || { tail -n 3 told; exit 1; }
  changed=$(grep -c 'nothing changed' told || true)
  awk -v round=$round -v n="$gardens" -v same="$changed" '{
    printf "%-6s %d gardens, %d of them unchanged: %.1f s, %.0f a second; %.0f ms of a core each; %.0f MB\n",
      round, n, same, $1, n / $1, 1000 * ($2 + $3) / n, $4 / 1000 }' cost
done
