#!/bin/sh
# SPDX-License-Identifier: MIT
# What reads or reckons from others' bytes, built with the address and undefined-behaviour
# sanitizers of clang: the tests of those modules, then every input that is kept in tests/fuzz, and
# the plans, sheets and cases of the repository, through the whole program.
# usage: sh tests/sanitized.sh
set -eu
cd "$(dirname "$0")/.."
build=.build/sanitized
modules="read calendar growth ground"
inputs="plan sheet record calendar command"

targets=""
for module in $modules; do targets="$targets test_$module"; done
for input in $inputs; do targets="$targets replay_$input"; done
cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_FLAGS_DEBUG="-O1 -gline-tables-only" \
  -DCMAKE_CXX_COMPILER=clang++ -DTRUG_DEV=ON -DTRUG_SANITIZE=ON >/dev/null
# shellcheck disable=SC2086
cmake --build $build --target $targets
for module in $modules; do
  $build/tests/"$module"/test_"$module" --gtest_brief=1
done
ctest --test-dir $build --output-on-failure -j 2 -L replay
echo "The sanitizers have nothing to say."
