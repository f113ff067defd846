#!/bin/sh
# SPDX-License-Identifier: MIT
# The calendars of many gardens as static files: nginx with examples/many-gardens/ serves each as trug
# wrote it, says when nothing has changed, shows nothing else of the folder, and keeps no name in a log.
# usage: many_gardens_served_test.sh PROGRAM PROJECT_FOLDER
set -eu
program=$1
project=$2
here=$(cd "$(dirname "$0")" && pwd)
. "$here/nginx.sh"

mkdir plans calendars
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

front=$(free_port)
base=http://127.0.0.1:$front/calendars
grep -q 'alias /srv/calendars/' "$project/examples/many-gardens/nginx-calendars.conf" ||
  fail "the example does not say where the folder is"
sed "s|/srv/calendars|$folder/calendars|" "$project/examples/many-gardens/nginx-calendars.conf" \
  >calendars.conf
serve_with_nginx calendars.conf "$front"

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
grep -q "GET /calendars/notes.txt" access.log ||
  fail "the log kept nothing at all: the check is broken"
! grep -q "office-[0-9]\.ics " access.log nginx.log || fail "a log keeps a name"
