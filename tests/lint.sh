#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the checks need and looks at the sources: naming, size and complexity
# (.clang-tidy), includes, headers that compile alone, layers. What clang-tidy said is kept under
# .build: only files that changed are looked at again.
# usage: sh tests/lint.sh [--shrink]   (takes needless lines out of tests/lint/allowed.txt)
set -eu
cd "$(dirname "$0")/.."

sh examples/install-packages.sh clang clang-tidy universal-ctags python3
cmake -S . -B .build/lint -G Ninja -DCMAKE_BUILD_TYPE=Debug -DCMAKE_CXX_COMPILER=clang++ >.build-log 2>&1 ||
  { cat .build-log >&2; rm -f .build-log; exit 70; }
rm -f .build-log
python3 -B tests/lint/lint_test.py --quiet
sh tests/check_layers.sh "$PWD"
exec python3 -B tests/lint/lint.py . .build/lint "$@"
