#!/bin/sh
# SPDX-License-Identifier: MIT
# Looks for inputs that break what must hold, with libFuzzer under the address and
# undefined-behaviour sanitizers of clang, each target for so many seconds; prints how often it was
# run, the edges it covered and how many inputs found new ones. What is found lies in
# .build/fuzz/found: copy it into tests/fuzz/corpus under a name that says what it shows.
# usage: sh tests/fuzz/run.sh SECONDS [TARGET...]
set -eu
cd "$(dirname "$0")/../.."
seconds=$1
shift
[ $# -gt 0 ] || set -- plan sheet record calendar command
build=.build/fuzz
targets=""
for name in "$@"; do targets="$targets fuzz_$name"; done
cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG="-O1 -gline-tables-only" \
  -DCMAKE_CXX_COMPILER=clang++ -DTRUG_FUZZ=ON >/dev/null
# shellcheck disable=SC2086
cmake --build $build --target $targets
mkdir -p $build/found
for name in "$@"; do
  kept=$build/kept/$name
  mkdir -p "$kept"
  case $name in
    plan)
      seeds=$build/seeds/plan
      mkdir -p $seeds
      cp examples/*.toml $seeds
      for plan in tests/golden/*/plan.toml; do
        cp "$plan" $seeds/"$(basename "$(dirname "$plan")")".toml
      done
      ;;
    sheet) seeds=crops ;;
    *) seeds="" ;;
  esac
  # shellcheck disable=SC2086
  $build/tests/fuzz/fuzz_"$name" -max_total_time="$seconds" -timeout=60 -rss_limit_mb=4096 \
    -max_len=65536 -use_value_profile=1 -print_final_stats=1 -artifact_prefix=$build/found/ \
    "$kept" tests/fuzz/corpus/"$name" $seeds >$build/"$name".log 2>&1 ||
    { tail -n 40 $build/"$name".log; exit 1; }
  runs=$(sed -n 's/^stat::number_of_executed_units: *//p' $build/"$name".log)
  last=$(grep '^#.* cov: ' $build/"$name".log | tail -n 1)
  echo "$name: $runs runs in $seconds s; $(echo "$last" | sed 's/.*\(cov: [0-9]*\).*corp: \([0-9]*\).*/\1 edges, \2 inputs kept/')"
done
