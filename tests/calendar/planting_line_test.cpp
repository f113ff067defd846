// SPDX-License-Identifier: MIT
#include "calendar/planting_line.h"

#include <gtest/gtest.h>

#include "calendar/calendar_builders.h"
#include "calendar/memory.h"

namespace trug::calendar {
namespace {

using test::day;

work::JobKey key() {
  return {.flowering_year = 2027, .bed = "lane", .crop = "zinnia", .planting = "1"};
}

PlantingLine line() {
  return {planting_id(test::uuid(test::kGarden), key()),
          2027,
          {.way = "in autumn, under 50 % glass",
           .group = "late-flowering",
           .method = Method::Seed,
           .raised = Raised::NurseryBed,
           .start = day("2026-06-02"),
           .in_ground = day("2026-09-14"),
           .lift = day("2027-06-20"),
           .at = Millimetres{450},
           .length = Millimetres{1250},
           .width = Millimetres{900},
           .plants = 27,
           .variety = "Lämp, tall"}};
}

TEST(PlantingLine, IsWrittenInWordsBetweenBlanks) {
  EXPECT_EQ(
      planting_value(line()),
      to_string(line().id) +
          " 2027 in%20autumn%2C%20under%2050%20%25%20glass late%2Dflowering seed nursery%20bed "
          "20260602 20260914 20270620 450 1250 900 27 L%C3%A4mp%2C%20tall");
}

TEST(PlantingLine, IsReadAsItWasWritten) {
  PlantingLine other = line();
  other.start.group.clear();
  other.start.variety.clear();
  other.start.way = "-";
  other.start.method = Method::BoughtPlants;
  other.start.raised = Raised::InPlace;
  for (const PlantingLine& each : {line(), other}) {
    EXPECT_EQ(parse_planting_value(planting_value(each)), each);
  }
}

TEST(PlantingLine, AWordTooFewOrTooManyOrAnotherIsNone) {
  const std::string value = planting_value(line());
  for (std::size_t at = value.find(' '); at != std::string::npos; at = value.find(' ', at + 1)) {
    EXPECT_FALSE(parse_planting_value(value.substr(0, at))) << at;
  }
  EXPECT_FALSE(parse_planting_value(value + " 1"));
  for (const auto& [from, to] :
       {std::pair("seed", "seeds"), std::pair("20260602", "20260632"), std::pair("%20", "%2"),
        std::pair("%20", "%FF"), std::pair("nursery", "greenhouse"), std::pair(" 27", " many")}) {
    std::string bad = value;
    bad.replace(bad.rfind(from), std::string_view(from).size(), to);
    EXPECT_FALSE(parse_planting_value(bad)) << bad;
  }
}

TEST(PlantingLine, WhoItIsHangsOnAllButTheJob) {
  const Uuid garden = test::uuid(test::kGarden);
  work::JobKey other = key();
  other.kind = work::JobKind::FirstCut;
  EXPECT_EQ(planting_id(garden, other), planting_id(garden, key()));
  other.repeat = 1;
  EXPECT_NE(planting_id(garden, other), planting_id(garden, key()));
}

// A year that the run is not about keeps its lines as it keeps its events.
TEST(PlantingLine, TheHeadKeepsThoseOfOtherYears) {
  CalendarHead head = test::head();
  head.plantings = {line()};
  const Event event = test::event("zinnia", work::JobKind::Sow, "2027-05-02");
  const auto first =
      regenerate({event}, head, std::nullopt, test::run(Profile::Import, "2027-03-01"));
  EXPECT_EQ(read_memory(first.bytes).memory.plantings, head.plantings);

  auto next = test::run(Profile::Import, "2027-03-02");
  next.flowering_years = {2028};
  Event another = test::event("dill", work::JobKind::Sow, "2028-05-02");
  another.flowering_year = 2028;
  PlantingLine of_next = line();
  of_next.flowering_year = 2028;
  head.plantings = {of_next};
  const auto second = regenerate({another}, head, first.bytes, next);
  EXPECT_EQ(read_memory(second.bytes).memory.plantings,
            (std::vector<PlantingLine>{of_next, line()}));
}

}  // namespace
}  // namespace trug::calendar
