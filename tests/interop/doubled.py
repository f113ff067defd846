#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Does a program hold every event of every file, each as often as it was imported?

usage: doubled.py HELD READING...      all as read_calendar.py prints them
"""
import collections
import json
import sys


def events(path):
    with open(path, encoding="utf-8") as file:
        return collections.Counter(
            (e["uid"], e["start"], e["status"], e["summary"]) for e in json.load(file)["events"])


def main():
    if len(sys.argv) < 3:
        sys.exit("usage: doubled.py HELD READING...")
    held = events(sys.argv[1])
    wanted = sum((events(path) for path in sys.argv[2:]), collections.Counter())
    if held != wanted:
        sys.exit(f"only in {sys.argv[1]}: {held - wanted}\nonly in the files: {wanted - held}")
    uids = {event[0] for event in held}
    print(f"{held.total()} events of {len(uids)} UIDs: {len(sys.argv) - 2} files side by side")


main()
