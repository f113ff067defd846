#!/bin/sh
# SPDX-License-Identifier: MIT
# Fails when a folder of src/ includes a folder or an outside library it may not (layers.txt).
# usage: check_layers.sh PROJECT_FOLDER
set -eu
cd "$1/src"
rules="$1/tests/layers.txt"
bad=0
seen=0
for file in $(find . -name '*.h' -o -name '*.cpp' | sort); do
  folder=$(echo "$file" | cut -d/ -f2)
  allowed=" $folder $(sed -n "s/^$folder: *//p" "$rules") "
  for used in $(sed -n 's/^#include "\([a-z_]*\)\/.*/\1/p' "$file"); do
    seen=$((seen + 1))
    case "$allowed" in *" $used "*) ;; *) echo "$file includes $used/"; bad=1 ;; esac
  done
  while IFS=: read -r header owner; do
    case "$header" in "<"*) ;; *) continue ;; esac
    owner=$(echo "$owner" | tr -d ' ')
    if [ "$owner" != "*" ] && [ "$owner" != "$folder" ] && grep -q "^#include $header" "$file"; then
      echo "$file includes $header...>, which only $owner/ may"; bad=1
    fi
  done < "$rules"
done
[ "$seen" -gt 0 ] || { echo "no includes were read: the check itself is broken"; exit 1; }
exit $bad
