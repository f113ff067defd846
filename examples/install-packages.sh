#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what trug is built with (Debian 12), where it is missing, and says what.
# usage: sh examples/install-packages.sh [further package ...]
set -eu

packages="g++ cmake ninja-build pkg-config libtomlplusplus-dev libical-dev libcli11-dev
nlohmann-json3-dev libmicrohttpd-dev libqrencode-dev libfmt-dev libutf8proc-dev nettle-dev $*"

missing=""
for package in $packages; do
  state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null || true)
  [ "$state" = installed ] || missing="$missing $package"
done
if [ -z "$missing" ]; then
  echo "All packages are here."
  exit 0
fi

if [ "$(id -u)" -eq 0 ]; then
  as_root=""
elif command -v sudo >/dev/null 2>&1; then
  as_root="sudo"
else
  echo "These packages are missing and only root can install them:$missing" >&2
  exit 3
fi
echo "Installing:$missing"
log=$(mktemp)
trap 'rm -f "$log"' EXIT
if ! { $as_root apt-get update -q &&
       $as_root env DEBIAN_FRONTEND=noninteractive \
         apt-get install -y -q --no-install-recommends $missing; } >"$log" 2>&1 </dev/null; then
  tail -n 20 "$log" >&2
  echo "The packages could not be installed; the lines above say why." >&2
  exit 3
fi
echo "Installed."
