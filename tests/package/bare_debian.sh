#!/bin/sh
# SPDX-License-Identifier: MIT
# A bare Debian 12 made by debootstrap installs the package with apt, runs the example as the README
# has it, and removes it: no file, package or line of the package system's lists is left.
# usage: sh bare_debian.sh BUILD_FOLDER CPACK
# Needs root, debootstrap, and a Debian mirror (TRUG_MIRROR, or the usual one).
set -eu
build=$1 cpack=$2
mirror=${TRUG_MIRROR:-http://deb.debian.org/debian}
fail() { echo "FAILED: $1" >&2; exit 1; }
[ "$(id -u)" -eq 0 ] || { echo "SKIPPED: only root can make a Debian of its own"; exit 77; }
command -v debootstrap >/dev/null 2>&1 || { echo "SKIPPED: debootstrap is not here"; exit 77; }

folder=$(mktemp -d)
trap 'rm -rf --one-file-system "$folder"' EXIT
trap 'exit 1' INT TERM
root=$folder/debian

(cd "$build" && "$cpack" -G DEB -B "$folder") >"$folder/log" 2>&1 || { cat "$folder/log"; fail cpack; }
debootstrap --variant=minbase bookworm "$root" "$mirror" >"$folder/log" 2>&1 ||
  { tail -n 20 "$folder/log"; fail debootstrap; }
# Clocks of mirrors that stand still are no concern of this test.
printf 'Acquire::Check-Valid-Until "false";\nAcquire::Check-Date "false";\n' >"$root/etc/apt/apt.conf.d/99test"
cp /etc/resolv.conf "$root/etc/resolv.conf"
inside() { chroot "$root" /usr/bin/env -i PATH=/usr/sbin:/usr/bin:/sbin:/bin DEBIAN_FRONTEND=noninteractive LC_ALL=C.UTF-8 "$@"; }
quiet() { "$@" >"$folder/log" 2>&1 || { tail -n 30 "$folder/log"; fail "$*"; }; }

quiet inside apt-get update
# What the removal must leave: everything but the package system's own records of having been run.
state() {
  (cd "$root" && find . -xdev \( -path ./proc -o -path ./dev -o -path ./tmp -o -path ./var/cache -o -path ./var/log \
    -o -path ./var/lib/apt -o -path ./var/lib/dpkg -o -path ./run \) -prune -o -print | LC_ALL=C sort)
  inside dpkg-query -W -f '${Package} ${db:Status-Abbrev}\n' | LC_ALL=C sort
}
state >"$folder/before"

mkdir "$root/tmp/new"
cp "$folder"/trug_*.deb "$root/tmp/new/"
quiet inside sh -c 'cd /tmp/new && apt-get install -y --no-install-recommends ./trug_*.deb'
echo "installed: $(inside dpkg-query -W -f '${Package} ${Version} ${Installed-Size} kB' trug)"
inside dpkg-query -W -f '${Package}\n' | LC_ALL=C sort >"$folder/packages"

inside trug --version | grep -q '^trug [0-9]' || fail "--version"
quiet inside trug check /usr/share/doc/trug/examples/harbour-office.toml
quiet inside sh -c 'cd /tmp/new && cp /usr/share/doc/trug/examples/harbour-office.toml garden.toml &&
  trug calendar garden.toml -o garden.ics && trug chart garden.toml -o garden.svg'
head -n 1 "$root/tmp/new/garden.ics" | grep -q BEGIN:VCALENDAR || fail "no calendar"
[ "$(grep -c BEGIN:VEVENT "$root/tmp/new/garden.ics")" -gt 20 ] || fail "hardly an event"
inside sh -c 'ldd /usr/bin/trug' | grep 'not found' && fail "a library is missing"
# As a user, not as root.
quiet inside setpriv --reuid nobody --regid nogroup --clear-groups \
  trug jobs /tmp/new/garden.toml --from today

quiet inside apt-get purge -y trug
quiet inside apt-get autoremove -y --purge
rm -rf "$root/tmp/new"
state >"$folder/after"
diff "$folder/before" "$folder/after" >"$folder/trace" || { cat "$folder/trace"; fail "the removal leaves a trace"; }
echo "A bare Debian 12 installed it, ran the example and removed it without a trace."
