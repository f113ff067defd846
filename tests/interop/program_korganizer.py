#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Has KOrganizer merge a calendar and its next version into its own, and follow a file and a link.

usage: program_korganizer.py FOLDER FIRST.ics SECOND.ics

Needs an X server (DISPLAY) and a session bus of its own (dbus-run-session) with HOME in FOLDER.
Writes what its store (Akonadi) holds after each merge to FOLDER/import-1.ics and import-2.ics, of
a file added as a calendar and written anew to file-1.ics and file-2.ics, of a link, which it asks
anew when it starts, to feed-1.ics and feed-2.ics; pictures to import-1.png and import-2.png.
"""
import contextlib
import os
import pathlib
import shutil
import sqlite3
import subprocess
import sys
import time

import program

DATABASE = pathlib.Path.home() / ".local/share/akonadi/akonadi.db"
SETTINGS = pathlib.Path.home() / ".config/akonadi/akonadiserverrc"
PERSONAL = "%/korganizer/std.ics"  # the calendar KOrganizer begins with
EVENTS = """
  SELECT part.data FROM PartTable part
  JOIN PartTypeTable kind ON kind.id = part.partTypeId AND kind.name = 'RFC822'
  JOIN PimItemTable item ON item.id = part.pimItemId
  JOIN CollectionTable calendar ON calendar.id = item.collectionId
  WHERE calendar.remoteId LIKE ? AND part.data IS NOT NULL"""
RESOURCE = """
  SELECT resource.name FROM ResourceTable resource
  JOIN CollectionTable calendar ON calendar.resourceId = resource.id
  WHERE calendar.remoteId LIKE ?"""


def ask(query, place):
    address = f"file:{DATABASE}?mode=ro"  # never makes the file in Akonadi's place
    with contextlib.closing(sqlite3.connect(address, uri=True, timeout=30)) as store:
        return [row[0] for row in store.execute(query, (place,))]


def held(place):
    return [bytes(event).decode() for event in ask(EVENTS, place)]


def settled(place, before):
    """What PLACE holds once that is not BEFORE and has come to rest."""
    now = program.changed(before, lambda: held(place))
    while (later := time.sleep(3) or held(place)) != now:
        now = later
    return now


def wait_for_calendar(place):
    for _ in range(60):
        with contextlib.suppress(sqlite3.OperationalError):
            if ask(RESOURCE, place):
                return
        time.sleep(0.5)
    sys.exit(f"KOrganizer has no calendar {place}")


@contextlib.contextmanager
def korganizer(folder):
    SETTINGS.parent.mkdir(parents=True)
    SETTINGS.write_text("[%General]\nDriver=QSQLITE3\n", encoding="utf-8")
    with open(os.path.join(folder, "korganizer.log"), "wb") as log:
        subprocess.run(["akonadictl", "start"], check=True, stdout=log, stderr=log)
        window = subprocess.Popen(["korganizer"], stdout=log, stderr=log)
        try:
            wait_for_calendar(PERSONAL)
            time.sleep(8)
            yield lambda *arguments: subprocess.Popen(["korganizer", *arguments],
                                                      stdout=log, stderr=log)
        finally:
            window.terminate()
            subprocess.run(["akonadictl", "stop"], check=False, stdout=log, stderr=log)
            window.wait(30)
            time.sleep(3)


def try_imports(tell, folder, versions):
    before = []
    for number, version in enumerate(versions, 1):
        merge = tell("--merge", os.path.abspath(version))
        time.sleep(5)
        program.press("Tab", "Down", "space", "Return")  # it asks into which calendar
        merge.wait(30)
        before = settled(PERSONAL, before)
        program.keep(folder, f"import-{number}", before)
        program.picture(folder, f"import-{number}")


def try_file(tell, folder, versions):
    path = os.path.join(folder, "followed.ics")
    shutil.copy(versions[0], path)
    tell("--import", path).wait(30)
    first = settled(path, [])
    program.keep(folder, "file-1", first)
    shutil.copy(versions[1], path)
    program.keep(folder, "file-2", settled(path, first))


def call(service, path, method, *values):
    """Asks Akonadi over the session bus."""
    return subprocess.run(["gdbus", "call", "--session", "--dest",
                           "org.freedesktop.Akonadi." + service, "--object-path", path,
                           "--method", method, *values],
                          check=True, text=True, capture_output=True).stdout


def manager(method, value):
    return call("Control", "/AgentManager", "org.freedesktop.Akonadi.AgentManager." + method, value)


def try_subscription(_, folder, versions):
    with program.served(folder) as address:
        program.publish(folder, versions[0], age=86400)
        resource = manager("createAgentInstance", "akonadi_ical_resource").split("'")[1]
        time.sleep(3)
        for method, values in (("setPath", [address]), ("save", [])):
            call("Resource." + resource, "/Settings", "org.kde.Akonadi.ICal.Settings." + method,
                 *values)
        manager("restartAgentInstance", resource)
        first = settled(address, [])
        program.keep(folder, "feed-1", first)
        program.publish(folder, versions[1])
        manager("restartAgentInstance", resource)
        program.keep(folder, "feed-2", settled(address, first))


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: program_korganizer.py FOLDER FIRST.ics SECOND.ics")
    folder = os.path.abspath(sys.argv[1])
    with korganizer(folder) as tell:
        for attempt in (try_imports, try_file, try_subscription):
            attempt(tell, folder, sys.argv[2:])


main()
