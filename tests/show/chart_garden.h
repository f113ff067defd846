// SPDX-License-Identifier: MIT
// A made-up garden for the tests of the chart, and its picture taken apart.
#pragma once

#include <regex>
#include <string>
#include <vector>

#include "base/date.h"
#include "climate/climate.h"
#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"
#include "show/chart.h"
#include "show/svg.h"

namespace trug::show::chart_tests {

inline Date day(const std::string& text) { return parse_iso(text).value(); }

inline Bed bed(const std::string& name, int length_mm) {
  Bed bed;
  bed.name = name;
  bed.length = Millimetres{length_mm};
  bed.width = Millimetres{1200};
  return bed;
}

inline Sheet sheet(const std::string& name, LifeCycle life_cycle, Method method) {
  Sheet sheet;
  sheet.name = name;
  sheet.life_cycle = life_cycle;
  sheet.colours = {"white", "blue", "pink"};
  Way way;
  way.name = "sown in place";
  way.method = method;
  sheet.ways = {way};
  return sheet;
}

// A made-up garden whose dates are given, not reckoned: what the chart is to show is known exactly.
class Garden {
 public:
  Garden() {
    plan.flowering_year = 2027;
    plan.title = "Kitchen beds";
    plan.place.latitude = 55;
    plan.place.last_frost = {std::chrono::May, std::chrono::day{14}};
    plan.place.first_frost = {std::chrono::October, std::chrono::day{12}};
  }

  struct Stay {
    std::string in_ground, first_cut, last_cut, lift;
  };

  CropEntry& add_stretch(int length_mm, const std::string& crop = "") {
    Bed& last = plan.beds.back();
    Stretch stretch;
    stretch.length = Millimetres{length_mm};
    for (const Stretch& before : last.stretches) stretch.offset += before.length;
    last.stretches.push_back(stretch);
    add_planting(plan, plan.beds.size() - 1, last.stretches.size() - 1, {.crop = crop});
    return plan.plantings.back().asked;
  }

  // The last stretch's crop, chosen with these dates.
  void choose(const Sheet& sheet, const Stay& stay) {
    const Planting& planting = plan.plantings.back();
    ground::Sowing sowing{candidate(stay)};
    sowing.planting = plan.plantings.size() - 1;
    sowing.sheet = &sheet;
    sowing.stands = sheet.ways.front().method == Method::Established;
    sowing.offset = planting.patch->offset;
    sowing.length = planting.patch->length;
    sowing.plants = 12;
    sowing.lift = day(stay.lift);
    schedule.sowings.push_back(sowing);
  }

  static ground::Candidate candidate(const Stay& stay) {
    ground::Candidate candidate;
    candidate.start = candidate.in_ground = day(stay.in_ground);
    const Date first = day(stay.first_cut);
    candidate.timeline.first_cut = {first - Days{8}, first, first + Days{9}};
    candidate.timeline.shares.assign(
        static_cast<std::size_t>(days_between(first, day(stay.last_cut)) + 1), 0.01);
    candidate.stems_per_plant = 5;
    candidate.lift_from = candidate.lift_to = day(stay.lift);
    return candidate;
  }

  std::string svg(Paper paper = Paper::A4) const {
    return chart_svg(plan, schedule, weeks, climate::Climate::from(plan.place), paper);
  }

  Plan plan;
  ground::Schedule schedule;
  std::vector<harvest::Week> weeks;
};

inline const Sheet& cornflower() {
  static const Sheet result = sheet("cornflower", LifeCycle::HardyAnnual, Method::Seed);
  return result;
}
inline const Sheet& achillea() {
  static const Sheet result = sheet("achillea", LifeCycle::Perennial, Method::Established);
  return result;
}

// Two beds: 1.5 m and 0.5 m taken in the first, a perennial on 1 m of the second.
inline Garden two_beds() {
  Garden garden;
  garden.plan.beds = {bed("quay bed", 4500)};
  garden.add_stretch(1500);
  garden.choose(cornflower(), {"2026-09-19", "2027-05-28", "2027-07-20", "2027-07-20"});
  garden.add_stretch(500);
  garden.choose(cornflower(), {"2027-04-10", "2027-07-01", "2027-08-20", "2027-08-10"});
  garden.plan.beds.push_back(bed("wall bed", 2700));
  garden.add_stretch(1000);
  garden.choose(achillea(), {"2027-01-01", "2027-06-15", "2027-09-01", "2027-12-31"});
  return garden;
}

struct Group {
  std::string title;
  std::string body;
  std::vector<Box> rects(const std::string& name) const {
    const std::regex pattern("<rect class=\"" + name +
                             "\" x=\"([-.0-9]+)\" y=\"([-.0-9]+)\" width=\"([-.0-9]+)\" "
                             "height=\"([-.0-9]+)\"");
    std::vector<Box> result;
    for (std::sregex_iterator it(body.begin(), body.end(), pattern), end; it != end; ++it) {
      result.push_back(
          {std::stod((*it)[1]), std::stod((*it)[2]), std::stod((*it)[3]), std::stod((*it)[4])});
    }
    return result;
  }
};

// The groups of that name; groups do not nest below the picture's one.
inline std::vector<Group> groups(const std::string& svg, const std::string& name) {
  const std::string open = "<g class=\"" + name + "\">\n<title>";
  std::vector<Group> result;
  for (std::size_t at = svg.find(open); at != std::string::npos; at = svg.find(open, at + 1)) {
    const std::size_t title = at + open.size();
    const std::size_t title_end = svg.find("</title>", title);
    result.push_back({svg.substr(title, title_end - title),
                      svg.substr(title_end, svg.find("</g>", title_end) - title_end)});
  }
  return result;
}

}  // namespace trug::show::chart_tests
