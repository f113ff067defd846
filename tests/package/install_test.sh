#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs into a new folder: everything is where it should be, the program is hardened and alone,
# its licences are told, the manual and the completions are sound; then removes it again.
# usage: sh install_test.sh BUILD_FOLDER SOURCE_FOLDER CMAKE hardened|plain
set -eu
build=$1 source=$2 cmake=$3 kind=$4
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
prefix=$folder/prefix
fail() { echo "FAILED: $1" >&2; exit 1; }

"$cmake" --install "$build" --prefix "$prefix" >"$folder/log" || { cat "$folder/log"; fail install; }
trug=$prefix/bin/trug
feed=$prefix/libexec/trug/trug-feed
for file in bin/trug libexec/trug/trug-feed share/man/man1/trug.1.gz share/bash-completion/completions/trug \
            share/zsh/site-functions/_trug share/fish/vendor_completions.d/trug.fish \
            share/systemd/user/trug-feed.service share/doc/trug/copyright share/doc/trug/README.md \
            share/doc/trug/examples/harbour-office.toml; do
  [ -f "$prefix/$file" ] || fail "$file is not there"
done

# It runs from where it lies, without the source.
cd "$folder"
"$trug" --version | grep -q '^trug [0-9]' || fail "--version"
"$trug" check "$prefix/share/doc/trug/examples/harbour-office.toml" >/dev/null || fail "check"
# The unit starts this program.
grep -q "^ExecStart=$trug feed " "$prefix/share/systemd/user/trug-feed.service" || fail "the unit"

# Only the feed waits for the server's libraries.
needs() { readelf -d "$1" | sed -n 's/.*NEEDED.*\[\(lib[a-z0-9_+]*\)[-.].*/\1/p'; }
for library in libmicrohttpd libqrencode; do
  if needs "$trug" | grep -qx "$library"; then fail "trug asks for $library"; fi
  needs "$feed" | grep -qx "$library" || fail "the feed does not ask for $library"
done
"$trug" feed nowhere.toml --new-link 2>told && fail "a feed of no plan"
grep -q 'there is no plan nowhere.toml' told || { cat told; fail "the feed is not found"; }

# Every library that the programs ask for has its licence told, and so has every one compiled in.
for library in $(needs "$trug") $(needs "$feed"); do
  grep -q "^Files:.*loaded/$library\.so" "$prefix/share/doc/trug/copyright" ||
    fail "no licence of $library"
done
for library in toml++ nlohmann-json CLI11; do
  grep -q "^Files: compiled-in/$library$" "$prefix/share/doc/trug/copyright" ||
    fail "no licence of $library"
done

if [ "$kind" = hardened ]; then
  for program in "$trug" "$feed"; do
    sh "$source/tests/package/hardening.sh" "$program" || fail "hardening"
  done
  # The check must be able to fail: a program compiled without any of it has all of it missing.
  printf 'int main(int n, char** w) { char text[64]; __builtin_strcpy(text, w[n - 1]); return text[0]; }\n' >bare.c
  cc -O0 -no-pie -fno-stack-protector -fcf-protection=none -U_FORTIFY_SOURCE -Wl,-z,norelro \
    -Wl,-z,lazy -Wl,-z,execstack bare.c -o bare 2>/dev/null
  sh "$source/tests/package/hardening.sh" bare >bare.log && fail "the check of hardening finds nothing"
  [ "$(wc -l <bare.log)" -ge 8 ] || { cat bare.log; fail "the check of hardening misses something"; }
fi

# The manual is without complaint, and shows.
gzip -dc "$prefix/share/man/man1/trug.1.gz" >trug.1
mandoc -T lint -W warning trug.1 || fail "the manual page"
mandoc -T ascii trug.1 | col -b | grep -q -- '--new-link' || fail "the manual page is empty"

"$cmake" --build "$build" --target uninstall >"$folder/log" || { cat "$folder/log"; fail uninstall; }
left=$(find "$prefix" ! -type d)
[ -z "$left" ] || fail "left behind: $left"
for folder in share/doc/trug libexec/trug; do
  [ ! -e "$prefix/$folder" ] || fail "$folder is left behind"
done
echo "installed and removed again"
