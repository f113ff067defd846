# SPDX-License-Identifier: MIT
# For the tests of examples that nginx serves, to be read with ".": an empty folder as the current one,
# whose servers end and which goes when the test does, and what they ask.
# shellcheck shell=sh
PATH=$PATH:/usr/sbin:/sbin

folder=$(mktemp -d)
servers=""
finish() {
  for server in $servers; do kill "$server" 2>/dev/null || true; done
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

free_port() { python3 -c 'import socket; s = socket.socket(); s.bind(("127.0.0.1", 0)); print(s.getsockname()[1])'; }

# serve_with_nginx EXAMPLE PORT: its locations, with 404 elsewhere.
serve_with_nginx() {
  mkdir temp
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
    listen 127.0.0.1:$2;
    location / { return 404; }
    include $folder/$1;
  }
}
CONF
  nginx -t -p "$folder" -c "$folder/nginx.conf" 2>nginx-test.log || fail "nginx refuses the example"
  nginx -p "$folder" -c "$folder/nginx.conf" 2>>nginx-test.log &
  servers="$servers $!"
  for _ in $(seq 60); do
    curl -s -o /dev/null "http://127.0.0.1:$2/" && break
    sleep 0.5
  done
}

equal() { [ "$2" = "$3" ] || fail "$1: expected '$2', found '$3'"; }
status() { curl -s -o body -D headers -w '%{http_code}' "$@"; }
header() { tr -d '\r' <headers | sed -n "s/^$1: //p"; }
