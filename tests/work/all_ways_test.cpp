// SPDX-License-Identifier: MIT
// Every sheet, way and group in three climates, alone on a metre and followed by another crop: what
// holds for the jobs of any plant. The orders below are how plants grow, not how the rules are
// written.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

#include "base/text.h"
#include "crops/test_garden.h"
#include "show/job_words.h"
#include "work/make_jobs.h"

namespace trug::work {
namespace {

using ground::Candidate;
using ground::Sowing;
using enum JobKind;

// A plan of many plantings, each alone on a metre of its own, and what is grown there.
struct Everything {
  Plan plan;
  ground::Schedule schedule;
  std::vector<Job> jobs;
  std::vector<show::JobRow> rows;

  std::string name(const Job& job) const {
    const Sowing& sowing = schedule.sowings[job.sowing];
    return job.crop + ", " + sowing.raised_by().name + ", started " + iso(sowing.start) + ": " +
           std::string(to_string(job.key.kind)) + " " + iso(job.day);
  }
};

// The first, the middle and the last start that a way and group allow.
std::vector<Candidate> samples(const std::vector<Candidate>& all) {
  std::map<std::pair<std::size_t, std::string>, std::vector<const Candidate*>> by_way;
  for (const Candidate& c : all) by_way[{c.way, c.group ? c.group->name : ""}].push_back(&c);
  std::vector<Candidate> result;
  for (const auto& [way, starts] : by_way) {
    for (const std::size_t at : {std::size_t{0}, starts.size() / 2, starts.size() - 1}) {
      result.push_back(*starts[at]);
    }
  }
  return result;
}

void add_sowing(Everything& all, const Sheet& sheet, const Candidate& candidate, bool followed) {
  constexpr Millimetres kMetre{1000};
  Sowing sowing;
  static_cast<Candidate&>(sowing) = candidate;
  sowing.planting = all.plan.plantings.size();
  sowing.length = kMetre;
  sowing.plants = 12;
  sowing.rows = 3;
  sowing.spacing_cm = sheet.spacing_cm.middle();
  sowing.sheet = &sheet;
  sowing.lift = followed ? candidate.lift_from : candidate.lift_to;
  if (followed) sowing.next_in_ground = sowing.lift + Days{7};
  all.plan.plantings.push_back({.asked = {.crop = sheet.name},
                                .name = "bed/" + sheet.name,
                                .flowering_year = all.plan.flowering_year,
                                .patch = Patch{.stretch = 1, .length = kMetre, .width = kMetre}});
  all.schedule.sowings.push_back(sowing);
}

Everything everything(const Place& place, std::vector<std::chrono::weekday> days) {
  Everything all;
  all.plan.flowering_year = 2027;
  all.plan.place = place;
  all.plan.place.coldest_c = -8;
  all.plan.work.days = std::move(days);
  all.plan.work.care = true;
  all.plan.beds = {{.name = "bed",
                    .length = Millimetres{1000},
                    .width = Millimetres{1000},
                    .stretches = {{.length = Millimetres{1000}}}}};
  const auto climate = climate::Climate::from(all.plan.place);
  Work saturdays;  // a seventh of the starts, enough to walk the whole of every window
  saturdays.days = {std::chrono::Saturday};
  for (const Sheet* sheet : all_sheets()) {
    const auto found = ground::candidates({.climate = climate,
                                           .place = all.plan.place,
                                           .work = saturdays,
                                           .flowering_year = all.plan.flowering_year},
                                          *sheet, {.crop = sheet->name});
    for (const Candidate& candidate : samples(found.list)) {
      add_sowing(all, *sheet, candidate, false);
      if (!stays_in_ground(sheet->life_cycle)) add_sowing(all, *sheet, candidate, true);
    }
  }
  all.jobs = make_jobs(all.plan, all.schedule, climate, {make_date(2025, 1, 1)});
  all.rows = show::job_rows(all.plan, all.schedule, all.jobs, {});
  return all;
}

const std::vector<Everything>& gardens() {
  static const std::vector<Everything> gardens = [] {
    std::vector<Everything> made;
    made.push_back(everything(maritime(), {}));
    made.push_back(everything(continental(), {std::chrono::Sunday}));
    made.push_back(everything(southern(), {std::chrono::Tuesday, std::chrono::Saturday}));
    return made;
  }();
  return gardens;
}

TEST(AllWays, AreManyInEveryClimate) {
  for (const Everything& all : gardens()) {
    EXPECT_GT(all.schedule.sowings.size(), 600u);
    EXPECT_GT(all.jobs.size(), 6000u);
  }
}

TEST(AllWays, LiveInOrder) {
  for (const Everything& all : gardens()) {
    const auto climate = climate::Climate::from(all.plan.place);
    const climate::Season season(climate, all.plan.flowering_year);
    for (const Sowing& s : all.schedule.sowings) {
      SCOPED_TRACE(s.sheet->name + ", " + s.raised_by().name + ", started " + iso(s.start));
      EXPECT_LE(season.lives().from, s.start);
      EXPECT_LE(s.start, s.in_ground);
      EXPECT_LE(s.in_ground, s.timeline.first_flower.likely);
      EXPECT_LE(s.timeline.first_flower.likely, s.timeline.first_cut.likely);
      EXPECT_LE(s.timeline.first_cut.likely, s.lift_from);
      EXPECT_LE(s.lift_from, s.lift_to);
    }
  }
}

// A telephone shows about 24 columns of a title in its month (memory). Longer are only those of
// names for which there is no shorter, and "Lift and store acidanthera".
TEST(AllWays, HaveTitlesForANarrowColumn) {
  constexpr int kColumns = 24;
  constexpr std::size_t kLongName = 13;
  for (const Everything& all : gardens()) {
    for (const show::JobRow& row : all.rows) {
      const Sheet& sheet = *all.schedule.sowings[row.sowing].sheet;
      const std::string& name = sheet.plural.empty() ? sheet.name : sheet.plural;
      EXPECT_EQ(show::name_in_title(row.key.kind, row.title), name) << row.title;
      const bool lasts = row.key.kind == LiftAndStore || row.key.kind == LookAtStored;
      const bool no_event = row.told_with || trait(row.key.kind).group == JobGroup::Buying;
      if (lasts || no_event || trait(row.key.kind).for_care || name.size() > kLongName) continue;
      EXPECT_LE(display_width(row.title), kColumns) << row.title;
    }
  }
}

// Programs put the jobs of one day in the order of their titles. What frees ground comes before
// what fills it, and that before what tends it: common practice.
TEST(AllWays, HaveTitlesInTheOrderOfTheWork) {
  struct Order {
    std::vector<JobKind> before, after;
  };
  const Order orders[] = {
      {{FirstCut, CutBack, Lift, LiftAndStore, LetDieDown}, {Sow, PlantOut, Plant, Replant}},
      {{Sow, PlantOut, Plant, Replant}, {Support, Thin, WaterIn, WatchForFrost}},
      {{HardenOff}, {PlantOut}},
      {{PreTreat}, {Sow}},
  };
  std::map<JobKind, std::set<std::string>> titles;
  for (const Everything& all : gardens()) {
    for (const show::JobRow& row : all.rows) titles[row.key.kind].insert(row.title);
  }
  for (const Order& order : orders) {
    for (const JobKind before : order.before) {
      for (const JobKind after : order.after) {
        if (titles[before].empty() || titles[after].empty()) continue;
        EXPECT_LT(*titles[before].rbegin(), *titles[after].begin());
      }
    }
  }
  for (const JobKind often : {FirstCut, Lift, LetDieDown, Sow, PlantOut, Plant, Support, Thin}) {
    EXPECT_GT(titles[often].size(), 1u) << to_string(often);
  }
}

TEST(AllWays, GiveEachJobADayInItsWindow) {
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      EXPECT_TRUE(job.first <= job.day && job.day <= job.last) << all.name(job);
    }
  }
}

// What comes before what in the life of a plant, each pair of neighbours in one of these lines.
TEST(AllWays, PutTheJobsOfAPlantInAPossibleOrder) {
  const std::vector<JobKind> lines[] = {
      {OrderSeed, PreTreat, Sow, PrickOut, PotOn, HardenOff, PlantOut, FirstCut, Lift},
      {OrderBulbs, PreTreat, Plant, HardenOff, PlantOut, FirstCut, Lift, ClearAndFeed},
      {OrderTubers, PreTreat, Plant, HardenOff, PlantOut, FirstCut, LiftAndStore},
      {OrderPlants, PlantOut, WaterIn, FirstCut, Pick},
      {Sow, LookForSeedlings, FirstCut, DeadHead},
      {Sow, Thin, Pinch, FirstCut},
      {Sow, Support, FirstCut},
      {Sow, Slugs, FirstCut},
      {OrderBulbs, Plant, LetDieDown, Replant},
      {Plant, Lift, Replant},
      {FirstCut, LiftAndStore, LookAtStored},
      {Protect, Uncover, FirstCut},
      {PlantOut, Disbud, FirstCut},
      {Plant, Support, FirstCut, LiftAndStore},
      {PlantOut, WatchForFrost, Lift}};
  for (const Everything& all : gardens()) {
    std::map<std::size_t, std::map<JobKind, const Job*>> by_sowing;
    for (const Job& job : all.jobs) by_sowing[job.sowing][job.key.kind] = &job;
    for (const auto& [sowing, jobs] : by_sowing) {
      for (const std::vector<JobKind>& line : lines) {
        const Job* before = nullptr;
        for (const JobKind kind : line) {
          const auto found = jobs.find(kind);
          if (found == jobs.end()) continue;
          if (before != nullptr) {
            EXPECT_LE(before->day, found->second->day)
                << all.name(*before) << "; then " << all.name(*found->second);
          }
          before = found->second;
        }
      }
    }
  }
}

TEST(AllWays, AskForNothingBeforeThePlantsAreThere) {
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      const Sowing& sowing = all.schedule.sowings[job.sowing];
      const bool beforehand =
          trait(job.key.kind).group == JobGroup::Buying || job.key.kind == PreTreat;
      if (beforehand || sowing.stands) continue;
      EXPECT_LE(sowing.start, job.day) << all.name(job);
      const bool begins = job.key.kind == Sow || job.key.kind == Plant;
      if (!begins && sowing.start < sowing.in_ground) {
        EXPECT_LE(sowing.start, job.first) << all.name(job);
      }
      if (job.where == Raised::InPlace) {
        EXPECT_LE(sowing.in_ground, job.day) << all.name(job);
      }
      if (job.where && job.where != Raised::InPlace) {
        EXPECT_LE(job.day, sowing.in_ground) << all.name(job);
      }
    }
  }
}

// A minor job is told on the day of the job that tells of it, by its sowing's own.
TEST(AllWays, TellMinorJobsWithTheirMajorOnes) {
  std::size_t minor = 0;
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      if (!job.told_with) continue;
      ++minor;
      const Job& with = all.jobs[*job.told_with];
      EXPECT_EQ(with.sowing, job.sowing) << all.name(job);
      EXPECT_EQ(with.day, job.day) << all.name(job);
      EXPECT_FALSE(with.told_with) << all.name(job);
      EXPECT_FALSE(job.reminder) << all.name(job);
      const auto& carriers = trait(job.key.kind).told_with;
      EXPECT_NE(std::ranges::find(carriers, with.key.kind), carriers.end()) << all.name(job);
    }
  }
  EXPECT_GT(minor, 2000u);
}

// A tray is where its plants are: in warmth until it is hardened off, then in the frame or carried
// out and in, in the bed from the day it is set out.
TEST(AllWays, SayWhereThePlantsStandThatDay) {
  std::size_t in_warmth = 0, hardened = 0;
  for (const Everything& all : gardens()) {
    std::map<std::size_t, Date> hardening;
    for (const Job& job : all.jobs) {
      if (job.key.kind == HardenOff) hardening[job.sowing] = job.day;
    }
    for (const Job& job : all.jobs) {
      if (job.key.kind != PrickOut && job.key.kind != PotOn && job.key.kind != Pinch) continue;
      const Sowing& sowing = all.schedule.sowings[job.sowing];
      EXPECT_EQ(job.where == Raised::InPlace, sowing.stands || sowing.in_ground <= job.day)
          << all.name(job);
      const auto from = hardening.find(job.sowing);
      if (from == hardening.end()) continue;
      if (job.where == Raised::Heated) {
        ++in_warmth;
        EXPECT_LE(job.day, from->second) << all.name(job);
      } else if (job.day < sowing.in_ground && job.where == std::nullopt) {
        ++hardened;
        EXPECT_LE(sowing.in_ground - Days{14}, job.day) << all.name(job);
      }
    }
  }
  EXPECT_GT(in_warmth, 200u);
  EXPECT_GT(hardened, 10u);
}

// Ten to fourteen days that end on the day out, but of what is up for less.
TEST(AllWays, HardenOffForTenToFourteenDays) {
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      if (job.key.kind != HardenOff) continue;
      const Sowing& sowing = all.schedule.sowings[job.sowing];
      const int up = static_cast<int>(sowing.sheet->germination_days.value_or(Range{14, 14}).high);
      const int days = days_between(job.day, sowing.in_ground);
      EXPECT_LE(days, 14) << all.name(job);
      const int under_cover = days_between(sowing.start, sowing.in_ground);
      EXPECT_GE(days, std::min(10, std::max(4, under_cover - up - 1))) << all.name(job);
    }
  }
}

TEST(AllWays, PinchNothingInTheDarkOfTheWinter) {
  std::size_t pinched = 0;
  for (const Everything& all : gardens()) {
    const auto climate = climate::Climate::from(all.plan.place);
    const climate::Season season(climate, all.plan.flowering_year);
    for (const Job& job : all.jobs) {
      if (job.key.kind != Pinch) continue;
      ++pinched;
      EXPECT_FALSE(season.winter() && season.winter()->contains(job.day)) << all.name(job);
    }
  }
  EXPECT_GT(pinched, 100u);
}

// Stakes and frames before the roots they would pierce.
TEST(AllWays, SupportBeforeItIsNeeded) {
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      if (job.key.kind != Support) continue;
      const Sowing& sowing = all.schedule.sowings[job.sowing];
      const bool first = sowing.sheet->support == Sheet::Support::Frame ||
                         (sowing.sheet->support == Sheet::Support::Stakes &&
                          !is_sown_in_place(sowing.raised_by()));
      if (first && !sowing.stands) {
        EXPECT_EQ(job.day, sowing.in_ground) << all.name(job);
      } else {
        EXPECT_LE(job.day, sowing.timeline.first_cut.likely) << all.name(job);
      }
    }
  }
}

TEST(AllWays, DivideNothingThatWasJustPlanted) {
  for (const Everything& all : gardens()) {
    for (const Job& job : all.jobs) {
      if (job.key.kind != Divide) continue;
      EXPECT_TRUE(all.schedule.sowings[job.sowing].stands) << all.name(job);
    }
  }
}

// The days until which a text tells to do something. Words without a year mean the next such day,
// unless one is just past: nobody reads a day of last winter into them, but one of last week or
// last month.
std::vector<Date> days_named(const std::string& text, Date said) {
  static const std::regex kUntil(
      "(until|till|on|by|before) ([0-9]{1,2}) "
      "(January|February|March|April|May|June|July|August|September|October|November|December)");
  constexpr std::array<const char*, 12> kMonths = {"January",   "February", "March",    "April",
                                                   "May",       "June",     "July",     "August",
                                                   "September", "October",  "November", "December"};
  constexpr int kJustPast = 120;
  std::vector<Date> days;
  for (std::sregex_iterator it(text.begin(), text.end(), kUntil), end; it != end; ++it) {
    const auto month = std::ranges::find(kMonths, (*it)[3].str()) - kMonths.begin();
    Date named{};
    for (const int year : {1, 0, -1}) {
      const Date day = make_date(year_of(said) + year, static_cast<unsigned>(month) + 1,
                                 static_cast<unsigned>(std::stoi((*it)[2])));
      if (day >= said - Days{kJustPast}) named = day;
    }
    days.push_back(named);
  }
  return days;
}

TEST(DaysNamed, AreTheNextSuchDayOrOneJustPast) {
  struct Row {
    const char* text;
    const char* said;
    const char* named;
  };
  const Row rows[] = {
      {"Sow until 3 June.", "2027-05-20", "2027-06-03"},
      {"Sow until 3 June.", "2027-06-05", "2027-06-03"},  // two days past
      {"Sow until 3 June.", "2027-06-30", "2027-06-03"},  // weeks past
      {"Sow by 28 December.", "2027-01-20", "2026-12-28"},
      {"Plant before 15 May.", "2026-10-20", "2027-05-15"},
      {"Plant on 2 March.", "2026-12-30", "2027-03-02"},
  };
  for (const Row& row : rows) {
    const auto days = days_named(row.text, parse_iso(row.said).value());
    ASSERT_EQ(days.size(), 1u) << row.text;
    EXPECT_EQ(iso(days[0]), row.named) << row.text << " said on " << row.said;
  }
}

// "until 3 June" said on 5 June is of no use.
TEST(AllWays, SayNothingOfDaysThatArePast) {
  std::size_t said = 0;
  for (const Everything& all : gardens()) {
    for (const show::JobRow& row : all.rows) {
      if (trait(row.key.kind).group == JobGroup::Buying) {
        // More than half a year ahead: days without a year are read as the nearest ones here.
        EXPECT_LE(row.day, row.last) << all.name(row);
        continue;
      }
      for (const Date named : days_named(row.text, row.day)) {
        ++said;
        EXPECT_LE(row.day, named) << all.name(row) << ": " << row.text;
      }
    }
  }
  EXPECT_GT(said, 1000u);
}

}  // namespace
}  // namespace trug::work
