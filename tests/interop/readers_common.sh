# SPDX-License-Identifier: MIT
# What readers.sh and import_twice.sh share; read by them, not run. Debian's own Python and Ruby
# are named by their paths: another in the way does not see Debian's libraries.
python=/usr/bin/python3
ruby=/usr/bin/ruby

# readers_from SOURCE_DIR ICAL_JS_FOLDER READ_LIBICAL: fails where a reader is missing.
readers_from() {
  readers=$1/tests/interop
  ical_js=$2
  read_libical=$3
  for tool in "$python" "$ruby" node "$read_libical"; do
    command -v "$tool" >/dev/null || { echo "missing: $tool" >&2; exit 1; }
  done
  "$python" -c 'import icalendar, tomllib, vobject'
  "$ruby" -e 'require "icalendar"'
  [ -d "$ical_js/node_modules/ical.js" ] || { echo "missing: ical.js in $ical_js" >&2; exit 1; }
}

# write_quietly ARGUMENT...: `trug calendar` with what it says only where it fails.
write_quietly() {
  "$trug" calendar "$@" >"$work/said" 2>&1 || { cat "$work/said" >&2; exit 1; }
}

# read_with_all FILE FOLDER: writes FOLDER/read-<library>.json, five files.
read_with_all() {
  "$python" "$readers/read_calendar.py" "$1" >"$2/read-icalendar.json"
  "$python" "$readers/read_vobject.py" "$1" >"$2/read-vobject.json"
  "$ruby" "$readers/read_ruby_icalendar.rb" "$1" >"$2/read-ruby-icalendar.json"
  node "$readers/read_ical_js.cjs" "$ical_js" "$1" >"$2/read-ical.js.json"
  "$read_libical" "$1" >"$2/read-libical.json"
}
