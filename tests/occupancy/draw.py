# SPDX-License-Identifier: MIT
"""Draws bed plans by number, always the same: what gardeners might write down, pins and all.

draw(number, sheets) gives the plan's text and the day of its first run. The places are invented;
their means and frosts are from memory of such climates.
"""
import datetime
import random
import uuid

YEAR = 2027
PLACES = [
    # latitude, last and first frost, means of the months, coldest night, first month of the wish
    (52.3, "6 May", "14 October", [4.3, 4.6, 6.6, 9, 12.1, 15, 17.1, 16.9, 14.4, 10.9, 7.2, 4.8], -8, 5),
    (39, "28 April", "10 October", [-1.5, 1, 6.5, 12.5, 18, 23.5, 26.5, 25.5, 20.5, 13.5, 6, -0.5], -21, 5),
    (47.6, "5 April", "5 November", [5.2, 6, 7.9, 10.4, 13.7, 16.3, 19, 19.2, 16.5, 11.9, 7.9, 5.2], -7, 4),
    (-43.5, "10 October", "25 April", [17.5, 17.2, 15.4, 12.4, 9.4, 6.6, 6.1, 7.5, 9.8, 11.9, 13.8, 16.1], -6, 10),
    (60.2, "24 May", "24 September", [-5, -5.5, -2, 4, 10.5, 15, 17.8, 16.2, 11.2, 5.8, 1, -3], -25, 6),
    (41.1, "20 March", "25 November", [8, 9, 11.4, 13.8, 17.7, 21.8, 24.5, 24.6, 21, 17, 12, 9], -2, 4),
]
MONTHS = ["January", "February", "March", "April", "May", "June", "July", "August", "September",
          "October", "November", "December"]
STANDING = {"perennial", "shrub"}
FROM_BULBS = {"bulb", "corm", "tuber"}


def quoted(text):
    return '"%s"' % text


def length(dice, least, most):
    """In tenths of a metre, never a whole 3 or 4 metres."""
    tenths = dice.randint(least, most)
    return tenths + 1 if tenths in (30, 40) else tenths


class Drawing:
    def __init__(self, number, sheets):
        self.dice = random.Random(number)
        self.sheets = sheets
        self.south = False
        self.began = None
        self.lines = []

    def chance(self, share):
        return self.dice.random() < share

    def day_of_plan(self, first, last):
        """That many days after the first day of the plan."""
        return self.began + datetime.timedelta(days=self.dice.randint(first, last))

    def head(self, number):
        dice = self.dice
        latitude, last, first, means, coldest, month = dice.choice(PLACES)
        self.south = latitude < 0
        opens = datetime.date(YEAR - 1, 9, 1) if self.south else datetime.date(YEAR - 1, 3, 1)
        self.began = opens + datetime.timedelta(days=dice.randint(0, 330))
        self.lines += ["flowering_year = %d" % YEAR, "title = \"Drawn plan %d\"" % number,
                       "garden = \"%s\"" % uuid.UUID(int=dice.getrandbits(128), version=4),
                       "began = %s" % self.began]
        if self.chance(0.5):
            self.lines.append('calendar = "garden.ics"')
        self.lines += ["[place]", "latitude = %s" % latitude, 'last_frost = "%s"' % last,
                       'first_frost = "%s"' % first, 'frost_meaning = "garden"']
        if self.chance(0.9):
            self.lines.append("mean_c = %s" % means)
        if self.chance(0.7):
            self.lines.append("coldest_c = %s" % coldest)
        if self.chance(0.8):
            self.lines += ["[wish]", "vases_per_week = %d" % dice.randint(1, 4),
                           "stems_per_vase = %d" % dice.randint(8, 18),
                           'from = "%d %s"' % (dice.randint(1, 28), MONTHS[month - 1]),
                           'to = "%d %s"' % (dice.randint(1, 28), "April" if self.south else "October")]
        if self.chance(0.8):
            self.lines += ["[shelter]", "heated_c = %d" % dice.randint(14, 21),
                           "heated_trays = %d" % dice.randint(0, 9),
                           "frame_m2 = %s" % (dice.randint(0, 40) / 10),
                           "nursery_m2 = %s" % (dice.randint(0, 30) / 10)]
        self.work()

    def work(self):
        days = self.dice.choice([None, ["Sat"], ["Sat", "Wed"], ["Mon", "Tue", "Fri"]])
        self.lines.append("[work]")
        if days:
            self.lines.append("days = [%s]" % ", ".join(map(quoted, days)))
        if self.chance(0.3):
            self.lines.append("days_between_crops = %d" % self.dice.randint(0, 14))
        if self.chance(0.2):
            self.lines.append("care = true")

    def pins(self, sheet):
        """At most one day, so that no two can contradict each other; often an awkward one."""
        kind = self.dice.choice(["not_before", "start_on", "plant_on", "lift_on"])
        if kind == "plant_on" and any(way["raised"] == "in place" and way["method"] == "seed"
                                      for way in sheet["way"]):
            kind = "start_on"
        first = 120 if kind == "lift_on" else 0
        self.lines.append("%s = %s" % (kind, self.day_of_plan(first, first + 260)))

    def crop(self, sheet, names):
        """Its table under a stretch. `names` are the crops of the bed so far."""
        self.lines += ["[[bed.stretch.crop]]", 'crop = "%s"' % sheet["name"]]
        if sheet["name"] in names:
            self.lines.append('id = "%s again %d"' % (sheet["name"], len(names)))
        names.append(sheet["name"])
        stands = sheet["life_cycle"] in STANDING
        if (stands or sheet["life_cycle"] in FROM_BULBS) and self.chance(0.6 if stands else 0.15):
            since = self.dice.randint(2019, 2025)
            if self.stands_here:  # nothing new is before what stands
                self.lines.append("since = %d" % since)
            return
        self.stands_here = False
        if sheet["life_cycle"] in FROM_BULBS and self.chance(0.2):
            self.lines.append("keep = true")
        if sheet.get("succession_gap_days") and self.chance(0.4):
            self.lines.append("successions = %d" % self.dice.randint(2, 4))
        elif self.chance(0.2):
            self.pins(sheet)
        if self.chance(0.2):
            self.lines.append("plants = %d" % self.dice.randint(3, 40))
        if self.chance(0.1):
            self.lines.append("leave = 0.%d" % self.dice.randint(1, 5))

    def bed(self, number):
        dice = self.dice
        lengths = [length(dice, 5, 26) for _ in range(dice.randint(1, 4))]
        width = dice.choice([0.7, 0.9, 1.1, 1.2])
        spare = dice.choice([0, 0, 7])
        while (sum(lengths) + spare) in (30, 40) or abs((sum(lengths) + spare) * width - 40) < 0.05:
            spare += 1
        self.lines += ["[[bed]]", 'name = "bed %d"' % number,
                       "length_m = %s" % ((sum(lengths) + spare) / 10), "width_m = %s" % width]
        if self.chance(0.3):
            self.lines.append('person = "%s"' % dice.choice(["Ines", "Oskar"]))
        names = []
        for tenths in lengths:
            self.lines += ["[[bed.stretch]]", "length_m = %s" % (tenths / 10)]
            self.stands_here = True
            for _ in range(dice.choice([1, 1, 1, 2, 2, 3])):
                self.crop(self.sheets[dice.choice(sorted(self.sheets))], names)


def draw(number, sheets):
    """The plan's text, and the day of its first run."""
    drawing = Drawing(number, sheets)
    drawing.head(number)
    for bed in range(drawing.dice.choice([1, 1, 2])):
        drawing.bed(bed + 1)
    return "\n".join(drawing.lines) + "\n", drawing.day_of_plan(0, 200)
