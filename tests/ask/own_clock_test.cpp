// SPDX-License-Identifier: MIT
// The garden's own clock: what three records or more move, and what they leave.
#include "ground/own_clock.h"

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <vector>

#include "ask/reckon.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

using ground::Sowing;

const std::vector<std::string> kCrops = {"cornflower", "zinnia", "cosmos", "statice"};

std::string beds(const std::string& records) {
  std::string text = "[[bed]]\nname = \"lane\"\nlength_m = 8\nwidth_m = 0.9\n";
  for (const std::string& crop : kCrops) {
    text += "[[bed.stretch]]\nlength_m = 2\ncrops = [\"" + crop + "\"]\n";
  }
  return text + records;
}

std::string happened(const std::string& crop, const std::string& what, Date on,
                     const std::string& more = "") {
  return "[[happened]]\nplanting = \"lane/" + crop + "\"\nwhat = \"" + what +
         "\"\non = " + iso(on) + "\n" + more;
}

std::map<std::string, Sowing> by_crop(const ground::Schedule& schedule) {
  std::map<std::string, Sowing> found;
  for (const Sowing& sowing : schedule.sowings) found.emplace(sowing.sheet->name, sowing);
  return found;
}

// The plan without records: its sowings and forecasts.
const std::map<std::string, Sowing>& plain() {
  static const Planned p = planned("", beds(""));
  static const auto found = by_crop(p.schedule);
  return found;
}

// As it was begun, so that its start is known.
std::string begun(const std::string& crop) {
  const Sowing& sowing = plain().at(crop);
  std::string text = happened(crop, "sown", sowing.start);
  if (sowing.start < sowing.in_ground) text += happened(crop, "planted-out", sowing.in_ground);
  return text;
}

std::string first_cut(const std::string& crop, int days_late) {
  return happened(crop, "first-cut", plain().at(crop).timeline.first_cut.likely + Days{days_late});
}

struct Late {
  std::string crop;
  int days = 0;
};

std::string all_late(const std::vector<Late>& records) {
  std::string text;
  for (const auto& [crop, days] : records) text += begun(crop) + first_cut(crop, days);
  return text;
}

TEST(OwnClock, IsTheMiddleOfThreeFirstCutsOrMore) {
  struct Case {
    std::vector<Late> records;
    int dates, days_late;
  };
  const Case cases[] = {
      {{}, 0, 0},
      {{{"cornflower", 6}, {"zinnia", 8}}, 0, 0},
      {{{"cornflower", 6}, {"zinnia", 8}, {"cosmos", 7}}, 3, 7},
      {{{"cornflower", -5}, {"zinnia", -9}, {"cosmos", -4}}, 3, -5},
      {{{"cornflower", 6}, {"zinnia", 8}, {"cosmos", 30}}, 3, 8},
      {{{"cornflower", 4}, {"zinnia", 8}, {"cosmos", 6}, {"statice", 6}}, 4, 6},
      {{{"cornflower", 0}, {"zinnia", 0}, {"cosmos", 0}}, 3, 0},
  };
  for (const Case& one : cases) {
    const Planned p = planned("", beds(all_late(one.records)));
    EXPECT_EQ(p.schedule.own.dates, one.dates);
    EXPECT_EQ(p.schedule.own.days_late, one.days_late);
    EXPECT_EQ(p.finding("own-clock") != nullptr, one.days_late != 0);
  }
}

// What has no record goes by it; nothing is begun on another day, by another way or for another
// time.
TEST(OwnClock, MovesForecastsAndNoChoice) {
  const Planned p = planned("", beds(all_late({{"cornflower", 9}, {"zinnia", 9}, {"cosmos", 9}})));
  const auto now = by_crop(p.schedule);
  for (const std::string& crop : kCrops) {
    const Sowing &then = plain().at(crop), &sowing = now.at(crop);
    EXPECT_EQ(sowing.start, then.start) << crop;
    EXPECT_EQ(sowing.in_ground, then.in_ground) << crop;
    EXPECT_EQ(sowing.way, then.way) << crop;
    EXPECT_EQ(sowing.timeline.first_cut.likely, then.timeline.first_cut.likely + Days{9}) << crop;
  }
  EXPECT_EQ(now.at("statice").timeline.first_cut.early,
            plain().at("statice").timeline.first_cut.early + Days{9});
}

// A first cut of a start whose day nobody told says nothing of the clock, nor does a cut that is
// not said to be the first.
TEST(OwnClock, CountsOnlyFirstCutsOfKnownStarts) {
  const std::string two = all_late({{"cornflower", 6}, {"zinnia", 6}});
  EXPECT_EQ(planned("", beds(two + first_cut("cosmos", 6))).schedule.own.dates, 0);
  const Date cut = plain().at("cosmos").timeline.first_cut.likely + Days{6};
  EXPECT_EQ(planned("", beds(two + begun("cosmos") + happened("cosmos", "cut", cut, "stems = 9\n")))
                .schedule.own.dates,
            0);
  EXPECT_EQ(planned("", beds(two + begun("cosmos") + first_cut("cosmos", 6))).schedule.own.dates,
            3);
}

// Pasted, the plan's word moves choices too, and the records say only what is left.
TEST(OwnClock, SaysOnlyWhatThePlanDoesNotSay) {
  const std::string records = all_late({{"cornflower", 9}, {"zinnia", 9}, {"cosmos", 9}});
  Planned p = planned("", beds(records));
  Plan told = p.plan;
  told.place.days_late = 9;
  const Outcome now =
      reckon(Garden{told, p.sheets, climate::Climate::from(told.place), make_date(2026, 1, 1), {}});
  EXPECT_EQ(now.schedule.own.days_late, 0);
  EXPECT_EQ(by_crop(now.schedule).at("statice").timeline.first_cut.likely,
            by_crop(p.schedule).at("statice").timeline.first_cut.likely);
  told.place.days_late = 4;
  const Outcome rest =
      reckon(Garden{told, p.sheets, climate::Climate::from(told.place), make_date(2026, 1, 1), {}});
  EXPECT_EQ(rest.schedule.own.days_late, 5);
}

double reckoned_stems(const std::string& crop) { return ground::stems(plain().at(crop)); }

// All its stems counted on its last day, so many times those reckoned.
std::string counted(const std::string& crop, double times, bool lifted = true) {
  const Sowing& sowing = plain().at(crop);
  const auto stems = static_cast<int>(times * reckoned_stems(crop));
  std::string text = begun(crop) + first_cut(crop, 0) +
                     happened(crop, "cut", sowing.lift, "stems = " + std::to_string(stems) + "\n");
  return lifted ? text + happened(crop, "lifted", sowing.lift) : text;
}

TEST(OwnClock, CountsTheStemsOfThreeStartsThatAreOver) {
  const std::string two = counted("cornflower", 1.5) + counted("zinnia", 1.5);
  const Planned few = planned("", beds(two));
  EXPECT_EQ(few.schedule.own.counts, 0);
  // Half a season's count is no low yield.
  EXPECT_EQ(planned("", beds(two + counted("cosmos", 0.5, false))).schedule.own.counts, 0);
  const Planned p = planned("", beds(two + counted("cosmos", 1.2)));
  EXPECT_EQ(p.schedule.own.counts, 3);
  EXPECT_NEAR(p.schedule.own.stems_times, 1.5, 0.1);
  EXPECT_NEAR(ground::stems(by_crop(p.schedule).at("statice")) / reckoned_stems("statice"),
              p.schedule.own.stems_times, 1e-9)
      << "what is not counted gives as much more";
  ASSERT_TRUE(p.finding("own-clock"));
}

}  // namespace
}  // namespace trug::ask
