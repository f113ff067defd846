#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Reads an iCalendar file with python3-icalendar and prints its events as JSON.

usage: read_calendar.py FILE

One object: the calendar's name and its events in the file's order, each with uid, start, end,
sequence, status, summary and the alarms as seconds after the start (negative: before). Ends with 1
where the library finds an error in the file or a property that the standard requires is missing.
"""
import datetime
import json
import sys

import icalendar


def text(component, name):
    return str(component[name]) if name in component else None


def day(component, name):
    value = component.decoded(name)
    if isinstance(value, datetime.datetime) or not isinstance(value, datetime.date):
        raise ValueError(f"{name} of {component['uid']} is no date: {value}")
    return value.isoformat()


def alarms(event):
    triggers = [alarm.decoded("trigger") for alarm in event.walk("VALARM")]
    return [int(trigger.total_seconds()) for trigger in triggers]


def read(event):
    return {
        "uid": str(event["uid"]),
        "start": day(event, "dtstart"),
        "end": day(event, "dtend"),
        "sequence": int(event.get("sequence", 0)),  # RFC 5545, 3.8.7.4
        "status": text(event, "status"),
        "summary": text(event, "summary"),
        "stamp": event.decoded("dtstamp").strftime("%Y-%m-%dT%H:%M:%SZ"),
        "alarms": alarms(event),
    }


def defects(calendar):
    for component in calendar.walk():
        for name, message in component.errors:
            yield f"{component.name} {name}: {message}"
        for name in component.required:
            if name not in component:
                yield f"{component.name} has no {name}"


def main():
    if len(sys.argv) != 2:
        sys.exit("usage: read_calendar.py FILE")
    with open(sys.argv[1], "rb") as file:
        calendar = icalendar.Calendar.from_ical(file.read())
    found = list(defects(calendar))
    if found:
        sys.exit("\n".join(found))
    events = [read(event) for event in calendar.walk("VEVENT")]
    print(json.dumps({"name": text(calendar, "name"), "events": events}, indent=2))


main()
