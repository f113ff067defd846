# SPDX-License-Identifier: MIT
# Two versions of a feed, after a plan's frost date was moved: what moved must carry a SEQUENCE one
# higher and a new stamp, what did not must keep its bytes (RFC 5545, 3.8.7.4), past events too.
# usage: compare_feeds.py BEFORE AFTER TODAY
import re
import sys


def events(path):
    text = open(path, encoding="utf-8", newline="").read()
    blocks = re.findall(r"BEGIN:VEVENT\r\n.*?END:VEVENT\r\n", text, re.S)
    return {value(block, "UID"): block for block in blocks}


def value(block, name):
    unfolded = block.replace("\r\n ", "")
    return re.search(rf"^{name}(?:;[^:\r\n]*)?:([^\r\n]*)", unfolded, re.M).group(1)


before, after = events(sys.argv[1]), events(sys.argv[2])
today = sys.argv[3].replace("-", "")
problems, moved = [], 0
for uid, old in before.items():
    if uid not in after:
        continue
    new = after[uid]
    if new == old:
        continue
    moved += value(new, "DTSTART") != value(old, "DTSTART")
    if value(old, "DTEND") <= today:
        problems.append(f"{uid}: a past event has changed")
    if int(value(new, "SEQUENCE")) != int(value(old, "SEQUENCE")) + 1:
        problems.append(f"{uid}: SEQUENCE {value(old, 'SEQUENCE')} to {value(new, 'SEQUENCE')}")
    if value(new, "DTSTAMP") <= value(old, "DTSTAMP"):
        problems.append(f"{uid}: DTSTAMP {value(old, 'DTSTAMP')} to {value(new, 'DTSTAMP')}")
if moved < 10:
    problems.append(f"only {moved} events moved: the plan's frost date moves many more")
if len(after) < len(before) * 3 / 4:
    problems.append(f"{len(before)} events became {len(after)}")
kept = sum(after.get(uid) == block for uid, block in before.items())
if kept < 1:
    problems.append("no event kept its bytes: orders and autumn jobs do not depend on that frost")
print(f"{moved} moved, {kept} kept their bytes")
print("\n".join(problems))
sys.exit(1 if problems else 0)
