#!/bin/sh
# SPDX-License-Identifier: MIT
# Makes the Debian package and reads what it says of itself and holds.
# usage: sh deb_test.sh BUILD_FOLDER CPACK
set -eu
build=$1 cpack=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
fail() { echo "FAILED: $1" >&2; exit 1; }

(cd "$build" && "$cpack" -G DEB -B "$folder") >"$folder/log" 2>&1 || { cat "$folder/log"; fail cpack; }
deb=$(find "$folder" -maxdepth 1 -name 'trug_*.deb')
[ -f "$deb" ] || { ls "$folder"; fail "no package"; }

depends=$(dpkg-deb -f "$deb" Depends)
# Every package whose library the program asks for, and none by hand.
for package in libc6 libfmt libical3 libmicrohttpd12 libnettle8 libqrencode4 libstdc++6 libutf8proc2; do
  case $depends in *"$package"*) ;; *) fail "it does not depend on $package: $depends" ;; esac
done
case $depends in *-dev*) fail "it depends on what is only needed to build it: $depends" ;; esac
for field in Package Version Architecture Maintainer Description Section; do
  [ -n "$(dpkg-deb -f "$deb" "$field")" ] || fail "no $field"
done

dpkg-deb -x "$deb" "$folder/root"
for file in usr/bin/trug usr/libexec/trug/trug-feed usr/share/man/man1/trug.1.gz usr/share/bash-completion/completions/trug \
            usr/share/zsh/vendor-completions/_trug usr/share/fish/vendor_completions.d/trug.fish \
            usr/lib/systemd/user/trug-feed.service usr/share/doc/trug/copyright \
            usr/share/doc/trug/changelog.gz usr/share/doc/trug/examples/harbour-office.toml; do
  [ -f "$folder/root/$file" ] || fail "$file is not in it"
done
grep -q '^ExecStart=/usr/bin/trug feed ' "$folder/root/usr/lib/systemd/user/trug-feed.service" ||
  fail "the unit"
strange=$(find "$folder/root" -mindepth 1 ! -user root -o -perm /022 ! -type l)
[ -z "$strange" ] || [ "$(id -u)" -ne 0 ] || fail "owners or modes: $strange"

if command -v lintian >/dev/null 2>&1; then
  lintian --allow-root --fail-on error,warning "$deb" || fail lintian
else
  echo "lintian is not here: the package was not judged by it"
fi
echo "packaged: $(basename "$deb"), $(du -k "$deb" | cut -f 1) kB"
