# SPDX-License-Identifier: MIT
"""Plans drawn by number, reckoned by trug and judged by rules that share no code with it: no two
crops on one piece of ground, no job outside its window unsaid, none before its plants exist, none
lost between jobs, calendar and weeks. Each garden is run twice, some weeks apart, the second time
over the calendar of the first; each time once more, which must change nothing.

usage: occupancy.py PROGRAM SHEETS COUNT [FIRST]     plans FIRST (0) to FIRST + COUNT - 1
       occupancy.py PROGRAM SHEETS --show NUMBER     the plan by itself, and what is wrong with it
"""
import collections
import concurrent.futures
import datetime
import json
import os
import pathlib
import subprocess
import sys
import tempfile
import tomllib

import draw
import garden
import rules

MOST_REFUSED = 0.05  # of the plans drawn: a plan that is refused checks nothing
MOST_SHOWN = 20


def run(program, folder, *words):
    return subprocess.run([program, *words], cwd=folder, capture_output=True, text=True,
                          timeout=600)


def reckoned(program, folder, plan, today):
    """What the program says of plan.toml in `folder`; None: it refuses the plan."""
    on = ["plan.toml", "--today", today.isoformat()]
    wrote = run(program, folder, "calendar", *on, "-o", "garden.ics")
    if wrote.returncode == 2:
        return None
    calendar = (pathlib.Path(folder) / "garden.ics").read_bytes().decode()
    again = run(program, folder, "calendar", *on, "-o", "garden.ics")
    if (pathlib.Path(folder) / "garden.ics").read_bytes().decode() != calendar:
        raise RuntimeError("the same day's second calendar is another: %s" % again.stdout)
    jobs = run(program, folder, "jobs", *on, "--all", "--json")
    weeks = run(program, folder, "weeks", *on, "--json") if "[wish]" in plan else None
    for ran in filter(None, (wrote, again, jobs, weeks)):
        if ran.returncode != 0:
            raise RuntimeError("%s gave %d: %s" % (ran.args, ran.returncode, ran.stderr))
    return garden.Garden(plan, json.loads(jobs.stdout), calendar,
                         json.loads(weeks.stdout) if weeks else {"weeks": []})


def judge(program, sheets, number):
    """How many of what was seen, and what is wrong: sentences."""
    plan, today = draw.draw(number, sheets)
    seen, wrong = collections.Counter(plans=1), []
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "plan.toml").write_text(plan)
        for later in (0, 45):
            day = today + datetime.timedelta(days=later)
            try:
                one = reckoned(program, folder, plan, day)
            except (RuntimeError, subprocess.TimeoutExpired) as error:
                return seen, ["plan %d: %s" % (number, error)]
            if one is None:
                seen["refused"] += 1
                break
            seen.update(runs=1, sowings=len(one.sowings), jobs=len(one.jobs),
                        events=len(one.events), weeks=len(one.weeks))
            wrong += ["plan %d on %s: %s" % (number, day, what)
                      for what in rules.broken(one, sheets)]
    return seen, wrong


def read_sheets(folder):
    sheets = [tomllib.loads(path.read_text()) for path in sorted(pathlib.Path(folder).glob("*.toml"))]
    return {sheet["name"]: sheet for sheet in sheets}


def main(words):
    program, sheets = os.path.abspath(words[0]), read_sheets(words[1])
    if words[2] == "--show":
        print(draw.draw(int(words[3]), sheets)[0])
        print("\n".join(judge(program, sheets, int(words[3]))[1]))
        return 0
    count, first = int(words[2]), int(words[3]) if len(words) > 3 else 0
    seen, wrong = collections.Counter(), []
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as pool:
        for counted, found in pool.map(lambda n: judge(program, sheets, n),
                                       range(first, first + count)):
            seen += counted
            wrong += found
    print(", ".join("%d %s" % (seen[what], what) for what in
                    ("plans", "refused", "runs", "sowings", "jobs", "events", "weeks")))
    print("\n".join(wrong[:MOST_SHOWN]))
    if len(wrong) > MOST_SHOWN:
        print("and %d more" % (len(wrong) - MOST_SHOWN))
    return 1 if wrong or seen["refused"] > MOST_REFUSED * count else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
