#!/bin/sh
# SPDX-License-Identifier: MIT
# Fails when a folder of src/ includes a folder or an outside library it may not (layers.txt), or
# when the build's DEPENDS say something else than the includes.
# usage: check_layers.sh PROJECT_FOLDER
set -eu
cd "$1/src"
{
  grep -rn --include='*.h' --include='*.cpp' '^#include' . | sort
  for file in */CMakeLists.txt; do
    sed 's/#.*//' "$file" | tr '\n' ' ' | grep -o 'trug_module([^)]*)' || true
  done
} | awk -v rules="$1/tests/layers.txt" '
  BEGIN {
    while ((getline line < rules) > 0) {
      if (line ~ /^#/ || line !~ /:/) continue
      name = line; sub(/:.*/, "", name)
      rest = line; sub(/^[^:]*: */, "", rest)
      if (name ~ /^</) owner[name] = rest; else allowed[name] = " " name " " rest " "
    }
  }
  function complain(what) { print what; bad = 1 }
  /^trug_module/ {
    count = split($0, word, /[ ()]+/)
    folder = word[2]
    reading = 0
    for (i = 3; i <= count; i++) {
      if (word[i] ~ /^[A-Z]+$/) reading = word[i] == "DEPENDS"
      else if (reading && word[i] != "") depends[folder " " word[i]] = 1
    }
    modules++
    next
  }
  {
    seen++
    split($0, part, ":"); split(part[1], path, "/"); folder = path[2]
    included = $0; sub(/^[^#]*#include +/, "", included)
    if (included ~ /^"/) {
      used = substr(included, 2); sub(/\/.*/, "", used)
      if (index(allowed[folder], " " used " ") == 0) complain(part[1] " includes " used "/")
      if (used != folder) includes[folder " " used] = 1
    } else {
      for (header in owner)
        if (index(included, header) == 1 && owner[header] != "*" && owner[header] != folder)
          complain(part[1] " includes " included ", which only " owner[header] "/ may")
    }
  }
  END {
    for (pair in depends) {
      split(pair, side, " ")
      if (index(allowed[side[1]], " " side[2] " ") == 0)
        complain(side[1] "/ may not DEPEND on " side[2] "/")
      else if (!(pair in includes))
        complain(side[1] "/ DEPENDS on " side[2] "/ and includes nothing of it")
    }
    for (pair in includes) {
      split(pair, side, " ")
      if (!(pair in depends))
        complain(side[1] "/ includes " side[2] "/ and does not DEPEND on it")
    }
    if (seen == 0 || modules == 0)
      complain("no includes or no modules were read: the check itself is broken")
    exit bad
  }'
