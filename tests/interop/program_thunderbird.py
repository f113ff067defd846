#!/usr/bin/python3
# SPDX-License-Identifier: MIT
"""Has Thunderbird import a calendar and its next version, and subscribe to both in turn.

usage: program_thunderbird.py FOLDER FIRST.ics SECOND.ics

Needs an X server (DISPLAY). Thunderbird runs with a profile of its own in FOLDER, reaches nothing
but this computer, and is spoken to through its remote control (Marionette): the import is the code
behind its own Import page. Writes what it holds then to FOLDER/import-1.ics, import-2.ics,
feed-1.ics and feed-2.ics, what it said of the second import to import-2.txt, and a picture of its
month to month.png. Ends with 1 where Thunderbird does not answer.
"""
import contextlib
import json
import os
import socket
import subprocess
import sys
import time

import program

PREFERENCES = """
user_pref("marionette.port", {port});
user_pref("app.donation.eoy.version.viewed", 999);
user_pref("app.update.enabled", false);
user_pref("datareporting.policy.dataSubmissionEnabled", false);
user_pref("mail.provider.suppress_dialog_on_startup", true);
user_pref("mail.rights.version", 1);
user_pref("mailnews.start_page.enabled", false);
user_pref("calendar.alarms.show", false);
user_pref("calendar.week.start", 1);
user_pref("network.proxy.type", 1);
user_pref("network.proxy.http", "127.0.0.1");
user_pref("network.proxy.http_port", 9);
user_pref("network.proxy.ssl", "127.0.0.1");
user_pref("network.proxy.ssl_port", 9);
user_pref("network.proxy.no_proxies_on", "127.0.0.1");
"""
CALENDARS = "const {cal} = ChromeUtils.importESModule('resource:///modules/calendar/calUtils.sys.mjs');"
NEW = CALENDARS + """
const [kind, address, name] = arguments;
const made = cal.manager.createCalendar(kind, Services.io.newURI(address));
made.name = name;
cal.manager.registerCalendar(made);
return made.id;"""
HELD = CALENDARS + """
const held = await cal.manager.getCalendarById(arguments[0])
  .getItemsAsArray(Ci.calICalendar.ITEM_FILTER_ALL_ITEMS, 0, null, null);
return held.map(item => item.icalString);"""
IMPORT = CALENDARS + """
const {CalendarFileImporter} =
  ChromeUtils.importESModule('resource:///modules/CalendarFileImporter.sys.mjs');
const importer = new CalendarFileImporter();
const file = Cc['@mozilla.org/file/local;1'].createInstance(Ci.nsIFile);
file.initWithPath(arguments[0]);
const items = await importer.parseIcsFile(file);
try {
  await importer.startImport(items, cal.manager.getCalendarById(arguments[1]));
} catch (error) {
  return 'stopped: ' + (error.message ?? error) + '\\n';
}
return 'done\\n';"""
REFRESH = CALENDARS + "cal.manager.getCalendarById(arguments[0]).refresh();"
MONTH = """
const window = Services.wm.getMostRecentWindow('mail:3pane');
window.document.getElementById('calendarButton').click();
await new Promise(done => window.setTimeout(done, 3000));
window.switchToView('month');
window.currentView().goToDay(window.cal.createDateTime('20270510'));
await new Promise(done => window.setTimeout(done, 3000));"""


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


class Remote:
    """Marionette's protocol: messages of JSON, each after its length and a colon."""

    def __init__(self, port, process):
        self.link = self.reach(port, process)
        self.number = 0
        self.receive()
        self.ask("WebDriver:NewSession", {})
        self.ask("Marionette:SetContext", {"value": "chrome"})

    @staticmethod
    def reach(port, process):
        for _ in range(240):
            if process.poll() is not None:
                sys.exit("Thunderbird ended by itself")
            try:
                return socket.create_connection(("127.0.0.1", port), 120).makefile("rwb")
            except OSError:
                time.sleep(0.5)
        sys.exit("Thunderbird does not answer")

    def receive(self):
        digits = b""
        while (byte := self.link.read(1)) != b":":
            digits += byte
        return json.loads(self.link.read(int(digits)))

    def ask(self, name, values):
        self.number += 1
        message = json.dumps([0, self.number, name, values]).encode()
        self.link.write(b"%d:%s" % (len(message), message))
        self.link.flush()
        _, _, error, result = self.receive()
        if error:
            sys.exit(f"Thunderbird, {name}: {error['message']}")
        return result

    def run(self, script, *values):
        """What SCRIPT, the inside of an asynchronous function, returns."""
        whole = ("const done = arguments[arguments.length - 1];"
                 "(async function() {" + script + "}).apply(null, [...arguments].slice(0, -1))"
                 ".then(value => done([value]), error => done('' + error));")
        answer = self.ask("WebDriver:ExecuteAsyncScript",
                          {"script": whole, "args": values, "sandbox": "system"})["value"]
        if isinstance(answer, str):
            sys.exit(f"Thunderbird: {answer}")
        return answer[0]


@contextlib.contextmanager
def thunderbird(folder):
    port = free_port()
    profile = os.path.join(folder, "profile")
    os.makedirs(profile)
    with open(os.path.join(profile, "user.js"), "w", encoding="utf-8") as file:
        file.write(PREFERENCES.format(port=port))
    with open(os.path.join(folder, "thunderbird.log"), "wb") as log:
        process = subprocess.Popen(
            ["thunderbird", "--marionette", "--remote-allow-system-access", "--no-remote",
             "--profile", profile],
            stdout=log, stderr=log, env={**os.environ, "HOME": folder, "TZ": "Europe/London"})
    try:
        remote = Remote(port, process)
        yield remote
        remote.ask("Marionette:Quit", {"flags": ["eForceQuit"]})
        process.wait(30)
    finally:
        process.kill()
        process.wait()


def try_imports(remote, folder, versions):
    calendar = remote.run(NEW, "storage", "moz-storage-calendar://", "imported")
    for number, version in enumerate(versions, 1):
        said = remote.run(IMPORT, os.path.abspath(version), calendar)
        with open(os.path.join(folder, f"import-{number}.txt"), "w", encoding="utf-8") as file:
            file.write(said)
        program.keep(folder, f"import-{number}", remote.run(HELD, calendar))


def try_subscription(remote, folder, versions):
    with program.served(folder) as address:
        program.publish(folder, versions[0], age=86400)
        calendar = remote.run(NEW, "ics", address, "subscribed")
        first = program.changed([], lambda: remote.run(HELD, calendar))
        program.keep(folder, "feed-1", first)
        program.publish(folder, versions[1])
        remote.run(REFRESH, calendar)
        program.keep(folder, "feed-2", program.changed(first, lambda: remote.run(HELD, calendar)))


def main():
    if len(sys.argv) != 4:
        sys.exit("usage: program_thunderbird.py FOLDER FIRST.ics SECOND.ics")
    folder = os.path.abspath(sys.argv[1])
    with thunderbird(folder) as remote:
        try_imports(remote, folder, sys.argv[2:])
        try_subscription(remote, folder, sys.argv[2:])
        remote.run(MONTH)
        program.picture(folder, "month")


main()
