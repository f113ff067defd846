#!/bin/sh
# SPDX-License-Identifier: MIT
# The feed under ThreadSanitizer (clang): all its tests, hostile clients and load included. Every race
# between the server's threads and the one that publishes ends the run.
# usage: sh tests/threads.sh
set -eu
cd "$(dirname "$0")/.."
build=.build/threads
cmake -S . -B $build -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ -DTRUG_DEV=ON \
  -DCMAKE_CXX_FLAGS_DEBUG="-O1 -gline-tables-only -fsanitize=thread" >/dev/null
cmake --build $build --target test_feed
TSAN_OPTIONS=halt_on_error=1:exitcode=66 $build/tests/feed/test_feed --gtest_brief=1 \
  --gtest_filter=-*MemoryFlat*
echo "No race was found."
