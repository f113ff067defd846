# SPDX-License-Identifier: MIT
"""What must be true of any garden. Each rule yields a sentence for each thing that is not."""
import collections
import datetime

WEEK = datetime.timedelta(days=7)
INTO_GROUND = {"sow", "plant", "plant-out"}
LIFTS = {"lift", "lift-and-store"}
AFTER_LIFT = LIFTS | {"clear-and-feed", "look-for-seedlings", "look-at-stored", "replant"}
# What is done in this order to one sowing, each not before the one in front of it.
RAISED = ["sow", "prick-out", "pot-on", "harden-off", "plant-out"]
BEFORE_START = {"order-seed", "order-bulbs", "order-tubers", "order-plants", "pre-treat"}
LEFT_OUT = {"cannot-grow", "too-late", "ground-taken", "failed", "fewer-sowings"}
# Codes that say a start lies outside the trade's window.
SAYS_LATE = {"late-start", "held-back"}
ENDED = "This calendar has ended"  # an event of the calendar's own, no job


def name_of(sowing):
    return sowing.planting + (" (sowing %d)" % sowing.number if sowing.number else "")


def jobs_of(garden):
    found = collections.defaultdict(list)
    for job in garden.jobs:
        if job.planting is not None:
            found[job.planting, job.number].append(job)
        # An order is for the last sowing of each planting, and may be for those before it.
        for planting in job.ordered_for:
            its = [s for s in garden.sowings if s.planting == planting]
            if its:
                last = max(its, key=lambda s: s.start)
                found[planting, last.number].append(job)
            else:
                found[planting, None].append(job)
    return found


def ground_by_days(garden):
    """No two crops on one piece of ground on one day, by the days of the sowings."""
    for i, one in enumerate(garden.sowings):
        if one.in_ground > one.lift:
            yield "%s is lifted before it is in the ground" % name_of(one)
        for other in garden.sowings[i + 1:]:
            if one.bed is None or one.bed != other.bed:
                continue
            if one.at < other.until and other.at < one.until and (
                    one.in_ground < other.lift and other.in_ground < one.lift):
                yield "%s and %s stand on one piece of ground on one day" % (
                    name_of(one), name_of(other))


def ground_by_jobs(garden):
    """The same by the days on which somebody puts them in and takes them out."""
    spans = []
    by_sowing = jobs_of(garden)
    for sowing in garden.sowings:
        own = by_sowing[sowing.planting, sowing.number]
        into = [j.day for j in own if j.kind in INTO_GROUND and j.where == "bed"]
        out = [j.day for j in own if j.kind in LIFTS]
        if into and max(into) != sowing.in_ground:
            yield "%s goes in on %s by its job, on %s by its row" % (
                name_of(sowing), max(into), sowing.in_ground)
        spans.append((sowing, max(into, default=sowing.in_ground), max(out, default=sowing.lift)))
    for sowing, into, out in spans:
        if into > out:
            yield "%s is taken out on %s, and goes in on %s" % (name_of(sowing), out, into)
        for other, other_into, other_out in spans:
            if other is sowing or sowing.bed is None or sowing.bed != other.bed:
                continue
            shared = sowing.at < other.until and other.at < sowing.until
            if shared and sowing.in_ground < other.in_ground and out > other_into:
                yield "%s goes in on %s by its job, %s comes out on %s" % (
                    name_of(other), other_into, name_of(sowing), out)


def inside_stretch(garden):
    """Each sowing stands on the stretch that the plan gives its crop."""
    for sowing in garden.sowings:
        if sowing.bed is None:
            continue
        homes = [s for s in garden.plan.stretches if sowing.planting in s.crops]
        if not any(s.bed == sowing.bed and s.at <= sowing.at < sowing.until <= s.until
                   for s in homes):
            yield "%s stands at %d to %d cm of %s, beyond its stretch" % (
                name_of(sowing), sowing.at, sowing.until, sowing.bed)


def inside_window(garden):
    """Each job's day lies between its first and its last, and a first cut says its forecast."""
    for job in garden.jobs:
        if not job.first <= job.day <= job.last:
            yield "%s of %s on %s lies outside %s to %s" % (
                job.kind, job.planting, job.day, job.first, job.last)


def mean_on(means, day):
    """Between the middles of the months."""
    along = day.month - 1 + (day.day - 15.5) / 30.5
    month, part = int(along // 1), along % 1
    return means[month % 12] * (1 - part) + means[(month + 1) % 12] * part


def asked_of_spring(sheet, way, means):
    """The average that what goes out asks of the air, as DEVELOPERS.md has it: degrees Celsius."""
    in_soil = way["method"] == "bulb" and way.get("raised") == "in place"
    if sheet.get("frost_class") == "tender":
        asks = 13.5
    elif sheet.get("frost_class") == "half-hardy":
        asks = 8 if in_soil else 6 if sheet["survives_c"] <= -5 else 9
    else:
        asks = 5
    return min(asks, max(means) - 4)


def moved_by_cold(plan, sheet, way, first, last):
    """A window out of the cold: in spring later, with four weeks left; in autumn sooner, and longer
    for plants where the winter lets them root. A week either side, since the means between two
    months are guessed here."""
    means, day = plan.toml["place"].get("mean_c"), datetime.timedelta(days=1)
    if means is None:
        return first, last
    if way["window"]["earliest"]["from"] == "last frost":
        asks, warm = asked_of_spring(sheet, way, means), first
        while mean_on(means, warm) < asks and warm < first + 120 * day:
            warm += day
        return first, max(last, warm + 35 * day) if warm > first else last
    closes = last
    while mean_on(means, closes) < 5 and closes > last - 120 * day:
        closes -= day
    rooting = last
    while min(means) >= 6 and mean_on(means, rooting) >= 10 and rooting < last + 90 * day:
        rooting += day
    sooner = (last - closes) + 7 * day if closes < last else 0 * day
    return first - sooner, rooting + 7 * day if rooting > last else last


def windows_of(plan, sheet, way, year):
    """The trade's windows of a way for the plants of that flowering year, reckoned from the sheet:
    weeks from a frost of the plan's place, in whichever years these fall near it. As `trug why` says,
    where more than 160 days lie between the frosts what is tender is begun for as many days longer,
    and where the first comes later than 116 days after midsummer what is sown or planted as a corm
    in autumn is begun as many days sooner."""
    spring, autumn = plan.frost("last", year), plan.frost("first", year)
    window, same_year = way["window"], way["flowers"] == "same year"
    longer = sooner = 0
    if same_year and window["latest"]["from"] == "last frost" and (
            sheet.get("frost_class") == "tender"):
        longer = max(0, (autumn - spring).days % 365 - 160)
    if not same_year and window["earliest"]["from"] == "first frost" and (
            way["method"] == "seed" or sheet["life_cycle"] == "corm"):
        midsummer = datetime.date(year, 12 if plan.toml["place"]["latitude"] < 0 else 6, 21)
        sooner = max(0, (autumn - midsummer).days % 365 - 116)
    for ahead in (-2, -1, 0, 1):
        ends = []
        for end in ("earliest", "latest"):
            edge = way["window"][end]
            frost = plan.frost(edge["from"].split()[0], year + ahead)
            ends.append(frost + datetime.timedelta(days=round(7 * edge["weeks"])))
        if ends[1] < ends[0]:
            ends[1] = ends[1].replace(year=ends[1].year + 1)
        yield moved_by_cold(plan, sheet, way, ends[0] - datetime.timedelta(days=sooner),
                            ends[1] + datetime.timedelta(days=longer))


def inside_trade(garden, sheets):
    """What goes in outside the window that its sheet gives says so."""
    day = datetime.timedelta(days=1)
    for sowing in garden.sowings:
        sheet = sheets[sowing.crop]
        way = next((w for w in sheet["way"] if w["name"] == sowing.way), None)
        if way is None or "window" not in way or sowing.number or (
                garden.plan.stands_since(sowing.planting)):
            continue  # sowings of a succession follow each other until the season ends
        year = garden.plan.toml["flowering_year"]
        inside = any(first - day <= sowing.in_ground <= last + day
                     for first, last in windows_of(garden.plan, sheet, way, year))
        if not inside and not garden.found(sowing.planting) & SAYS_LATE:
            yield "%s goes in on %s, outside the window of %s, and nothing says so" % (
                name_of(sowing), sowing.in_ground, sowing.way)


def after_it_exists(garden):
    """Nothing is done to plants that are not there yet, nor to such as are gone."""
    for key, own in jobs_of(garden).items():
        sowing = next((s for s in garden.sowings if (s.planting, s.number) == key), None)
        if sowing is None:
            continue  # all_told says so
        starts = [j.day for j in own if j.kind in ("sow", "plant", "plant-out")]
        start = min(starts, default=sowing.start)
        for job in own:
            if job.kind in BEFORE_START:
                if job.day > start:
                    yield "%s: %s on %s comes after its start on %s" % (
                        name_of(sowing), job.kind, job.day, start)
            elif job.day < start:
                yield "%s: %s on %s comes before there is a plant, on %s" % (
                    name_of(sowing), job.kind, job.day, start)
            elif job.where == "bed" and job.kind not in INTO_GROUND and (
                    job.day < sowing.in_ground and sowing.in_ground > sowing.start):
                yield "%s: %s in the bed on %s comes before it stands there, on %s" % (
                    name_of(sowing), job.kind, job.day, sowing.in_ground)
        line = sorted((j for j in own if j.kind in RAISED), key=lambda j: RAISED.index(j.kind))
        for one, later in zip(line, line[1:]):
            if later.day < one.day:
                yield "%s: %s on %s comes before %s on %s" % (
                    name_of(sowing), later.kind, later.day, one.kind, one.day)
        out = max((j.day for j in own if j.kind in LIFTS), default=None)
        for job in own:
            if out and job.day > out and job.kind not in AFTER_LIFT:
                yield "%s: %s on %s comes after it is taken out, on %s" % (
                    name_of(sowing), job.kind, job.day, out)


def after_others(garden):
    """A job waits for those it names."""
    days = {job.uid: job for job in garden.jobs}
    for job in garden.jobs:
        for uid in job.after:
            if uid not in days:
                yield "%s of %s waits for a job that is not there" % (job.kind, job.planting)
            elif days[uid].day > job.day:
                yield "%s of %s on %s waits for %s of %s on %s" % (
                    job.kind, job.planting, job.day, days[uid].kind, days[uid].planting,
                    days[uid].day)


def all_told(garden):
    """Each crop of the plan is grown or said not to be; each job belongs to something grown."""
    grown = {s.planting for s in garden.sowings}
    for name in garden.plan.crops:
        if name not in grown and not garden.found(name) & LEFT_OUT:
            yield "%s is neither grown nor said to be left out" % name
    for name in grown - set(garden.plan.crops):
        yield "%s is grown, and the plan does not ask for it" % name
    rows = {(s.planting, s.number) for s in garden.sowings}
    by_sowing = jobs_of(garden)
    for planting, number in set(by_sowing) - rows:
        yield "jobs of %s (sowing %s), which is not grown" % (planting, number)
    for sowing in garden.sowings:
        goes_in = any(job.kind in INTO_GROUND and job.where == "bed"
                      for job in by_sowing[sowing.planting, sowing.number])
        if not goes_in and not garden.plan.stands_since(sowing.planting):
            yield "no job puts %s into the ground" % name_of(sowing)
    ids = [job.uid for job in garden.jobs]
    if len(set(ids)) != len(ids):
        yield "two jobs have one identity"


def all_in_calendar(garden):
    """The calendar holds every job, on its day, by itself or told with another of that day, and
    nothing else that is not cancelled."""
    # A list that no calendar is named for does not know what an earlier one had ordered by now.
    orders = "calendar" in garden.plan.toml
    live = {event.uid: event for event in garden.events
            if not event.cancelled and event.summary != ENDED and
            (orders or not event.summary.startswith("Order "))}
    told = {job.uid: job for job in garden.jobs
            if job.told_with is None and (orders or not job.kind.startswith("order-"))}
    for job in garden.jobs:
        major = told.get(job.told_with)
        if job.told_with and (major is None or (major.day, major.planting) != (job.day, job.planting)):
            yield "%s of %s on %s is told with no other job of that day" % (
                job.kind, job.planting, job.day)
    if len({event.uid for event in garden.events}) != len(garden.events):
        yield "two events have one identity"
    for uid in told.keys() - live.keys():
        yield "the calendar lacks %s of %s" % (told[uid].kind, told[uid].planting)
    for uid in live.keys() - told.keys():
        yield "the calendar has '%s', which is no job" % live[uid].summary
    for uid in told.keys() & live.keys():
        if live[uid].day != told[uid].day:
            yield "%s of %s is on %s in the calendar, on %s in the list" % (
                told[uid].kind, told[uid].planting, live[uid].day, told[uid].day)


def all_in_weeks(garden):
    """Stems come from what is grown, while it is cut, and from all of it."""
    grown = collections.defaultdict(list)
    for sowing in garden.sowings:
        if sowing.first_cut["likely"] and sowing.last_cut["likely"]:
            grown[sowing.planting].append((sowing.first_cut["likely"], sowing.last_cut["likely"]))
    given = collections.Counter()
    mondays = [datetime.date.fromisoformat(week["monday"]) for week in garden.weeks]
    for monday, week in zip(mondays, garden.weeks):
        of_kinds = 0
        for kind in week["kinds"]:
            stems = kind["stems"]["likely"]
            of_kinds += stems
            given[kind["planting"]] += stems
            if stems > 0 and not any(first < monday + WEEK and last >= monday
                                     for first, last in grown[kind["planting"]]):
                yield "%s gives %s stems in the week of %s, and is not cut then" % (
                    kind["planting"], stems, monday)
        if abs(of_kinds - week["stems"]["likely"]) > 0.06 * (len(week["kinds"]) + 1):
            yield "the week of %s has %s stems, its kinds have %s" % (
                monday, week["stems"]["likely"], of_kinds)
    # What is too young to be cut yet gives no stem and has no job.
    cut = {job.planting for job in garden.jobs if job.kind == "first-cut"}
    for planting, spans in grown.items():
        in_weeks = any(first < monday + WEEK and last >= monday
                       for monday in mondays for first, last in spans)
        said = "few-stems" in garden.found(planting)  # hardly a stem in its best week
        if in_weeks and planting in cut and given[planting] <= 0 and not said:
            yield "%s is cut, and no week has a stem of it" % planting
        # What stood and was over before the plan began asks for no cut of it.
        was_over = all(last < garden.plan.toml.get("began", datetime.date.min) for _, last in spans)
        if given[planting] > 0 and planting not in cut and not was_over:
            yield "no job cuts %s, of which the weeks have stems" % planting


RULES = [ground_by_days, ground_by_jobs, inside_stretch, inside_window, after_it_exists,
         after_others, all_told, all_in_calendar, all_in_weeks]


def broken(garden, sheets):
    found = [complaint for rule in RULES for complaint in rule(garden)]
    return found + list(inside_trade(garden, sheets))
