#!/bin/sh
# SPDX-License-Identifier: MIT
# The feed as people run it: the real program on loopback, asked by curl, its links read by zbar,
# its page shown by Chromium. What is expected comes from outside: sha256sum for tags and hashes,
# RFC 9110 for answers, RFC 5545 (3.8.7.4) for SEQUENCE.
# usage: feed_command_test.sh TRUG PROJECT_FOLDER
set -eu
trug=$1
project=$2

folder=$(mktemp -d)
server=""
finish() {
  if [ -n "$server" ]; then kill "$server" 2>/dev/null || true; fi
  rm -rf "$folder"
}
trap finish EXIT
fail() {
  echo "FAILED: $*"
  for log in err headers; do
    if [ -f "$folder/$log" ]; then echo "--- $log"; cat "$folder/$log"; fi
  done
  exit 1
}
equal() { [ "$2" = "$3" ] || fail "$1: expected '$2', found '$3'"; }

# Runs its command twice a second until it succeeds, for at most two minutes.
wait_until() {
  for _ in $(seq 240); do
    if "$@"; then return 0; fi
    sleep 0.5
  done
  fail "never came true: $*"
}
told() { grep -q "$1" "$folder/err"; }

# Most of the plan's jobs lie after that day, and the day lies in the past of every run.
today=2026-06-01
plans=garden.toml
start() {
  : >"$folder/err"
  "$trug" feed $plans --today $today --listen "$@" >"$folder/out" 2>"$folder/err" &
  server=$!
  wait_until told "^Listening on"
  port=$(sed -n 's/^Listening on [0-9.]*:\([0-9]*\);.*/\1/p' "$folder/err")
}
stop() {
  kill -"$1" "$server"
  code=0
  wait "$server" || code=$?
  server=""
  equal "exit code after SIG$1" 0 $code
}

status() {
  : >"$folder/body"  # curl leaves it alone where there is none
  curl -s -o "$folder/body" -D "$folder/headers" -w '%{http_code}' "$@"
}
header() { tr -d '\r' <"$folder/headers" | sed -n "s/^$1: //p"; }
tag() { status "$address" >/dev/null; header ETag; }
tag_is_new() { [ "$(tag)" != "$old_tag" ]; }
answers() { [ "$(status "$2")" = "$1" ]; }
read_code() { rsvg-convert -w 400 "$1" -o "$folder/code.png" && zbarimg -q --raw "$folder/code.png" 2>/dev/null; }
token_of() { basename "$(dirname "$1")"; }
link_in() { sed -n "s|.* \($1:.*$2\)\$|\1|p" "$3"; }

cd "$folder"
cp "$project/examples/harbour-office.toml" garden.toml

# --- the first start makes a link and shows it
start 127.0.0.1:0
if told "plain text"; then fail "loopback needs no warning"; fi
address=$(link_in http 'garden\.ics' out)
page=$(link_in http / out)
equal "the link for Apple's machines" "$(echo "$address" | sed 's/^http/webcal/')" \
  "$(link_in webcal 'garden\.ics' out)"
token=$(token_of "$address")
equal "length of the token" 43 "$(printf %s "$token" | wc -c)"
equal "permissions of the links" 600 "$(stat -c %a garden.feed.links)"
equal "the links as hashes" "active $(printf %s "$token" | sha256sum | cut -d' ' -f1)" \
  "$(grep -v '^#' garden.feed.links)"

# --- GET, HEAD and the conditions
equal "GET" 200 "$(status "$address")"
equal "an address of before" 200 "$(status "${address%garden.ics}calendar.ics")"
status "$address" >/dev/null
equal "type" "text/calendar; charset=utf-8" "$(header Content-Type)"
cmp body garden.feed.ics || fail "what is served is not what is written"
equal "tag" "\"$(sha256sum <garden.feed.ics | cut -d' ' -f1)\"" "$(header ETag)"
modified=$(header Last-Modified)
old_tag=$(tag)
equal "GET with the tag" 304 "$(status -H "If-None-Match: $old_tag" "$address")"
equal "octets with the tag" 0 "$(wc -c <body)"
equal "GET with the date" 304 "$(status -H "If-Modified-Since: $modified" "$address")"
equal "GET with another tag" 200 "$(status -H 'If-None-Match: "another"' "$address")"
equal "HEAD" 200 "$(status -I "$address")"
equal "length by HEAD" "$(wc -c <garden.feed.ics)" "$(header Content-Length)"
for method in PROPFIND PUT POST DELETE OPTIONS; do
  equal "$method" 405 "$(status -X $method "$address")"
  equal "what $method is told" "GET, HEAD" "$(header Allow)"
done
equal "an unknown link" 404 "$(status "http://127.0.0.1:$port/$(echo "$token" | tr a-zA-Z b-zaB-ZA)/calendar.ics")"
equal "no link" 404 "$(status "http://127.0.0.1:$port/")"

# --- the page, its style and its codes
equal "page" 200 "$(status "$page")"
equal "type of the page" "text/html; charset=utf-8" "$(header Content-Type)"
cp body page.html
xmllint --noout page.html || fail "the page is not well formed"
grep -q "href=\"webcal://127.0.0.1:$port/$token/garden.ics\"" page.html || fail "no link to subscribe"
for name in style.css chart.svg qr.svg qr-webcal.svg; do
  equal "$name" 200 "$(status "$page$name")"
  cp body "$name"
done
equal "the code on the page" "$address" "$(read_code qr.svg)"
equal "the code for Apple's machines" "$(echo "$address" | sed 's/^http/webcal/')" \
  "$(read_code qr-webcal.svg)"
if command -v chromium >/dev/null; then
  for scheme in dark light; do
    [ $scheme = dark ] && preferred=0 || preferred=1
    chromium --headless --no-sandbox --disable-gpu --hide-scrollbars --enable-logging=stderr \
      --user-data-dir="$folder/browser" --blink-settings=preferredColorScheme=$preferred \
      --window-size=390,844 --screenshot="$folder/$scheme.png" "$page" >browser.log 2>&1 ||
      fail "no picture of the page"
    grep -q "Content Security Policy" browser.log && fail "the page breaks its own policy"
    python3 "$project/tests/app/look_at_page.py" $scheme.png $scheme || fail "the $scheme page"
  done
  # On paper one sheet, and the secret on none; the telephone's part has it in its links.
  chromium --headless --no-sandbox --disable-gpu --user-data-dir="$folder/browser" \
    --print-to-pdf="$folder/page.pdf" "$page" >browser.log 2>&1 || fail "the page was not printed"
  equal "sheets of the page" 1 "$(grep -a -c '/Type */Page$' page.pdf)"
  grep -a -q "$token" page.pdf && fail "the secret is printed"
  curl -s "${page}style.css" | sed 's/^  .screen { display: none; }//' >style.css
  chromium --headless --no-sandbox --disable-gpu --user-data-dir="$folder/browser" \
    --print-to-pdf="$folder/shown.pdf" "file://$folder/page.html" >browser.log 2>&1
  grep -a -q "$token" shown.pdf || fail "a secret on paper would not be seen"
else
  echo "no chromium: the page was not looked at"
fi

equal "how often the open links were told" 1 "$(grep -c 'open to garden.toml' err)"

# --- another link, drawn; the server takes it up; then it is withdrawn
"$trug" feed garden.toml --listen "127.0.0.1:$port" --new-link --qr door.svg >second 2>>err
second=$(link_in http 'garden\.ics' second)
equal "the code for the door" "$(link_in http / second)" "$(read_code door.svg)"
equal "permissions of the code" 600 "$(stat -c %a door.svg)"
wait_until answers 200 "$second"
"$trug" feed garden.toml --revoke "$(link_in webcal 'garden\.ics' second)" >withdrawn
wait_until answers 410 "$second"
equal "the first link" 200 "$(status "$address")"

# --- a broken edit changes nothing
cp garden.toml sound.toml
echo 'flowering_year = "soon"' >>garden.toml
wait_until told "^The feed stays as it was"
told "^garden.toml:.*error:" || fail "what is wrong was not told"
equal "GET after a broken edit" 200 "$(status "$address")"
equal "tag after a broken edit" "$old_tag" "$(header ETag)"

# --- a frost date moves jobs
cp garden.feed.ics before.ics
sed 's/^last_frost = .*/last_frost = "28 May"/' sound.toml >garden.toml
cmp -s sound.toml garden.toml && fail "the plan has no last frost to change"
wait_until tag_is_new
cmp -s body garden.feed.ics || fail "what is served is not what is written"
python3 "$project/tests/app/compare_feeds.py" before.ics garden.feed.ics $today || fail "the changes"

# --- a restart forgets nothing and shows no link
old_tag=$(tag)
cp garden.feed.ics before.ics
stop TERM
cat err >>all
start "127.0.0.1:$port"
equal "what a restart shows" "" "$(cat out)"
equal "tag after a restart" "$old_tag" "$(tag)"
cmp before.ics garden.feed.ics || fail "a restart changed the file"

# --- all links withdrawn
"$trug" feed garden.toml --revoke-all >withdrawn
wait_until answers 410 "$address"
stop INT
cat err >>all

# --- a start with a broken plan serves what was last good, until the plan is mended
old_tag=\"$(sha256sum <garden.feed.ics | cut -d' ' -f1)\"
cp garden.toml mended.toml
echo 'flowering_year = "soon"' >>garden.toml
start "127.0.0.1:$port"
told "^garden.toml:.*error:" || fail "what is wrong was not told"
told "Served instead, until it is mended: the last good calendar, garden.feed.ics" ||
  fail "what is served was not told"
"$trug" feed garden.toml --listen "127.0.0.1:$port" --new-link >third 2>>err
address=$(link_in http 'garden\.ics' third)
wait_until answers 200 "$address"
equal "tag with a broken plan" "$old_tag" "$(header ETag)"
equal "page with a broken plan" 200 "$(status "$(link_in http / third)")"
xmllint --noout body || fail "the page without a plan is not well formed"
sed 's/^last_frost = .*/last_frost = "20 May"/' mended.toml >garden.toml
wait_until tag_is_new
cmp -s body garden.feed.ics || fail "what is served is not what is written"
stop TERM
cat err >>all

# --- where one plan cannot be served, no link is made to the other
mkdir apart
sed 's/^garden = "......../garden = "0b1c2d3e/' garden.toml >apart/first.toml
echo "no plan" >apart/second.toml
if "$trug" feed apart/first.toml apart/second.toml --listen "127.0.0.1:$port" >out 2>err; then
  fail "a plan that is none was served"
fi
grep -q "new link" out && fail "a link to a plan that is not served"
[ ! -e apart/first.feed.links ] || fail "links of a plan that is not served"

# --- two plans, each with its own link, calendar and page
sed 's/^title = .*/title = "The other beds"/; s/^garden = "......../garden = "0a1b2c3d/' \
  garden.toml >other.toml
cmp -s garden.toml other.toml && fail "the plan has no garden to change"
plans="garden.toml other.toml"
start "127.0.0.1:$port"
told "^1 link is open to garden.toml\.$" || fail "the links of the first plan"
told "^1 link is open to other.toml\.$" || fail "the links of the second plan"
other=$(link_in http 'other\.ics' out)
equal "the second plan's link" 200 "$(status "$other")"
cmp body other.feed.ics || fail "the second plan's calendar is not its own"
equal "the second plan's page" 200 "$(status "${other%other.ics}")"
grep -q "<h1>The other beds</h1>" body || fail "the second plan's page is not its own"
equal "the first plan's link" 200 "$(status "$address")"
cmp body garden.feed.ics || fail "the first plan's calendar is not its own"
"$trug" feed $plans --revoke "$other" >withdrawn
wait_until answers 410 "$other"
equal "the first plan's link" 200 "$(status "$address")"
stop TERM
cat err >>all
plans=garden.toml

# --- beyond this machine, with a warning
start 0.0.0.0:0 --url https://example.org/garden
told "^warning: .* in plain text" || fail "no warning"
stop TERM
cat err >>all

# --- what the program said holds no link
for secret in "$token" "$(token_of "$second")" "$(token_of "$other")"; do
  if grep -qF "$secret" all garden.feed.links other.feed.links; then fail "a secret was told or kept"; fi
done

# --- what cannot be done
refused() {
  code=0
  "$trug" feed garden.toml "$@" >out 2>err || code=$?
  printf '%s: %s' "$code" "$(head -n 1 err)"
}
equal "an address for all" \
  "2: error: 0.0.0.0 is every address of this machine, and none that a link could name" \
  "$(refused --listen 0.0.0.0:0)"
equal "no new link to draw" \
  "2: error: there is no new link to draw, and trug keeps no copy of the old ones" \
  "$(refused --listen 127.0.0.1:0 --qr new.svg)"
echo "mine" >mine.svg
equal "a file of the gardener's" "3: error: mine.svg stays as it is: trug did not draw it" \
  "$(refused --new-link --qr mine.svg)"
equal "one calendar for two plans" "2: error: --file is for one plan, and here are 2" \
  "$(refused other.toml --file one.ics)"
equal "a plan twice" "2: error: ./garden.toml is named twice" "$(refused ./garden.toml)"
sed 's/^vases_per_week = .*/vases_per_week = 50/' garden.toml >strict.toml
cmp -s garden.toml strict.toml && fail "the plan has no wish to change"
code=0
"$trug" feed strict.toml --strict --today $today --listen 127.0.0.1:0 2>err || code=$?
equal "a plan with findings, under --strict" 1 $code
told "^With --strict, a plan that has findings is not published" || fail "it was not told why"
[ ! -e strict.feed.ics ] || fail "a refused plan was written"
equal "an unknown link" "2: error: there is no such link in garden.feed.links" \
  "$(refused --revoke "$(echo "$token" | tr a-zA-Z b-zaB-ZA)")"
equal "no plan" "error: there is no plan gardn.toml" "$("$trug" feed gardn.toml --new-link 2>&1)"
echo "The feed holds."
