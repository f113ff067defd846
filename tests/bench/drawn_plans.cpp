// SPDX-License-Identifier: MIT
#include "drawn_plans.h"

#include <algorithm>
#include <iterator>
#include <random>

#include "lowland.h"

namespace trug::bench {
namespace {

using namespace std::chrono;

constexpr int kYear = 2027;
constexpr int kTries = 30;

struct Setting {
  const char* name;
  Place place;
  MonthDay from, to;  // of the wish
};

Place place(double latitude, MonthDay last_frost, MonthDay first_frost, MonthlyMeans means) {
  Place result;
  result.latitude = latitude;
  result.last_frost = last_frost;
  result.first_frost = first_frost;
  result.temperatures = means;
  return result;
}

// Means and frosts but the first's from memory.
const std::vector<Setting>& settings() {
  static const std::vector<Setting> all = {
      {"England", lowland(), May / 1, October / 10},
      {"Kansas",
       place(39, April / 28, October / 10,
             {{-1.5, 1.0, 6.5, 12.5, 18.0, 23.5, 26.5, 25.5, 20.5, 13.5, 6.0, -0.5}, {}}),
       April / 20, October / 15},
      {"Seattle",
       place(47.6, April / 5, November / 5,
             {{5.2, 6.0, 7.9, 10.4, 13.7, 16.3, 19.0, 19.2, 16.5, 11.9, 7.9, 5.2}, {}}),
       April / 15, October / 20},
      {"Christchurch",
       place(-43.5, October / 10, April / 25,
             {{17.5, 17.2, 15.4, 12.4, 9.4, 6.6, 6.1, 7.5, 9.8, 11.9, 13.8, 16.1}, {}}),
       October / 15, April / 20}};
  return all;
}

std::size_t setting_of(int number) { return static_cast<std::size_t>(number) % settings().size(); }

}  // namespace

std::string place_name(int number) { return settings()[setting_of(number)].name; }

DrawnPlans::DrawnPlans() {
  Diagnostics diagnostics;
  for (const std::string& name : library_.names()) {
    if (const Sheet* sheet = library_.find(name, diagnostics)) {
      sheets_[sheet->name] = sheet;
      list_.push_back(sheet);
    }
  }
}

const DrawnPlans::Span& DrawnPlans::span(std::size_t place, const Sheet& sheet) {
  const auto known = spans_.emplace(std::pair(place, sheet.name), Span{});
  Span& span = known.first->second;
  if (!known.second) return span;
  const Place& where = settings()[place].place;
  const auto climate = climate::Climate::from(where);
  const auto found = ground::candidates({.climate = climate,
                                         .place = where,
                                         .work = {},
                                         .shelter = {true, 100, 100, 100, {}},
                                         .flowering_year = kYear},
                                        sheet, {.crop = sheet.name});
  for (const ground::Candidate& c : found.list) {
    if (!c.window.contains(c.in_ground)) continue;
    span.first_lift = span.grows ? std::min(span.first_lift, c.lift_from) : c.lift_from;
    span.last_in_ground = span.grows ? std::max(span.last_in_ground, c.in_ground) : c.in_ground;
    span.grows = true;
  }
  return span;
}

Plan DrawnPlans::draw(int number, int stretches) {
  std::mt19937 random(static_cast<std::uint32_t>(number));
  const auto below = [&](int limit) {
    return static_cast<int>(random() % static_cast<std::uint32_t>(limit));
  };
  const std::size_t where = setting_of(number);
  const auto any = [&] {
    const Sheet* one = nullptr;
    do {
      one = list_[static_cast<std::size_t>(below(static_cast<int>(list_.size())))];
    } while (!span(where, *one).grows);
    return one;
  };

  const Setting& setting = settings()[where];
  Plan plan;
  plan.flowering_year = kYear;
  plan.place = setting.place;
  plan.shelter = {true, 100, 100, 100, {}};
  plan.wish = Wish{.vases_per_week = static_cast<double>(1 + below(3)), .stems_per_vase = 12};
  plan.wish->from = setting.from;
  plan.wish->to = setting.to;
  plan.beds.resize(1);
  plan.beds[0].width = Millimetres{1100};
  if (stretches == 0) stretches = 2 + below(9);
  for (int i = 0; i < stretches; ++i) {
    Stretch stretch;
    stretch.length = Millimetres{600 + 100 * below(21)};
    plan.beds[0].length += stretch.length;
    plan.beds[0].stretches.push_back(stretch);
    const auto place = static_cast<std::size_t>(i);
    const Sheet* first = any();
    add_planting(plan, 0, place, {.crop = first->name});
    if (below(5) < 2) continue;
    for (int tried = 0; tried < kTries; ++tried) {
      const Sheet* second = any();
      const Date free = span(where, *first).first_lift + Days{plan.work.days_between_crops};
      if (second == first || span(where, *second).last_in_ground < free) continue;
      add_planting(plan, 0, place, {.crop = second->name});
      break;
    }
  }
  return plan;
}

}  // namespace trug::bench
