// SPDX-License-Identifier: MIT
#include "show/chart_layout.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/text.h"
#include "work/job_text.h"

namespace trug::show {
namespace {

using ground::PlantingChoice;

// Scales that read well in print, those still readable, and the largest of use.
constexpr double kGoodPerMetre = 25;
constexpr double kLeastPerMetre = 12;
constexpr double kMostPerMetre = 45;
constexpr double kGoodPerMonth = 7;
constexpr double kLeastPerMonth = 4.5;
constexpr double kDaysInMonth = 365.25 / 12;
constexpr std::size_t kMostColours = 3;

Date first_of_month(Date day) { return make_date(year_of(day), month_of(day), 1); }

std::string sentence_of_dates(const PlantingChoice& planting, const work::Strip& strip,
                              const ChartBlock& block) {
  const growth::Timeline& timeline = strip.candidate->timeline;
  const std::string ground = block.stood_before
                                 ? "stands for years"
                                 : "in the ground from " + plain_day(block.in_ground.from);
  const std::string flowers =
      fmt::format("first cut about {} ({} to {}), last cut {}",
                  plain_day(timeline.first_cut.likely), short_day(timeline.first_cut.early),
                  short_day(timeline.first_cut.late), plain_day(block.in_flower.until - Days{1}));
  const std::string end = block.stays ? "stays in the ground"
                          : is_planted(planting.sheet->life_cycle)
                              ? "lifted " + plain_day(strip.lift)
                              : "cleared " + plain_day(strip.lift);
  return fmt::format("{}; {}; {}", ground, flowers, end);
}

ChartBlock block_of(const Plan& plan, const PlantingChoice& planting, const work::Strip& strip) {
  const Sheet& sheet = *planting.sheet;
  const ground::Candidate& candidate = *strip.candidate;
  const growth::Timeline& timeline = candidate.timeline;
  const CropEntry& asked = entry(plan, planting.ref);
  ChartBlock block;
  block.bed = planting.ref.bed;
  block.at_cm = strip.at_cm;
  block.length_cm = strip.length_cm;
  block.in_ground = {candidate.in_ground, strip.lift};
  block.stood_before = sheet.ways[candidate.way].method == Method::Established;
  block.stays = stays_in_ground(sheet.life_cycle);
  block.in_flower = {timeline.first_cut.likely,
                     std::min(timeline.last_cut(), strip.lift) + Days{1}};
  block.perhaps_from = std::max(timeline.first_cut.early, candidate.in_ground);
  block.colours = drawn_colours(plan, asked, sheet);
  block.label = sheet.name;
  block.words =
      fmt::format("{}{}, {}: {}; {}; {}, {} to {} cm along the bed", sheet.name,
                  asked.variety ? " '" + *asked.variety + "'" : "", sheet.ways[candidate.way].name,
                  sentence_of_dates(planting, strip, block),
                  block.colours.empty() ? "colour not known" : listed(block.colours),
                  counted(strip.plants, "plant"), strip.at_cm, strip.at_cm + strip.length_cm);
  return block;
}

// Beds in `columns` columns, filled row by row.
class Arrangement {
 public:
  Arrangement(const Plan& plan, DateRange days, double foot, int columns)
      : plan_(&plan), columns_(columns), days_(days_between(days.from, days.until)) {
    const int rows = (count() + columns - 1) / columns;
    room_ = kPageHeight - 2 * kPageMargin - kPageHead - foot;
    const double least = kBedHead + kBetweenBeds + kLeastPerMonth * days_ / kDaysInMonth;
    const int most_rows = std::max(1, static_cast<int>((room_ + kBetweenBeds) / least));
    pages_ = (rows + most_rows - 1) / most_rows;
    rows_on_page_ = (rows + pages_ - 1) / pages_;
    row_height_ = (room_ + kBetweenBeds) / rows_on_page_;
    per_day_ = (row_height_ - kBedHead - kBetweenBeds) / days_;
    const double width = kPageWidth - 2 * kPageMargin - kMonthColumn - kFrostColumn;
    per_metre_ = kMostPerMetre;
    for (int row = 0; row < rows; ++row) {
      const int in_row = std::min(columns, count() - row * columns);
      per_metre_ =
          std::min(per_metre_, (width - (in_row - 1) * kBetweenBeds) / metres_before(row, in_row));
    }
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
    for (int i = 0; i < count(); ++i) {
      const int row = i / columns_;
      const int column = i % columns_;
      const int page = row / rows_on_page_;
      BedPlace place;
      place.x = kPageMargin + kMonthColumn + column * kBetweenBeds +
                per_metre_ * metres_before(row, column);
      place.y = page * kPageHeight + kPageMargin + kPageHead + kBedHead +
                (row % rows_on_page_) * row_height_;
      place.first_in_row = column == 0;
      place.last_in_row = column + 1 == columns_ || i + 1 == count();
      layout.beds.push_back(place);
    }
    return layout;
  }

 private:
  int count() const { return static_cast<int>(plan_->beds.size()); }
  double ease() const {
    return std::min(per_metre_ / kGoodPerMetre, per_day_ * kDaysInMonth / kGoodPerMonth);
  }
  // Of the row's first `beds` beds together.
  double metres_before(int row, int beds) const {
    int length = 0;
    for (int i = 0; i < beds; ++i) {
      length += plan_->beds[static_cast<std::size_t>(row * columns_ + i)].length.value();
    }
    return length / 1000.0;
  }

  const Plan* plan_;
  int columns_;
  int days_;
  double room_ = 0;
  int pages_ = 1;
  int rows_on_page_ = 1;
  double row_height_ = 0;
  double per_day_ = 0;
  double per_metre_ = 0;
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

ChartFacts chart_facts(const Plan& plan, const ground::PlanChoice& choice,
                       const climate::Climate& climate) {
  ChartFacts facts;
  facts.days = {climate.season_start(plan.flowering_year),
                climate.season_start(plan.flowering_year + 1)};
  for (const PlantingChoice& planting : choice.plantings) {
    if (!planting.chosen) {
      facts.left_out.push_back(planting_name(plan, planting.ref));
      continue;
    }
    for (const work::Strip& strip : work::strips_of(plan, planting)) {
      facts.blocks.push_back(block_of(plan, planting, strip));
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
  Arrangement best(plan, days, foot, 1);
  for (int columns = 2; columns <= static_cast<int>(plan.beds.size()); ++columns) {
    const Arrangement next(plan, days, foot, columns);
    if (next.better_than(best)) best = next;
  }
  return best.layout();
}

}  // namespace trug::show
