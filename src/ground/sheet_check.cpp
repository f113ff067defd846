// SPDX-License-Identifier: MIT
#include "ground/sheet_check.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <optional>
#include <string_view>

#include "ground/candidates.h"

namespace trug::ground {
namespace {

// Genera of the cutting garden of which parts are poisonous, burn the skin or are widely listed as
// invasive (common practice; no such list is complete).
constexpr std::array<std::string_view, 38> kCautionGenera = {
    "Achillea",   "Aconitum",    "Agrostemma", "Alchemilla", "Allium",        "Alstroemeria",
    "Ammi",       "Anemone",     "Aquilegia",  "Arum",       "Chrysanthemum", "Colchicum",
    "Consolida",  "Convallaria", "Crocosmia",  "Dahlia",     "Delphinium",    "Digitalis",
    "Eucalyptus", "Euphorbia",   "Gladiolus",  "Helenium",   "Helleborus",    "Hesperis",
    "Hyacinthus", "Hydrangea",   "Iris",       "Lathyrus",   "Lilium",        "Lupinus",
    "Narcissus",  "Nicotiana",   "Paeonia",    "Papaver",    "Ranunculus",    "Ricinus",
    "Tanacetum",  "Tulipa"};

struct Bounds {
  std::string_view what;
  Range found;
  double least, most;
};

std::vector<Bounds> bounds_of(const Sheet& sheet) {
  std::vector<Bounds> bounds = {{"spacing_cm", sheet.spacing_cm, 5, 250},
                                {"height_cm", sheet.height_cm, 15, 400},
                                {"vase_days", sheet.vase_days, 2, 40},
                                {"stems_per_plant", sheet.stems_per_plant, 0, 100},
                                {"cutting_weeks", sheet.cutting_weeks, 0.5, 40},
                                {"survives_c", {sheet.survives_c, sheet.survives_c}, -45, 8}};
  if (const auto stop = sheet.stop_above_max_c) {
    bounds.push_back({"stop_above_max_c", {*stop, *stop}, 15, 40});
  }
  return bounds;
}

Place test_place(double latitude, MonthDay last, MonthDay first, std::array<double, 12> means) {
  Place place;
  place.latitude = latitude;
  place.last_frost = last;
  place.first_frost = first;
  place.temperatures = MonthlyMeans{means, std::nullopt};
  return place;
}

// Means in degrees Celsius, rounded, of the kind of place each stands for (memory).
std::vector<Place> test_places() {
  using namespace std::chrono_literals;
  using namespace std::chrono;
  return {test_place(52.5, May / 15d, October / 15d,
                     {4.5, 4.8, 6.8, 9.0, 12.2, 15.2, 17.0, 16.8, 14.3, 10.9, 7.2, 4.9}),
          test_place(39.2, April / 25d, October / 12d,
                     {-2, 1, 7, 13, 18.5, 24, 26.5, 25.5, 20.5, 14, 6.5, 0}),
          test_place(-38, October / 15d, May / 1d,
                     {19.5, 19.6, 17.9, 15, 12.2, 9.9, 9.3, 10.2, 11.9, 13.7, 15.7, 17.7}),
          test_place(34, February / 1d, December / 20d,
                     {14.8, 15, 16, 17.4, 18.9, 20.8, 23.2, 23.6, 23, 20.5, 17.4, 14.6})};
}

bool is_possible(const Place& place, const climate::Climate& climate, const Sheet& sheet,
                 std::size_t index) {
  constexpr int kYear = 2027;
  const Way& way = sheet.ways[index];
  const Shelter everything{.given = true, .heated_trays = 100, .frame_m2 = 100, .nursery_m2 = 100};
  const Work work;
  const Setting setting{.climate = climate,
                        .place = place,
                        .work = work,
                        .shelter = everything,
                        .flowering_year = kYear,
                        .cover = way.needs == Needs::Tunnel ? Cover::Tunnel : Cover::None};
  CropEntry asked;
  asked.pins.way = way.name;
  if (way.method == Method::Established) asked.since = kYear - 5;
  return std::ranges::any_of(
      candidates(setting, sheet, asked).reports,
      [&](const WayReport& report) { return report.way == index && report.allowed > 0; });
}

std::vector<bool> possible_ways(const Sheet& sheet) {
  std::vector<bool> possible(sheet.ways.size(), false);
  for (const Place& place : test_places()) {
    const auto climate = climate::Climate::from(place);
    for (std::size_t i = 0; i < sheet.ways.size(); ++i) {
      if (is_possible(place, climate, sheet, i)) possible[i] = true;
    }
  }
  return possible;
}

void judge_windows(const Sheet& sheet, std::vector<std::string>& wrong) {
  const auto judge = [&](const std::string& where, const std::optional<FrostWindow>& window) {
    if (!window || window->earliest.from != window->latest.from) return;
    if (window->earliest.weeks > window->latest.weeks) {
      wrong.push_back(where + " ends before it begins");
    }
  };
  for (const Way& way : sheet.ways) {
    judge("the window of '" + way.name + "'", way.window);
    judge("the first flower of '" + way.name + "'", way.first_flower);
  }
  for (const Group& group : sheet.groups) {
    judge("the first flower of group '" + group.name + "'", group.first_flower);
  }
}

}  // namespace

std::vector<std::string> judge_sheet(const Sheet& sheet) {
  std::vector<std::string> wrong;
  for (const Bounds& b : bounds_of(sheet)) {
    if (b.found.low < b.least || b.found.high > b.most || b.found.low > b.found.high) {
      wrong.push_back(std::string(b.what) + " is hardly believable");
    }
  }
  judge_windows(sheet, wrong);
  const std::string genus = sheet.botanical_name.substr(0, sheet.botanical_name.find(' '));
  if (sheet.cautions.empty() && std::ranges::find(kCautionGenera, genus) != kCautionGenera.end()) {
    wrong.push_back("the genus " + genus + " needs a caution");
  }
  const std::vector<bool> possible = possible_ways(sheet);
  for (std::size_t i = 0; i < possible.size(); ++i) {
    if (!possible[i]) {
      wrong.push_back("'" + sheet.ways[i].name + "' has no possible date in any of four climates");
    }
  }
  return wrong;
}

}  // namespace trug::ground
