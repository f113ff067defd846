#!/bin/sh
# SPDX-License-Identifier: MIT
# Reads from a program's ELF headers and code how it was compiled and linked. Prints what is missing,
# a line each; exit 1 where something is.
# usage: sh hardening.sh PROGRAM
set -eu
program=$1
wrong=0
missing() { echo "missing: $1"; wrong=1; }
# The output of a tool, searched whole: with a pipe into "grep -q" the tool may die of SIGPIPE.
has() { pattern=$1; shift; "$@" 2>/dev/null | grep -c -- "$pattern" >/dev/null; }

has 'Type: *DYN' readelf -h "$program" || missing "position-independent executable"
has 'FLAGS_1.*PIE' readelf -d "$program" || missing "position-independent executable (flag)"
has 'GNU_RELRO' readelf -lW "$program" || missing "read-only relocations (-z relro)"
has 'BIND_NOW\|FLAGS_1.*NOW' readelf -d "$program" || missing "symbols bound at the start (-z now)"
has 'GNU_STACK .* RW ' readelf -lW "$program" || missing "a stack without code"
has '__stack_chk_fail' readelf --dyn-syms -W "$program" || missing "stack protector"
# Calls that fortification has replaced by ones that know how large their target is.
has '__[a-z]*_chk@' readelf --dyn-syms -W "$program" || missing "fortified library calls"
case $(uname -m) in
  x86_64)
    # The note that switches it on needs start-up files of the system that have it too, and Debian's
    # have not; our own functions begin with its landing marks, a few of the start-up code without.
    [ "$(objdump -d --no-show-raw-insn "$program" | grep -c endbr64)" -gt 100 ] ||
      missing "indirect branch tracking"
    # What -fstack-clash-protection does page by page to a large frame: it touches each.
    has 'or[ql] *\$0x0,(%rsp)' objdump -d --no-show-raw-insn "$program" ||
      missing "stack clash protection"
    ;;
esac
[ "$wrong" -eq 0 ] && echo "hardened: $program"
exit "$wrong"
