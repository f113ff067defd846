// SPDX-License-Identifier: MIT
#include "crops/test_garden.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "ground/plan_choice.h"
#include "read/sheet_library.h"
#include "work/make_jobs.h"

namespace trug {
namespace {

Place place(double latitude, MonthDay last_frost, MonthDay first_frost, MonthlyMeans means) {
  Place result;
  result.latitude = latitude;
  result.last_frost = last_frost;
  result.first_frost = first_frost;
  result.temperatures = means;
  return result;
}

}  // namespace

using namespace std::chrono;

Date day(const std::string& text) {
  const auto date = parse_iso(text);
  if (!date) ADD_FAILURE() << text << " is no date";
  return date.value_or(Date{});
}

Place maritime() {
  return place(52, May / 15, October / 15,
               {{4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9}, {}});
}

Place continental() {
  const std::array<double, 12> maxima = {4.5,  7.5,  13.5, 19.5, 24.5, 30.0,
                                         33.0, 32.0, 27.5, 20.5, 12.5, 5.5};
  return place(39, April / 28, October / 10,
               {{-1.5, 1.0, 6.5, 12.5, 18.0, 23.5, 26.5, 25.5, 20.5, 13.5, 6.0, -0.5}, maxima});
}

Place southern() {
  return place(-38, October / 15, May / 1,
               {{18.0, 18.2, 15.9, 12.5, 9.6, 7.4, 6.7, 7.6, 9.4, 11.4, 13.8, 16.0}, {}});
}

const std::vector<const Sheet*>& all_sheets() {
  static const std::vector<const Sheet*> sheets = [] {
    static read::SheetLibrary library;
    std::vector<const Sheet*> found;
    Diagnostics diagnostics;
    for (const std::string& name : library.names()) {
      if (const Sheet* one = library.find(name, diagnostics)) found.push_back(one);
    }
    EXPECT_EQ(diagnostics.render(), "");
    return found;
  }();
  return sheets;
}

const Sheet& sheet(const std::string& crop) {
  for (const Sheet* one : all_sheets()) {
    if (one->name == crop) return *one;
  }
  ADD_FAILURE() << "there is no sheet " << crop;
  static const Sheet none;
  return none;
}

std::size_t way_index(const Sheet& sheet, const std::string& way) {
  for (std::size_t i = 0; i < sheet.ways.size(); ++i) {
    if (sheet.ways[i].name == way) return i;
  }
  ADD_FAILURE() << sheet.name << " has no way " << way;
  return 0;
}

Shelter with_everything() {
  return {.given = true, .heated_trays = 100, .frame_m2 = 100, .nursery_m2 = 100};
}

TestGarden::TestGarden(Place place, int flowering_year)
    : place_(std::move(place)), year_(flowering_year), climate_(climate::Climate::from(place_)) {}

growth::CropClock TestGarden::clock(const std::string& crop, const std::string& group) const {
  const Sheet& one = sheet(crop);
  return {climate_, one, group.empty() ? nullptr : find_group(one, group), year_};
}

DateRange TestGarden::window(const std::string& crop, const std::string& way) const {
  const Way& one = sheet(crop).ways.at(way_index(sheet(crop), way));
  return clock(crop).window_days(one.window.value(), one.flowers);
}

std::optional<growth::Timeline> TestGarden::timeline(const Started& planting) const {
  const Way& way = sheet(planting.crop).ways.at(way_index(sheet(planting.crop), planting.way));
  const Date start = day(planting.start);
  return clock(planting.crop, planting.group)
      .timeline(way, start, planting.out.empty() ? start : day(planting.out));
}

std::optional<Date> TestGarden::first_flower(const Started& planting) const {
  const auto found = timeline(planting);
  return found ? std::optional(found->first_flower.likely) : std::nullopt;
}

std::optional<Date> TestGarden::first_cut(const Started& planting) const {
  const auto found = timeline(planting);
  return found ? std::optional(found->first_cut.likely) : std::nullopt;
}

ground::Candidates TestGarden::ask(const std::string& crop, const std::string& way,
                                   CropEntry entry) const {
  const Sheet& of = sheet(crop);
  Cover cover = Cover::None;
  const auto candidates = [&](const CropEntry& asked) {
    return ground::candidates({.climate = climate_,
                               .place = place_,
                               .work = {},
                               .shelter = with_everything(),
                               .flowering_year = year_,
                               .cover = cover},
                              of, asked);
  };
  const auto stands = std::ranges::find(of.ways, Method::Established, &Way::method);
  if (!way.empty()) {
    entry.pins.way = of.ways.at(way_index(of, way)).name;
    if (of.ways.at(way_index(of, way)).needs == Needs::Tunnel) cover = Cover::Tunnel;
    if (stands != of.ways.end() && *entry.pins.way == stands->name) entry.since = year_ - 5;
    ground::Candidates found = candidates(entry);
    // The way is named to ask the rules about it, not to have it whatever they say.
    const bool has_day = entry.pins.start_on || entry.pins.plant_on || entry.since;
    if (!has_day) std::erase_if(found.list, [](const auto& c) { return c.against.has_value(); });
    return found;
  }
  ground::Candidates found = candidates(entry);
  if (stands == of.ways.end()) return found;
  // What stands already is another question.
  std::erase_if(found.reports, [&](const ground::WayReport& report) {
    return of.ways[report.way].method == Method::Established;
  });
  entry.since = year_ - 5;
  const ground::Candidates standing = candidates(entry);
  found.list.insert(found.list.begin(), standing.list.begin(), standing.list.end());
  for (const ground::WayReport& report : standing.reports) {
    if (of.ways[report.way].method == Method::Established) found.reports.push_back(report);
  }
  return found;
}

std::vector<work::Job> TestGarden::jobs(CropEntry entry) const {
  Plan plan;
  plan.file = "plan.toml";
  plan.flowering_year = year_;
  plan.place = place_;
  plan.shelter = with_everything();
  if (sheet(entry.crop).ways.front().method == Method::Established && !entry.pins.way) {
    entry.since = year_ - 5;
  }
  const std::string crop = entry.crop;
  plan.beds = {Bed{.name = "bed",
                   .length = Millimetres{2000},
                   .width = Millimetres{1000},
                   .stretches = {{.length = Millimetres{2000}}}}};
  add_planting(plan, 0, 0, std::move(entry));
  const auto choice = ground::choose_plan(plan, {{crop, &sheet(crop)}}, climate_);
  return work::make_jobs(plan, choice, climate_, {day(std::to_string(year_ - 1) + "-01-01")});
}

std::optional<Date> TestGarden::job_day(const CropEntry& entry, work::JobKind kind) const {
  for (const work::Job& job : jobs(entry)) {
    if (job.key.kind == kind) return job.day;
  }
  return std::nullopt;
}

}  // namespace trug
