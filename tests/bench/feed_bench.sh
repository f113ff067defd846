#!/bin/sh
# SPDX-License-Identifier: MIT
# Requests per second of our server and of nginx: the same file of 100 kB, over loopback, turn and
# turn about, three rounds; the best round of each counts, since noise only ever slows down.
# usage: feed_bench.sh FEED_SERVER [SECONDS_PER_RUN]
# Needs nginx and wrk. Client and servers share the machine, so the figures compare the two servers
# on it; they say little about what either could do alone.
set -eu
feed_server=$1
seconds=${2:-4}
rounds=3
feed_port=18180
nginx_port=18181
for tool in curl nginx wrk; do
  PATH="$PATH:/usr/sbin" command -v "$tool" >/dev/null || { echo "$tool is needed" >&2; exit 1; }
done
PATH="$PATH:/usr/sbin"

folder=$(mktemp -d)
feed_pid=
nginx_pid=
finish() {
  [ -z "$feed_pid" ] || kill "$feed_pid" 2>/dev/null || true
  [ -z "$nginx_pid" ] || kill "$nginx_pid" 2>/dev/null || true
  wait
  rm -rf "$folder"
}
trap finish EXIT
trap 'exit 130' INT TERM

mkdir "$folder/root"
chmod 755 "$folder"  # started by root, nginx reads as somebody else
head -c 102400 /dev/zero | tr '\0' 'x' >"$folder/root/calendar.ics"
cat >"$folder/nginx.conf" <<CONF
daemon off;
worker_processes 2;
pid $folder/nginx.pid;
error_log $folder/error.log;
events { worker_connections 1024; }
http {
  access_log off;
  sendfile on;
  tcp_nopush on;
  open_file_cache max=16;
  keepalive_requests 1000000000;
  types { text/calendar ics; }
  client_body_temp_path $folder/body;
  proxy_temp_path $folder/proxy;
  fastcgi_temp_path $folder/fastcgi;
  uwsgi_temp_path $folder/uwsgi;
  scgi_temp_path $folder/scgi;
  server { listen 127.0.0.1:$nginx_port; root $folder/root; }
}
CONF

"$feed_server" "$folder/root/calendar.ics" "$feed_port" >"$folder/link" &
feed_pid=$!
nginx -c "$folder/nginx.conf" -e "$folder/error.log" &
nginx_pid=$!
sleep 1
feed_link=$(cat "$folder/link")
nginx_link=http://127.0.0.1:$nginx_port/calendar.ics
# Both must really serve the file before anything is measured.
for link in "$feed_link" "$nginx_link"; do
  curl -sf "$link" | cmp - "$folder/root/calendar.ics"
done
tag() { curl -sfI "$1" | tr -d '\r' | sed -n 's/^[Ee][Tt][Aa][Gg]: //p'; }

# Prints "requests-per-second p99 failures".
measure() {
  wrk -t2 -c"$2" -d"${seconds}s" --latency ${3:+-H "$3"} "$1" | awk '
    /Requests\/sec/ { rate = $2 }
    $1 == "99%" { slow = $2 }
    /Socket errors/ { gsub(",", ""); failed += $4 + $6 + $8 + $10 }
    /Non-2xx or 3xx/ { failed += $NF }
    END { printf "%d %s %d\n", rate, slow, failed }'
}

compare() {
  : >"$folder/feed"
  : >"$folder/nginx"
  round=0
  while [ $round -lt $rounds ]; do
    measure "$feed_link" "$2" "$3" >>"$folder/feed"
    measure "$nginx_link" "$2" "$4" >>"$folder/nginx"
    round=$((round + 1))
  done
  feed=$(sort -rn "$folder/feed" | head -n 1)
  nginx=$(sort -rn "$folder/nginx" | head -n 1)
  echo "$1 $2 $feed $nginx" | awk '{ printf "%-4s %5d %10d %9s %8d %10d %9s %8d %8.2f\n",
    $1, $2, $3, $4, $5, $6, $7, $8, $3 / $6 }'
}

printf '%-4s %5s %10s %9s %8s %10s %9s %8s %8s\n' \
  what conns ours/s p99 failed nginx/s p99 failed ratio
for connections in 8 100; do
  compare 200 "$connections" "" ""
  compare 304 "$connections" "If-None-Match: $(tag "$feed_link")" \
    "If-None-Match: $(tag "$nginx_link")"
done
printf 'memory of ours at its highest: %s kB\n' \
  "$(sed -n 's/^VmHWM:[^0-9]*\([0-9]*\).*/\1/p' "/proc/$feed_pid/status")"
