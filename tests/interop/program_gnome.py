#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Has Evolution's store and GNOME Calendar, which shares it, take a calendar and its next version.

usage: program_gnome.py FOLDER FIRST.ics SECOND.ics

Needs an X server (DISPLAY) and a session bus of its own (dbus-run-session) with HOME in FOLDER.
GNOME Calendar is given each file and its Import button is pressed. For Evolution the store is asked
as its import asks it: receive_objects (its libevolution-calendar-importers.so imports that function
and no other that writes). Writes what the store holds then to FOLDER/gnome-1.ics and gnome-2.ics,
evolution-1.ics and evolution-2.ics, and of a subscription, whose looking again is the same for both
programs, to feed-1.ics and feed-2.ics; pictures of GNOME Calendar to gnome-1.png and gnome-2.png.
"""
import os
import subprocess
import sys
import time

import gi
gi.require_version("ECal", "2.0")
gi.require_version("EDataServer", "1.2")
gi.require_version("ICalGLib", "3.0")
from gi.repository import ECal, EDataServer, GLib, ICalGLib  # noqa: E402

import program  # noqa: E402

PATIENCE = 30  # seconds


def connect(source):
    return ECal.Client.connect_sync(source, ECal.ClientSourceType.EVENTS, PATIENCE, None)


def held(calendar):
    found, events = calendar.get_object_list_sync("#t", None)
    assert found
    return [event.as_ical_string() for event in events]


def new_calendar(registry, name, backend, address=None):
    source = EDataServer.Source.new(None, None)
    source.set_display_name(name)
    source.set_parent(backend + "-stub")
    source.get_extension(EDataServer.SOURCE_EXTENSION_CALENDAR).set_backend_name(backend)
    if address:
        source.get_extension(EDataServer.SOURCE_EXTENSION_WEBDAV_BACKEND).set_uri(
            GLib.Uri.parse(address, GLib.UriFlags.NONE))
    registry.commit_source_sync(source, None)
    for _ in range(PATIENCE):
        known = registry.ref_source(source.get_uid())
        if known:
            return connect(known)
        GLib.MainContext.default().iteration(False)
        time.sleep(1)
    sys.exit(f"Evolution's store does not make the calendar {name}")


def try_gnome_calendar(registry, folder, versions):
    calendar = connect(registry.ref_builtin_calendar())
    before = []
    with open(os.path.join(folder, "gnome-calendar.log"), "wb") as log:
        window = subprocess.Popen(["gnome-calendar"], stdout=log, stderr=log)
        time.sleep(8)
        try:
            for number, version in enumerate(versions, 1):
                subprocess.run(["gnome-calendar", os.path.abspath(version)], check=True,
                               stdout=log, stderr=log, timeout=PATIENCE)
                time.sleep(5)
                program.press("shift+Tab")
                program.picture(folder, f"gnome-{number}")
                program.press("Return")
                before = program.changed(before, lambda: held(calendar))
                program.keep(folder, f"gnome-{number}", before)
        finally:
            window.terminate()
            window.wait(PATIENCE)


def try_evolution(registry, folder, versions):
    calendar = new_calendar(registry, "imported", "local")
    for number, version in enumerate(versions, 1):
        with open(version, encoding="utf-8") as file:
            events = ICalGLib.Component.new_from_string(file.read())
        events.set_method(ICalGLib.PropertyMethod.PUBLISH)
        calendar.receive_objects_sync(events, ECal.OperationFlags.NONE, None)
        program.keep(folder, f"evolution-{number}", held(calendar))


def try_subscription(registry, folder, versions):
    with program.served(folder) as address:
        program.publish(folder, versions[0], age=86400)
        calendar = new_calendar(registry, "subscribed", "webcal", address)
        first = program.changed([], lambda: held(calendar))
        program.keep(folder, "feed-1", first)
        program.publish(folder, versions[1])
        calendar.refresh_sync(None)
        program.keep(folder, "feed-2", program.changed(first, lambda: held(calendar)))


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: program_gnome.py FOLDER FIRST.ics SECOND.ics")
    registry = EDataServer.SourceRegistry.new_sync(None)
    for attempt in (try_evolution, try_subscription, try_gnome_calendar):
        attempt(registry, os.path.abspath(sys.argv[1]), sys.argv[2:])


main()
