# SPDX-License-Identifier: MIT
"""What a failing machine can take from the gardener: nothing.

A calendar is written over an earlier one while the disk is full, read-only, broken or torn away, the
process is killed, memory is refused, the clock goes back, another run writes too. Afterwards the file
is the earlier one, octet for octet, or the new one, whole; a run that could not write says so and
ends with 3; and the next run, with nothing wrong, writes the new one. Prints a table: what failed,
how often, what was lost.

usage: faults.py TRUG FAULTY_LIBRARY PROJECT_FOLDER [THOROUGH]
"""
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

trug, library, project = sys.argv[1:4]
thorough = len(sys.argv) > 4
folder = tempfile.mkdtemp()
rows = []

PLAN = """flowering_year = 2027
title = "Tannery yard"
garden = "5d1c9a70-3c0e-4f0e-8a39-0c6b1f6f2a11"
began = 2026-08-01
[place]
latitude = 52
last_frost = "%s"
first_frost = "18 October"
frost_meaning = "garden"
[[bed]]
name = "sunken bed"
length_m = 2.7
width_m = 1.1
[[bed.stretch]]
length_m = 1.2
crops = ["cornflower"]
[[bed.stretch]]
length_m = 0.9
crops = ["zinnia"]
"""


def path(name):
    return os.path.join(folder, name)


def write(name, text):
    with open(path(name), "wb") as file:
        file.write(text if isinstance(text, bytes) else text.encode())


def read(name):
    try:
        with open(path(name), "rb") as file:
            return file.read()
    except FileNotFoundError:
        return None


def fail(what):
    print("FAILED:", what)
    sys.exit(1)


def run(arguments, **faults):
    environment = dict(os.environ)
    if faults:
        environment["LD_PRELOAD"] = library
        environment["FAULT_FOLDER"] = path("out")
        for name, value in faults.items():
            environment["FAULT_" + name.upper()] = str(value)
    return subprocess.run([trug] + arguments, cwd=folder, env=environment, capture_output=True)


def plain(calendar):
    """Without the moments of writing, which two runs do not share."""
    text = re.sub(rb"(DTSTAMP|LAST-MODIFIED):\d{8}T\d{6}Z", rb"\1", calendar)
    return re.sub(rb"(X-TRUG-MEMORY:\d+ \S+ \d+) \d{8}T\d{6}Z", rb"\1", text)


def counts(arguments):
    done = run(arguments, count=path("count"))
    if done.returncode != 0:
        fail("a run with nothing wrong: %s" % done.stderr)
    return [int(word) for word in read("count").split()]


CALENDAR = ["calendar", "plan.toml", "-o", "out/garden.ics"]
TODAY = ["--today", "2026-08-03"]
COMMAND = CALENDAR + TODAY
write("plan.toml", PLAN % "12 May")
os.mkdir(path("out"))
if run(COMMAND).returncode != 0:
    fail("the first calendar")
earlier = read("out/garden.ics")
write("plan.toml", PLAN % "19 May")
if run(COMMAND).returncode != 0:
    fail("the second calendar")
later = plain(read("out/garden.ics"))
if plain(earlier) == later:
    fail("nothing changed between the two")


def restore():
    shutil.rmtree(path("out"))
    os.mkdir(path("out"))
    write("out/garden.ics", earlier)


def require_whole(what, done):
    """The file after a run with a fault, and after one without."""
    now = read("out/garden.ics")
    if now != earlier and plain(now or b"") != later:
        fail("%s: the file is neither the earlier nor the new one" % what)
    if done.returncode == 0 and plain(now) != later:
        fail("%s: success, but the file is the earlier one" % what)
    if done.returncode not in (0, 3, -signal.SIGKILL):
        fail("%s: exit %d: %s" % (what, done.returncode, done.stderr))
    if done.returncode == 3 and not done.stderr.startswith(b"error: "):
        fail("%s: nothing was said: %s" % (what, done.stderr))
    again = run(COMMAND)
    if again.returncode != 0 or plain(read("out/garden.ics")) != later:
        fail("%s: the next run did not mend it: %s" % (what, again.stderr))
    if os.listdir(path("out")) != ["garden.ics"]:
        fail("%s: left behind: %s" % (what, os.listdir(path("out"))))


def disk_faults():
    restore()
    calls = counts(COMMAND)[0]
    if calls < 8:
        fail("only %d calls about the file were seen" % calls)
    words = {"full": "disk full", "readonly": "disk read-only", "broken": "input or output error",
             "torn": "killed in the middle of a write", "killed": "killed before a call",
             "done": "killed after a call"}
    for kind, word in words.items():
        ends = {}
        for at in range(1, calls + 1):
            restore()
            done = run(COMMAND, at=at, kind=kind)
            require_whole("%s at call %d" % (word, at), done)
            ends[done.returncode] = ends.get(done.returncode, 0) + 1
        wanted = -signal.SIGKILL if kind in ("killed", "done") else 3
        if kind != "torn" and wanted not in ends:
            fail("%s: it never happened" % word)
        if kind == "torn" and -signal.SIGKILL not in ends:
            fail("no write was torn")
        rows.append((word + ", at each of the calls", calls))


def refused_memory():
    restore()
    requests = counts(COMMAND)[1]
    tries = requests if thorough else 150
    step = max(1, requests // tries)
    ends = {}
    for at in range(1, requests + 1, step):
        restore()
        done = run(COMMAND, memory=at)
        if done.returncode == -signal.SIGABRT or done.returncode == -signal.SIGSEGV:
            # Before main(), or in the library's own clean-up, there is nobody to say anything.
            if read("out/garden.ics") != earlier:
                fail("memory request %d refused: the file has changed" % at)
        else:
            require_whole("memory request %d refused" % at, done)
        ends[done.returncode] = ends.get(done.returncode, 0) + 1
    if ends.get(3, 0) < 10:
        fail("memory was hardly ever missed: %s" % ends)
    rows.append(("memory refused once, of %d requests" % requests, sum(ends.values())))
    print("ends where memory is refused:", ends)


def kills_at_any_time():
    restore()
    began = time.monotonic()
    run(COMMAND)
    length = time.monotonic() - began
    tries, hit = (300 if thorough else 60), 0
    for number in range(tries):
        restore()
        process = subprocess.Popen([trug] + COMMAND, cwd=folder, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        time.sleep(length * number / tries)
        process.kill()
        hit += process.wait() == -signal.SIGKILL
        now = read("out/garden.ics")
        if now != earlier and plain(now) != later:
            fail("killed: the file is neither the earlier nor the new one")
        if run(COMMAND).returncode != 0 or plain(read("out/garden.ics")) != later:
            fail("killed: the next run did not mend it")
    rows.append(("killed at any time (%d while it ran)" % hit, tries))


def two_runs():
    tries = 100 if thorough else 20
    for _ in range(tries):
        restore()
        pair = [subprocess.Popen([trug] + COMMAND, cwd=folder, stdout=subprocess.DEVNULL,
                                 stderr=subprocess.DEVNULL) for _ in range(2)]
        if [process.wait() for process in pair] != [0, 0]:
            fail("two runs at once")
        if plain(read("out/garden.ics")) != later or os.listdir(path("out")) != ["garden.ics"]:
            fail("two runs at once: what they left")
    rows.append(("two runs at once", tries))


def numbers(calendar):
    """By UID: SEQUENCE and DTSTAMP."""
    found = {}
    for event in calendar.split(b"BEGIN:VEVENT")[1:]:
        value = {name: re.search(name + rb":(\S+)", event).group(1)
                 for name in (b"UID", b"SEQUENCE", b"DTSTAMP")}
        found[value[b"UID"]] = (int(value[b"SEQUENCE"]), value[b"DTSTAMP"])
    return found


def clock_back_and_forth():
    restore()
    year = 366 * 24 * 3600
    tries, changed = 0, 0
    for clock in (0, -year, year, -2 * year, 0, 5, -5):
        for frost in ("23 May", "9 May"):
            before = numbers(read("out/garden.ics"))
            write("plan.toml", PLAN % frost)
            if run(COMMAND, clock=clock).returncode != 0:
                fail("the clock %d s off" % clock)
            for uid, (sequence, stamp) in numbers(read("out/garden.ics")).items():
                if uid in before and (sequence, stamp) != before[uid]:
                    changed += 1
                    if sequence <= before[uid][0] or stamp <= before[uid][1]:
                        fail("the clock %d s off: a change went back" % clock)
            tries += 1
    if changed < tries:
        fail("the clock: hardly anything changed")
    rows.append(("clock set back and forth", tries))
    write("plan.toml", PLAN % "19 May")


try:
    disk_faults()
    refused_memory()
    kills_at_any_time()
    two_runs()
    clock_back_and_forth()
    print("| Fault | Tried | Lost |\n|---|---|---|")
    for what, often in rows:
        print("| %s | %d | nothing |" % (what, often))
finally:
    subprocess.run(["chmod", "-R", "u+rwX", folder], check=False)
    shutil.rmtree(folder)
