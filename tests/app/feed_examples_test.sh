#!/bin/sh
# SPDX-License-Identifier: MIT
# The feed as a service and behind a proxy: systemd reads the unit without a word, and nginx with the
# example serves what trug serves, while its log keeps no link.
# usage: feed_examples_test.sh TRUG PROJECT_FOLDER
set -eu
trug=$1
project=$2
here=$(cd "$(dirname "$0")" && pwd)
. "$here/nginx.sh"

# --- the unit, with the program where it is now; what systemd does not know it only mentions
sed "s|^ExecStart=[^ ]*|ExecStart=$trug|" "$project/examples/trug-feed.service" >trug-feed.service
XDG_RUNTIME_DIR=$folder systemd-analyze --user verify ./trug-feed.service >unit.log 2>&1 ||
  fail "systemd refuses the unit"
[ ! -s unit.log ] || fail "systemd does not understand all of the unit"

# --- the proxy
port=$(free_port)
front=$(free_port)
base=http://127.0.0.1:$front/garden
cp "$project/examples/harbour-office.toml" garden.toml
"$trug" feed garden.toml --today 2026-06-01 --listen "127.0.0.1:$port" --behind-proxy --url "$base" \
  >out 2>feed.log &
servers=$!
for _ in $(seq 240); do
  grep -q "^Listening on" feed.log && break
  sleep 0.5
done
address=$(sed -n 's/^.* \(http:.*garden\.ics\)$/\1/p' out)
case $address in "$base"/*) ;; *) fail "the link '$address' is not below $base" ;; esac

grep -q 'proxy_pass http://127.0.0.1:8017/;' "$project/examples/nginx-feed.conf" ||
  fail "the example does not lead to trug's own port"
sed "s|127.0.0.1:8017|127.0.0.1:$port|" "$project/examples/nginx-feed.conf" >feed.conf
serve_with_nginx feed.conf "$front"

equal "GET" 200 "$(status "$address")"
cmp body garden.feed.ics || fail "the proxy changes the calendar"
tag=$(header ETag)
equal "tag" "\"$(sha256sum <garden.feed.ics | cut -d' ' -f1)\"" "$tag"
equal "GET with the tag" 304 "$(status -H "If-None-Match: $tag" "$address")"
# trug closes after a 304; the proxy does not hand that on.
equal "connections for the tag, twice" "1 0 " \
  "$(curl -s -o body -o body -w '%{num_connects} ' -H "If-None-Match: $tag" "$address" "$address")"
equal "PUT" 405 "$(status -X PUT "$address")"
equal "page" 200 "$(status "${address%garden.ics}")"
grep -qF "$address" body || fail "the page does not name the address"
equal "elsewhere" 404 "$(status "http://127.0.0.1:$front/other/")"

# Reached in vain, too.
kill "${servers%% *}"
wait "${servers%% *}" || fail "trug did not end well"
equal "GET without trug" 502 "$(status "$address")"
token=$(basename "$(dirname "$address")")
if grep -qF "$token" access.log nginx.log feed.log; then fail "a log keeps the link"; fi
grep -q "GET /other/" access.log || fail "the log kept nothing at all: the check is broken"
echo "The examples hold."
