// SPDX-License-Identifier: MIT
#include "show/chart_layout.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "ground/strip_cm.h"

namespace trug::show {
namespace {

using ground::Sowing;

// Scales that read well in print, those still readable, and the largest of use.
constexpr double kGoodPerMetre = 25;
constexpr double kLeastPerMetre = 10;
constexpr double kMostPerMetre = 45;
constexpr double kGoodPerMonth = 7;
constexpr double kLeastPerMonth = 4.5;
constexpr double kDaysInMonth = 365.25 / 12;
constexpr std::size_t kMostColours = 3;

Date first_of_month(Date day) { return make_date(year_of(day), month_of(day), 1); }

std::string sentence_of_dates(const Sowing& sowing, const ChartBlock& block) {
  const growth::Timeline& timeline = sowing.timeline;
  const std::string ground = block.stood_before
                                 ? "stands for years"
                                 : "in the ground from " + plain_day(block.in_ground.from);
  const std::string flowers =
      !sowing.is_cut()
          ? "lifted before its first cut"
          : fmt::format("first cut about {} ({} to {}), last cut {}",
                        plain_day(timeline.first_cut.likely), short_day(timeline.first_cut.early),
                        short_day(timeline.first_cut.late),
                        plain_day(block.in_flower.until - Days{1}));
  const std::string end = block.stays ? "stays in the ground"
                          : is_planted(sowing.sheet->life_cycle)
                              ? "lifted " + plain_day(sowing.lift)
                              : "cleared " + plain_day(sowing.lift);
  return fmt::format("{}; {}; {}", ground, flowers, end);
}

ChartBlock block_of(const Plan& plan, const Sowing& sowing) {
  const Sheet& sheet = *sowing.sheet;
  const growth::Timeline& timeline = sowing.timeline;
  const Planting& planting = plan.plantings[sowing.planting];
  const CropEntry& asked = planting.asked;
  ChartBlock block;
  block.bed = planting.patch->bed;
  block.at_cm = whole_cm(sowing.offset);
  block.length_cm = ground::length_cm(sowing);
  block.in_ground = {sowing.in_ground, sowing.lift};
  block.stood_before = sowing.stands;
  block.stays = stays_in_ground(sheet.life_cycle);
  block.in_flower = {sowing.lift, sowing.lift};
  block.perhaps_from = sowing.lift;
  if (sowing.is_cut()) {
    block.in_flower = {timeline.first_cut.likely, sowing.last_cut() + Days{1}};
    block.perhaps_from = std::max(timeline.first_cut.early, sowing.in_ground);
  }
  block.colours = drawn_colours(plan, asked, sheet);
  block.label = sheet.name;
  block.words =
      fmt::format("{}{}, {}: {}; {}; {}, {} to {} cm along the bed", sheet.name,
                  asked.variety ? " '" + *asked.variety + "'" : "", sowing.raised_by().name,
                  sentence_of_dates(sowing, block),
                  block.colours.empty() ? "colour not known" : listed(block.colours),
                  counted(sowing.plants, "plant"), block.at_cm, block.at_cm + block.length_cm);
  return block;
}

constexpr double kRoomAcross = kPageWidth - 2 * kPageMargin - kMonthColumn - kFrostColumn;

// The scale at which the beds from `first` to `last` fill a row.
double filling_scale(const Plan& plan, std::size_t first, std::size_t last) {
  int length = 0;
  for (std::size_t i = first; i <= last; ++i) length += plan.beds[i].length.value();
  return (kRoomAcross - static_cast<double>(last - first) * kBetweenBeds) * 1000.0 / length;
}

// The beds at one scale, in the plan's order: row by row, as many in a row as it holds.
class Arrangement {
 public:
  Arrangement(const Plan& plan, DateRange days, double foot, double per_metre)
      : per_metre_(per_metre) {
    int row = -1;
    double x = 0;
    for (const Bed& bed : plan.beds) {
      const double width = per_metre * bed.length.value() / 1000.0;
      const bool fits = row >= 0 && x + width <= kRoomAcross + 1e-6;
      if (!fits) {
        ++row;
        x = 0;
      }
      places_.push_back({x, row});
      x += width + kBetweenBeds;
    }
    set_heights(std::max(row + 1, 1), days_between(days.from, days.until), foot);
  }

  // Readable first, then fewer pages, then the better of its weaker scale.
  bool better_than(const Arrangement& other) const {
    const auto readable = [](const Arrangement& a) { return a.per_metre_ >= kLeastPerMetre; };
    if (readable(*this) != readable(other)) return readable(*this);
    if (pages_ != other.pages_) return pages_ < other.pages_;
    return ease() > other.ease() + 1e-9;
  }

  ChartLayout layout() const {
    ChartLayout layout{.pages = pages_, .per_metre = per_metre_, .per_day = per_day_};
    for (std::size_t i = 0; i < places_.size(); ++i) {
      const auto& [x, row] = places_[i];
      const int page = row / rows_on_page_;
      layout.beds.push_back({.x = kPageMargin + kMonthColumn + x,
                             .y = page * kPageHeight + kPageMargin + kPageHead + kBedHead +
                                  (row % rows_on_page_) * row_height_,
                             .first_in_row = i == 0 || places_[i - 1].row != row,
                             .last_in_row = i + 1 == places_.size() || places_[i + 1].row != row});
    }
    return layout;
  }

 private:
  struct Place {
    double x;
    int row;
  };

  void set_heights(int rows, int days, double foot) {
    const double room = kPageHeight - 2 * kPageMargin - kPageHead - foot + kBetweenBeds;
    const double least = kBedHead + kBetweenBeds + kLeastPerMonth * days / kDaysInMonth;
    const int most_rows = std::max(1, static_cast<int>(room / least));
    pages_ = (rows + most_rows - 1) / most_rows;
    rows_on_page_ = (rows + pages_ - 1) / pages_;
    row_height_ = room / rows_on_page_;
    per_day_ = (row_height_ - kBedHead - kBetweenBeds) / days;
  }

  double ease() const {
    return std::min(per_metre_ / kGoodPerMetre, per_day_ * kDaysInMonth / kGoodPerMonth);
  }

  double per_metre_;
  std::vector<Place> places_;
  int pages_ = 1;
  int rows_on_page_ = 1;
  double row_height_ = 0;
  double per_day_ = 0;
};

}  // namespace

std::vector<std::string> drawn_colours(const Plan& plan, const CropEntry& entry,
                                       const Sheet& sheet) {
  std::vector<std::string> colours = entry.colours;
  if (colours.empty() && plan.wish) {
    for (const std::string& wished : plan.wish->colours) {
      if (std::ranges::find(sheet.colours, wished) != sheet.colours.end()) {
        colours.push_back(wished);
      }
    }
  }
  if (colours.empty() && !sheet.colours.empty()) colours.push_back(sheet.colours.front());
  if (colours.size() > kMostColours) colours.resize(kMostColours);
  return colours;
}

ChartFacts chart_facts(const Plan& plan, const ground::Schedule& schedule,
                       const climate::Climate& climate) {
  ChartFacts facts;
  facts.days = {climate.season_start(plan.flowering_year),
                climate.season_start(plan.flowering_year + 1)};
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto sowings = schedule.of(i);
    if (sowings.empty()) facts.left_out.push_back(plan.plantings[i].name);
    if (!plan.plantings[i].patch) continue;  // no ground of the picture
    for (const Sowing& sowing : sowings) {
      facts.blocks.push_back(block_of(plan, sowing));
      const ChartBlock& block = facts.blocks.back();
      facts.days.from = std::min(facts.days.from, first_of_month(block.in_ground.from));
      if (block.in_ground.until > facts.days.until) {
        facts.days.until = first_of_month(block.in_ground.until + Days{31});
      }
    }
  }
  for (ChartBlock& block : facts.blocks) {
    if (block.stood_before) block.in_ground.from = facts.days.from;
    if (block.stays) block.in_ground.until = facts.days.until;
    block.in_flower.until = std::min(block.in_flower.until, block.in_ground.until);
  }
  return facts;
}

ChartLayout chart_layout(const Plan& plan, DateRange days, double foot) {
  // The longest bed must fit; below that, only scales at which a row is just filled can be best.
  double most = kMostPerMetre;
  for (std::size_t i = 0; i < plan.beds.size(); ++i) {
    most = std::min(most, filling_scale(plan, i, i));
  }
  Arrangement best(plan, days, foot, most);
  for (std::size_t first = 0; first < plan.beds.size(); ++first) {
    for (std::size_t last = first + 1; last < plan.beds.size(); ++last) {
      const double scale = filling_scale(plan, first, last);
      if (scale <= 0) break;
      if (scale > most) continue;
      const Arrangement next(plan, days, foot, scale);
      if (next.better_than(best)) best = next;
    }
  }
  return best.layout();
}

}  // namespace trug::show
