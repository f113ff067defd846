#!/bin/sh
# SPDX-License-Identifier: MIT
# The calendars of many gardens as static files: nginx with examples/many-gardens/ serves each as trug
# wrote it, says when nothing has changed, shows nothing else of the folder, and keeps no name in a log.
# usage: many_gardens_served_test.sh PROGRAM PROJECT_FOLDER
set -eu
program=$1
project=$2
PATH=$PATH:/usr/sbin:/sbin

folder=$(mktemp -d)
server=""
finish() {
  [ -z "$server" ] || kill "$server" 2>/dev/null || true
  rm -rf "$folder"
}
trap finish EXIT
fail() {
  echo "FAILED: $*"
  cat "$folder"/*.log 2>/dev/null || true
  exit 1
}
chmod 755 "$folder" # nginx may run as another user
cd "$folder"

mkdir plans calendars temp
for i in 1 2 3 4 5; do
  sed "s/51d1f7a2c9e4/51d1f7a2c9e$i/; s/^length_m = 0\.9/length_m = 0.$i/" \
    "$project/examples/harbour-office.toml" >"plans/office-$i.toml"
done
update() {
  find plans -name '*.toml' | sort >list
  TRUG=$program sh "$project/examples/many-gardens/update.sh" list calendars --today 2026-06-01 \
    --for feed >told 2>&1 || fail "update.sh: $(cat told)"
}
update
echo secret >calendars/notes.txt

front=$(python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])')
grep -q 'alias /srv/calendars/' "$project/examples/many-gardens/nginx-calendars.conf" ||
  fail "the example does not say where the folder is"
sed "s|/srv/calendars|$folder/calendars|" "$project/examples/many-gardens/nginx-calendars.conf" \
  >calendars.conf
cat >nginx.conf <<CONF
daemon off;
pid $folder/nginx.pid;
error_log $folder/nginx.log;
events { }
http {
  access_log $folder/access.log;
  client_body_temp_path $folder/temp;
  proxy_temp_path $folder/temp;
  fastcgi_temp_path $folder/temp;
  uwsgi_temp_path $folder/temp;
  scgi_temp_path $folder/temp;
  server {
    listen 127.0.0.1:$front;
    location / { return 404; }
    include $folder/calendars.conf;
  }
}
CONF
nginx -t -p "$folder" -c "$folder/nginx.conf" 2>nginx-test.log || fail "nginx refuses the example"
nginx -p "$folder" -c "$folder/nginx.conf" 2>>nginx-test.log &
server=$!
base=http://127.0.0.1:$front/calendars
for _ in $(seq 60); do
  curl -s -o /dev/null "$base/" && break
  sleep 0.5
done

equal() { [ "$2" = "$3" ] || fail "$1: expected '$2', found '$3'"; }
status() { curl -s -o body -D headers -w '%{http_code}' "$@"; }
header() { tr -d '\r' <headers | sed -n "s/^$1: //p"; }
for i in 1 2 3 4 5; do
  equal "garden $i" 200 "$(status "$base/office-$i.ics")"
  cmp body "calendars/office-$i.ics" || fail "nginx changes the calendar"
  equal "type" "text/calendar; charset=utf-8" "$(header Content-Type)"
  header ETag >"tag.$i"
done
for hidden in "" notes.txt none.ics ..%2Fplans%2Foffice-1.toml office-1.ics.trug-new; do
  equal "$hidden" 404 "$(status "$base/$hidden")"
done

# One garden changes: those who ask again get it anew, and of the others that nothing has.
sleep 1 # nginx tells versions apart by second and length
sed -i 's/last_frost = "14 May"/last_frost = "28 May"/' plans/office-3.toml
update
for i in 1 2 4 5; do
  equal "garden $i again" 304 "$(status -H "If-None-Match: $(cat "tag.$i")" "$base/office-$i.ics")"
done
equal "garden 3 again" 200 "$(status -H "If-None-Match: $(cat tag.3)" "$base/office-3.ics")"
cmp body calendars/office-3.ics || fail "nginx keeps the earlier calendar"
! grep -q "office-[0-9]\.ics " access.log nginx.log || fail "a log keeps a name"
