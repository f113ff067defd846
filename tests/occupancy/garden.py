# SPDX-License-Identifier: MIT
"""One garden as trug's documents tell it, and as its plan was written: plain data, no judgement."""
import collections
import datetime
import re
import tomllib

Sowing = collections.namedtuple(
    "Sowing", "planting number crop bed at until way start in_ground lift plants first_cut last_cut")
Job = collections.namedtuple(
    "Job", "uid kind day first last where planting number plants text after told_with ordered_for",
    defaults=[()])  # the plantings of an order, which has none of its own
Event = collections.namedtuple("Event", "uid day summary cancelled")
Stretch = collections.namedtuple("Stretch", "bed at until crops")


def day(text):
    return datetime.date.fromisoformat(text) if text else None


def sowings(document):
    return [Sowing(p["id"], p["succession"], p["crop"], p["bed"], p["at_cm"],
                   p["at_cm"] + p["length_cm"], p["way"], day(p["start"]), day(p["in_ground"]),
                   day(p["lift"]), p["plants"],
                   {word: day(p["first_cut"][word]) for word in ("early", "likely", "late")},
                   {word: day(p["last_cut"][word]) for word in ("early", "likely", "late")})
            for p in document["plantings"]]


def jobs(document):
    return [Job(j["uid"], j["kind"], day(j["date"]), day(j["first"]), day(j["last"]), j["where"],
                j["planting"], j["succession"], j["plants"], j["text"], j["after"], j["told_with"],
                tuple(sorted({p for item in j.get("items") or [] for p in item["plantings"]})))
            for j in document["jobs"]]


def events(text):
    """Of an iCalendar file, its lines unfolded."""
    lines = re.sub(r"\r\n[ \t]", "", text).split("\r\n")
    found, fields = [], None
    nested = 0
    for line in lines:
        if line == "BEGIN:VEVENT":
            fields, nested = {}, 0
        elif line == "END:VEVENT":
            found.append(Event(fields["UID"], datetime.datetime.strptime(
                fields["DTSTART"][:8], "%Y%m%d").date(), fields["SUMMARY"],
                fields.get("STATUS") == "CANCELLED"))
            fields = None
        elif fields is not None and line.startswith(("BEGIN:", "END:")):
            nested += 1 if line.startswith("BEGIN:") else -1
        elif fields is not None and nested == 0 and ":" in line:
            name, value = line.split(":", 1)
            fields[name.split(";")[0]] = value
    return found


class Plan:
    """The stretches of a plan and the crops asked for on each, as its text has them."""

    def __init__(self, text):
        self.toml = tomllib.loads(text)
        self.stretches = []
        self.crops = {}  # by the planting's name
        for bed in self.toml.get("bed", []):
            at = 0
            for stretch in bed["stretch"]:
                until = at + round(100 * stretch["length_m"])
                names = []
                for crop in stretch.get("crop", []) + [
                        {"crop": name} for name in stretch.get("crops", [])]:
                    name = "%s/%s" % (bed["name"], crop.get("id", crop["crop"]))
                    names.append(name)
                    self.crops[name] = crop
                self.stretches.append(Stretch(bed["name"], at, until, names))
                at = until

    def stands_since(self, planting):
        """The year since which the plan says that it stands there, if it does."""
        return self.crops.get(planting, {}).get("since")

    def frost(self, which, year):
        words = self.toml["place"][which + "_frost"].split()
        return datetime.datetime.strptime("%s %s %d" % (words[0], words[1], year),
                                          "%d %B %Y").date()


class Garden:
    """A plan, and what the program said of it in one run."""

    def __init__(self, plan, document, calendar, weeks):
        self.plan = Plan(plan)
        self.sowings = [self.from_since(sowing) for sowing in sowings(document)]
        self.jobs = jobs(document)
        self.findings = document["findings"]
        self.events = events(calendar)
        self.weeks = weeks["weeks"]

    def from_since(self, sowing):
        """What stood there before stands there from the beginning."""
        since = self.plan.stands_since(sowing.planting)
        if not since:
            return sowing
        return sowing._replace(start=datetime.date(since, 1, 1), in_ground=datetime.date(since, 1, 1))

    def found(self, planting):
        """The codes of what is found of it."""
        return {f["code"] for f in self.findings if f["planting"] == planting}
