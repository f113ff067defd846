// SPDX-License-Identifier: MIT
// The sheets and the reckoning against what is known outside: trials, societies, growers' dated
// accounts. Where a sheet names the same source for the figure asked about, the row proves only
// that the figure came through whole: "(the sheet's too)".
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <numeric>

#include "climate/heat.h"
#include "crops/checks.h"
#include "crops/test_garden.h"
#include "ground/plan_choice.h"

namespace trug {
namespace {

using work::JobKind;

// --- Asking ---------------------------------------------------------------------------------

const TestGarden& here() {
  static const TestGarden garden;
  return garden;
}
const TestGarden& kansas() {
  static const TestGarden garden(continental());
  return garden;
}

// How many of the days `from` to `to` lie in the range.
double overlap(const DateRange& range, const std::string& from, const std::string& to) {
  const Date first = std::max(range.from, day(from));
  const Date until = std::min(range.until, day(to) + Days{1});
  return std::max(0, days_between(first, until));
}

double middle(const Range& range) { return range.middle(); }

const Way* find_way(const Sheet& sheet, const std::function<bool(const Way&)>& fits) {
  const auto found = std::ranges::find_if(sheet.ways, fits);
  return found == sheet.ways.end() ? nullptr : &*found;
}

const Way* sown_in_place(const Sheet& sheet, FlowersIn flowers) {
  return find_way(sheet, [&](const Way& way) {
    return way.method == Method::Seed && way.raised == Raised::InPlace && way.flowers == flowers;
  });
}

std::vector<const Sheet*> hardy_annuals(FlowersIn sown_for) {
  std::vector<const Sheet*> found;
  for (const Sheet* one : all_sheets()) {
    if (one->life_cycle == LifeCycle::HardyAnnual && sown_in_place(*one, sown_for)) {
      found.push_back(one);
    }
  }
  return found;
}

std::optional<Date> flower_sown(const Sheet& sheet, FlowersIn flowers, const std::string& start) {
  return here().first_flower({sheet.name, sown_in_place(sheet, flowers)->name, start, "", ""});
}

double count_if(const ground::Candidates& found,
                const std::function<bool(const ground::Candidate&)>& fits) {
  return static_cast<double>(std::ranges::count_if(found.list, fits));
}

// The earliest (latest) of a day over all that is allowed.
using DayOf = std::function<Date(const ground::Candidate&)>;
std::optional<Date> earliest(const ground::Candidates& found, const DayOf& of) {
  std::optional<Date> best;
  for (const auto& c : found.list) best = best ? std::min(*best, of(c)) : of(c);
  return best;
}
std::optional<Date> latest(const ground::Candidates& found, const DayOf& of) {
  std::optional<Date> best;
  for (const auto& c : found.list) best = best ? std::max(*best, of(c)) : of(c);
  return best;
}
Date in_ground(const ground::Candidate& c) { return c.in_ground; }
Date start(const ground::Candidate& c) { return c.start; }
Date last_cut(const ground::Candidate& c) { return c.timeline.last_cut(); }

CropEntry pinned(const std::string& start_on) {
  CropEntry entry;
  entry.pins.start_on = day(start_on);
  return entry;
}

// --- A. Autumn sowing of hardy annuals ------------------------------------------------------

template <class Value>
Value miss_of(const std::map<std::string, Value>& misses, const std::string& crop) {
  const auto found = misses.find(crop);
  return found == misses.end() ? Value{} : found->second;
}

TEST(CropChecks, A1AutumnWindowsHoldTheLastWeekOfSeptember) {
  const std::map<std::string, std::optional<double>> misses = {};
  for (const Sheet* one : hardy_annuals(FlowersIn::NextYear)) {
    const std::string way = sown_in_place(*one, FlowersIn::NextYear)->name;
    look(NumberCheck{
        "A1 window of " + one->name, Kind::Published,
        "Royal Horticultural Society, Sowing hardy annuals (some sheets' too)",
        [&] { return overlap(here().window(one->name, way), "2026-09-24", "2026-09-30"); }, 7, 7,
        miss_of(misses, one->name)});
  }
}

TEST(CropChecks, A1AutumnSowingsFlowerByLateSpring) {
  const std::map<std::string, std::string> misses = {{"godetia", "2027-06-17"}};
  for (const Sheet* one : hardy_annuals(FlowersIn::NextYear)) {
    const std::string way = sown_in_place(*one, FlowersIn::NextYear)->name;
    look(DateCheck{"A1 first cut of " + one->name, Kind::Published,
                   "Royal Horticultural Society, Sowing hardy annuals",
                   [&] {
                     return here().first_cut({one->name, way, "2026-09-27", "", ""});
                   },
                   "2027-05-10", "2027-06-15", miss_of(misses, one->name)});
  }
}

TEST(CropChecks, A2MidAprilSowingsFlowerInMidJune) {
  const std::map<std::string, std::string> misses = {
      {"ammi", "2027-07-12"},     {"bupleurum", "2027-07-20"}, {"daucus", "2027-07-20"},
      {"godetia", "2027-07-18"},  {"larkspur", "2027-07-19"},  {"orlaya", "2027-07-09"},
      {"sweet pea", "2027-07-09"}};
  for (const Sheet* one : hardy_annuals(FlowersIn::SameYear)) {
    look(DateCheck{"A2 " + one->name, Kind::Published,
                   "Royal Horticultural Society, Sowing hardy annuals",
                   [&] { return flower_sown(*one, FlowersIn::SameYear, "2027-04-15"); },
                   "2027-06-08", "2027-07-06", miss_of(misses, one->name)});
  }
}

TEST(CropChecks, A3AutumnSowingsAreAboutFourWeeksEarlier) {
  const std::map<std::string, std::optional<double>> misses = {
      {"bupleurum", 44}, {"cerinthe", 60}, {"larkspur", 45}, {"orlaya", 43}};
  for (const Sheet* one : hardy_annuals(FlowersIn::NextYear)) {
    if (!sown_in_place(*one, FlowersIn::SameYear)) continue;
    look(NumberCheck{"A3 " + one->name, Kind::Grower,
                     "Graham Rice, hardy annual manual; Cow Parsley Diaries 2019",
                     [&] {
                       return days(flower_sown(*one, FlowersIn::NextYear, "2026-09-15"),
                                   flower_sown(*one, FlowersIn::SameYear, "2027-04-15"));
                     },
                     14, 42, miss_of(misses, one->name)});
  }
}

// Lehi, Utah, 40.4 N: first frost about 26 October; last frost from memory.
Place lehi() {
  Place place = continental();
  place.latitude = 40.4;
  place.last_frost = std::chrono::May / 5;
  place.first_frost = std::chrono::October / 26;
  place.temperatures = NoTemperatures{};
  return place;
}

// Days by which a day misses a window.
double days_outside(const DateRange& window, const std::string& text) {
  const Date d = day(text);
  return d < window.from     ? days_between(d, window.from)
         : d >= window.until ? days_between(window.until, d) + 1
                             : 0;
}

// Whether the program warns of a start or refuses it.
double warns(const ground::Candidates& found) {
  return count_if(found, [](const ground::Candidate& c) {
           return !c.too_early && c.window.contains(c.in_ground);
         }) == 0;
}

// East Sussex coast, 50.8 N: means near Eastbourne and frost dates from memory.
const TestGarden& sussex() {
  static const TestGarden garden = [] {
    Place place = maritime();
    place.latitude = 50.8;
    place.last_frost = std::chrono::April / 25;
    place.first_frost = std::chrono::November / 8;
    place.temperatures =
        MonthlyMeans{{5.9, 5.6, 7.5, 9.6, 12.7, 15.3, 17.6, 17.9, 15.8, 12.6, 9.0, 6.5}, {}};
    return TestGarden(place);
  }();
  return garden;
}

// Albion, Maine, 44.5 N: last frost 21-31 May, first frost 1-10 October as the source prints them.
const TestGarden& maine() {
  static const TestGarden garden = [] {
    Place place = maritime();
    place.latitude = 44.5;
    place.last_frost = std::chrono::May / 26;
    place.first_frost = std::chrono::October / 5;
    place.temperatures = NoTemperatures{};
    return TestGarden(place);
  }();
  return garden;
}

// What is sown or planted for the winter and gets through it bare, where it falls to `coldest_c`.
double bare_through_winter(const std::string& crop, double coldest_c) {
  Place place = maritime();
  place.coldest_c = coldest_c;
  return count_if(TestGarden(place).ask(crop), [](const ground::Candidate& c) {
    return c.overwinters && !c.under_fleece && c.alive >= growth::kUsuallyAlive &&
           c.start < day("2027-01-01");
  });
}

TEST(CropChecks, A5ToA7FromTheFirstFrost) {
  const TestGarden utah(lehi());
  const NumberCheck rows[] = {
      {"A5 cornflower sown in place, days off 14 September", Kind::Grower,
       "a flower farmer of Lehi, Utah: planted six weeks before 26 October",
       [&] {
         return days_outside(utah.window("cornflower", "sown in place in autumn"), "2026-09-14");
       },
       0, 7},
      {"A5 larkspur sown in place, days off 14 September", Kind::Grower,
       "a flower farmer of Lehi, Utah: planted six weeks before 26 October",
       [&] {
         return days_outside(utah.window("larkspur", "sown in place in autumn"), "2026-09-14");
       },
       0, 7},
      {"A5 cornflower in modules, days off 14 September", Kind::Grower,
       "a flower farmer of Lehi, Utah: planted six weeks before 26 October",
       [&] {
         return days_outside(utah.window("cornflower", "modules planted out in autumn"),
                             "2026-09-14");
       },
       0, 7},
      {"A6 cornflower sown in mid-September warns", Kind::Grower,
       "The Guardian, 6 January 2001: may flower the same autumn in East Sussex",
       [] {
         return warns(sussex().ask("cornflower", "sown in place in autumn", pinned("2026-09-15")));
       },
       1, 1},
      {"A6 cornflower sown on 18 October warns", Kind::Grower,
       "The Guardian, 6 January 2001: six leaves by January, two to three weeks late",
       [] {
         return warns(sussex().ask("cornflower", "sown in place in autumn", pinned("2026-10-18")));
       },
       1, 1, 0},
  };
  for (const NumberCheck& row : rows) look(row);
}

TEST(CropChecks, A8NoTenderCropIsSownOutdoorsInAutumn) {
  for (const Sheet* one : all_sheets()) {
    if (one->life_cycle != LifeCycle::HalfHardyAnnual &&
        one->life_cycle != LifeCycle::TenderAnnual) {
      continue;
    }
    look(NumberCheck{"A8 " + one->name, Kind::Published,
                     "Royal Horticultural Society, Sowing seeds; Shields Gazette on autumn sowing",
                     [&] {
                       return count_if(here().ask(one->name), [&](const ground::Candidate& c) {
                         const Way& way = one->ways[c.way];
                         return way.method == Method::Seed && way.raised == Raised::InPlace &&
                                c.start < day("2027-02-01");
                       });
                     },
                     0, 0});
  }
}

TEST(CropChecks, A9Orlaya) {
  const NumberCheck rows[] = {
      {"A9 orlaya: place of the autumn sowing among its ways", Kind::Grower,
       "The Independent, 2013, Sow long",
       [] { return static_cast<double>(way_index(sheet("orlaya"), "sown in place in autumn")); }, 0,
       0},
      {"A9 orlaya: the spring sowing says it is unreliable", Kind::Grower,
       "The Independent, 2013, Sow long (the sheet's too)",
       [] {
         const Way& way =
             sheet("orlaya").ways.at(way_index(sheet("orlaya"), "sown in place in spring"));
         return static_cast<double>(way.note.value_or("").starts_with("Unreliable"));
       },
       1, 1},
  };
  for (const NumberCheck& row : rows) look(row);
}

TEST(CropChecks, A10AndA11AutumnCrops) {
  const DateCheck rows[] = {
      {"A10 calendula sown in September flowers from May", Kind::Grower,
       "BBC Gardeners' World Magazine, Flowers to sow in September (fitted); three weeks either "
       "side",
       [] {
         return here().first_flower({"calendula", "sown in place in autumn", "2026-09-15", "", ""});
       },
       "2027-04-10", "2027-05-22"},
      {"A10 cerinthe sown in autumn is cut from April", Kind::Grower,
       "Garden Trick, Hardy annuals (gardentrick.com/hardy-annuals); three weeks either side",
       [] {
         return here().first_cut({"cerinthe", "sown in place in autumn", "2026-09-17", "", ""});
       },
       "2027-03-11", "2027-05-21"},
      {"A11 corncockle in modules: planted out by a week before the first frost", Kind::Memory,
       "memory: best six weeks before it, at the latest one",
       [] { return here().window("corncockle", "modules planted out in autumn").until - Days{1}; },
       "2026-09-03", "2026-10-08"},
  };
  for (const DateCheck& row : rows) look(row);
  look(NumberCheck{"A11 corncockle of 1 August set out on 10 October lives through December",
                   Kind::Memory, "memory: one row of 2022, frozen ground",
                   [] {
                     Place place = maritime();
                     place.coldest_c = -7;
                     CropEntry entry = pinned("2026-08-01");
                     entry.pins.plant_on = day("2026-10-10");
                     const auto found = TestGarden(place).ask(
                         "corncockle", "modules planted out in autumn", entry);
                     return found.list.empty() ? 0 : found.list.front().alive;
                   },
                   0.85, 1});
}

TEST(CropChecks, A12ToA15WinterAndLarkspur) {
  const DateCheck dates[] = {
      {"A12 and four weeks before that, plants for the winter go in", Kind::Published,
       "Johnny's Selected Seeds, Overwintering flowers: 7 to 15 October",
       [] { return maine().climate().short_days_before(2027)->from - Days{28}; }, "2026-10-07",
       "2026-10-15"},
      {"A12 days fall under ten hours in Maine", Kind::Published,
       "Johnny's Selected Seeds, Overwintering flowers; four days either side",
       [] { return maine().climate().short_days_before(2027)->from; }, "2026-11-02", "2026-11-10"},
      {"A12 and are longer again", Kind::Published,
       "Johnny's Selected Seeds, Overwintering flowers; four days either side",
       [] { return maine().climate().short_days_before(2027)->until - Days{1}; }, "2027-01-30",
       "2027-02-07"},
  };
  for (const DateCheck& row : dates) look(row);
  std::vector<NumberCheck> rows;
  for (const std::string crop :
       {"ammi", "daucus", "annual scabious", "calendula", "larkspur", "nigella", "cornflower"}) {
    rows.push_back({"A14 " + crop + " bare at -25 degC", Kind::Published,
                    "Harris Seeds, Cool season flowers (the sheets' too)",
                    [crop] { return bare_through_winter(crop, -25); }, 0, 0});
    rows.push_back({"A14 " + crop + " bare at -3 degC is allowed", Kind::Memory, "memory",
                    [crop] { return bare_through_winter(crop, -3); }, 1, 1e6});
  }
  rows.push_back({"A14 coldest an established snapdragon survives", Kind::Published,
                  "Growing in the Garden, Cool season hardy annuals: 0 degF (the sheet's too)",
                  [] { return sheet("snapdragon").survives_c - sheet("snapdragon").mulch_gain_c; },
                  -18, -18});
  rows.push_back({"A14 coldest an established scabious survives", Kind::Published,
                  "Growing in the Garden, Cool season hardy annuals: 10 degF",
                  [] { return sheet("annual scabious").survives_c; }, -12.5, -12});
  rows.push_back({"A15 larkspur sown in place from July to mid-August without chilling",
                  Kind::Published, "Hawthorn Farm; LSU AgCenter (the sheet's too)",
                  [] {
                    if (sheet("larkspur").pretreat && sheet("larkspur").pretreat->needed)
                      return 0.0;
                    return count_if(here().ask("larkspur"), [](const ground::Candidate& c) {
                      return c.start == c.in_ground &&
                             overlap({c.start, c.start + Days{1}}, "2027-07-01", "2027-08-15") > 0;
                    });
                  },
                  0, 0});
  for (const NumberCheck& row : rows) look(row);
}

// --- B. Spring sowing, tender annuals -------------------------------------------------------

// Plants set out on that day: when their seed may be sown.
std::optional<Date> sown_for(const std::string& crop, const std::string& way,
                             const std::string& out, bool last) {
  CropEntry entry;
  entry.pins.plant_on = day(out);
  const auto found = here().ask(crop, way, entry);
  return last ? latest(found, start) : earliest(found, start);
}

double days_to_flower(const TestGarden& garden, const std::string& crop, const std::string& way,
                      const std::string& sown, const std::string& group = "") {
  return days(day(sown), garden.first_flower({crop, way, sown, "", group}));
}

TEST(CropChecks, BDates) {
  const DateCheck rows[] = {
      {"B16 zinnia: first day outdoors", Kind::Published,
       "Utah State University Extension, zinnia: never before the last frost",
       [] { return earliest(here().ask("zinnia"), in_ground); }, "2027-05-15", "2027-06-15"},
      {"B16 zinnia: first day sown indoors for 29 May", Kind::Published,
       "Utah State University Extension; Renee's Garden; Nichols Garden Nursery",
       [] { return sown_for("zinnia", "raised in warmth in spring", "2027-05-29", false); },
       "2027-05-01", "2027-05-22"},
      {"B16 zinnia: last day sown indoors for 29 May", Kind::Published,
       "Utah State University Extension; Renee's Garden; Nichols Garden Nursery",
       [] { return sown_for("zinnia", "raised in warmth in spring", "2027-05-29", true); },
       "2027-05-01", "2027-05-22"},
      {"B16 zinnia: window for sowing in place opens", Kind::Published,
       "Gulley Greenhouse: one to two weeks after the last frost",
       [] { return here().window("zinnia", "sown in place in spring").from; }, "2027-05-22",
       "2027-05-29"},
      {"B20 the half-hardy patch: first cosmos", Kind::Published,
       "Sarah Raven, half-hardy annual cutting patch: mid to late June",
       [] {
         return earliest(here().ask("cosmos"),
                         [](const auto& c) { return c.timeline.first_flower.likely; });
       },
       "2027-06-11", "2027-06-30", "2027-07-08"},
      {"B20 zinnia: no stems after the first frost", Kind::Published,
       "Sarah Raven, half-hardy annual cutting patch",
       [] { return latest(here().ask("zinnia"), last_cut); }, "2027-09-15", "2027-10-15"},
      {"B20 cosmos: no stems after the first frost", Kind::Published,
       "Sarah Raven, half-hardy annual cutting patch",
       [] { return latest(here().ask("cosmos"), last_cut); }, "2027-10-01", "2027-10-15"},
  };
  for (const DateCheck& row : rows) look(row);
}

TEST(CropChecks, BNumbers) {
  const std::string in_place = "sown in place in spring";
  const NumberCheck rows[] = {
      {"B16 zinnia: oldest plants set out, weeks", Kind::Published,
       "Utah State University Extension, zinnia",
       [] {
         double most = 0;
         for (const auto& c : here().ask("zinnia", "raised in warmth in spring").list) {
           most = std::max(most, days_between(c.start, c.in_ground) / 7.0);
         }
         return most;
       },
       0, 4},
      {"B18 zinnia: days from sowing in place in Kansas", Kind::Published,
       "ATTRA: about 60 days in a warm summer",
       [&] { return days_to_flower(kansas(), "zinnia", in_place, "2027-05-20"); }, 55, 75},
      {"B18 zinnia: days from sowing in place, 52 N", Kind::Memory, "memory",
       [&] { return days_to_flower(here(), "zinnia", in_place, "2027-05-25"); }, 75, 90},
      {"B23 panicum set out after mid-July without a warning", Kind::Published,
       "Frontiers in Plant Science 13:956157: 14 hours wanted; the dates computed",
       [] {
         return count_if(here().ask("panicum"), [](const ground::Candidate& c) {
           return c.in_ground > day("2027-07-15") && c.window.contains(c.in_ground);
         });
       },
       0, 0},
      {"B23 rudbeckia set out after mid-July without a warning", Kind::Published,
       "Greenhouse Grower: rudbeckia is an obligate long-day plant; the dates computed",
       [] {
         return count_if(here().ask("rudbeckia"), [](const ground::Candidate& c) {
           return c.in_ground > day("2027-07-15") && c.window.contains(c.in_ground);
         });
       },
       0, 0},
      {"B24 sunflower, short-day: days from sowing in Kansas, at most", Kind::Published,
       "ASCFG, Cut Flower Quarterly, winter 2008: 70 days on average after 16-hour days in the "
       "seedling stage, raised under glass and moved at three weeks",
       [&] { return days_to_flower(kansas(), "sunflower", in_place, "2027-06-01", "short-day"); },
       0, 70},
      {"B24 sunflower, short-day: days later than the day-neutral one at 16 hours", Kind::Published,
       "ASCFG sunflower trials 2006-07: 14 to 17 days under 16-hour days",
       [&] {
         return days_to_flower(here(), "sunflower", in_place, "2027-05-25", "short-day") -
                days_to_flower(here(), "sunflower", in_place, "2027-05-25");
       },
       14, 17, 13},
      {"B25 sunflower in July, 52 N: days from sowing", Kind::Published,
       "HortTechnology, greenhouse sunflowers in Wyoming: 57 to 103; outdoors within 53 to 80",
       [&] { return days_to_flower(here(), "sunflower", in_place, "2027-06-20"); }, 53, 80},
  };
  for (const NumberCheck& row : rows) look(row);
}

// --- C. Succession ---------------------------------------------------------------------------

TEST(CropChecks, CSuccessionGaps) {
  struct Gap {
    std::string name, crop;
    Kind kind;
    std::string source;
    double low, high;
    std::optional<double> known_miss = {};
  };
  const Gap rows[] = {
      {"C28", "cornflower", Kind::Grower, "Webbs, seed packet (the sheet's too)", 14, 21},
      {"C28", "ammi", Kind::Grower,
       "Garden Trick, Hardy annuals (gardentrick.com/hardy-annuals): fortnightly to monthly", 14,
       31},
      {"C28", "cosmos", Kind::Grower, "Epic Gardening: a month apart", 28, 31},
      {"C28", "zinnia", Kind::Grower, "a grower's sowing plan: two to three weeks", 14, 21},
      {"C29", "stock", Kind::Memory, "memory", 14, 28},
      {"C29", "larkspur", Kind::Memory, "memory", 14, 28},
      {"C29", "gypsophila", Kind::Memory, "memory", 14, 28},
      {"C29", "dill", Kind::Memory, "memory", 14, 28},
      {"C29", "gladiolus", Kind::Grower, "two growers on gladiolus: every two weeks", 14, 14},
  };
  for (const Gap& row : rows) {
    look(NumberCheck{row.name + " " + row.crop, row.kind, row.source,
                     [&] { return sheet(row.crop).succession_gap_days.value_or(0); }, row.low,
                     row.high, row.known_miss});
  }
}

// Four sowings of a single-stemmed sunflower a fortnight apart: one stem a plant, and weeks of
// flowers for as many fortnights, a week more or less.
TEST(CropChecks, C27BatchesOfSunflowers) {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = maritime();
  plan.beds = {Bed{.name = "bed",
                   .length = Millimetres{9500},
                   .width = Millimetres{1000},
                   .stretches = {{.length = Millimetres{9500}}}}};
  add_planting(plan, 0, 0, {.crop = "sunflower", .plants = 80, .successions = 4, .gap_days = 14});
  const auto choice =
      ground::choose_plan(plan, {{"sunflower", &sheet("sunflower")}}, here().climate());
  std::optional<Date> first, last;
  double most = 0;
  for (const ground::Sowing& sowing : choice.sowings) {
    const Date cut = sowing.timeline.first_cut.likely;
    first = first ? std::min(*first, cut) : cut;
    last = last ? std::max(*last, sowing.timeline.last_cut()) : sowing.timeline.last_cut();
    most = std::max(most, sowing.stems_per_plant);
  }
  const std::string source = "arithmetic; ATTRA: one stalk each, sown every seven to ten days";
  const NumberCheck rows[] = {
      {"C27 sowings", Kind::CommonPractice, source,
       [&] { return static_cast<double>(choice.sowings.size()); }, 4, 4},
      {"C27 stems of a plant", Kind::Published, source, [&] { return most; }, 1, 1},
      {"C27 stems of all, lost ones too", Kind::CommonPractice, source,
       [&] { return ground::stems(choice.sowings) / ground::kFitShare; }, 79.5, 80.5},
      {"C27 weeks", Kind::CommonPractice, source,
       [&] { return std::ceil((days(first, last) + 1) / 7); }, 7, 9},
  };
  for (const NumberCheck& row : rows) look(row);
}

TEST(CropChecks, C30NoSuccessionOfWhatStaysOrIsSownTheYearBefore) {
  for (const Sheet* one : all_sheets()) {
    if (one->life_cycle != LifeCycle::Biennial && !stays_in_ground(one->life_cycle)) continue;
    look(NumberCheck{"C30 " + one->name, Kind::CommonPractice, "common practice",
                     [&] { return one->succession_gap_days.value_or(0); }, 0, 0});
  }
}

// --- D. Biennials ----------------------------------------------------------------------------

const std::string kNursery = "sown in summer and planted in autumn";

std::optional<Date> biennial_flower(const std::string& crop, const std::string& sown) {
  const std::string way =
      crop == "honesty" ? "sown in early summer and planted in autumn" : kNursery;
  return here().first_flower({crop, way, sown, iso(day(sown) + Days{84}), ""});
}

TEST(CropChecks, D31SweetWilliamFlowersTheYearAfter) {
  for (const std::string sown : {"2026-05-15", "2026-06-15", "2026-07-15"}) {
    look(DateCheck{"D31 sweet william sown on " + sown, Kind::Grower,
                   "Garden Answers 2019; May to July, three weeks either side",
                   [&] { return biennial_flower("sweet william", sown); }, "2027-04-10",
                   "2027-08-21"});
  }
}

TEST(CropChecks, D32BiennialsGoOutByTheEquinox) {
  const std::string source =
      "Higgledy Garden; Garden Answers; Just Seed; Floret (some sheets' too)";
  for (const Sheet* one : all_sheets()) {
    if (one->life_cycle != LifeCycle::Biennial) continue;
    const Way* nursery = find_way(*one, [](const Way& way) {
      return way.raised == Raised::NurseryBed && way.name.ends_with("planted in autumn");
    });
    if (!nursery) continue;
    const DateRange window = here().window(one->name, nursery->name);
    look(DateCheck{"D32 " + one->name + " first out", Kind::Grower, source,
                   [&] { return window.from; }, "2026-08-20", "2026-10-07"});
    look(DateCheck{"D32 " + one->name + " last out", Kind::Grower, source,
                   [&] { return window.until - Days{1}; }, "2026-08-20", "2026-10-07"});
  }
}

TEST(CropChecks, D33OrderOfBloom) {
  struct Pair {
    std::string before, after;
    Kind kind;
    std::optional<double> known_miss = {};
  };
  const Pair rows[] = {
      {"honesty", "sweet rocket", Kind::Grower},
      {"sweet rocket", "foxglove", Kind::Memory},
      {"sweet rocket", "sweet william", Kind::Memory},
      {"foxglove", "canterbury bells", Kind::Memory},
      {"sweet william", "canterbury bells", Kind::Memory},
      {"canterbury bells", "hollyhock", Kind::Memory},
  };
  for (const Pair& row : rows) {
    look(NumberCheck{"D33 days from " + row.before + " to " + row.after, row.kind,
                     "Daily Mail on biennials for honesty; the rest memory",
                     [&] {
                       return days(biennial_flower(row.before, "2026-06-10"),
                                   biennial_flower(row.after, "2026-06-10"));
                     },
                     1, 120, row.known_miss});
  }
}

TEST(CropChecks, D35FoxgloveSeedWantsLight) {
  look(NumberCheck{"D35 on the surface", Kind::Published,
                   "Higgledy Garden, Time to sow biennials (the sheet's too)",
                   [] {
                     const Sheet& one = sheet("foxglove");
                     return one.light == Sheet::Light::Light && !one.depth_mm ? 1.0 : 0.0;
                   },
                   1, 1});
  const auto on_time = [] {
    auto found = here().ask("foxglove", kNursery);
    std::erase_if(found.list, [](const auto& c) { return !c.window.contains(c.in_ground); });
    return found;
  };
  const std::string source = "Garden Answers 2019; Higgledy Garden: May to July";
  look(DateCheck{"D35 first sown", Kind::Published, source,
                 [&] { return earliest(on_time(), start); }, "2026-05-01", "2026-07-31"});
  look(DateCheck{"D35 last sown", Kind::Published, source, [&] { return latest(on_time(), start); },
                 "2026-05-01", "2026-07-31"});
}

// --- E. Bulbs, corms, tubers -----------------------------------------------------------------

TEST(CropChecks, EJobDates) {
  const std::string rhs = "Royal Horticultural Society, bulb planting advice (some sheets' too)";
  const DateCheck rows[] = {
      {"E36 daffodil planted", Kind::Published, rhs,
       [] { return here().job_day({.crop = "daffodil"}, JobKind::Plant); }, "2026-08-15",
       "2026-09-30"},
      {"E36 allium planted", Kind::Published, rhs,
       [] { return here().job_day({.crop = "allium"}, JobKind::Plant); }, "2026-09-01",
       "2026-10-31"},
      {"E36 drumstick allium planted", Kind::Published, rhs,
       [] { return here().job_day({.crop = "drumstick allium"}, JobKind::Plant); }, "2026-09-01",
       "2026-10-31"},
      // There is a way in spring too, which keeps the ground until later in summer.
      {"E36 lily planted in autumn", Kind::Published, rhs,
       [] {
         return here().job_day({.crop = "asiatic lily", .pins = {.way = "bulbs in autumn"}},
                               JobKind::Plant);
       },
       "2026-09-01", "2026-10-31"},
      {"E36 crocosmia planted", Kind::Published, rhs,
       [] { return here().job_day({.crop = "crocosmia"}, JobKind::Plant); }, "2026-09-01",
       "2026-10-31"},
      {"E36 tulip planted", Kind::Published, rhs,
       [] { return here().job_day({.crop = "tulip"}, JobKind::Plant); }, "2026-11-01",
       "2026-11-30"},
      {"E36 tulip window opens", Kind::Published, rhs,
       [] { return here().window("tulip", "bulbs in late autumn").from; }, "2026-10-25",
       "2026-11-30"},
      {"E43 dahlia: first day out", Kind::Grower,
       "Saga; Daily Mail: last frost to three weeks after",
       [] { return earliest(here().ask("dahlia", "tubers potted up in warmth"), in_ground); },
       "2027-05-15", "2027-06-05"},
      {"E43 dahlia lifted", Kind::Grower,
       "Saga: first frost to three weeks after (the sheet's too)",
       [] { return here().job_day({.crop = "dahlia"}, JobKind::LiftAndStore); }, "2027-10-15",
       "2027-11-05"},
      {"E43 dahlia: last stems", Kind::Grower, "Saga: until the first frost",
       [] { return latest(here().ask("dahlia"), last_cut); }, "2027-10-01", "2027-10-15"},
      {"E44 dahlia potted early: first cut", Kind::Memory,
       "GrowerTalks; Utah State University; the British days memory: late July to late August",
       [] {
         return here().first_cut(
             {"dahlia", "tubers potted up in warmth", "2027-04-15", "2027-05-26", ""});
       },
       "2027-07-21", "2027-08-31"},
      {"E44 dahlia planted in place: first cut", Kind::Memory,
       "GrowerTalks; Utah State University; the British days memory: late July to late August",
       [] {
         return here().first_cut({"dahlia", "tubers planted in place", "2027-05-15", "", ""});
       },
       "2027-07-21", "2027-08-31"},
      {"E74 tulips planted in January are late: window closes", Kind::Published,
       "University of Georgia, bulbs as cut flowers: late planting lowers yield",
       [] { return here().window("tulip", "bulbs in late autumn").until - Days{1}; }, "2026-11-30",
       "2026-12-31"},
  };
  for (const DateCheck& row : rows) look(row);
}

// Stems a square metre as the program counts them, planted at the middle of the sheet's spacing.
double stems_per_m2(const std::string& crop, double per_plant) {
  const double spacing = sheet(crop).spacing_cm.middle();
  return per_plant * ground::kFitShare * 10000 / (spacing * spacing);
}

// The week after the first cut in which most stems come, from 1.
double peak_week(const growth::Timeline& timeline) {
  std::vector<double> weeks(timeline.shares.size() / 7 + 1);
  for (std::size_t i = 0; i < timeline.shares.size(); ++i) weeks[i / 7] += timeline.shares[i];
  return static_cast<double>(std::ranges::max_element(weeks) - weeks.begin()) + 1;
}

TEST(CropChecks, ENumbers) {
  const NumberCheck rows[] = {
      {"E37 tulip: depth in bulb heights of 5 cm", Kind::Published,
       "Royal Horticultural Society, two to three times the bulb's height; the height memory",
       [] { return sheet("tulip").depth_mm.value_or(0) / 50; }, 2, 3},
      {"E37 daffodil: depth in bulb heights of 5 cm", Kind::Published,
       "Royal Horticultural Society, two to three times the bulb's height; the height memory",
       [] { return sheet("daffodil").depth_mm.value_or(0) / 50; }, 2, 3},
      {"E37 tulip: spacing in a cutting bed", Kind::Memory, "memory",
       [] { return middle(sheet("tulip").spacing_cm); }, 8, 10},
      {"E40 anemone in a field: stems a square metre", Kind::Published,
       "Horticulturae 9(1):2, North Logan, Utah: 85, a tenth either side",
       [] { return stems_per_m2("anemone", middle(*sheet("anemone").ways.at(1).stems_per_plant)); },
       76.5, 93.5, 102.9},
      {"E42 anemone: week of the peak", Kind::Published,
       "University of Georgia, bulbs as cut flowers (fitted)",
       [] {
         return peak_week(
             *here().timeline({"anemone", "corms in late winter", "2027-03-20", "", ""}));
       },
       3, 5},
      {"E44 dahlia: days by which potting gains", Kind::Memory,
       "memory: late July against late August",
       [] {
         return days(here().first_cut(
                         {"dahlia", "tubers potted up in warmth", "2027-04-15", "2027-05-26", ""}),
                     here().first_cut({"dahlia", "tubers planted in place", "2027-05-15", "", ""}));
       },
       14, 42},
      {"E45 dahlia: fewest stems", Kind::Published,
       "Virginia State University: five to six where neglected",
       [] { return sheet("dahlia").stems_per_plant.low; }, 5, 100},
      {"E46 gladiolus: days from planting, 52 N", Kind::Memory, "memory",
       [] { return days_to_flower(here(), "gladiolus", "corms in spring", "2027-05-01"); }, 90,
       105},
      {"E49 acidanthera: years", Kind::Published, "University of Georgia, bulbs as cut flowers",
       [] { return sheet("acidanthera").productive_years.value_or(0); }, 1, 1},
      {"E49 anemone: years", Kind::Published, "University of Georgia, bulbs as cut flowers",
       [] { return sheet("anemone").productive_years.value_or(0); }, 1, 1},
      {"E49 crocosmia: years", Kind::Published, "University of Georgia, bulbs as cut flowers",
       [] { return sheet("crocosmia").productive_years.value_or(0); }, 2, 3},
      {"E49 drumstick allium: years", Kind::Published,
       "University of Georgia, bulbs as cut flowers",
       [] { return sheet("drumstick allium").productive_years.value_or(0); }, 2, 3},
  };
  for (const NumberCheck& row : rows) look(row);
  for (const std::string crop :
       {"tulip", "daffodil", "allium", "gladiolus", "asiatic lily", "dutch iris"}) {
    look(NumberCheck{"E47 most stems of one " + crop, Kind::Published,
                     "New Zealand Bulbs; a US lily grower: one stem a bulb",
                     [&] { return sheet(crop).stems_per_plant.high; }, 1, 1});
  }
}

// --- F. Perennials ---------------------------------------------------------------------------

double second_year_gain(const std::string& crop) {
  const Sheet& one = sheet(crop);
  const Way* first = find_way(one, [](const Way& way) {
    return way.method == Method::BoughtPlants && way.flowers == FlowersIn::SameYear;
  });
  const Way* later =
      find_way(one, [](const Way& way) { return way.method == Method::Established; });
  if (!first || !later) return 0;
  return middle(later->stems_per_plant.value_or(one.stems_per_plant)) /
         middle(first->stems_per_plant.value_or(one.stems_per_plant));
}

TEST(CropChecks, FPerennials) {
  const std::string trials = "ASCFG perennial trials 2009-2020; University of Georgia, yarrow";
  const NumberCheck rows[] = {
      {"F50 echinacea: second year against first", Kind::Published, trials,
       [] { return second_year_gain("echinacea"); }, 1.5, 10},
      {"F50 achillea: second year against first", Kind::Published, trials,
       [] { return second_year_gain("achillea"); }, 1.5, 10},
      {"F50 border phlox: second year against first", Kind::Published, trials,
       [] { return second_year_gain("border phlox"); }, 1.5, 10},
      {"F51 peony: stems of a new plant", Kind::Published,
       "Alaska AFES 43/44; Royal Horticultural Society: none to half in the first years",
       [] {
         return sheet("peony")
             .ways.at(way_index(sheet("peony"), "bought plants"))
             .stems_per_plant->high;
       },
       0, 0},
      {"F51 peony: stems of an established plant 75 cm apart", Kind::Published,
       "Utah State University: 16 to 21 a square metre, so 9 to 12 at most",
       [] { return middle(sheet("peony").stems_per_plant); }, 3.4, 12},
      {"F55 achillea: years", Kind::Published, "University of Georgia, yarrow",
       [] { return sheet("achillea").productive_years.value_or(0); }, 5, 5},
  };
  for (const NumberCheck& row : rows) look(row);
}

TEST(CropChecks, F56Chrysanthemums) {
  const auto first_flower = [](const std::string& group) {
    return here().first_flower({"chrysanthemum", "rooted cuttings", "2027-05-15", "", group});
  };
  const auto job = [](JobKind kind) {
    CropEntry entry{.crop = "chrysanthemum", .group = "early"};
    entry.pins.way = "rooted cuttings";
    return here().job_day(entry, kind);
  };
  const std::string woolmans =
      "Woolmans, planting and stopping garden chrysanthemums (some of the sheet's too)";
  const DateCheck rows[] = {
      {"F56 early ones flower in August and September", Kind::Grower, woolmans,
       [&] { return first_flower("early"); }, "2027-08-01", "2027-09-30"},
      {"F56 planted in May", Kind::Grower, woolmans, [&] { return job(JobKind::PlantOut); },
       "2027-05-01", "2027-05-31"},
      {"F56 stopped from late May to late June", Kind::Grower,
       "Woolmans; Royal Horticultural Society, Chrysanthemums; the days memory",
       [&] { return job(JobKind::Pinch); }, "2027-05-25", "2027-06-25"},
      {"F56 late ones not before the end of October", Kind::Memory,
       "memory: seven to eight weeks after 4 September, the first day under 13.5 hours",
       [&] { return first_flower("late"); }, "2027-10-21", "2027-11-20"},
  };
  for (const DateCheck& row : rows) look(row);
}

TEST(CropChecks, F57AndYoungPlantsAreCutSparingly) {
  const auto stems = [](const std::string& crop, const std::string& way) {
    const Sheet& one = sheet(crop);
    return middle(one.ways.at(way_index(one, way)).stems_per_plant.value_or(one.stems_per_plant));
  };
  const NumberCheck rows[] = {
      {"F57 hydrangea in its third year", Kind::Published,
       "ASCFG, 2006 perennial and woody trials, 'Limelight' (the sheet's too)",
       [&] { return stems("hydrangea", "established"); }, 20, 25},
      {"F57 hydrangea in its first year: few", Kind::Memory, "memory",
       [&] { return stems("hydrangea", "bought plants"); }, 0, 5},
      {"alchemilla in its first summer: none", Kind::CommonPractice, "common practice",
       [&] { return stems("alchemilla", "bought plants") * cut_share(sheet("alchemilla"), 1); }, 0,
       0},
  };
  for (const NumberCheck& row : rows) look(row);
}

// --- H. Vase life ----------------------------------------------------------------------------

TEST(CropChecks, H66VaseLife) {
  struct Vase {
    std::string crop, source;
    double low, high;  // days, as published
    std::optional<double> known_miss = {};
  };
  const Vase rows[] = {
      {"zinnia", "North Carolina State University, vase life report 2009", 10, 10},
      {"dahlia", "ASCFG dahlia profile 2007; GrowerTalks 2025", 4, 10},
      {"iceland poppy", "ASHS abstract on post-harvest", 5.5, 8},
      {"rudbeckia", "ASCFG seed trials: up to 27 to 37; may be set lower", 10, 37},
      {"sunflower", "ASCFG seed trials", 7, 9},
      {"marigold", "ASCFG seed trials", 11, 11},
      {"gomphrena", "ASCFG seed trials 2009: nine and more", 9, 14},
      {"echinacea", "ASCFG perennial trial 2019", 7, 14},
      {"stock", "PanAmerican Seed, column stock", 5, 8},
      {"larkspur", "Cornell University 2007", 6, 6},
  };
  for (const Vase& row : rows) {
    look(NumberCheck{"H66 " + row.crop, Kind::Published, row.source + "; two fifths either way",
                     [&] { return middle(sheet(row.crop).vase_days); }, row.low * 0.6,
                     row.high * 1.4, row.known_miss});
  }
}

TEST(CropChecks, H67OrderOfVaseLife) {
  struct Group {
    std::vector<std::string> crops;
    double low, high;
  };
  const Group rows[] = {
      {{"tulip", "daffodil", "sweet pea", "shirley poppy", "iceland poppy", "rose"}, 1, 7},
      {{"snapdragon", "zinnia", "cosmos"}, 7, 10},
      {{"chrysanthemum", "statice", "allium", "eucalyptus"}, 10, 30},
  };
  for (const Group& row : rows) {
    for (const std::string& crop : row.crops) {
      look(NumberCheck{"H67 " + crop, Kind::Memory, "memory",
                       [&] { return middle(sheet(crop).vase_days); }, row.low, row.high});
    }
  }
}

// --- I. Arithmetic and the calendar ------------------------------------------------------------

TEST(CropChecks, I68SeedlingsAreReadyWhenTheyGoOut) {
  for (const Sheet* one : all_sheets()) {
    if (!one->germination_days) continue;
    look(NumberCheck{"I68 " + one->name + ": sown too late to be up", Kind::CommonPractice,
                     "common practice",
                     [&] {
                       return count_if(here().ask(one->name), [&](const ground::Candidate& c) {
                         const Way& way = one->ways[c.way];
                         return way.method == Method::Seed && way.raised != Raised::InPlace &&
                                days_between(c.start, c.in_ground) < one->germination_days->high;
                       });
                     },
                     0, 0});
    if (frost_class(*one) != FrostClass::Tender) continue;
    look(DateCheck{"I68 " + one->name + ": first day out", Kind::CommonPractice, "common practice",
                   [&] {
                     auto found = here().ask(one->name);
                     std::erase_if(found.list, [&](const ground::Candidate& c) {
                       return one->ways[c.way].raised == Raised::InPlace &&
                              one->ways[c.way].method == Method::Seed;
                     });
                     return earliest(found, in_ground);
                   },
                   "2027-05-15", "2027-06-30"});
  }
}

TEST(CropChecks, I68HardenedForAWeekOrMore) {
  for (const std::string crop : {"zinnia", "cosmos", "china aster", "statice"}) {
    CropEntry entry{.crop = crop};
    entry.pins.way = "raised in warmth in spring";
    look(NumberCheck{"I68 " + crop, Kind::CommonPractice, "common practice",
                     [&] {
                       return days(here().job_day(entry, JobKind::HardenOff),
                                   here().job_day(entry, JobKind::PlantOut));
                     },
                     7, 14});
  }
}

// The stems a wish wants in one of its weeks.
double wanted_a_week(double vases, int stems) {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = maritime();
  plan.wish = Wish{.vases_per_week = vases,
                   .stems_per_vase = stems,
                   .from = std::chrono::June / 1,
                   .to = std::chrono::August / 31};
  const auto weeks = harvest::count_weeks(plan, here().climate(), {});
  return weeks.empty() ? 0 : weeks.at(weeks.size() / 2).vase.wanted;
}

// The year's stems of so many plants, before losses.
double stems_of(const std::string& crop, int plants) {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = maritime();
  plan.beds = {Bed{.name = "bed",
                   .length = Millimetres{60000},
                   .width = Millimetres{1000},
                   .stretches = {{.length = Millimetres{60000}}}}};
  add_planting(plan, 0, 0, {.crop = crop, .plants = plants});
  const auto choice = ground::choose_plan(plan, {{crop, &sheet(crop)}}, here().climate());
  return ground::stems(choice.sowings) / ground::kFitShare;
}

TEST(CropChecks, INumbers) {
  const NumberCheck rows[] = {
      {"I70 thirty bunches of eighteen stems", Kind::Published,
       "The Business of Selling Flowers: 150 + 150 + 30 + 210",
       [] { return wanted_a_week(30, 18); }, 540, 540},
      {"I71 five hundred bells of Ireland", Kind::Grower,
       "Greenhorns: six to eight stems each, 3,000 to 4,000",
       [] { return stems_of("moluccella", 500); }, 3000, 4000},
      {"I76 calendula up in ground of 10 degC, days", Kind::Published,
       "Industrial Crops and Products 42:133: 89 degree-days above 5.5 degC",
       [] { return 89 / climate::capped_excess(10, 5.5, 40, 0); }, 19.5, 20.5},
      {"I76 calendula up in ground of 15 degC, days", Kind::Published,
       "Industrial Crops and Products 42:133: 89 degree-days above 5.5 degC",
       [] { return 89 / climate::capped_excess(15, 5.5, 40, 0); }, 9.3, 9.5},
      {"I76 calendula up in ground of 20 degC, days", Kind::Published,
       "Industrial Crops and Products 42:133: 89 degree-days above 5.5 degC",
       [] { return 89 / climate::capped_excess(20, 5.5, 40, 0); }, 6.0, 6.2},
  };
  for (const NumberCheck& row : rows) look(row);
}

// A made-up window that opens so many weeks after a frost of that flowering year.
std::optional<Date> weeks_after(Frost frost, double weeks, int year) {
  const TestGarden garden(maritime(), year);
  const FrostWindow window{{weeks, frost}, {weeks + 1, frost}};
  return garden.clock("cosmos").window_days(window, FlowersIn::SameYear).from;
}

TEST(CropChecks, I72LeapYears) {
  struct Row {
    Frost frost;
    double weeks;
    int year;
    std::string expected;
  };
  const Row rows[] = {
      {Frost::Last, -8, 2027, "2027-03-20"},  {Frost::Last, -8, 2028, "2028-03-20"},
      {Frost::Last, -10, 2027, "2027-03-06"}, {Frost::Last, -10, 2028, "2028-03-06"},
      {Frost::Last, -11, 2027, "2027-02-27"}, {Frost::Last, -11, 2028, "2028-02-28"},
      {Frost::Last, -12, 2027, "2027-02-20"}, {Frost::Last, -12, 2028, "2028-02-21"},
      {Frost::First, -6, 2027, "2027-09-03"}, {Frost::First, -6, 2028, "2028-09-03"},
  };
  for (const Row& row : rows) {
    look(DateCheck{"I72 " + row.expected, Kind::CommonPractice, "counted on a printed calendar",
                   [&] { return weeks_after(row.frost, row.weeks, row.year); }, row.expected,
                   row.expected});
  }
}

TEST(CropChecks, I73SouthOfTheEquator) {
  static const TestGarden south(southern());
  const std::string source = "common practice; last frost 15 October, first frost 1 May";
  const DateCheck rows[] = {
      {"I73 cosmos: first day out", Kind::CommonPractice, source,
       [] { return earliest(south.ask("cosmos", "raised in warmth in spring"), in_ground); },
       "2026-10-15", "2026-11-15"},
      {"I73 cornflower sown in autumn from about 6 March", Kind::CommonPractice,
       source + "; a week either side",
       [] { return south.window("cornflower", "sown in place in autumn").from; }, "2026-02-27",
       "2026-03-13"},
      {"I73 cornflower sown in autumn until about 10 April", Kind::CommonPractice,
       source + "; a week either side",
       [] { return south.window("cornflower", "sown in place in autumn").until - Days{1}; },
       "2026-04-03", "2026-04-17"},
      {"I73 tulips from 15 May", Kind::CommonPractice, source,
       [] { return south.window("tulip", "bulbs in late autumn").from; }, "2026-05-15",
       "2026-05-15"},
      {"I73 tulips until 26 June", Kind::CommonPractice, source,
       [] { return south.window("tulip", "bulbs in late autumn").until - Days{1}; }, "2026-06-26",
       "2026-06-26"},
  };
  for (const DateCheck& row : rows) look(row);
}

// The first day of the year on which the average maximum passes 27 degC.
Date heat_comes(const TestGarden& garden) {
  Date d = day("2027-01-01");
  while (d < day("2028-01-01") && garden.climate().max_c(d).value_or(0) <= 27) d += Days{1};
  return d;
}

TEST(CropChecks, I75NoStemsInTheHeat) {
  const std::string source =
      "Utah State University Extension, anemone; ranunculus: about 27 degC (the sheet's too)";
  const auto days_in_heat = [](const std::string& crop) {
    return days(heat_comes(kansas()), latest(kansas().ask(crop), last_cut));
  };
  const NumberCheck rows[] = {
      {"I75 anemone in Kansas: days cut after the heat comes", Kind::Published, source,
       [&] { return days_in_heat("anemone"); }, -365, 0},
      {"I75 ranunculus in Kansas: days cut after the heat comes", Kind::Published, source,
       [&] { return days_in_heat("ranunculus"); }, -365, 0},
  };
  for (const NumberCheck& row : rows) look(row);
}

}  // namespace
}  // namespace trug
