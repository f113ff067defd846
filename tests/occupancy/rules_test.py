# SPDX-License-Identifier: MIT
"""The rules see what they are there for: a garden that keeps them all, and the same garden broken in
one place, of which exactly one rule must say so.

usage: rules_test.py SHEETS
"""
import copy
import sys

import garden
import occupancy
import rules

PLAN = """
flowering_year = 2027
[place]
latitude = 52
last_frost = "6 May"
first_frost = "14 October"
[wish]
[[bed]]
name = "bed 1"
[[bed.stretch]]
length_m = 1.1
crops = ["cornflower", "zinnia"]
[[bed.stretch]]
length_m = 0.8
crops = ["cosmos"]
"""


def sowing(planting, way, start, in_ground, cut, lift, at, length):
    return {"id": "bed 1/" + planting, "succession": None, "crop": planting, "bed": "bed 1",
            "at_cm": at, "length_cm": length, "way": way, "start": start, "in_ground": in_ground,
            "lift": lift, "plants": 12, "first_cut": dict.fromkeys(("early", "likely", "late"), cut),
            "last_cut": dict.fromkeys(("early", "likely", "late"), lift)}


def job(planting, kind, date, where, after=()):
    return {"uid": planting + " " + kind, "kind": kind, "date": date, "first": date, "last": date,
            "where": where, "planting": "bed 1/" + planting, "succession": None, "plants": 12,
            "text": "", "after": list(after), "told_with": None}


def documents():
    plantings = [
        sowing("cornflower", "sown in place in autumn", "2026-09-05", "2026-09-05", "2027-05-30",
               "2027-06-20", 0, 110),
        sowing("zinnia", "sown in place in spring", "2027-06-26", "2027-06-26", "2027-09-06",
               "2027-10-14", 0, 110),
        sowing("cosmos", "raised in warmth in spring", "2027-04-10", "2027-05-15", "2027-07-20",
               "2027-10-14", 110, 80)]
    jobs = [job("cornflower", "order-seed", "2026-08-08", None),
            job("cornflower", "sow", "2026-09-05", "bed", ["cornflower order-seed"]),
            job("cornflower", "first-cut", "2027-05-30", "bed"),
            job("cornflower", "lift", "2027-06-20", "bed"),
            job("zinnia", "sow", "2027-06-26", "bed", ["cornflower lift"]),
            job("zinnia", "first-cut", "2027-09-06", "bed"),
            job("zinnia", "lift", "2027-10-14", "bed"),
            job("cosmos", "sow", "2027-04-10", "heated"),
            job("cosmos", "prick-out", "2027-04-24", "heated"),
            job("cosmos", "plant-out", "2027-05-15", "bed"),
            job("cosmos", "first-cut", "2027-07-20", "bed"),
            job("cosmos", "lift", "2027-10-14", "bed")]
    weeks = []
    for monday, planting, stems in (("2027-05-31", "cornflower", 20.0), ("2027-07-19", "cosmos", 9.5),
                                    ("2027-09-06", "zinnia", 14.0)):
        weeks.append({"monday": monday, "stems": {"likely": stems},
                      "kinds": [{"planting": "bed 1/" + planting, "stems": {"likely": stems}}]})
    late = {"planting": "bed 1/zinnia", "code": "late-start"}
    return {"plan": PLAN, "plantings": plantings, "jobs": jobs, "findings": [late], "weeks": weeks,
            "events": [(one["uid"], one["date"]) for one in jobs]}


def summary_of(uid):
    planting, kind = uid.split(" ") if " " in uid else (uid, "more")
    return "%s %s" % (kind.replace("-", " ").capitalize(), planting)


def calendar(events):
    """Folded, and with an alarm whose lines are none of the event's."""
    lines = ["BEGIN:VCALENDAR"]
    for uid, date in events:
        lines += ["BEGIN:VEVENT", "UID:" + uid[:6], " " + uid[6:],
                  "DTSTART;VALUE=DATE:" + date.replace("-", ""), "SUMMARY:" + summary_of(uid),
                  "BEGIN:VALARM",
                  "UID:none", "END:VALARM", "END:VEVENT"]
    return "\r\n".join(lines + ["END:VCALENDAR", ""])


def told(wrong, sheets):
    one = garden.Garden(wrong["plan"], wrong, calendar(wrong["events"]), wrong)
    found = {rule.__name__: list(rule(one)) for rule in rules.RULES}
    found["inside_trade"] = list(rules.inside_trade(one, sheets))
    return {name for name, complaints in found.items() if complaints}


def without_event(uid):
    def change(d):
        d["events"] = [e for e in d["events"] if e[0] != uid]
    return change


def allowed():
    """What is done to the garden and breaks no rule."""
    def replanted(d):
        d["jobs"].append(job("cornflower", "replant", "2027-10-02", None))
        d["events"].append(("cornflower replant", "2027-10-02"))

    def hardly_a_stem(d):
        d["weeks"][2].update(kinds=[], stems={"likely": 0.0})
        d["findings"].append({"planting": "bed 1/zinnia", "code": "few-stems"})

    def waits_for_warmth(d):
        d["findings"].clear()
        d["plan"] = d["plan"].replace(
            "[wish]", "mean_c = [1, 1, 2, 4, 8, 12, 15, 15, 12, 8, 4, 2]\n[wish]")

    return [("nothing", lambda d: None, set()),
            ("late, since its window waits for warmth", waits_for_warmth, set()),
            ("put in again in autumn", replanted, set()),
            ("ordered as an earlier calendar had it", without_event("cornflower order-seed"), set()),
            ("cut, with hardly a stem, and told so", hardly_a_stem, set())]


def breaks():
    """What is done to the garden, and the rules that must see it."""
    def planting(index, **changes):
        return lambda d: d["plantings"][index].update(changes)

    def of_job(uid, **changes):
        return lambda d: next(j for j in d["jobs"] if j["uid"] == uid).update(changes)

    def day(uid, date):
        def change(d):
            of_job(uid, date=date, first=date, last=date)(d)
            d["events"] = [(u, date if u == uid else when) for u, when in d["events"]]
        return change

    def without(uid):
        def change(d):
            d["jobs"] = [j for j in d["jobs"] if j["uid"] != uid]
            without_event(uid)(d)
        return change

    def order_without_event(d):
        d["plan"] = 'calendar = "garden.ics"\n' + PLAN
        without_event("cornflower order-seed")(d)

    return [
        ("lifted after the next is in", planting(0, lift="2027-07-01"), {"ground_by_days"}),
        ("lifted by its job after the next is in", day("cornflower lift", "2027-06-28"),
         {"ground_by_jobs", "after_others"}),
        ("on its neighbour's ground", planting(2, at_cm=100),
         {"ground_by_days", "ground_by_jobs", "inside_stretch"}),
        ("beyond its stretch", planting(2, length_cm=81), {"inside_stretch"}),
        ("outside its job's window", of_job("cosmos prick-out", first="2027-04-25",
                                            last="2027-04-30"), {"inside_window"}),
        ("outside the trade's window", lambda d: d["findings"].clear(), {"inside_trade"}),
        ("pricked out before it is sown", day("cosmos prick-out", "2027-04-02"), {"after_it_exists"}),
        ("pricked out after it is planted out", day("cosmos prick-out", "2027-05-20"),
         {"after_it_exists"}),
        ("ordered after it is sown", day("cornflower order-seed", "2026-09-10"),
         {"after_it_exists", "after_others"}),
        ("cut after it is taken out", day("cosmos first-cut", "2027-10-20"), {"after_it_exists"}),
        ("told with another of another day",
         lambda d: (of_job("cosmos prick-out", told_with="cosmos lift")(d), d["events"].remove(
             ("cosmos prick-out", "2027-04-24"))), {"all_in_calendar"}),
        ("waits for no job", of_job("zinnia sow", after=["nothing"]), {"after_others"}),
        ("not planted out", without("cosmos plant-out"), {"all_told"}),
        ("left out unsaid", lambda d: d["plantings"].pop(), {"all_told", "all_in_weeks"}),
        ("not in the calendar", lambda d: d["events"].pop(), {"all_in_calendar"}),
        ("an order not in the calendar that the plan names", order_without_event,
         {"all_in_calendar"}),
        ("on another day in the calendar",
         lambda d: d["events"].append((d["events"].pop()[0], "2027-10-15")), {"all_in_calendar"}),
        ("more in the calendar", lambda d: d["events"].append(("more", "2027-10-15")),
         {"all_in_calendar"}),
        ("no stem in the weeks", lambda d: d["weeks"][2].update(kinds=[], stems={"likely": 0.0}),
         {"all_in_weeks"}),
        ("stems before it is cut", lambda d: d["weeks"][0].update(monday="2027-05-03"),
         {"all_in_weeks"}),
        ("a week's sum without one", lambda d: d["weeks"][1]["stems"].update(likely=30.0),
         {"all_in_weeks"}),
        ("stems without a job", without("zinnia first-cut"), {"all_in_weeks"}),
    ]


def main(folder):
    sheets = occupancy.read_sheets(folder)
    failed = 0
    for name, change, wanted in allowed() + breaks():
        wrong = copy.deepcopy(documents())
        change(wrong)
        found = told(wrong, sheets)
        if found != wanted:
            print("%s: %s tell, not %s" % (name, sorted(found), sorted(wanted)))
            failed += 1
    print("%d ways of breaking a garden tried" % len(breaks()))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
