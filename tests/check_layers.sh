#!/bin/sh
# SPDX-License-Identifier: MIT
# Fails when a folder of src/ includes a folder or an outside library it may not (layers.txt).
# usage: check_layers.sh PROJECT_FOLDER
set -eu
cd "$1/src"
grep -rn --include='*.h' --include='*.cpp' '^#include' . | sort | awk -v rules="$1/tests/layers.txt" '
  BEGIN {
    while ((getline line < rules) > 0) {
      if (line ~ /^#/ || line !~ /:/) continue
      name = line; sub(/:.*/, "", name)
      rest = line; sub(/^[^:]*: */, "", rest)
      if (name ~ /^</) owner[name] = rest; else allowed[name] = " " name " " rest " "
    }
  }
  {
    seen++
    split($0, part, ":"); split(part[1], path, "/"); folder = path[2]
    included = $0; sub(/^[^#]*#include +/, "", included)
    if (included ~ /^"/) {
      used = substr(included, 2); sub(/\/.*/, "", used)
      if (index(allowed[folder], " " used " ") == 0) { print part[1] " includes " used "/"; bad = 1 }
    } else {
      for (header in owner)
        if (index(included, header) == 1 && owner[header] != "*" && owner[header] != folder) {
          print part[1] " includes " included ", which only " owner[header] "/ may"; bad = 1
        }
    }
  }
  END {
    if (seen == 0) { print "no includes were read: the check itself is broken"; bad = 1 }
    exit bad
  }'
