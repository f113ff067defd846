// SPDX-License-Identifier: MIT
#include "ask/plots.h"

#include <algorithm>
#include <utility>

namespace trug::ask {
namespace {

constexpr int kLeastRestCm = 20;            // of a bed: less is a path or a plank (memory)
constexpr Millimetres kLongestPiece{1200};  // of a bed's rest for one crop, else ...
constexpr Millimetres kUsualPiece{800};     // ... such pieces (memory)
constexpr int kLeastDays = 42;              // nothing grows on ground for less

// The crops of a stretch in order, with the days they have it; those that cannot be grown have
// none.
struct Tenant {
  std::size_t planting = 0;
  std::optional<DateRange> days;
  bool may_go = false;
};

class Finder {
 public:
  Finder(const Garden& garden, const ground::Schedule& schedule, bool replant)
      : garden_(garden),
        schedule_(schedule),
        replant_(replant),
        from_(garden.adds_from().value_or(garden.first_day())),
        between_(garden.plan.work.days_between_crops) {}

  std::vector<Plot> run() {
    for (std::size_t bed = 0; bed < garden_.plan.beds.size(); ++bed) {
      const Bed& of = garden_.plan.beds[bed];
      for (std::size_t i = 0; i < of.stretches.size(); ++i) look_at(bed, i);
      look_at_rest(bed);
    }
    return std::move(plots_);
  }

 private:
  void look_at_rest(std::size_t bed) {
    const Bed& of = garden_.plan.beds[bed];
    int rest = of.length.value();
    for (const Stretch& stretch : of.stretches) rest -= stretch.length.value();
    const Millimetres length{rest};
    if (whole_cm(length) < kLeastRestCm) return;
    plots_.push_back({.bed = bed,
                      .stretch = {},
                      .after = {},
                      .instead_of = {},
                      .days = {from_, Date::max()},
                      .length = length > kLongestPiece ? kUsualPiece : length,
                      .width = of.width});
  }

  void look_at(std::size_t bed, std::size_t stretch) {
    const Bed& of = garden_.plan.beds[bed];
    Plot plot{.bed = bed,
              .stretch = stretch,
              .after = {},
              .instead_of = {},
              .days = {from_, Date::max()},
              .length = of.stretches[stretch].length,
              .width = of.width};
    const auto add = [&](DateRange days) {
      plot.days = days;
      if (days.until > days.from &&
          days_between(days.from, std::min(days.until, days.from + Days{kLeastDays})) >=
              kLeastDays) {
        plots_.push_back(plot);
      }
    };
    const std::vector<Tenant> all = tenants(bed, static_cast<int>(stretch) + 1);
    Date free_from = from_;
    for (auto tenant = all.begin(); tenant != all.end(); ++tenant) {
      if (!tenant->days) {
        plot.instead_of = tenant->planting;
        continue;
      }
      add({free_from, tenant->days->from - between_});
      plot.instead_of.reset();
      if (tenant->may_go) {
        plot.instead_of = tenant->planting;
        const auto next = std::find_if(tenant + 1, all.end(),
                                       [](const Tenant& one) { return one.days.has_value(); });
        add({free_from, next == all.end() ? Date::max() : next->days->from - between_});
        plot.instead_of.reset();
      }
      free_from = std::max(free_from, tenant->days->until + between_);
      plot.after = tenant->planting;
    }
    add({free_from, Date::max()});
  }

  std::vector<Tenant> tenants(std::size_t bed, int stretch) const {
    std::vector<Tenant> result;
    for (std::size_t i = 0; i < garden_.plan.plantings.size(); ++i) {
      const Planting& planting = garden_.plan.plantings[i];
      const bool here =
          planting.patch && planting.patch->bed == bed && planting.patch->stretch == stretch;
      if (!here) continue;
      const auto sowings = schedule_.of(i);
      if (!sowings.empty()) {
        const DateRange days{sowings.front().in_ground, sowings.back().lift};
        result.push_back({i, days, replant_ && may_go(planting, i)});
      } else if (cannot_be_grown(planting, i)) {
        result.push_back({i, {}});
      }
    }
    return result;
  }

  // Whatever else grows there; nothing of it is recorded.
  bool cannot_be_grown(const Planting& planting, std::size_t index) const {
    return schedule_.weighed[index].candidates->list.empty() && planting.happened.empty();
  }

  bool may_go(const Planting& planting, std::size_t index) const {
    if (planting.asked.pins != Pins{} || planting.asked.since || !planting.happened.empty()) {
      return false;
    }
    return std::ranges::all_of(schedule_.of(index), [&](const ground::Sowing& sowing) {
      return sowing.start >= garden_.today && !stays_in_ground(sowing.sheet->life_cycle);
    });
  }

  const Garden& garden_;
  const ground::Schedule& schedule_;
  const bool replant_;
  const Date from_;
  const Days between_;
  std::vector<Plot> plots_;
};

}  // namespace

std::vector<Plot> plots(const Garden& garden, const ground::Schedule& schedule, bool replant) {
  return Finder(garden, schedule, replant).run();
}

}  // namespace trug::ask
