#!/bin/sh
# SPDX-License-Identifier: MIT
# "-" is the standard input for a plan and the standard output for a file; the terminal's width and
# colour are heeded.
# usage: sh streams_test.sh PROGRAM SOURCE_FOLDER
set -eu
trug=$1 source=$2
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
fail() { echo "FAILED: $1" >&2; exit 1; }
unset NO_COLOR CLICOLOR CLICOLOR_FORCE COLUMNS 2>/dev/null || true
today=2026-11-25
cp "$source/examples/harbour-office.toml" plan.toml

# The same from a file and from a pipe, but for the name.
"$trug" jobs plan.toml --today $today --csv >from-file 2>/dev/null
"$trug" jobs - --today $today --csv <plan.toml >from-pipe 2>/dev/null
cmp from-file from-pipe || fail "a plan from the standard input"
printf 'titel = "x"\n' | "$trug" check - 2>problems && fail "a bad plan from the standard input"
grep -q '^-:1:1: error: unknown key' problems || { cat problems; fail "where it is wrong"; }

# The calendar is written whole to the standard output, all else to the other.
"$trug" calendar - -o - --today $today <plan.toml >out.ics 2>told
[ "$(head -c 15 out.ics)" = BEGIN:VCALENDAR ] || fail "the calendar on the standard output"
[ "$(tail -n 1 out.ics | tr -d '\r')" = END:VCALENDAR ] || fail "the calendar's end"
grep -q '^the standard output holds' told || { cat told; fail "what was written"; }
"$trug" calendar plan.toml -o file.ics --today $today >/dev/null 2>&1
[ "$(grep -c BEGIN:VEVENT out.ics)" = "$(grep -c BEGIN:VEVENT file.ics)" ] || fail "its events"
"$trug" calendar plan.toml -o - --today $today --dry-run >dry 2>/dev/null
[ ! -s dry ] || fail "--dry-run writes to the standard output"
"$trug" chart plan.toml -o - 2>/dev/null | head -c 5 | grep -q '<' || fail "the picture"
[ ! -e ./- ] || fail "a file named - was written"
for words in "calendar plan.toml -o - --split bed" "calendar plan.toml -o - --json" "feed -" \
             "feed plan.toml --qr -"; do
  code=0
  "$trug" $words >/dev/null 2>&1 || code=$?
  [ "$code" -eq 2 ] || fail "trug $words ended with $code"
done

# Lines keep to COLUMNS, and every column has its heading while there is room for columns.
for width in 40 60 80 200; do
  COLUMNS=$width "$trug" jobs plan.toml --today $today >page 2>/dev/null
  widest=$(awk '{ if (length($0) > w) w = length($0) } END { print w }' page)
  [ "$widest" -le "$width" ] || fail "a line of $widest at COLUMNS=$width"
done
grep -q 'day  *job  *planting .*still right' page || fail "no headings"

# Colour only where it is wanted.
escape=$(printf '\033')
coloured() { if "$@" 2>/dev/null | grep -q "$escape"; then echo yes; else echo no; fi; }
[ "$(coloured "$trug" jobs plan.toml)" = no ] || fail "colour in a pipe"
[ "$(coloured "$trug" jobs plan.toml --color=always)" = yes ] || fail "--color=always"
[ "$(CLICOLOR_FORCE=1 coloured "$trug" jobs plan.toml)" = yes ] || fail "CLICOLOR_FORCE"
[ "$(CLICOLOR_FORCE=1 coloured "$trug" jobs plan.toml --color=never)" = no ] || fail "--color=never"
[ "$(NO_COLOR=1 CLICOLOR_FORCE=1 coloured "$trug" jobs plan.toml)" = no ] || fail "NO_COLOR"

# On a terminal of its own: as wide as that, coloured unless it is a dumb one.
cat >terminal.py <<'PY'
import fcntl, os, pty, re, struct, subprocess, sys, termios
columns, term, *words = sys.argv[1:]
ours, theirs = pty.openpty()
fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 24, int(columns), 0, 0))
child = subprocess.Popen(words, stdout=theirs, stderr=subprocess.DEVNULL,
                         env={**os.environ, "TERM": term})
os.close(theirs)
text = b""
try:
    while chunk := os.read(ours, 65536):
        text += chunk
except OSError:  # the other side is closed
    pass
assert child.wait() == 0
lines = [re.sub(r"\x1b\[[0-9;]*m", "", line) for line in text.decode().split("\r\n")]
print(max(map(len, lines)), "coloured" if b"\x1b[" in text else "plain")
PY
on_terminal() { python3 -B terminal.py "$@" "$trug" jobs plan.toml --today $today; }
for width in 45 72; do
  set -- $(on_terminal $width xterm)
  [ "$1" -le $width ] || fail "a line of $1 on a terminal of $width"
  [ "$2" = coloured ] || fail "no colour on a terminal"
done
[ "$(on_terminal 72 dumb | cut -d ' ' -f 2)" = plain ] || fail "colour on a dumb terminal"
[ "$(CLICOLOR=0 on_terminal 72 xterm | cut -d ' ' -f 2)" = plain ] || fail "CLICOLOR=0"
echo "streams, width and colour are as they should be"
