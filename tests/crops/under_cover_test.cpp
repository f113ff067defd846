// SPDX-License-Identifier: MIT
// Dated cuts from unheated tunnels, and how far they came before the same crop in the open: trials
// and growers' reports that nothing was fitted to. The months of the places are from memory, good
// to a degree, which moves a spring flower by four to eight days, and the years are not average
// ones: a date stands with ten days either side, a tunnel's gain as the source gives it.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <map>

#include "crops/checks.h"
#include "crops/test_garden.h"
#include "growth/cover.h"

namespace trug {
namespace {

using namespace std::chrono;

Place place(double latitude, const std::array<double, 12>& means, MonthDay last, MonthDay first) {
  Place result{.latitude = latitude};
  result.last_frost = last;
  result.first_frost = first;
  result.temperatures = MonthlyMeans{means, {}};
  return result;
}

const Place& logan() {  // North Logan, Utah, 1382 m
  static const Place kLogan =
      place(41.8, {-4.5, -2.0, 3.5, 8.5, 13.5, 18.5, 23.5, 22.5, 17.0, 10.0, 3.0, -3.0}, May / 18,
            September / 28);
  return kLogan;
}
const Place& ithaca() {
  static const Place kIthaca =
      place(42.4, {-5.0, -4.2, 0.5, 7.2, 13.5, 18.5, 20.8, 20.0, 16.0, 9.7, 4.2, -1.5}, May / 20,
            October / 1);
  return kIthaca;
}
const Place& maine() {  // Albion; its frosts as the seed house prints them
  static const Place kMaine =
      place(44.5, {-7.5, -6.5, -1.3, 5.3, 11.8, 17.0, 20.0, 19.2, 14.7, 8.5, 3.0, -4.0}, May / 26,
            October / 5);
  return kMaine;
}
const Place& carolina() {
  static const Place kCarolina =
      place(35.9, {4.5, 6.5, 10.5, 15.5, 20.0, 24.5, 26.5, 25.5, 22.5, 16.5, 11.0, 6.5}, April / 18,
            October / 22);
  return kCarolina;
}

// The window told for the first cut of what is started so, in the open or under that cover.
std::optional<growth::DateSpread> told(const Place& where, Cover cover, const Started& planting) {
  const Sheet& of = sheet(planting.crop);
  const auto climate = climate::Climate::from(where);
  const Way& way = of.ways.at(way_index(of, planting.way));
  const growth::CropClock clock(climate, of,
                                planting.group.empty() ? nullptr : find_group(of, planting.group),
                                2027, {.cover = growth::cover_gain(cover, way)});
  const Date start = day(planting.start);
  const auto timeline =
      clock.timeline(way, start, planting.out.empty() ? start : day(planting.out));
  return timeline ? std::optional(timeline->first_cut) : std::nullopt;
}

std::optional<Date> first_cut(const Place& where, Cover cover, const Started& planting) {
  const auto window = told(where, cover, planting);
  return window ? std::optional(window->likely) : std::nullopt;
}

std::optional<Date> in_tunnel(const Place& where, const Started& planting) {
  return first_cut(where, Cover::Tunnel, planting);
}

// Days by which the tunnel is cut sooner than the open.
double gain(const Place& where, const Started& planting) {
  return days(in_tunnel(where, planting), first_cut(where, Cover::None, planting));
}

const std::string kWarm = "raised in warmth in spring";

struct Dated {
  std::string name;
  Kind kind;
  std::string source;
  Place where;
  Cover cover;
  Started planting;
  std::string earliest, latest, known_miss = {};
};

const std::string kLewis =
    "Lewis, Stock, Black and Drost, Utah State University, snapdragon in high tunnels and field";
const std::string kThesis = "Utah State University, thesis on delphinium and larkspur, 2025";
const std::string kAnemones = "Horticulturae 9(1):2, North Logan, Utah";
const std::string kHolbeach = "trials at Holbeach St Johns, Lincolnshire, 2007-2019";

const Dated kRows[] = {
    {"snapdragon set out on 8 February, cut from 4 May",
     Kind::Published,
     kLewis,
     logan(),
     Cover::Tunnel,
     {"snapdragon", kWarm, "2026-12-14", "2027-02-08", ""},
     "2027-04-24",
     "2027-05-14",
     "2027-06-03"},
    {"larkspur sown in mid-March, cut from late July",
     Kind::Published,
     kThesis,
     logan(),
     Cover::Tunnel,
     {"larkspur", "sown in place in spring", "2027-03-15", "", ""},
     "2027-07-11",
     "2027-08-10",
     "2027-06-19"},
    {"larkspur sown under glass in early March, in flower in mid-June",
     Kind::Published,
     "H. C. Wien, Cornell University, High tunnels: larkspur, 2015",
     ithaca(),
     Cover::Tunnel,
     {"larkspur", "modules planted out in autumn", "2027-03-05", "2027-04-08", ""},
     "2027-06-05",
     "2027-06-25",
     "2027-07-01"},
    {"delphinium in its second year, cut from late May",
     Kind::Published,
     kThesis,
     logan(),
     Cover::Tunnel,
     {"delphinium", "established", "2027-01-01", "", ""},
     "2027-05-11",
     "2027-06-10"},
    {"delphinium set out in late March, cut from mid-June",
     Kind::Published,
     kThesis,
     logan(),
     Cover::Tunnel,
     {"delphinium", "raised in warmth in late winter", "2027-01-17", "2027-03-28", ""},
     "2027-06-05",
     "2027-06-25",
     "2027-06-02"},
    {"anemone planted pre-sprouted in November, a low tunnel within, cut from 2 March",
     Kind::Published,
     kAnemones,
     logan(),
     Cover::Tunnel,
     {"anemone", "corms in autumn under cover", "2026-11-10", "", ""},
     "2027-02-20",
     "2027-03-12",
     "2027-04-06"},
    {"anemone of the autumn in the field, insulated, cut from 9 April",
     Kind::Published,
     kAnemones,
     logan(),
     Cover::Fleece,
     {"anemone", "corms in autumn, open ground", "2026-11-01", "", ""},
     "2027-03-30",
     "2027-04-19",
     "2027-05-25"},
    {"anemone of early March in the field, from May",
     Kind::Published,
     "Utah State University Extension, Anemone cut flower production in Utah",
     logan(),
     Cover::None,
     {"anemone", "corms in late winter", "2027-03-05", "", ""},
     "2027-05-01",
     "2027-05-31",
     "2027-06-09"},
    {"ranunculus, first flush between 26 March and 16 April",
     Kind::Grower,
     "growers within forty miles of Spalding, Lincolnshire, 2021",
     maritime(),
     Cover::Tunnel,
     {"ranunculus", "corms in autumn under cover", "2026-11-01", "", ""},
     "2027-03-16",
     "2027-04-26"},
    {"stock set out in week 25, in flower in week 31",
     Kind::Published,
     kHolbeach,
     maritime(),
     Cover::Tunnel,
     {"stock", kWarm, "2027-05-15", "2027-06-21", ""},
     "2027-07-23",
     "2027-08-18"},
    {"zinnia set out in week 18, cut in July",
     Kind::Published,
     kHolbeach,
     maritime(),
     Cover::Tunnel,
     {"zinnia", kWarm, "2027-04-05", "2027-05-03", ""},
     "2027-06-21",
     "2027-08-10"},
    {"snapdragon set out in week 14, cut in week 22",
     Kind::Published,
     kHolbeach,
     maritime(),
     Cover::Tunnel,
     {"snapdragon", kWarm, "2027-02-08", "2027-04-05", ""},
     "2027-05-21",
     "2027-06-16"},
    {"snapdragon set out in week 26, cut in week 34",
     Kind::Published,
     kHolbeach,
     maritime(),
     Cover::Tunnel,
     {"snapdragon", kWarm, "2027-05-03", "2027-06-28", ""},
     "2027-08-13",
     "2027-09-08"},
};

TEST(UnderCover, Dates) {
  int held = 0, dates = 0;
  for (const Dated& row : kRows) {
    const auto window = told(row.where, row.cover, row.planting);
    look(DateCheck{row.name, row.kind, row.source,
                   [&] { return window ? std::optional(window->likely) : std::nullopt; },
                   row.earliest, row.latest, row.known_miss});
    const int half = days_between(day(row.earliest), day(row.latest)) / 2;
    const Date middle = day(row.earliest) + Days{half};
    ++dates;
    if (window && window->early <= middle && middle <= window->late) ++held;
  }
  std::cout << held << " of " << dates << " in the window told\n";
}

// Whose windows tell the flower, however late it is planted: anemones take 70 to 100 days from
// planting, ranunculus 90 to 110 (memory).
TEST(UnderCover, NothingPlantedLateIsCutBeforeItsDays) {
  const std::map<std::string, int> fewest = {{"anemone", 70}, {"ranunculus", 90}};
  int walked = 0;
  for (const Sheet* of : all_sheets()) {
    for (const Way& way : of->ways) {
      if (way.needs != Needs::Tunnel || way.method != Method::Bulb) continue;
      for (Date start = day("2026-10-01"); start <= day("2027-02-01"); start += Days{1}) {
        const auto cut = in_tunnel(carolina(), {of->name, way.name, iso(start), "", ""});
        ASSERT_TRUE(cut);
        EXPECT_GE(days_between(start, *cut), fewest.at(of->name)) << of->name << iso(start);
        ++walked;
      }
    }
  }
  EXPECT_EQ(walked, 2 * 124);
}

TEST(UnderCover, GainsOnTheOpen) {
  const NumberCheck rows[] = {
      {"tulip, about three weeks", Kind::Published,
       "H. C. Wien, Cornell University, The 2010 cut flower trials; a week either side",
       [] {
         return gain(ithaca(), {"tulip", "bulbs in late autumn", "2026-11-05", "", "mid"});
       },
       14, 28},
      {"peony", Kind::Published,
       "Utah State University, 'Coral Charm' in field and tunnel, 2019-21",
       [] {
         return gain(logan(), {"peony", "established", "2027-01-01"});
       },
       21, 34},
  };
  for (const NumberCheck& row : rows) look(row);
}

// A trial farm of a seed house: what stands over winter in an unheated tunnel, planted on 7 to 15
// October, flowers about a month before the same planted in the field in spring; accepted are three
// to six weeks.
TEST(UnderCover, WhatStandsOverWinterIsAMonthBeforeTheField) {
  const std::map<std::string, double> misses = {
      {"annual scabious", 43}, {"cerinthe", 52}, {"larkspur", 48}, {"orlaya", 47}};
  int crops = 0;
  for (const Sheet* of : all_sheets()) {
    const auto has = [&](const std::string& name) {
      return std::ranges::find(of->ways, name, &Way::name) != of->ways.end();
    };
    const std::string autumn = "modules planted out in autumn";
    const bool warm = has(kWarm);
    if (!has(autumn) || (!warm && !has("sown in place in spring"))) continue;
    ++crops;
    const auto missed = misses.find(of->name);
    look(NumberCheck{
        of->name, Kind::Published, "Johnny's Selected Seeds, Overwintering flowers, Albion, Maine",
        [&] {
          const auto winter =
              in_tunnel(maine(), {of->name, autumn, "2026-09-06", "2026-10-11", ""});
          const Started spring =
              warm ? Started{of->name, kWarm, "2027-04-03", "2027-05-15", ""}
                   : Started{of->name, "sown in place in spring", "2027-04-24", "", ""};
          return days(winter, first_cut(maine(), Cover::None, spring));
        },
        21, 42, missed == misses.end() ? std::nullopt : std::optional(missed->second)});
  }
  EXPECT_GE(crops, 10);
}

}  // namespace
}  // namespace trug
