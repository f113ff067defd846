#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Compares what a client holds after a calendar and its next version were imported.

usage: import_twice.py ORDER PLAN_1 JOBS_1 PLAN_2 JOBS_2 TODAY_2 READING...

ORDER is 12 (the first version, then the second) or 121 (the first once more: a client that
ignores SEQUENCE goes back). PLAN and JOBS as in readers.py. After 12 a client that replaces holds:
past jobs as they were, the jobs of the second plan with SEQUENCE one higher where they moved, and
the jobs that are gone cancelled, without a reminder.
"""
import sys

import readers


def next_version(first, second, today):
    """The events of the file after its second writing: RFC 5545, 3.8.7.4; RFC 5546, 2.1.4."""
    events = {}
    for uid, old in first.items():
        if old["end"] <= today:
            events[uid] = old
        elif uid not in second:
            events[uid] = {**old, "status": "CANCELLED", "alarms": [], "sequences": [1]}
        elif second[uid]["start"] != old["start"]:
            events[uid] = {**second[uid], "sequences": [1]}
        else:
            # A text may have changed with the frost date; that counts as a revision too.
            same = all(second[uid][name] == old[name] for name in ("text", "cautions", "place"))
            events[uid] = {**second[uid], "sequences": [0] if same else [1]}
    return {**second, **events}


def count(first, events, today):
    """How many are past, moved, cancelled and new; a plan without one of each proves too little."""
    kept = [uid for uid in events if uid in first]
    counts = {
        "past": sum(first[uid]["end"] <= today for uid in kept),
        "moved": sum(events[uid]["start"] != first[uid]["start"] for uid in kept),
        "cancelled": sum(events[uid]["status"] == "CANCELLED" for uid in kept),
        "unchanged": sum(events[uid] == first[uid] for uid in kept),
        "new": len(events) - len(kept),
    }
    assert all(counts.values()), counts
    return ", ".join(f"{number} {name}" for name, number in counts.items())


def main():
    if len(sys.argv) < 8 or sys.argv[1] not in ("12", "121"):
        sys.exit("usage: import_twice.py ORDER PLAN_1 JOBS_1 PLAN_2 JOBS_2 TODAY_2 READING...")
    first = readers.expected(*sys.argv[2:4])
    events = next_version(first, readers.expected(*sys.argv[4:6]), sys.argv[6])
    counts = count(first, events, sys.argv[6])
    if sys.argv[1] == "121":
        events = {**events, **first}
    if not readers.compare(events, sys.argv[7:]):
        sys.exit(1)
    print(f"{len(sys.argv) - 7} readings after {sys.argv[1]}: {len(events)} events ({counts})")


main()
