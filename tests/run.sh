#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what the tests need, builds with warnings as errors and runs every test.
# usage: sh tests/run.sh [--all] [further arguments for ctest]
#   --all: also those that take many minutes, root and the network; the others say so.
set -eu
cd "$(dirname "$0")/.."

all=OFF
if [ "${1:-}" = --all ]; then
  all=ON
  shift
fi

# Node.js may come from elsewhere than Debian, with npm inside.
node=""
command -v npm >/dev/null 2>&1 || node="nodejs npm"
sh examples/install-packages.sh $node ca-certificates fonts-dejavu-core libgtest-dev libnova-dev python3 python3-icalendar python3-vobject \
  ruby ruby-icalendar khal radicale calcurse curl nginx-light systemd \
  fish zsh mandoc bsdextrautils binutils dpkg-dev librsvg2-bin libxml2-utils parallel zbar-tools chromium r-base-core r-cran-modeldata
[ "$all" = OFF ] || sh examples/install-packages.sh debootstrap lintian clang llvm libclang-rt-dev \
  libreoffice-calc coinor-cbc xvfb xdotool imagemagick dbus libglib2.0-bin thunderbird \
  evolution-data-server gir1.2-ecal-2.0 python3-gi gnome-calendar korganizer akonadi-backend-sqlite
cmake -S . -B .build/tests -G Ninja -DCMAKE_BUILD_TYPE=Release -DTRUG_DEV=ON -DTRUG_ALL_TESTS=$all \
  >.build-log 2>&1 ||
  { cat .build-log >&2; rm -f .build-log; exit 70; }
rm -f .build-log
cmake --build .build/tests
ctest --test-dir .build/tests --output-on-failure -j 2 "$@"
if [ "$all" = ON ]; then
  sh tests/sanitized.sh
  sh tests/threads.sh
else
  echo "Not run: package.bare_debian, which makes a Debian of its own, interop.spreadsheet, which wants"
  echo "LibreOffice, interop.programs, which wants Thunderbird, GNOME Calendar and KOrganizer, the tests under sanitizers, and 1,940 of the 2,000 drawn gardens of tests/occupancy (sh tests/run.sh --all)."
fi
