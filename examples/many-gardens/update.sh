#!/bin/sh
# SPDX-License-Identifier: MIT
# Brings the calendars of many gardens up to date: a list of plans, a line each, cut into parts of a
# hundred that GNU parallel hands to whoever is free. Which part a garden falls into, and in which
# order they are done, makes no difference to its calendar; what does not change is not touched, so it
# may run every night.
#
# usage: update.sh LIST FOLDER [OPTION OF TRUG CALENDAR...]
#   TRUG=PROGRAM    the program, else trug
#   SHARDS=N        parts at once on one machine, else 1: one process uses all cores
#   MACHINES=FILE   the machines, a line each, as ssh knows them (each finds plans, FOLDER and trug
#                   under the same names); else this one
# Plans that are wrong are told and left out; the exit code then is not 0.
set -eu
list=$1
folder=$2
shift 2
program=${TRUG:-trug}
if [ -n "${MACHINES:-}" ]; then
  exec parallel --will-cite --pipe -N 100 --jobs "${SHARDS:-1}" --sshloginfile "$MACHINES" --quote \
    "$program" calendar --out-dir "$folder" "$@" - <"$list"
fi
exec parallel --will-cite --pipe -N 100 --jobs "${SHARDS:-1}" --quote \
  "$program" calendar --out-dir "$folder" "$@" - <"$list"
