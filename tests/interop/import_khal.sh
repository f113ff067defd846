# SPDX-License-Identifier: MIT
# khal in a home of its own; read by import_twice.sh, not run. It keeps one file for each event.

# khal_prepare FOLDER
khal_prepare() {
  khal_folder=$1
  mkdir -p "$khal_folder/beds" "$khal_folder/home"
  cat >"$khal_folder/conf" <<END
[calendars]
[[beds]]
path = $khal_folder/beds
[locale]
local_timezone = Europe/London
default_timezone = Europe/London
dateformat = %Y-%m-%d
longdateformat = %Y-%m-%d
timeformat = %H:%M
datetimeformat = %Y-%m-%d %H:%M
longdatetimeformat = %Y-%m-%d %H:%M
[default]
default_calendar = beds
END
}

khal_run() {
  HOME=$khal_folder/home XDG_CONFIG_HOME=$khal_folder/home XDG_DATA_HOME=$khal_folder/home \
    XDG_CACHE_HOME=$khal_folder/home LC_ALL=C.UTF-8 khal -c "$khal_folder/conf" "$@"
}

# khal_import FILE NAME: imports, then writes what khal keeps as NAME-kept.json and what it shows
# of it as NAME-shown.json.
khal_import() {
  khal_run import --batch -a beds "$1"
  {
    printf 'BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//test//EN\r\n'
    for kept in "$khal_folder"/beds/*; do
      sed -n '/^BEGIN:VEVENT/,/^END:VEVENT/p' "$kept"
    done
    printf 'END:VCALENDAR\r\n'
  } >"$2.ics"
  "$python" "$readers/read_calendar.py" "$2.ics" >"$2-kept.json"
  # Every event lasts one day: its last day shown is its first. The days' headings are left out.
  khal_run list 2026-01-01 1000d --day-format '' \
    --format '{start-date}%{end-date}%{uid}%{status}%{title}' >"$2.txt"
  "$python" - "$2.txt" >"$2-shown.json" <<'END'
import json, sys
events = []
for line in open(sys.argv[1], encoding="utf-8"):
    if line.strip():
        start, last, uid, status, summary = line.rstrip("\n").split("%", 4)
        assert start == last, line
        events.append({"uid": uid, "start": start, "status": status.strip(), "summary": summary})
print(json.dumps({"told": ["start", "status"], "events": events}))
END
}
