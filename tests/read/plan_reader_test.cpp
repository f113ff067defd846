// SPDX-License-Identifier: MIT
#include "read/plan_reader.h"

#include <gtest/gtest.h>

#include "small_plan.h"

namespace trug::read {
namespace {

using std::chrono::May;
using std::chrono::October;

constexpr std::string_view kFullPlan = R"(flowering_year = 2027
title = " Lodge vases "
garden = "6F1C2A0E-3b0d-4c55-9d1e-0a2b3c4d5e6f"

[place]
latitude = 56.1
last_frost = "14 May"
first_frost = "October 9"
frost_meaning = "safe"
mean_max_c = [6, 7, 9, 12, 15, 18, 20, 19, 17, 13, 9, 7]
mean_min_c = [0, 0, 2, 3, 6, 9, 11, 10, 8, 5, 2, 0]
coldest_c = -12
risk = 0.1

[shelter]
heated_f = 68
frame_m2 = 1.5

[wish]
vases_per_week = 1.5
stems_per_vase = 9
from = 2027-05-10
to = "10 October"
colours = ["white", "lime"]

[work]
days = ["Sat", "Sun"]
remind_days_before = 2
remind_at = 07:30:00
remind = "all"
care = true
days_between_crops = 10

[[bed]]
name = "gate bed"
id = "gate"
length_m = 5.0
width_ft = 4
person = "Ada"

[[bed.stretch]]
length_cm = 80
crops = ["Cornflower", "ZINNIA"]

[[bed.stretch]]
length_m = 1.2

[[bed.stretch.crop]]
crop = "sunflower"
variety = "single-stemmed"
group = "short-day"
id = "tall ones"
plants = 12
spacing_in = 10
colours = ["gold"]
successions = 4
gap_weeks = 1.5
person = "Ben"
way = "sown in place"
start_on = 2027-05-20
plant_on = 2027-05-20
lift_on = 2027-09-01
not_before = 2027-05-01

[[bed.stretch.crop]]
crop = "cornflower"
id = "late cornflower"

[[bed]]
name = "shed bed"
length_in = 100
width_m = 1
)";

std::optional<Plan> read_full() {
  Reading reading = read_text(std::string(kFullPlan));
  EXPECT_EQ(reading.diagnostics.render(), "");
  return reading.plan;
}

TEST(PlanReader, SnowLiesAsThePlanSays) {
  for (const bool lies : {false, true}) {
    std::string text(kFullPlan);
    text.replace(text.find("risk = 0.1"), 10, lies ? "snow = true" : "snow = false");
    const Reading reading = read_text(text);
    ASSERT_TRUE(reading.plan);
    EXPECT_EQ(reading.plan->place.snow, lies);
  }
}

TEST(PlanReader, ReadsTheHead) {
  const auto plan = read_full();
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->file, "plan.toml");
  EXPECT_EQ(plan->flowering_year, 2027);
  EXPECT_EQ(plan->title, "Lodge vases");
  ASSERT_TRUE(plan->garden);
  EXPECT_EQ(to_string(*plan->garden), "6f1c2a0e-3b0d-4c55-9d1e-0a2b3c4d5e6f");
}

TEST(PlanReader, ReadsThePlace) {
  const auto plan = read_full();
  ASSERT_TRUE(plan);
  const Place& place = plan->place;
  EXPECT_EQ(place.latitude, 56.1);
  EXPECT_EQ(place.last_frost, May / 14);
  EXPECT_EQ(place.first_frost, October / 9);
  EXPECT_EQ(place.frost_meaning, FrostMeaning::Safe);
  EXPECT_NEAR(place.heated_c, 20, 1e-9);  // 68 degF
  EXPECT_EQ(place.coldest_c, -12.0);
  EXPECT_EQ(place.risk, 0.1);
  EXPECT_EQ(place.at, (Position{"plan.toml", 5, 1}));
  const auto* months = std::get_if<MonthlyMeans>(&place.temperatures);
  ASSERT_TRUE(months);
  EXPECT_EQ(months->mean_c[0], 3.0);
  EXPECT_EQ(months->mean_c[11], 3.5);
  ASSERT_TRUE(months->max_c);
  EXPECT_EQ((*months->max_c)[6], 20.0);
}

TEST(PlanReader, ReadsTheWishAndTheWork) {
  const auto plan = read_full();
  ASSERT_TRUE(plan);
  ASSERT_TRUE(plan->wish);
  EXPECT_EQ(plan->wish->vases_per_week, 1.5);
  EXPECT_EQ(plan->wish->stems_per_vase, 9);
  EXPECT_EQ(plan->wish->from, May / 10);
  EXPECT_EQ(plan->wish->to, October / 10);
  EXPECT_EQ(plan->wish->colours, (std::vector<std::string>{"white", "lime"}));
  EXPECT_EQ(plan->wish->at.line, 19);
  const Work& work = plan->work;
  EXPECT_EQ(work.days,
            (std::vector<std::chrono::weekday>{std::chrono::Saturday, std::chrono::Sunday}));
  EXPECT_EQ(work.remind_days_before, 2);
  EXPECT_EQ(work.remind_at_minutes, 7 * 60 + 30);
  EXPECT_EQ(work.remind, Remind::All);
  EXPECT_TRUE(work.care);
  EXPECT_EQ(plan->shelter.frame_m2, 1.5);
  EXPECT_EQ(plan->shelter.heated_trays, 0);  // what is not written is not there
  EXPECT_EQ(work.days_between_crops, 10);
}

TEST(PlanReader, ReadsTheBeds) {
  const auto plan = read_full();
  ASSERT_TRUE(plan);
  ASSERT_EQ(plan->beds.size(), 2u);
  const Bed& bed = plan->beds[0];
  EXPECT_EQ(bed.name, "gate bed");
  EXPECT_EQ(bed.id, "gate");
  EXPECT_EQ(bed.length, Millimetres{5000});
  EXPECT_EQ(bed.width, Millimetres{1219});  // 4 ft
  EXPECT_EQ(bed.person, "Ada");
  EXPECT_EQ(bed.at.line, 34);
  ASSERT_EQ(bed.stretches.size(), 2u);
  EXPECT_EQ(bed.stretches[0].length, Millimetres{800});
  EXPECT_EQ(bed.stretches[0].offset, Millimetres{0});
  EXPECT_EQ(bed.stretches[1].offset, Millimetres{800});
  EXPECT_EQ(bed.stretches[1].at.line, 45);
  ASSERT_GE(plan->plantings.size(), 3u);
  const Planting& second = plan->plantings[1];
  EXPECT_EQ(second.asked.crop, "zinnia");  // the sheet's own spelling
  EXPECT_EQ(second.asked.at, (Position{"plan.toml", 43, 24}));
  EXPECT_EQ(second.asked.successions, 1);
  EXPECT_EQ(second.patch->stretch, 1);
  EXPECT_EQ(second.follows, 0u);
  EXPECT_EQ(plan->beds[1].length, Millimetres{2540});
  EXPECT_TRUE(plan->beds[1].stretches.empty());
}

// Each length is rounded to a millimetre: four of them may reach over the end by as many, no more.
TEST(PlanReader, AnExactBedInFeetIsExact) {
  const auto stretches_of = [](const std::string& bed) {
    std::string text = std::string(kFullPlan);
    const MemoryFiles files({{"plan.toml", text.substr(0, text.find("[[bed]]")) + bed}});
    SheetLibrary sheets;
    Diagnostics diagnostics;
    const auto plan = read_plan(files, "plan.toml", sheets, diagnostics);
    return plan ? plan->beds.front().stretches : std::vector<Stretch>{};
  };
  const std::string bed = "[[bed]]\nname = \"b\"\nlength_ft = 19\nwidth_ft = 4\n";
  std::string pieces;
  for (const std::string feet : {"5", "5", "4.5", "4.5"}) {
    pieces += "[[bed.stretch]]\nlength_ft = " + feet + "\ncrops = []\n";
  }
  const auto stretches = stretches_of(bed + pieces);
  ASSERT_EQ(stretches.size(), 4u);
  EXPECT_EQ(stretches[3].offset + stretches[3].length, Millimetres{5791});
  EXPECT_TRUE(stretches_of(bed + pieces + "[[bed.stretch]]\nlength_cm = 1\ncrops = []\n").empty());
}

TEST(PlanReader, ReadsTheLongFormOfACrop) {
  const auto plan = read_full();
  ASSERT_TRUE(plan);
  ASSERT_GE(plan->plantings.size(), 3u);
  EXPECT_EQ(plan->plantings[2].patch->stretch, 2);
  EXPECT_FALSE(plan->plantings[2].follows);
  const CropEntry& crop = plan->plantings[2].asked;
  EXPECT_EQ(crop.crop, "sunflower");
  EXPECT_EQ(crop.variety, "single-stemmed");
  EXPECT_EQ(crop.group, "short-day");
  EXPECT_EQ(crop.id, "tall ones");
  EXPECT_EQ(crop.plants, 12);
  EXPECT_NEAR(crop.spacing_cm.value_or(0), 25.4, 1e-9);
  EXPECT_EQ(crop.colours, std::vector<std::string>{"gold"});
  EXPECT_FALSE(crop.keep);
  EXPECT_EQ(crop.successions, 4);
  EXPECT_EQ(crop.gap_days, 11);  // 1.5 weeks = 10.5 days
  EXPECT_EQ(crop.person, "Ben");
  EXPECT_EQ(crop.pins.way, "sown in place");
  EXPECT_EQ(crop.pins.start_on, make_date(2027, 5, 20));
  EXPECT_EQ(crop.pins.plant_on, make_date(2027, 5, 20));
  EXPECT_EQ(crop.pins.lift_on, make_date(2027, 9, 1));
  EXPECT_EQ(crop.pins.not_before, make_date(2027, 5, 1));
  EXPECT_EQ(crop.at.line, 48);
}

TEST(PlanReader, LeavesWhatIsNotSaidAtItsDefault) {
  const Reading reading = read_text(std::string(kSmallPlan));
  ASSERT_TRUE(reading.plan);
  const Plan& plan = *reading.plan;
  EXPECT_FALSE(plan.garden);
  EXPECT_FALSE(plan.wish);
  EXPECT_TRUE(std::holds_alternative<NoTemperatures>(plan.place.temperatures));
  EXPECT_EQ(plan.place.heated_c, 16.0);
  EXPECT_EQ(plan.place.coldest_c, std::nullopt);
  EXPECT_EQ(plan.place.snow, std::nullopt);
  EXPECT_EQ(plan.place.risk, 0.2);
  EXPECT_TRUE(plan.work.days.empty());
  EXPECT_EQ(plan.work.remind_days_before, 1);
  EXPECT_EQ(plan.work.remind_at_minutes, 18 * 60);
  EXPECT_EQ(plan.work.remind, Remind::Must);
  EXPECT_EQ(plan.work.days_between_crops, 7);
}

TEST(PlanReader, TakesTwoTemperaturesOrTwelve) {
  const auto with = [](std::string_view keys) {
    return read_text(spoilt("frost_meaning", std::string(keys) + "\nfrost_meaning"));
  };
  const Reading two = with("year_mean_f = 50\nwarmest_month_f = 59");
  ASSERT_TRUE(two.plan) << two.diagnostics.render();
  const auto* means = std::get_if<TwoMeans>(&two.plan->place.temperatures);
  ASSERT_TRUE(means);
  EXPECT_NEAR(means->year_mean_c, 10, 1e-9);
  EXPECT_NEAR(means->warmest_month_c, 15, 1e-9);
  const Reading twelve = with("mean_f = [32, 41, 50, 59, 68, 77, 77, 68, 59, 50, 41, 32]");
  ASSERT_TRUE(twelve.plan);
  const auto* months = std::get_if<MonthlyMeans>(&twelve.plan->place.temperatures);
  ASSERT_TRUE(months);
  EXPECT_NEAR(months->mean_c[1], 5, 1e-9);
  EXPECT_FALSE(months->max_c);
}

struct FrostRow {
  const char* name;
  const char* latitude;
  const char* last;
  const char* first;
  bool accepted;
};

// The seasons of growth models, 4: from 24 July, in the south from 24 January.
TEST(PlanReader, RefusesOnlyFrostDatesThatAreSwapped) {
  const FrostRow rows[] = {
      {"north", "52", "14 May", "9 October", true},
      {"north, swapped", "52", "9 October", "14 May", false},
      {"north, mild: first frost in January", "38", "10 February", "5 January", true},
      {"north, mild, swapped", "38", "5 January", "10 February", false},
      {"north, first frost in December, last in January", "36", "20 January", "12 December", true},
      {"north, short summer", "68", "25 June", "10 August", true},
      {"north, one frost a year", "30", "10 January", "10 January", true},
      {"south", "-43", "10 October", "2 May", true},
      {"south, swapped", "-43", "2 May", "10 October", false},
      {"south, mild: first frost in July", "-34", "1 August", "2 July", true},
  };
  for (const FrostRow& row : rows) {
    SCOPED_TRACE(row.name);
    std::string text = spoilt("52.5", row.latitude);
    text.replace(text.find("10 May"), 6, row.last);
    text.replace(text.find("12 October"), 10, row.first);
    EXPECT_EQ(read_text(text).plan.has_value(), row.accepted);
  }
}

// A southern flowering year runs from July to June.
TEST(PlanReader, TakesAWishOverTheSouthernSummer) {
  const std::string wish = "[wish]\nfrom = \"10 October\"\nto = \"20 May\"\n\n[[bed]]";
  std::string text = spoilt("[[bed]]", wish);
  EXPECT_FALSE(read_text(text).plan);
  text.replace(text.find("52.5"), 4, "-43");
  text.replace(text.find("10 May"), 6, "5 October");
  text.replace(text.find("12 October"), 10, "2 May");
  EXPECT_TRUE(read_text(text).plan);
}

// A wish contradicts itself where it likes what it dislikes, or what harms though it is to be safe.
TEST(PlanReader, ReadsWhatAWishLikesAndWhatNot) {
  const std::string wish = kSmallPlan + "\n[wish]\nfrom = \"1 June\"\nto = \"1 August\"\n";
  const auto plan =
      read_text(wish + "like = [\"Zinnia\"]\ndislike = [\"Tulip\"]\nsafe = true\n").plan;
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->wish->like, std::vector<std::string>{"zinnia"});
  EXPECT_EQ(plan->wish->dislike, std::vector<std::string>{"tulip"});
  EXPECT_TRUE(plan->wish->safe);
  EXPECT_FALSE(read_text(wish + "like = [\"tulip\"]\nsafe = true\n").plan);
  EXPECT_FALSE(read_text(wish + "like = [\"zinnia\"]\ndislike = [\"zinnia\"]\n").plan);
}

TEST(PlanReader, TakesAWishWithoutBedsAndABedWithoutCrops) {
  const std::string place =
      "flowering_year = 2027\n[place]\nlatitude = 52.5\nlast_frost = \"10 May\"\n"
      "first_frost = \"12 October\"\nfrost_meaning = \"air\"\n";
  EXPECT_TRUE(read_text(place + "[wish]\nfrom = \"10 May\"\nto = \"10 October\"\n").plan);
  EXPECT_TRUE(read_text(place + "[[bed]]\nname = \"b\"\nlength_m = 5\nwidth_m = 1\n"
                                "[[bed.stretch]]\nlength_m = 5\n")
                  .plan);
}

TEST(PlanReader, TakesTheSameCropTwiceWithAnId) {
  EXPECT_TRUE(read_text(spoilt("crop = \"sunflower\"\ngroup = \"short-day\"",
                               "crop = \"zinnia\"\nid = \"late zinnia\""))
                  .plan);
}

// A planting without an id counts as "1" in its identity.
TEST(PlanReader, RefusesAnIdThatStandsForNoId) {
  EXPECT_FALSE(read_text(spoilt("crop = \"sunflower\"\ngroup = \"short-day\"",
                                "crop = \"zinnia\"\nid = \"1\""))
                   .plan);
}

// An error in another file read before is not this plan's.
TEST(PlanReader, AnswersForItsOwnFileOnly) {
  SheetLibrary sheets;
  Diagnostics diagnostics;
  const MemoryFiles files(
      {{"bad.toml", "zzz = 1"},
       {"good.toml", spoilt("crop = \"sunflower\"\ngroup = \"short-day\"", "crop = \"nigella\"")}});
  EXPECT_FALSE(read_plan(files, "bad.toml", sheets, diagnostics));
  EXPECT_TRUE(read_plan(files, "good.toml", sheets, diagnostics));
}

TEST(PlanReader, TakesTheNameOfADailyRecord) {
  std::string text(kSmallPlan);
  const std::string frost = "frost_meaning = \"garden\"\n";
  text.insert(text.find(frost), "weather = \"records/daily.csv\"\n");
  const Reading reading = read_text(text);
  ASSERT_TRUE(reading.plan) << reading.diagnostics.render();
  EXPECT_EQ(reading.plan->place.weather, "records/daily.csv");
  EXPECT_FALSE(read_text(std::string(kSmallPlan)).plan->place.weather);
}

}  // namespace
}  // namespace trug::read
