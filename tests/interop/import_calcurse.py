#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Compares calcurse's own file with the calendars imported into it.

usage: import_calcurse.py APTS READING...

calcurse knows no UID: it must hold every event of every file, each as often as it was imported.
READING is the output of read_calendar.py; a line of APTS is "MM/DD/YYYY [1] >note summary".
"""
import collections
import json
import re
import sys

LINE = re.compile(r"(\d\d)/(\d\d)/(\d{4}) \[1\] (?:>[0-9a-f]+ )?(.*)")


def main():
    if len(sys.argv) < 3:
        sys.exit("usage: import_calcurse.py APTS READING...")
    wanted = collections.Counter()
    for reading in sys.argv[2:]:
        with open(reading, encoding="utf-8") as file:
            wanted.update((e["start"], e["summary"]) for e in json.load(file)["events"])
    held = collections.Counter()
    with open(sys.argv[1], encoding="utf-8") as file:
        for line in file:
            month, day, year, summary = LINE.fullmatch(line.rstrip("\n")).groups()
            held[(f"{year}-{month}-{day}", summary)] += 1
    if held != wanted:
        sys.exit(f"only in calcurse: {held - wanted}\nonly in the files: {wanted - held}")
    print(f"calcurse: {held.total()} events of {len(sys.argv) - 2} files")


main()
