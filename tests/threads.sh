#!/bin/sh
# SPDX-License-Identifier: MIT
# The feed under ThreadSanitizer (clang): all its tests, hostile clients and load included, and the
# calendars of many gardens, a thread a core. Every race between the threads ends the run.
# usage: sh tests/threads.sh
set -eu
cd "$(dirname "$0")/.."
build=.build/threads
cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ -DTRUG_DEV=ON \
  -DCMAKE_CXX_FLAGS_DEBUG="-O1 -gline-tables-only -fsanitize=thread" >/dev/null
cmake --build $build --target test_feed test_app
TSAN_OPTIONS=halt_on_error=1:exitcode=66 $build/tests/feed/test_feed --gtest_brief=1 \
  --gtest_filter=-*MemoryFlat*
TSAN_OPTIONS=halt_on_error=1:exitcode=66 $build/tests/app/test_app --gtest_brief=1 \
  --gtest_filter=ManyGardens.*
echo "No race was found."
