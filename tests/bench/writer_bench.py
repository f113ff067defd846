# SPDX-License-Identifier: MIT
"""The events of writer_bench.cpp written by python3-icalendar. usage: writer_bench.py EVENTS"""
import datetime
import sys
import uuid

import icalendar

FIRST_DAY = datetime.date(2027, 1, 1)
STAMP = datetime.datetime(2027, 1, 1, tzinfo=datetime.timezone.utc)
GARDEN = uuid.UUID("3a1f7c52-1f0e-4b53-9a52-6d0c5a3f8e17")

calendar = icalendar.Calendar()
calendar.add("version", "2.0")
calendar.add("prodid", "-//trug//bench//EN")
for number in range(int(sys.argv[1])):
    day = FIRST_DAY + datetime.timedelta(days=number % 365)
    event = icalendar.Event()
    event.add("uid", str(uuid.uuid5(GARDEN, str(number))))
    event.add("dtstamp", STAMP)
    event.add("last-modified", STAMP)
    event.add("sequence", 0)
    event.add("dtstart", day)
    event.add("dtend", day + datetime.timedelta(days=1))
    summary = "Plant out: dahlia, strip %d" % (number % 97)
    event.add("summary", summary)
    event.add("description", (
        "16 plants at 40 cm in the west bed, strip %d; hardened off for a week.\nStill right until "
        "the end of the month, as long as no frost is forecast: café au lait colours last.\nWater "
        "them in, and put a stake beside each before it is planted.") % (number % 97))
    event.add("location", "west bed")
    event.add("categories", "plant")
    event.add("status", "CONFIRMED")
    event.add("transp", "TRANSPARENT")
    alarm = icalendar.Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", summary)
    alarm.add("trigger", datetime.timedelta(hours=-6))
    event.add_component(alarm)
    calendar.add_component(event)
sys.stdout.buffer.write(calendar.to_ical())
