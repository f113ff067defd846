#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Compares what calendar libraries read in a file with the jobs that trug printed.

usage: readers.py PLAN JOBS READING...

PLAN is the plan in TOML, JOBS the output of `trug jobs PLAN --json`, each READING the output of a
reader of this folder (read_calendar.py and its sisters). All must hold the same events: UID, day,
one day long, confirmed, and a reminder where the plan asks for one. Texts are compared as far as
JOBS tells them.
"""
import datetime
import json
import sys
import tomllib

# README.md, "remind": the jobs that spoil the year when their day is missed. A lift is one of them
# only where another crop follows on the same stretch.
CANNOT_WAIT = {"order-seed", "order-bulbs", "order-tubers", "order-plants", "pre-treat", "sow",
               "plant", "plant-out", "protect", "watch-for-frost"}
# What every reader of this folder tells; a client that shows less says so in "told".
FIELDS = ("start", "end", "status", "alarms")


def next_day(day):
    return (datetime.date.fromisoformat(day) + datetime.timedelta(days=1)).isoformat()


def trigger(work):
    """Seconds from the first moment of the day to its reminder: negative, before."""
    at = str(work.get("remind_at", "18:00")).split(":")
    return (int(at[0]) * 60 + int(at[1])) * 60 - work.get("remind_days_before", 1) * 86400


def ring(job, work):
    """When the reminder rings, as the jobs' JSON tells it."""
    day = datetime.date.fromisoformat(job["date"])
    day -= datetime.timedelta(days=work.get("remind_days_before", 1))
    return f"{day}T{str(work.get('remind_at', '18:00'))[:5]}"


def another_follows(job, plantings):
    """Does another crop come onto the stretch of this job after the job's own?"""
    own = next(p for p in plantings if p["id"] == job["planting"])
    return any(p["bed"] == own["bed"] and p["stretch"] == own["stretch"]
               and p["in_ground"] > own["in_ground"] for p in plantings)


def reminded(job, plan, plantings):
    wish = plan.get("work", {}).get("remind", "must")
    if wish != "must":
        return wish == "all"
    if job["kind"] == "lift":
        return another_follows(job, plantings)
    return job["kind"] in CANNOT_WAIT


def place(job):
    """An order is for many beds and names none."""
    if job["bed"] is None:
        return ""
    return f"{job['bed']}, {job['at_cm']} to {job['at_cm'] + job['length_cm']} cm"


def expected(plan_file, jobs_file):
    """The events that the calendar must hold, by UID."""
    with open(plan_file, "rb") as file:
        plan = tomllib.load(file)
    with open(jobs_file, encoding="utf-8") as file:
        told = json.load(file)
    events = {}
    with_event = [job for job in told["jobs"] if job["told_with"] is None]
    for job in told["jobs"]:
        if job["told_with"] is not None:  # another's event tells of it
            assert job["reminder"] is None and job["told_with"] in {j["uid"] for j in with_event}, job
    for job in with_event:
        work = plan.get("work", {})
        alarms = [trigger(work)] if reminded(job, plan, told["plantings"]) else []
        assert job["reminder"] == (ring(job, work) if alarms else None), job
        events[job["uid"]] = {
            "start": job["date"],
            "end": next_day(job["date"]),
            "status": "CONFIRMED",
            "alarms": alarms,
            "sequences": [0],
            "text": job["text"],
            "cautions": job["cautions"],
            "place": place(job),
        }
    assert len(events) == len(with_event) > 0, "a UID is there twice, or there is no job"
    return events


def texts_differ(event, want):
    """Not every reader tells the texts."""
    if "description" not in event:
        return False
    return (not event["description"].startswith(want["text"])
            or any(caution not in event["description"] for caution in want["cautions"])
            or (event["location"] or "") != want["place"])


def differences(reading_file, events):
    with open(reading_file, encoding="utf-8") as file:
        read = json.load(file)
    told = read.get("told", FIELDS)
    uids = [event["uid"] for event in read["events"]]
    if sorted(uids) != sorted(events):
        yield f"{len(uids)} events, {len(events)} wanted: {sorted(set(uids) ^ set(events))}"
    for event in read["events"]:
        want = events.get(event["uid"])
        if want is None:
            continue
        for name in told:
            if event[name] != want[name]:
                yield f"{event['uid']} {name}: {event[name]}, {want[name]} wanted"
        if texts_differ(event, want):
            yield f"{event['uid']} text: {event['description']!r} at {event['location']!r}"
        if "sequence" in event and event["sequence"] not in want["sequences"]:
            yield f"{event['uid']} SEQUENCE {event['sequence']}, of {want['sequences']} wanted"
        if event["summary"].startswith("Cancelled: ") != (want["status"] == "CANCELLED"):
            yield f"{event['uid']} summary: {event['summary']}"


def compare(events, readings):
    """Prints what differs and tells whether all readings hold the events."""
    sound = True
    for reading in readings:
        found = list(differences(reading, events))
        sound = sound and not found
        for line in found:
            print(f"{reading}: {line}", file=sys.stderr)
    return sound


def main():
    if len(sys.argv) < 4:
        sys.exit("usage: readers.py PLAN JOBS READING...")
    events = expected(sys.argv[1], sys.argv[2])
    if not compare(events, sys.argv[3:]):
        sys.exit(1)
    reminders = sum(bool(event["alarms"]) for event in events.values())
    print(f"{sys.argv[1]}: {len(events)} events, {reminders} reminders: "
          f"{len(sys.argv) - 3} readers agree")


if __name__ == "__main__":
    main()
