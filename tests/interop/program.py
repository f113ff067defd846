# SPDX-License-Identifier: MIT
"""What the drivers of calendar programs share; read by program_*.py, not run."""
import contextlib
import functools
import http.server
import os
import shutil
import subprocess
import threading
import time


class Quiet(http.server.SimpleHTTPRequestHandler):
    def log_message(self, *_):
        pass


@contextlib.contextmanager
def served(folder):
    """Serves what publish() puts into FOLDER, on this computer; gives its address."""
    web = os.path.join(folder, "web")
    os.makedirs(web)
    server = http.server.ThreadingHTTPServer(
        ("127.0.0.1", 0), functools.partial(Quiet, directory=web))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    try:
        yield f"http://127.0.0.1:{server.server_port}/garden.ics"
    finally:
        server.shutdown()


def publish(folder, calendar, age=0):
    """Puts CALENDAR, AGE seconds old, where served() serves it: servers tell a change's second."""
    path = os.path.join(folder, "web", "garden.ics")
    shutil.copy(calendar, path)
    os.utime(path, (time.time(), time.time() - age))


def changed(before, held):
    """What held() tells once that is not BEFORE; after half a minute, whatever it tells."""
    for _ in range(60):
        now = held()
        if sorted(now) != sorted(before):
            break
        time.sleep(0.5)
    return now


def keep(folder, name, texts):
    """Writes the events in TEXTS, iCalendar each, as one calendar FOLDER/NAME.ics."""
    with open(os.path.join(folder, name + ".ics"), "w", encoding="utf-8", newline="") as file:
        file.write("BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//test//EN\r\n")
        for text in texts:
            file.write(text[text.index("BEGIN:VEVENT"):text.rindex("END:VEVENT")])
            file.write("END:VEVENT\r\n")
        file.write("END:VCALENDAR\r\n")


def picture(folder, name):
    """The screen as FOLDER/NAME.png."""
    subprocess.run(["import", "-window", "root", os.path.join(folder, name + ".png")], check=True)


def press(*keys):
    """Presses keys in the window in front, a second apart: dialogs are slow to open."""
    for key in keys:
        subprocess.run(["xdotool", "key", key], check=True)
        time.sleep(1)
