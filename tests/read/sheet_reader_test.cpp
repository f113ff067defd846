// SPDX-License-Identifier: MIT
#include "read/sheet_reader.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

namespace trug::read {
namespace {

// A made-up sheet with every key there is.
constexpr std::string_view kFull = R"(format = 2
name = "moon daisy"
aliases = ["night daisy", "lantern flower"]
botanical_name = "Lunaria fictiva"
family = "Asteraceae"
life_cycle = "tuber"
frost_class = "half-hardy"
survives_c = -7.5
mulch_gain_c = 2.5
spacing_cm = [20, 25]
depth_mm = 12
height_cm = 80
colours = ["white", "near-black"]
roles = ["line", "foliage"]
vase_days = [5, 7]
cut_stage = "half open"
stems_per_plant = [15, 25]
cutting_weeks = [5, 7]
habit = "limited"
fewest_cutting_days = 17
fewest_days_from_sowing = 70
productive_years = 4
first_cut_year = 3
full_cut_year = 5
rotation_years = 3
succession_gap_days = 10.5
stop_above_max_c = 28
when_hot = "pauses"
lives_to_mean_max_c = 33
usual = "plants"
support = "light"
light = "dark"
germination_days = [7, 14]
germination_c = [15, 20]
germination_max_soil_c = 22

[pinch]
advice = "yes"
at_cm = [15, 20]
at_kd = 350
sign = "three pairs of leaves"
cost_kd = 90

[pretreat]
kind = "pre-sprout"
days = [14, 28]
text = "Lay the tubers in damp sand."
needed = true

[growth]
base_c = 4
top_c = 24
heat_to_respond_kd = 235
heat_to_first_flower_kd = 435
vernal_days = 40
counts_from = "season"
floor_rising = 0.4
pre_chilled_kd = 610
slows_under_ten_hours = false
spread_in_cold_winters_days = 30

[growth.day_length]
kind = "critical short"
from_hours = 13.5
to_hours = 15
slower_per_hour = 0.07
floor = 0.1
sunrise_to_sunset = true

[growth.after_light]
below_h = 13.5
days = 55
cold_a_c = 1
cold_b_c = 12
hot_c_c = 20
hot_d_c = 28
low = 0.2

[chill]
days = 70
full_c = 8
zero_c = 14

[emergence]
base_c = 6
heat_kd = 150

[pot]
module_kd = 400
pot_kd = 600

[second_flush]
weeks_after = 6
share = 0.25

[prune]
earliest = { weeks = -8, from = "last frost" }
latest = { weeks = -4, from = "last frost" }
text = "Cut out the oldest stems."
every_years = 2

[divide]
earliest = { weeks = -6, from = "last frost" }
latest = { weeks = -3, from = "last frost" }
text = "Lift and pull apart."

[lift_and_store]
earliest = { weeks = 0, from = "first frost" }
latest = { weeks = 2, from = "first frost" }
text = "Store dry."

[cut_back]
earliest = { weeks = 1, from = "first frost" }
latest = { weeks = 4, from = "first frost" }
text = "To a hand's breadth."

[buy]
month = "November"
packet_seeds = 40
comes_up = 0.65

[[group]]
name = "early"
cutting_weeks = 3
stems_per_plant = [4, 6]
[group.first_flower]
earliest = { weeks = -5, from = "last frost" }
latest = { weeks = -3, from = "last frost" }
[group.growth]
base_c = 3
top_c = 22
heat_to_respond_kd = 200
heat_to_first_flower_kd = 300

[[way]]
name = "started in warmth"
method = "bulb"
raised = "heated"
flowers = "third year"
weeks_under_cover = [5, 7]
stems_per_plant = 9
prick_out_weeks = 3
pot_on_weeks = 6
note = "Give them light."
needs = "tunnel"
usual = "plants"
[way.window]
earliest = { weeks = -1.5, from = "last frost" }
latest = { weeks = -2, from = "first frost" }
[way.first_flower]
earliest = { weeks = 5, from = "last frost" }
latest = { weeks = 9, from = "last frost" }

[[way]]
name = "already there"
method = "established"
raised = "in place"
flowers = "same year"

[[way]]
name = "from the cold"
method = "bulb"
raised = "in place"
flowers = "same year"
pre_chilled = true

[[caution]]
kind = "phototoxic"
text = "the sap burns skin in the sun"
handling = "wear gloves"

[[source]]
kind = "published"
name = "A. Author, a made-up trial"
covers = ["way.started in warmth.window", "growth"]

[[source]]
kind = "common practice"
covers = ["depth_mm"]

[[source]]
kind = "memory"
covers = ["*"]
)";

struct SheetReading {
  Diagnostics diagnostics;
  std::optional<Sheet> sheet;
};

SheetReading read_it(std::string_view text) {
  SheetReading reading;
  reading.sheet = read_sheet(text, "moon_daisy.toml", reading.diagnostics);
  return reading;
}

std::string with(std::string_view what, std::string_view instead) {
  std::string text(kFull);
  const std::size_t at = text.find(what);
  EXPECT_NE(at, std::string::npos) << what;
  return at == std::string::npos ? text : text.replace(at, what.size(), instead);
}

void expect_window(const std::optional<FrostWindow>& window, FrostOffset earliest,
                   FrostOffset latest) {
  ASSERT_TRUE(window);
  EXPECT_EQ(window->earliest.weeks, earliest.weeks);
  EXPECT_EQ(window->earliest.from, earliest.from);
  EXPECT_EQ(window->latest.weeks, latest.weeks);
  EXPECT_EQ(window->latest.from, latest.from);
}

class FullSheet : public testing::Test {
 protected:
  void SetUp() override {
    SheetReading reading = read_it(kFull);
    ASSERT_TRUE(reading.sheet) << reading.diagnostics.render();
    sheet = *reading.sheet;
  }
  Sheet sheet;
};

TEST_F(FullSheet, HasItsNames) {
  EXPECT_EQ(sheet.name, "moon daisy");
  EXPECT_EQ(sheet.aliases, (std::vector<std::string>{"night daisy", "lantern flower"}));
  EXPECT_EQ(sheet.botanical_name, "Lunaria fictiva");
  EXPECT_EQ(sheet.family, "Asteraceae");
  EXPECT_EQ(sheet.life_cycle, LifeCycle::Tuber);
}

TEST_F(FullSheet, HasItsFigures) {
  EXPECT_EQ(sheet.format, 2);
  EXPECT_EQ(frost_class(sheet), FrostClass::HalfHardy);
  EXPECT_EQ(sheet.survives_c, -7.5);
  EXPECT_EQ(sheet.mulch_gain_c, 2.5);
  EXPECT_EQ(sheet.spacing_cm, (Range{20, 25}));
  EXPECT_EQ(sheet.depth_mm, 12.0);
  EXPECT_EQ(sheet.height_cm, (Range{80, 80}));
  EXPECT_EQ(sheet.colours, (std::vector<std::string>{"white", "near-black"}));
  EXPECT_EQ(sheet.roles, (std::vector<Role>{Role::Line, Role::Foliage}));
  EXPECT_EQ(sheet.vase_days, (Range{5, 7}));
  EXPECT_EQ(sheet.cut_stage, "half open");
  EXPECT_EQ(sheet.stems_per_plant, (Range{15, 25}));
  EXPECT_EQ(sheet.cutting_weeks, (Range{5, 7}));
  EXPECT_EQ(sheet.habit, Habit::Limited);
  EXPECT_EQ(sheet.fewest_cutting_days, 17);
  EXPECT_EQ(sheet.fewest_days_from_sowing, 70);
  EXPECT_EQ(sheet.productive_years, 4);
  EXPECT_EQ(sheet.first_cut_year, 3);
  EXPECT_EQ(sheet.full_cut_year, 5);
  EXPECT_EQ(sheet.usual, Usual::Plants);
  EXPECT_EQ(sheet.stop_above_max_c, 28.0);
  EXPECT_EQ(sheet.when_hot, WhenHot::Pauses);
  EXPECT_EQ(sheet.lives_to_mean_max_c, 33.0);
  EXPECT_EQ(sheet.rotation_years, 3);
  EXPECT_EQ(sheet.succession_gap_days, 10.5);
  EXPECT_EQ(sheet.support, Sheet::Support::Light);
  EXPECT_EQ(sheet.light, Sheet::Light::Dark);
  EXPECT_EQ(sheet.germination_days, (Range{7, 14}));
  EXPECT_EQ(sheet.germination_c, (Range{15, 20}));
  EXPECT_EQ(sheet.germination_max_soil_c, 22.0);
  EXPECT_EQ(sheet.buy.month, 11u);
  EXPECT_EQ(sheet.buy.packet_seeds, 40);
  EXPECT_EQ(sheet.buy.comes_up, 0.65);
}

TEST_F(FullSheet, HasItsTreatments) {
  EXPECT_EQ(sheet.pinch.advice, Pinch::Advice::Yes);
  EXPECT_EQ(sheet.pinch.at_cm, (Range{15, 20}));
  EXPECT_EQ(sheet.pinch.at_kd, 350.0);
  EXPECT_EQ(sheet.pinch.sign, "three pairs of leaves");
  EXPECT_EQ(sheet.pinch.cost_kd, 90.0);
  ASSERT_TRUE(sheet.pretreat);
  EXPECT_EQ(sheet.pretreat->kind, Pretreatment::Kind::PreSprout);
  EXPECT_EQ(sheet.pretreat->days, (Range{14, 28}));
  EXPECT_EQ(sheet.pretreat->text, "Lay the tubers in damp sand.");
  EXPECT_TRUE(sheet.pretreat->needed);
  ASSERT_TRUE(sheet.second_flush);
  EXPECT_EQ(sheet.second_flush->weeks_after, 6.0);
  EXPECT_EQ(sheet.second_flush->share, 0.25);
  ASSERT_TRUE(sheet.prune && sheet.divide && sheet.lift_and_store && sheet.cut_back);
  expect_window(sheet.prune->window, {-8, Frost::Last}, {-4, Frost::Last});
  EXPECT_EQ(sheet.prune->text, "Cut out the oldest stems.");
  EXPECT_EQ(sheet.prune->every_years, 2);
  EXPECT_EQ(sheet.divide->text, "Lift and pull apart.");
  EXPECT_EQ(sheet.divide->every_years, std::nullopt);
  expect_window(sheet.lift_and_store->window, {0, Frost::First}, {2, Frost::First});
  EXPECT_EQ(sheet.cut_back->text, "To a hand's breadth.");
}

TEST_F(FullSheet, HasItsGrowth) {
  ASSERT_TRUE(sheet.growth);
  EXPECT_EQ(sheet.growth->base_c, 4.0);
  EXPECT_EQ(sheet.growth->top_c, 24.0);
  EXPECT_EQ(sheet.growth->heat_to_respond_kd, 235.0);
  EXPECT_EQ(sheet.growth->heat_to_first_flower_kd, 435.0);
  EXPECT_EQ(sheet.growth->vernal_days, 40.0);
  EXPECT_EQ(sheet.growth->counts_from, CountsFrom::Season);
  EXPECT_EQ(sheet.growth->day_length.floor_rising, 0.4);
  EXPECT_EQ(sheet.growth->pre_chilled_kd, 610.0);
  EXPECT_FALSE(sheet.growth->slows_under_ten_hours);
  EXPECT_EQ(sheet.growth->spread_in_cold_winters_days, 30);
  const DayLengthResponse& response = sheet.growth->day_length;
  EXPECT_EQ(response.kind, DayLengthResponse::Kind::CriticalShort);
  EXPECT_EQ(response.from_hours, 13.5);
  EXPECT_EQ(response.to_hours, 15.0);
  EXPECT_EQ(response.slower_per_hour, 0.07);
  EXPECT_EQ(response.floor, 0.1);
  EXPECT_TRUE(response.sunrise_to_sunset);
}

TEST_F(FullSheet, HasWhatColdHeatAndLightDoToIt) {
  ASSERT_TRUE(sheet.growth->after_light && sheet.chill && sheet.emergence && sheet.pot);
  const AfterLight& light = *sheet.growth->after_light;
  EXPECT_EQ(light.below_h, 13.5);
  EXPECT_EQ(light.days, 55);
  EXPECT_EQ(light.cold_a_c, 1);
  EXPECT_EQ(light.cold_b_c, 12);
  EXPECT_EQ(light.hot_c_c, 20);
  EXPECT_EQ(light.hot_d_c, 28);
  EXPECT_EQ(light.low, 0.2);
  EXPECT_EQ(sheet.chill->days, 70);
  EXPECT_EQ(sheet.chill->full_c, 8);
  EXPECT_EQ(sheet.chill->zero_c, 14);
  EXPECT_EQ(sheet.emergence->base_c, 6);
  EXPECT_EQ(sheet.emergence->heat_kd, 150);
  EXPECT_EQ(sheet.pot->module_kd, 400);
  EXPECT_EQ(sheet.pot->pot_kd, 600);
}

TEST_F(FullSheet, HasItsGroupsAndWays) {
  ASSERT_EQ(sheet.groups.size(), 1u);
  const Group& group = sheet.groups[0];
  EXPECT_EQ(group.name, "early");
  EXPECT_EQ(group.cutting_weeks, (Range{3, 3}));
  EXPECT_EQ(group.stems_per_plant, (Range{4, 6}));
  expect_window(group.first_flower, {-5, Frost::Last}, {-3, Frost::Last});
  ASSERT_TRUE(group.growth);
  EXPECT_EQ(group.growth->base_c, 3.0);
  EXPECT_EQ(group.growth->day_length.kind, DayLengthResponse::Kind::Neutral);
  // A tuber's heat counts from planting where nothing else is said.
  EXPECT_EQ(group.growth->counts_from, CountsFrom::Planting);
  ASSERT_EQ(sheet.ways.size(), 3u);
  const Way& way = sheet.ways[0];
  EXPECT_EQ(way.name, "started in warmth");
  EXPECT_EQ(way.method, Method::Bulb);
  EXPECT_EQ(way.raised, Raised::Heated);
  EXPECT_EQ(way.flowers, FlowersIn::ThirdYear);
  EXPECT_EQ(way.weeks_under_cover, (Range{5, 7}));
  EXPECT_EQ(way.stems_per_plant, (Range{9, 9}));
  EXPECT_EQ(way.prick_out_weeks, 3);
  EXPECT_EQ(way.pot_on_weeks, 6);
  EXPECT_EQ(way.note, "Give them light.");
  expect_window(way.window, {-1.5, Frost::Last}, {-2, Frost::First});
  expect_window(way.first_flower, {5, Frost::Last}, {9, Frost::Last});
  EXPECT_EQ(way.needs, Needs::Tunnel);
  EXPECT_EQ(way.usual, Usual::Plants);
  EXPECT_FALSE(way.pre_chilled);
  EXPECT_TRUE(sheet.ways[2].pre_chilled);
  EXPECT_EQ(sheet.ways[2].needs, Needs::Nothing);
  EXPECT_EQ(sheet.ways[1].method, Method::Established);
  EXPECT_FALSE(sheet.ways[1].window);
}

TEST_F(FullSheet, HasItsCautionsAndSources) {
  ASSERT_EQ(sheet.cautions.size(), 1u);
  EXPECT_EQ(sheet.cautions[0].kind, Caution::Kind::Phototoxic);
  EXPECT_EQ(sheet.cautions[0].text, "the sap burns skin in the sun");
  EXPECT_EQ(sheet.cautions[0].handling, "wear gloves");
  ASSERT_EQ(sheet.sources.size(), 3u);
  EXPECT_EQ(sheet.sources[0].kind, Source::Kind::Published);
  EXPECT_EQ(sheet.sources[0].name, "A. Author, a made-up trial");
  EXPECT_EQ(sheet.sources[0].covers,
            (std::vector<std::string>{"way.started in warmth.window", "growth"}));
  EXPECT_EQ(sheet.sources[1].kind, Source::Kind::CommonPractice);
  EXPECT_EQ(sheet.sources[2].kind, Source::Kind::Memory);
}

TEST(SheetReader, KnowsEveryWord) {
  const std::pair<const char*, std::vector<const char*>> rows[] = {
      {"life_cycle = \"tuber\"",
       {"hardy annual", "half-hardy annual", "tender annual", "biennial", "perennial", "bulb",
        "corm", "tuber", "shrub"}},
      {"habit = \"limited\"", {"single", "limited", "cut-and-come-again"}},
      {"support = \"light\"", {"no", "light", "net", "stakes", "frame", "ring", "yes"}},
      {"light = \"dark\"", {"light", "dark", "cover"}},
      {"advice = \"yes\"", {"yes", "optional", "no"}},
      {"kind = \"pre-sprout\"", {"chill", "soak", "pre-sprout", "cold storage"}},
      {"kind = \"critical short\"", {"neutral", "long", "short", "critical short"}},
      {"flowers = \"third year\"", {"same year", "next year", "third year"}},
      {"kind = \"phototoxic\"", {"poisonous", "irritant", "phototoxic", "invasive", "thorny"}},
      {"raised = \"heated\"", {"heated", "frame", "nursery bed"}},
      {"frost_class = \"half-hardy\"", {"tender", "half-hardy", "hardy"}},
      {"when_hot = \"pauses\"", {"ends", "pauses", "slows"}},
      {"counts_from = \"season\"", {"sowing", "planting", "season"}},
      {"needs = \"tunnel\"", {"warmth", "frame", "nursery", "tunnel"}},
      {"usual = \"plants\"", {"seed", "plants"}},
  };
  for (const auto& [line, words] : rows) {
    const std::string key = std::string(line).substr(0, std::string(line).find(' '));
    for (const char* word : words) {
      SCOPED_TRACE(key + " " + word);
      // "light" is found in "support" too: the whole line tells them apart.
      EXPECT_TRUE(
          read_it(with("\n" + std::string(line), "\n" + key + " = \"" + word + "\"")).sheet);
    }
    EXPECT_FALSE(read_it(with("\n" + std::string(line), "\n" + key + " = \"other\"")).sheet);
  }
}

struct Row {
  const char* name;
  const char* what;
  const char* instead;
  const char* expected;  // the first line of the report, after the file's name
};

const Row kWrong[] = {
    {"format of the future", "format = 2", "format = 3",
     "1:10: error: 'format' must be from 1 to 2, not 3"},
    {"figure without a source", "\"*\"", "\"growth\"", "8:1: error: no source covers 'survives_c'"},
    {"source of nothing", "\"depth_mm\"", "\"depth_cm\"",
     "179:11: error: 'covers' names 'depth_cm', which is not in this sheet"},
    {"source without a name", "name = \"A. Author, a made-up trial\"\n", "",
     "172:1: error: missing key 'name' under [[source]]"},
    {"mistyped key", "vase_days", "vase_day", "15:1: error: unknown key 'vase_day'"},
    {"mistyped way key", "pot_on_weeks", "potton_weeks",
     "143:1: error: unknown key 'potton_weeks' under [[way]]"},
    {"range backwards", "[20, 25]", "[25, 20]",
     "10:14: error: 'spacing_cm' must have the lower number first"},
    {"window backwards", "{ weeks = -4, from = \"last frost\" }",
     "{ weeks = -9, from = \"last frost\" }", "98:10: error: the window ends before it begins"},
    {"frost misnamed", "from = \"first frost\"", "from = \"frost\"",
     "108:32: error: 'from' must be 'last frost' or 'first frost', not 'frost'"},
    {"no such role", "\"line\"", "\"star\"", "14:10: error: 'star' is no role in a vase"},
    {"tighter than the model knows", "top_c = 24", "top_c = 24\nspread_days = 9",
     "53:15: error: 'spread_days' must be from 13 to 60, not 9"},
    {"base above top", "top_c = 24", "top_c = 3", "52:9: error: 'top_c' must be above 'base_c'"},
    {"spacing of nothing", "[20, 25]", "[0, 25]",
     "10:15: error: 'spacing_cm' must be from 0.1 to 1000000, not 0"},
    {"two ways of one name", "\"already there\"", "\"started in warmth\"",
     "155:8: error: there are two ways 'started in warmth'"},
    {"weeks under cover in place", "raised = \"heated\"", "raised = \"in place\"",
     "140:21: error: what is sown or planted in place has no weeks under cover"},
    {"pre-chilled by a window", "pre_chilled = true",
     "pre_chilled = true\n[way.window]\nearliest = { weeks = 1, from = \"last frost\" }\n"
     "latest = { weeks = 2, from = \"last frost\" }",
     "166:1: error: pre-chilled bulbs go in by the winter's cold, not by a window"},
    {"chill the wrong way round", "zero_c = 14", "zero_c = 7",
     "82:10: error: 'zero_c' must be above 'full_c'"},
    {"light's cold the wrong way round", "cold_b_c = 12", "cold_b_c = 0",
     "74:12: error: 'cold_b_c' must be above 'cold_a_c'"},
    {"light's heat the wrong way round", "hot_d_c = 28", "hot_d_c = 18",
     "76:11: error: 'hot_d_c' must be above 'hot_c_c'"},
    {"pot smaller than a module", "pot_kd = 600", "pot_kd = 300",
     "90:10: error: a pot holds no less than a module: 'pot_kd' must not be under it"},
    {"full before it is first cut", "full_cut_year = 5", "full_cut_year = 2",
     "24:17: error: it is cut in full no sooner than it is first cut"},
    {"stop without what then", "when_hot = \"pauses\"\n", "", "1:1: error: missing key 'when_hot'"},
    {"a key of format 1", "survives_c = -7.5", "survives_c = -7.5\ncoldest_survived_c = -7.5",
     "9:1: error: unknown key 'coldest_survived_c'"},
    {"no such month", "\"November\"", "\"Novembre\"",
     "118:9: error: 'Novembre' is no month; write \"July\""},
    {"more comes up than was sown", "comes_up = 0.65", "comes_up = 65",
     "120:12: error: 'comes_up' must be from 0.05 to 1, not 65"},
    {"caution without handling", "handling = \"wear gloves\"\n", "",
     "167:1: error: missing key 'handling' under [[caution]]"},
};

TEST(SheetReader, ReportsWhatIsWrong) {
  for (const Row& row : kWrong) {
    SCOPED_TRACE(row.name);
    const SheetReading reading = read_it(with(row.what, row.instead));
    EXPECT_FALSE(reading.sheet);
    const std::string report = reading.diagnostics.render();
    EXPECT_EQ(report.substr(0, report.find('\n')), std::string("moon_daisy.toml:") + row.expected);
  }
}

// Rows want to know how far apart they are, and nothing else has them.
TEST(SheetReader, RowsAreSoFarApart) {
  const auto reading = [](const std::string& lines) {
    return read_it(with("light = \"dark\"", "light = \"dark\"\n" + lines));
  };
  const SheetReading rows = reading("arrangement = \"rows\"\nrow_cm = 30");
  ASSERT_TRUE(rows.sheet) << rows.diagnostics.render();
  EXPECT_EQ(rows.sheet->row_cm, 30);
  EXPECT_NE(reading("arrangement = \"rows\"").diagnostics.render().find("'row_cm'"),
            std::string::npos);
  EXPECT_FALSE(reading("arrangement = \"double row\"\nrow_cm = 30").sheet);
}

// What a sheet of the old format says, and what is taken for what it cannot say.
constexpr std::string_view kOldKeys = R"(format = 1
name = "old daisy"
botanical_name = "Lunaria antiqua"
family = "Asteraceae"
life_cycle = "hardy annual"
coldest_survived_c = -4
coldest_under_fleece_c = -9
spacing_cm = 20
height_cm = 80
colours = ["white"]
roles = ["line"]
vase_days = 5
cut_stage = "half open"
stems_per_plant = 5
cutting_weeks = 5
habit = "limited"
stop_above_max_c = 28
oldest_pot_weeks = 8
[pinch]
advice = "yes"
costs_days = 7
[growth]
base_c = 4
top_c = 24
heat_to_respond_kd = 235
heat_to_first_flower_kd = 435
[growth.day_length]
kind = "long"
[[way]]
name = "in a frame"
method = "seed"
raised = "frame"
flowers = "same year"
weeks_under_cover = 5
[way.window]
earliest = { weeks = 1, from = "last frost" }
latest = { weeks = 2, from = "last frost" }
[[source]]
kind = "memory"
covers = ["*"]
)";

TEST(SheetReader, StillReadsFormat1) {
  const SheetReading reading = read_it(kOldKeys);
  ASSERT_TRUE(reading.sheet) << reading.diagnostics.render();
  const Sheet& sheet = *reading.sheet;
  EXPECT_EQ(sheet.format, 1);
  EXPECT_EQ(sheet.survives_c, -4);
  EXPECT_EQ(sheet.mulch_gain_c, 5);
  EXPECT_EQ(frost_class(sheet), FrostClass::HalfHardy);
  EXPECT_EQ(sheet.oldest_pot_weeks, 8.0);
  EXPECT_EQ(sheet.pinch.costs_days, (Range{7, 7}));
  EXPECT_EQ(sheet.when_hot, WhenHot::Ends);
  EXPECT_EQ(sheet.growth->counts_from, CountsFrom::Sowing);
  EXPECT_EQ(sheet.growth->day_length.floor_rising, 0.5);
  EXPECT_EQ(sheet.ways[0].needs, Needs::Frame);
  EXPECT_FALSE(sheet.chill || sheet.pot || sheet.emergence);
}

// Long days count in winter only for what is sown and flowers once; heat counts by what is planted.
TEST(SheetReader, Format1GrowsByItsLifeCycle) {
  using Expected = std::tuple<const char*, CountsFrom, bool>;
  for (const auto& [cycle, from, rising] : {Expected{"biennial", CountsFrom::Sowing, true},
                                            Expected{"perennial", CountsFrom::Season, false},
                                            Expected{"shrub", CountsFrom::Season, false},
                                            Expected{"corm", CountsFrom::Planting, false}}) {
    std::string text(kOldKeys);
    text.replace(text.find("hardy annual"), 12, cycle);
    const auto sheet = read_it(text).sheet;
    ASSERT_TRUE(sheet) << cycle;
    EXPECT_EQ(sheet->growth->counts_from, from) << cycle;
    EXPECT_EQ(sheet->growth->day_length.floor_rising.has_value(), rising) << cycle;
  }
}

// A path covers what lies below it, not what merely begins alike.
TEST(SheetReader, ASourceCoversWholeKeys) {
  const SheetReading reading =
      read_it(with("covers = [\"*\"]", "covers = [\"way.started in warmth.win\"]"));
  const auto reported = [&](std::string_view message) {
    return std::ranges::count(reading.diagnostics.sorted(), message, &Diagnostic::message);
  };
  EXPECT_EQ(reported("'covers' names 'way.started in warmth.win', which is not in this sheet"), 1);
  EXPECT_EQ(reported("no source covers 'way.started in warmth.window.earliest.weeks'"), 0);
  EXPECT_EQ(reported("no source covers 'way.started in warmth.first_flower.earliest.weeks'"), 1);
  EXPECT_EQ(reported("no source covers 'growth.base_c'"), 0);
  EXPECT_EQ(reported("no source covers 'group.early.growth.base_c'"), 1);
}

// The reader misses nothing of a real sheet: it would report keys it does not know, and what it has
// read has as many parts as the file has headings.
TEST(SheetReader, ReadsCornflowerAsItIsWritten) {
  std::ifstream file(TRUG_SOURCE_DIR "/crops/cornflower.toml");
  std::stringstream text;
  text << file.rdbuf();
  Diagnostics diagnostics;
  const auto sheet = read_sheet(text.str(), "cornflower.toml", diagnostics);
  ASSERT_TRUE(sheet) << diagnostics.render();
  const auto count = [&](const std::string& heading) {
    std::size_t found = 0;
    std::string line;
    std::istringstream lines(text.str());
    while (std::getline(lines, line)) found += line == heading ? 1u : 0u;
    return found;
  };
  EXPECT_EQ(sheet->name, "cornflower");
  EXPECT_EQ(sheet->botanical_name, "Centaurea cyanus");
  EXPECT_EQ(sheet->life_cycle, LifeCycle::HardyAnnual);
  EXPECT_GT(sheet->ways.size(), 3u);
  EXPECT_EQ(sheet->ways.size(), count("[[way]]"));
  EXPECT_EQ(sheet->cautions.size(), count("[[caution]]"));
  EXPECT_EQ(sheet->sources.size(), count("[[source]]"));
  EXPECT_EQ(sheet->growth.has_value(), count("[growth]") == 1);
  for (const Way& way : sheet->ways) EXPECT_TRUE(way.window && way.first_flower) << way.name;
}

}  // namespace
}  // namespace trug::read
