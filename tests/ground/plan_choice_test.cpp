// SPDX-License-Identifier: MIT
#include "ground/plan_choice.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "ground/made_up_garden.h"

namespace trug::ground {
namespace {

const std::vector<Sheet>& made_up_sheets() {
  static const std::vector<Sheet> sheets = {
      cornflower(), sweet_william(), zinnia(),   cosmos(),   snapdragon(), sunflower(), aster(),
      tulip(),      peony(),         daffodil(), foxglove(), calendula(),  statice()};
  return sheets;
}

Sheets by_name() {
  Sheets sheets;
  for (const Sheet& sheet : made_up_sheets()) sheets[sheet.name] = &sheet;
  return sheets;
}

MonthDay month_day(unsigned month, unsigned day) {
  return {std::chrono::month{month}, std::chrono::day{day}};
}

CropEntry grow(std::string name, std::optional<int> plants = {}) {
  CropEntry entry;
  entry.crop = std::move(name);
  entry.plants = plants;
  if (entry.crop == "peony") entry.since = 2020;
  return entry;
}

struct Planted {
  int millimetres = 0;
  std::vector<CropEntry> crops;
};

Planted stretch(int millimetres, std::vector<CropEntry> crops) {
  return {millimetres, std::move(crops)};
}

Plan plan_of(const std::vector<Planted>& stretches, std::optional<Wish> wish) {
  Plan plan;
  plan.flowering_year = 2027;
  plan.place = lowland();
  plan.shelter = everything();
  plan.wish = std::move(wish);
  Bed bed;
  bed.name = "long bed";
  bed.width = Millimetres{1250};
  plan.beds = {bed};
  for (const Planted& planted : stretches) {
    plan.beds[0].stretches.push_back({.length = Millimetres{planted.millimetres}});
    for (const CropEntry& crop : planted.crops) {
      add_planting(plan, 0, plan.beds[0].stretches.size() - 1, crop);
    }
  }
  return plan;
}

const climate::Climate& maritime_climate() {
  static const auto climate = climate::Climate::from(lowland());
  return climate;
}

Schedule chosen(const Plan& plan) { return choose_plan(plan, by_name(), maritime_climate()); }

// Each stretch as if it were the only one.
Schedule chosen_apart(const Plan& plan) {
  Schedule all;
  for (const auto& chain : chains(plan)) {
    Schedule one = chosen(with_only(plan, chain));
    for (Sowing& sowing : one.sowings) {
      sowing.planting = chain[sowing.planting];
      all.sowings.push_back(std::move(sowing));
    }
    std::ranges::move(one.weighed, std::back_inserter(all.weighed));
  }
  return all;
}

// The test's own arithmetic, from the chosen candidates and lifts alone.

double weight_of(const Sowing& c) {
  const bool next_year = c.raised_by().flowers != FlowersIn::SameYear;
  const double way = c.way == 0 ? 1 : 0.97;
  const int length = days_between(c.window.from, c.window.until) - 1;
  const int late = days_between(c.window.from, c.in_ground) - length;
  if (late > 0) return way * std::max(0.3, 0.9 - 0.005 * late);
  return way * (late + length <= 0.75 * length ? 1 : next_year ? 0.9 : 0.97);
}

// Stems by the Monday of their week and by crop: as the value counts them, or as they are likely.
using Weekly = std::map<Date, std::map<std::string, double>>;

void count_stems(const Sowing& c, bool weighted, Weekly& weeks) {
  const double stems =
      0.75 * c.plants * c.stems_per_plant * c.stem_factor * (weighted ? weight_of(c) : 1);
  Date day = c.timeline.first_cut.likely;
  for (const double share : c.timeline.shares) {
    if (day <= c.lift) weeks[monday_of(day)][c.sheet->name] += stems * share;
    day += Days{1};
  }
}

Weekly weekly(const Schedule& choice, bool weighted) {
  Weekly weeks;
  for (const Sowing& sowing : choice.sowings) count_stems(sowing, weighted, weeks);
  return weeks;
}

double wanted_in(const std::optional<Wish>& wish, Date monday) {
  if (!wish) return 0;
  const Date from = on(wish->from, 2027), to = on(wish->to, 2027);
  const bool touched = monday + Days{6} >= from && monday <= to;
  return touched ? wish->vases_per_week * wish->stems_per_vase : 0;
}

double value_of_week(const std::map<std::string, double>& crops, double wanted) {
  std::vector<harvest::Kind> kinds;
  for (const auto& [crop, stems] : crops) {
    const bool filler = by_name().at(crop)->roles.front() == Role::Filler;
    kinds.push_back({filler ? harvest::Part::Filler : harvest::Part::Main, stems});
  }
  return harvest::vase({wanted}, kinds).value;
}

double value_of_weeks(const Weekly& weeks, const std::optional<Wish>& wish) {
  double value = 0;
  for (const auto& [monday, crops] : weeks) {
    if (wish) value += value_of_week(crops, wanted_in(wish, monday));
    if (!wish) {
      for (const auto& [crop, stems] : crops) value += stems;
    }
  }
  return value;
}

// Weeks of bare ground from 15 April to 15 September, the frosts being a month after either, by the
// square metre.
double bare(const Plan& plan, const Schedule& choice) {
  const auto summer_weeks = [](Date from, Date until) {
    const Date first = std::max(from, make_date(2027, 4, 15));
    const Date last = std::min(until, make_date(2027, 9, 15));
    return std::max(0, days_between(first, last)) / 7.0;
  };
  double sum = 0;
  for (const auto& chain : chains(plan)) {
    const Patch& patch = *plan.plantings[chain.front()].patch;
    Date free = make_date(2025, 1, 1);
    double weeks = 0;
    for (const std::size_t i : chain) {
      for (const Sowing& sowing : choice.of(i)) {
        weeks += summer_weeks(free, sowing.in_ground);
        free = sowing.lift + Days{plan.work.days_between_crops};
      }
    }
    weeks += summer_weeks(free, make_date(2028, 1, 1));
    sum += weeks * patch.length.value() * patch.width.value() / 1e6;
  }
  return sum;
}

double value_of_plan(const Plan& plan, const Schedule& choice) {
  return value_of_weeks(weekly(choice, true), plan.wish) - bare(plan, choice);
}

int left_out(const Schedule& choice) {
  int count = 0;
  for (std::size_t i = 0; i < choice.weighed.size(); ++i) count += choice.of(i).empty() ? 1 : 0;
  return count;
}

// Weeks with half of their vases or more: the half that counts twice.
int weeks_covered(const Plan& plan, const Schedule& choice) {
  const auto weeks = harvest::count_weeks(plan, maritime_climate(), cuts(plan, choice));
  return static_cast<int>(weeks.size()) - harvest::count(weeks, harvest::WeekState::Short);
}

// Stems that find a place in the vases.
double usable_stems(const Plan& plan, const Schedule& choice) {
  double sum = 0;
  for (const harvest::Week& week :
       harvest::count_weeks(plan, maritime_climate(), cuts(plan, choice))) {
    sum += week.vase.usable;
  }
  return sum;
}

void expect_same(const Schedule& a, const Schedule& b) {
  ASSERT_EQ(a.sowings.size(), b.sowings.size());
  for (std::size_t i = 0; i < a.sowings.size(); ++i) {
    const Sowing &left = a.sowings[i], &right = b.sowings[i];
    EXPECT_EQ(left.planting, right.planting) << i;
    EXPECT_EQ(left.way, right.way) << i;
    EXPECT_EQ(left.start, right.start) << i;
    EXPECT_EQ(left.in_ground, right.in_ground) << i;
    EXPECT_EQ(left.lift, right.lift) << i;
    EXPECT_EQ(left.next_in_ground, right.next_in_ground) << i;
  }
}

// Order, gap and lifts of every stretch.
void expect_sound(const Plan& plan, const Schedule& choice) {
  const Sowing* before = nullptr;
  const auto nothing_follows = [&] {
    EXPECT_TRUE(!before || !before->another_follows());
    before = nullptr;
  };
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    SCOPED_TRACE(plan.plantings[i].name);
    if (!plan.plantings[i].follows) nothing_follows();
    for (const Sowing& c : choice.of(i)) {
      EXPECT_GE(c.lift, c.lift_from);
      EXPECT_LE(c.lift, c.lift_to);
      if (before) {
        EXPECT_GE(c.in_ground, before->lift + Days{plan.work.days_between_crops});
        EXPECT_EQ(before->next_in_ground, c.in_ground);
      }
      before = &c;
    }
  }
  nothing_follows();
}

constexpr std::array kAnnualsAndBulbs{"cornflower", "sweet william", "zinnia",    "cosmos",
                                      "snapdragon", "sunflower",     "aster",     "tulip",
                                      "daffodil",   "foxglove",      "calendula", "statice"};

// A plan of two to five stretches drawn from a seed.
class Drawn {
 public:
  explicit Drawn(unsigned seed) : random_(seed) {
    std::vector<Planted> stretches;
    const int count = 2 + below(4);
    for (int i = 0; i < count; ++i) stretches.push_back(stretch(300 + 100 * below(15), crops()));
    Wish wish{.vases_per_week = 1.0 + below(3), .stems_per_vase = 8 + below(10)};
    wish.from = month_day(4 + static_cast<unsigned>(below(4)), 10);
    wish.to = month_day(8 + static_cast<unsigned>(below(3)), 17);
    plan = plan_of(stretches, wish);
    plan.work.days = {std::chrono::Saturday};
    if (below(3) == 0) plan.work.days.push_back(std::chrono::Wednesday);
    plan.work.days_between_crops = below(2) == 0 ? 7 : below(15);
  }

  Plan plan;

 private:
  int below(int limit) { return static_cast<int>(random_() % static_cast<unsigned>(limit)); }

  std::vector<CropEntry> crops() {
    if (below(12) == 0) return {grow("peony")};
    std::vector<CropEntry> result;
    const int count = 1 + below(3);
    for (int i = 0; i < count; ++i) {
      CropEntry entry = grow(kAnnualsAndBulbs[static_cast<std::size_t>(below(12))]);
      if (below(2) == 0) entry.plants = 2 + below(20);
      result.push_back(entry);
    }
    return result;
  }

  std::mt19937 random_;
};

TEST(ChoosePlan, TogetherIsNeverWorthLessThanApart) {
  int raised = 0, weeks_apart = 0, weeks_together = 0;
  double before = 0, after = 0;
  for (unsigned seed = 0; seed < 60; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Plan plan = Drawn(seed).plan;
    const Schedule apart = chosen_apart(plan), together = chosen(plan);
    expect_sound(plan, apart);
    expect_sound(plan, together);
    EXPECT_FALSE(together.exact);
    EXPECT_LE(together.calls, 250);
    EXPECT_EQ(left_out(together), left_out(apart));
    const double low = value_of_plan(plan, apart), high = value_of_plan(plan, together);
    EXPECT_GE(high, low - 1e-6);
    raised += high > low + 0.5;
    before += low;
    after += high;
    weeks_apart += weeks_covered(plan, apart);
    weeks_together += weeks_covered(plan, together);
  }
  // The draw is worth nothing if there is nothing to do together.
  EXPECT_GT(raised, 20);
  EXPECT_GT(weeks_together, weeks_apart);
  RecordProperty("weeks_apart", weeks_apart);
  RecordProperty("weeks_together", weeks_together);
  RecordProperty("raised", raised);
  RecordProperty("value_before", std::to_string(before));
  RecordProperty("value_after", std::to_string(after));
}

// When a start may be, by the words of the rule: the ground has lain bare since before summer.
bool may_start(const Sowing& c, Date first_allowed) {
  const Date last = c.window.until - Days{1};
  const bool at_first = c.in_ground <= first_allowed + Days{14};
  if (c.in_ground <= last) return c.in_ground <= make_date(2027, 4, 15) + Days{42} || at_first;
  return first_allowed > last && at_first;
}

// A stretch with one crop cannot be bettered while the others stay as they are: every date and
// every lift is tried.
TEST(ChoosePlan, EveryStretchIsBestForTheOthers) {
  int tried = 0;
  for (unsigned seed = 1000; seed < 1012; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Plan plan = Drawn(seed).plan;
    const Schedule choice = chosen(plan);
    const double held = value_of_plan(plan, choice);
    for (const auto& chain : chains(plan)) {
      if (chain.size() > 1 || choice.of(chain[0]).empty()) continue;
      Schedule other = choice;
      Sowing& sowing = *std::ranges::find(other.sowings, chain[0], &Sowing::planting);
      const Sowing taken = sowing;
      const std::vector<Candidate>& list = choice.weighed[chain[0]].candidates->list;
      Date first = Date::max(), before = Date::min();
      for (std::size_t i = 0; i < list.size(); ++i) {
        const bool same_way = i > 0 && list[i].way == list[i - 1].way;
        if (!same_way || list[i].in_ground > before + Days{7}) first = list[i].in_ground;
        before = list[i].in_ground;
        static_cast<Candidate&>(sowing) = list[i];
        if (!may_start(sowing, first)) continue;
        for (sowing.lift = sowing.lift_from; sowing.lift <= sowing.lift_to;
             sowing.lift += Days{1}) {
          ++tried;
          EXPECT_LE(value_of_plan(plan, other), held + 0.02) << iso(sowing.in_ground);
        }
      }
    }
  }
  EXPECT_GT(tried, 1000);
}

TEST(ChoosePlan, TheSameInputGivesTheSameAnswer) {
  for (unsigned seed = 2000; seed < 2010; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    const Plan plan = Drawn(seed).plan;
    expect_same(chosen(plan), chosen(plan));
  }
}

// What was chosen, pinned and chosen again, is chosen again.
TEST(ChoosePlan, PinningTheAnswerChangesNothing) {
  for (unsigned seed = 3000; seed < 3010; ++seed) {
    SCOPED_TRACE("seed " + std::to_string(seed));
    Plan plan = Drawn(seed).plan;
    const Schedule first = chosen(plan);
    for (const Sowing& c : first.sowings) {
      Pins& pins = plan.plantings[c.planting].asked.pins;
      pins.way = c.raised_by().name;
      pins.start_on = c.start;
      pins.plant_on = c.in_ground;
      pins.lift_on = c.lift;
    }
    expect_same(first, chosen(plan));
  }
}

// The same day pinned as another thing is another planting.
TEST(ChoosePlan, PinsOfOnePlantingAreNotAnothers) {
  const Date day = make_date(2027, 6, 15);
  const auto pinned = [](Pins pins) {
    CropEntry entry = grow("cornflower");
    entry.pins = pins;
    entry.pins.way = "modules in summer";
    return stretch(500, {entry});
  };
  const Schedule choice = chosen(plan_of({pinned({.start_on = day}), pinned({.plant_on = day}),
                                          pinned({.lift_on = day}), pinned({.not_before = day})},
                                         {}));
  const auto candidates = [&](std::size_t i) { return choice.weighed[i].candidates->list; };
  for (const Candidate& c : candidates(0)) EXPECT_EQ(c.start, day);
  for (const Candidate& c : candidates(1)) EXPECT_EQ(c.in_ground, day);
  for (const Candidate& c : candidates(2)) EXPECT_EQ(c.lift_from, c.lift_to);
  for (const Candidate& c : candidates(3)) EXPECT_GE(c.start, day);
  for (std::size_t i = 0; i < 4; ++i) EXPECT_FALSE(candidates(i).empty()) << i;
}

// A bed of 4.4 x 1.25 m for a house, and one vase of twelve stems a week from 10 May to 17 October.
Plan house_bed() {
  Wish wish{.vases_per_week = 1, .stems_per_vase = 12};
  wish.from = month_day(5, 10);
  wish.to = month_day(10, 17);
  return plan_of({stretch(1300, {grow("daffodil", 60), grow("zinnia", 12)}),
                  stretch(900, {grow("foxglove", 8), grow("aster", 10)}),
                  stretch(1200, {grow("calendula", 20), grow("cosmos", 6)}),
                  stretch(1000, {grow("statice", 12)})},
                 wish);
}

TEST(ChoosePlan, TogetherTheStretchesOfAHouseBedFillMoreOfTheVases) {
  const Plan plan = house_bed();
  const Schedule apart = chosen_apart(plan), together = chosen(plan);
  EXPECT_EQ(left_out(together), 0);
  EXPECT_GT(value_of_plan(plan, together), value_of_plan(plan, apart));
  EXPECT_GE(weeks_covered(plan, together), weeks_covered(plan, apart));
  EXPECT_GT(usable_stems(plan, together), usable_stems(plan, apart));
  RecordProperty("weeks_apart", weeks_covered(plan, apart));
  RecordProperty("weeks_together", weeks_covered(plan, together));
}

// The choice's own worth, and more than which neither it nor each stretch by itself is.
TEST(ChoosePlan, TheBoundIsAboveEveryChoiceAndNearThisOne) {
  const Plan plan = house_bed();
  const Schedule choice = choose_plan(plan, by_name(), maritime_climate(), {.with_bound = true});
  EXPECT_FALSE(chosen(plan).bound) << "only where it is asked for";
  ASSERT_TRUE(choice.bound);
  EXPECT_NEAR(choice.bound->value, value_of_plan(plan, choice), 0.05);
  EXPECT_GE(choice.bound->most, choice.bound->value);
  EXPECT_GE(choice.bound->most, value_of_plan(plan, chosen_apart(plan)));
  EXPECT_LT(choice.bound->most, 1.25 * choice.bound->value);
}

// Two like stretches of one crop: apart they flower at once, together one after the other.
TEST(ChoosePlan, TwinsStandInForEachOther) {
  Wish wish{.vases_per_week = 1, .stems_per_vase = 12};
  wish.from = month_day(6, 15);
  wish.to = month_day(10, 10);
  const Plan plan =
      plan_of({stretch(500, {grow("cornflower", 6)}), stretch(500, {grow("cornflower", 6)})}, wish);
  const auto days_apart = [](const Schedule& choice) {
    const auto cut = [&](std::size_t i) { return choice.of(i).front().timeline.first_cut.likely; };
    return std::abs(days_between(cut(0), cut(1)));
  };
  EXPECT_EQ(days_apart(chosen_apart(plan)), 0);
  EXPECT_GE(days_apart(chosen(plan)), 21);
}

TEST(ChoosePlan, OneStretchOrNoWishIsExactAtOnce) {
  Plan plan = house_bed();
  plan.wish.reset();
  const Schedule without_wish = chosen(plan);
  EXPECT_TRUE(without_wish.exact);
  EXPECT_TRUE(without_wish.settled);
  EXPECT_EQ(without_wish.calls, 4);
  plan = house_bed();
  EXPECT_FALSE(chosen(plan).exact);
  plan = with_only(plan, {0, 1});
  EXPECT_TRUE(chosen(plan).exact);
}

TEST(Cuts, TogetherAreTheSchedulesStems) {
  const Plan plan = house_bed();
  const Schedule choice = chosen(plan);
  const Weekly stems = weekly(choice, false);
  const auto weeks = harvest::count_weeks(plan, maritime_climate(), cuts(plan, choice));
  EXPECT_EQ(weeks.size(), 23u);
  EXPECT_EQ(iso(weeks.front().monday), "2027-05-10");
  EXPECT_EQ(iso(weeks.back().monday), "2027-10-11");
  for (const harvest::Week& week : weeks) {
    double all = 0;
    if (const auto found = stems.find(week.monday); found != stems.end()) {
      for (const auto& [crop, of_crop] : found->second) all += of_crop;
    }
    EXPECT_NEAR(week.stems.likely, all, 1e-9) << iso(week.monday);
    EXPECT_LE(week.stems.low, week.stems.likely);
    EXPECT_GE(week.stems.high, week.stems.likely);
    EXPECT_TRUE(week.wished);
  }
}

struct StemsRow {
  std::string name;
  int days_to_lift;
  double stem_factor;
  std::vector<double> stems;
  double cut_share = 1;
};

// 8 plants x 10 stems x 0.75 = 60 stems, by shares of 0.5, 0.3 and 0.2.
TEST(StemsByDay, HandWorked) {
  const std::vector<StemsRow> rows = {
      {"all of it", 2, 1, {30, 18, 12}},
      {"the day of the lift counts", 1, 1, {30, 18}},
      {"on the first day", 0, 1, {30}},
      {"lifted after the last stem", 40, 1, {30, 18, 12}},
      {"half for a small rosette", 2, 0.5, {15, 9, 6}},
      {"three tenths left standing", 2, 1, {21, 12.6, 8.4}, 0.7},
  };
  for (const StemsRow& row : rows) {
    SCOPED_TRACE(row.name);
    Candidate c{.stem_factor = row.stem_factor, .stems_per_plant = 10};
    c.timeline.first_cut.likely = make_date(2027, 7, 1);
    c.timeline.shares = {0.5, 0.3, 0.2};
    Sowing sowing{c};
    sowing.plants = 8;
    sowing.cut_share = row.cut_share;
    sowing.lift = make_date(2027, 7, 1) + Days{row.days_to_lift};
    const auto stems = stems_by_day(sowing);
    ASSERT_EQ(stems.size(), row.stems.size());
    for (std::size_t i = 0; i < stems.size(); ++i) EXPECT_NEAR(stems[i], row.stems[i], 1e-9);
  }
}

Planting ground_of(int length, int width, CropEntry asked) {
  Planting planting;
  planting.asked = std::move(asked);
  planting.patch = Patch{.length = Millimetres{length}, .width = Millimetres{width}};
  return planting;
}

struct LayoutRow {
  int length, width;  // mm
  double spacing_cm;
  int rows, per_row;
};

// Rows along the length, plants across the width, each the nearest whole number, halves up.
TEST(Layout, IsTheNearestWholeNumberEachWay) {
  const std::vector<LayoutRow> rows = {
      {300, 1200, 30, 1, 4},     // 1.0, 4.0
      {440, 1200, 30, 1, 4},     // 1.47
      {450, 1200, 30, 2, 4},     // 1.5
      {500, 1200, 30, 2, 4},     // 1.67
      {800, 1250, 22.5, 4, 6},   // 3.56, 5.56
      {900, 1250, 10, 9, 13},    // 9.0, 12.5
      {1000, 1000, 35, 3, 3},    // 2.86
      {1500, 750, 45, 3, 2},     // 3.33, 1.67
      {2000, 1250, 27.5, 7, 5},  // 7.27, 4.55
      {300, 400, 90, 1, 1},      // 0.33, 0.44: one at least
  };
  for (const LayoutRow& row : rows) {
    SCOPED_TRACE(std::to_string(row.length) + " x " + std::to_string(row.width) + " at " +
                 std::to_string(row.spacing_cm));
    Sheet sheet = zinnia();
    sheet.spacing_cm = {row.spacing_cm - 2, row.spacing_cm + 2};
    const Layout found = layout(ground_of(row.length, row.width, grow("zinnia")), sheet);
    EXPECT_EQ(found.rows, row.rows);
    EXPECT_EQ(found.per_row, row.per_row);
    EXPECT_EQ(found.plants, row.rows * row.per_row);
    EXPECT_EQ(found.spacing_cm, row.spacing_cm);
  }
}

// Two rows along the bed, whatever its width.
TEST(Layout, OfADoubleRowIsTwoPlantsAcross) {
  Sheet sheet = zinnia();
  sheet.spacing_cm = {20, 20};
  sheet.arrangement = Arrangement::DoubleRow;
  for (const int width : {400, 1100, 1300}) {
    EXPECT_EQ(layout(ground_of(1700, width, grow("zinnia")), sheet).plants, 18) << width;  // 8.5
  }
  EXPECT_EQ(layout(ground_of(1700, 250, grow("zinnia")), sheet).plants, 9) << "room for one";
}

// Rows along the bed, 30 cm apart, and in each a plant every 15 cm: 1.7 m hold 11, 1.1 m four rows.
TEST(Layout, OfRowsIsByTheirDistanceAcross) {
  Sheet sheet = zinnia();
  sheet.spacing_cm = {15, 15};
  sheet.arrangement = Arrangement::Rows;
  sheet.row_cm = 30;
  EXPECT_EQ(layout(ground_of(1700, 1100, grow("zinnia")), sheet).plants, 44);
  EXPECT_EQ(layout(ground_of(1700, 250, grow("zinnia")), sheet).plants, 11) << "one row";
}

// Summed over stretches of 0.3 to 2 m there are as many rows as the ground has room for.
TEST(Layout, IsUnbiased) {
  for (const double spacing : {20.0, 25.0, 30.0}) {
    double rows = 0, room = 0;
    for (int length = 300; length <= 2000; length += 10) {
      CropEntry entry = grow("zinnia");
      entry.spacing_cm = spacing;
      const Layout found = layout(ground_of(length, 1200, entry), zinnia());
      EXPECT_LE(std::abs(found.rows - length / (10 * spacing)), 0.5);
      rows += found.rows;
      room += length / (10 * spacing);
    }
    EXPECT_NEAR(rows / room, 1, 0.01) << spacing;
  }
}

TEST(Layout, ThePlansOwnFiguresComeFirst) {
  CropEntry entry = grow("zinnia", 7);
  entry.spacing_cm = 50;
  const Layout found = layout(ground_of(1000, 1000, entry), zinnia());
  EXPECT_EQ(found.spacing_cm, 50);
  EXPECT_EQ(found.room(), 4);
  EXPECT_EQ(found.plants, 7);
}

// One strip of whole rows for each sowing: 333 mm hold one row at 30 cm, 500 mm two.
TEST(Layout, SuccessionsShareTheStretchInStrips) {
  CropEntry entry = grow("zinnia");
  entry.spacing_cm = 30;
  for (const auto& [sowings, rows] : {std::pair{1, 3}, std::pair{2, 4}, std::pair{3, 3}}) {
    EXPECT_EQ(layout(ground_of(1000, 1200, entry), zinnia(), sowings).rows, rows);
  }
}

}  // namespace
}  // namespace trug::ground
