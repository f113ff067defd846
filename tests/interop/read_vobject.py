#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Reads an iCalendar file with python3-vobject and prints its events as JSON.

usage: read_vobject.py FILE

The same object as read_calendar.py, with the description. Ends with 1 where vobject's own
validation refuses the file.
"""
import json
import sys

import vobject


def text(event, name):
    return event.contents[name][0].value if name in event.contents else None


def read(event):
    alarms = [alarm.trigger.value for alarm in event.contents.get("valarm", [])]
    return {
        "uid": event.uid.value,
        "start": event.dtstart.value.isoformat(),
        "end": event.dtend.value.isoformat(),
        "sequence": int(event.sequence.value),
        "status": text(event, "status"),
        "summary": text(event, "summary"),
        "description": text(event, "description"),
        "location": text(event, "location"),
        "alarms": [int(trigger.total_seconds()) for trigger in alarms],
    }


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: read_vobject.py FILE")
    with open(sys.argv[1], encoding="utf-8", newline="") as file:
        calendar = vobject.readOne(file.read())
    calendar.validate(raiseException=True)
    print(json.dumps({"events": [read(event) for event in calendar.vevent_list]}, indent=2))


main()
