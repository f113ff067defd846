// SPDX-License-Identifier: MIT
// The table of bands.tsv: first cuts in six places, as an experienced grower would accept them
// (memory), of plants that nobody pinches and of plants pinched as their sheets advise. It judges
// whether the dates are fit to act on, not whether they are true.
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <iostream>
#include <sstream>
#include <stdexcept>

#include "growth/crop_clock.h"
#include "growth/places.h"
#include "read/sheet_library.h"

namespace trug::growth {
namespace {

struct Band {
  std::string crop, group, place, way, start, in_ground, from, to;
  std::string name() const { return crop + (group == "-" ? "" : " " + group) + ", " + place; }
};

std::vector<Band> bands() {
  std::ifstream file(TRUG_SOURCE_DIR "/tests/growth/bands.tsv");
  std::vector<Band> bands;
  bool headed = false;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    std::istringstream cells(line);
    Band band;
    for (std::string* cell : {&band.crop, &band.group, &band.place, &band.way, &band.start,
                              &band.in_ground, &band.from, &band.to}) {
      std::getline(cells, *cell, '\t');
    }
    if (headed) bands.push_back(band);
    headed = true;
  }
  return bands;
}

Date day(const std::string& text) { return parse_iso(text).value(); }

// `pinch` absent: as the sheet advises.
using Pinch = std::optional<bool>;

std::optional<Timeline> timeline_of(const Band& band, const Sheet& sheet, Pinch pinch) {
  const auto climate = climate::Climate::from(six_places().at(band.place));
  const climate::Season season(climate, 2027);
  const CropClock clock(season, CropSpec(sheet, find_group(sheet, band.group), pinch));
  const auto way = std::ranges::find(sheet.ways, band.way, &Way::name);
  if (way == sheet.ways.end()) throw std::runtime_error(band.name() + ": no such way");
  Date start = season.range().from, in_ground = start;
  if (band.start == "usual") {
    const DateRange window = clock.window_days(way->window.value(), way->flowers);
    start = in_ground = window.from + Days{days_between(window.from, window.until) / 2};
  } else if (band.start != "stands") {
    start = day(band.start);
    in_ground = day(band.in_ground);
  }
  return clock.timeline(*way, start, in_ground);
}

// nullopt: no first cut.
std::optional<DateSpread> first_cut(const Band& band, Pinch pinch) {
  static read::SheetLibrary library;
  Diagnostics diagnostics;
  const Sheet* sheet = library.find(band.crop, diagnostics);
  if (!sheet) throw std::runtime_error(band.crop + ": no such sheet");
  const auto timeline = timeline_of(band, *sheet, pinch);
  return timeline ? std::optional(timeline->first_cut) : std::nullopt;
}

// Days before (negative) or after the band.
int days_off(const Band& band, Date cut) {
  if (cut < day(band.from)) return -days_between(cut, day(band.from));
  return std::max(0, days_between(day(band.to), cut));
}

// Whether the band's middle lies in the window that is told.
bool is_told(const Band& band, const DateSpread& cut) {
  const Date middle = day(band.from) + Days{days_between(day(band.from), day(band.to)) / 2};
  return cut.early <= middle && middle <= cut.late;
}

struct Count {
  int dates = 0, inside = 0, far_off = 0, told = 0;
  std::string misses;
};

Count count(Pinch pinch) {
  Count found;
  for (const Band& band : bands()) {
    if (band.from == "never") continue;
    ++found.dates;
    const auto cut = first_cut(band, pinch);
    const auto off = cut ? std::optional(days_off(band, cut->likely)) : std::nullopt;
    if (cut && is_told(band, *cut)) ++found.told;
    if (off == 0) ++found.inside;
    if (!off || std::abs(*off) > 10) ++found.far_off;
    if (off != 0)
      found.misses += band.name() + ": " + (off ? std::to_string(*off) : "never") + "\n";
  }
  return found;
}

TEST(Bands, MostFirstCutsAreWhereAGrowerExpectsThem) {
  const Count free = count(false), advised = count(std::nullopt);
  EXPECT_EQ(free.dates, 68);
  EXPECT_GE(free.inside, 56) << free.misses;
  EXPECT_LE(free.far_off, 1) << free.misses;
  EXPECT_GE(advised.inside, 54) << advised.misses;
  std::cout << free.inside << " inside, pinched as advised " << advised.inside
            << "; middles in the window told: " << free.told << "; outside, in days:\n"
            << free.misses << "pinched:\n"
            << advised.misses;
}

}  // namespace
}  // namespace trug::growth
