#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Puts a calendar and its next version into a Radicale server of our own, on this computer only.

usage: import_radicale.py FOLDER FIRST.ics SECOND.ics

Writes what the server gives back to FOLDER/radicale-1.ics and FOLDER/radicale-2.ics, and ends with
1 where it answers otherwise than RFC 4791 and Radicale 3.1 do.
"""
import base64
import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time

COLLECTION = "/gardener/beds/"
CONFIGURATION = """[server]
hosts = 127.0.0.1:{port}
[auth]
type = none
[storage]
filesystem_folder = {folder}/collections
[web]
type = none
"""


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


def start(folder, port):
    path = os.path.join(folder, "radicale.conf")
    with open(path, "w", encoding="utf-8") as file:
        file.write(CONFIGURATION.format(port=port, folder=folder))
    with open(os.path.join(folder, "radicale.log"), "wb") as log:
        return subprocess.Popen([sys.executable, "-m", "radicale", "--config", path],
                                stdout=log, stderr=log, env={**os.environ, "HOME": folder})


def ask(port, method, path, body=None, headers=None):
    """(status, headers, body); Radicale makes a user's folder at the first request in their name."""
    name = base64.b64encode(b"gardener:none").decode()
    link = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    try:
        link.request(method, path, body, {"Authorization": f"Basic {name}", **(headers or {})})
        answer = link.getresponse()
        return answer.status, answer.headers, answer.read()
    finally:
        link.close()


def wait_for(server, port):
    for _ in range(150):
        if server.poll() is not None:
            sys.exit("Radicale ended by itself")
        try:
            return ask(port, "PROPFIND", "/gardener/")
        except OSError:
            time.sleep(0.2)
    sys.exit("Radicale does not answer")


def put(port, path, body):
    return ask(port, "PUT", path, body, {"Content-Type": "text/calendar; charset=utf-8"})[0]


def want(what, got, wanted):
    if got != wanted:
        sys.exit(f"Radicale, {what}: {got}, {wanted} wanted")


def one_event(calendar):
    """A calendar of its first event alone."""
    event = re.search(rb"BEGIN:VEVENT\r\n.*?END:VEVENT\r\n", calendar, re.DOTALL).group()
    return b"BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//test//EN\r\n" + event + b"END:VCALENDAR\r\n"


def exchange(port, folder, first, second):
    for number, calendar in (1, first), (2, second):
        want(f"PUT of version {number}", put(port, COLLECTION, calendar), 201)
        status, headers, body = ask(port, "GET", COLLECTION)
        want(f"GET of version {number}", status, 200)
        with open(os.path.join(folder, f"radicale-{number}.ics"), "wb") as file:
            file.write(body)
        want("PUT of the same again", put(port, COLLECTION, calendar), 201)
        want("ETag of the same", ask(port, "GET", COLLECTION)[1]["ETag"], headers["ETag"])
    # RFC 4791, 5.3.2.1, no-uid-conflict: a second object of the same UID is refused.
    want("PUT of a UID it holds", put(port, COLLECTION + "other.ics", one_event(second)), 409)


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: import_radicale.py FOLDER FIRST.ics SECOND.ics")
    folder = os.path.abspath(sys.argv[1])
    calendars = []
    for path in sys.argv[2:]:
        with open(path, "rb") as file:
            calendars.append(file.read())
    port = free_port()
    server = start(folder, port)
    try:
        wait_for(server, port)
        exchange(port, folder, *calendars)
    finally:
        server.send_signal(signal.SIGTERM)
        server.wait(20)


main()
