#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Has KOrganizer merge a calendar and its next version into its own, and follow a file and a link.

usage: program_korganizer.py FOLDER FIRST.ics SECOND.ics

Needs an X server (DISPLAY) and a session bus of its own (dbus-run-session) with HOME in FOLDER.
Writes what its store (Akonadi) holds after each merge to FOLDER/import-1.ics and import-2.ics, of
a file added as a calendar and written anew to file-1.ics and file-2.ics, of a link to feed-1.ics
and feed-2.ics; pictures to import-1.png and import-2.png.
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
  WHERE calendar.remoteId LIKE ? AND part.storage = 0"""
RESOURCE = """
  SELECT resource.name FROM ResourceTable resource
  JOIN CollectionTable calendar ON calendar.resourceId = resource.id
  WHERE calendar.remoteId LIKE ?"""


def ask(query, place):
    with contextlib.closing(sqlite3.connect(DATABASE, timeout=30)) as store:
        return [row[0] for row in store.execute(query, (place,))]


def held(place):
    return [bytes(event).decode() for event in ask(EVENTS, place)]


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
            yield lambda *arguments: subprocess.run(["korganizer", *arguments], check=True,
                                                    stdout=log, stderr=log, timeout=60)
        finally:
            window.terminate()
            subprocess.run(["akonadictl", "stop"], check=False, stdout=log, stderr=log)
            window.wait(30)
            time.sleep(3)


def try_imports(tell, folder, versions):
    before = []
    for number, version in enumerate(versions, 1):
        tell("--merge", os.path.abspath(version))
        time.sleep(5)
        program.press("Tab", "Down", "space", "Return")  # it asks into which calendar
        before = program.changed(before, lambda: held(PERSONAL))
        time.sleep(3)
        program.keep(folder, f"import-{number}", held(PERSONAL))
        program.picture(folder, f"import-{number}")


def try_file(tell, folder, versions):
    path = os.path.join(folder, "followed.ics")
    shutil.copy(versions[0], path)
    tell("--import", path)
    first = program.changed([], lambda: held(path))
    time.sleep(3)
    program.keep(folder, "file-1", held(path))
    shutil.copy(versions[1], path)
    program.changed(first, lambda: held(path))
    time.sleep(3)
    program.keep(folder, "file-2", held(path))


def look_again(place):
    subprocess.run(["gdbus", "call", "--session", "--dest", "org.freedesktop.Akonadi.Control",
                    "--object-path", "/AgentManager", "--method",
                    "org.freedesktop.Akonadi.AgentManager.agentInstanceSynchronize",
                    ask(RESOURCE, place)[0]], check=True, stdout=subprocess.DEVNULL)


def try_subscription(tell, folder, versions):
    with program.served(folder) as address:
        program.publish(folder, versions[0], age=86400)
        tell("--import", address)
        first = program.changed([], lambda: held(address))
        time.sleep(3)
        program.keep(folder, "feed-1", held(address))
        program.publish(folder, versions[1])
        look_again(address)
        program.changed(first, lambda: held(address))
        time.sleep(3)
        program.keep(folder, "feed-2", held(address))


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: program_korganizer.py FOLDER FIRST.ics SECOND.ics")
    folder = os.path.abspath(sys.argv[1])
    with korganizer(folder) as tell:
        for attempt in (try_imports, try_file, try_subscription):
            attempt(tell, folder, sys.argv[2:])


main()
