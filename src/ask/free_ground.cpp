// SPDX-License-Identifier: MIT
#include "ask/free_ground.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <utility>
#include <variant>

#include "ask/change.h"
#include "ask/fill.h"
#include "ask/mend.h"
#include "ask/plots.h"

namespace trug::ask {
namespace {

constexpr std::size_t kMostFilled = 3;  // grounds, in one run

struct Free {
  Finding* finding = nullptr;
  Ground ground;
  double size = 0;  // square metres times weeks
};

// This year, whatever is changed of it.
bool grows_not(const Garden& garden, const Finding& finding) {
  if (!finding.planting || !finding.remedy) return false;
  const auto& change = finding.remedy->change;
  return garden.plan.plantings[*finding.planting].patch &&
         (!change || std::holds_alternative<Year>(*change));
}

// Ground that no crop of the plan can use, or that lies bare.
std::optional<Free> free_ground(const Garden& garden, const Outcome& now, Finding& finding) {
  Free free{&finding, {}};
  double weeks = 52;
  if (const auto* bare = std::get_if<BareGround>(&finding.found)) {
    free.ground = {bare->bed, static_cast<std::size_t>(bare->stretch) - 1, bare->after, {}};
    weeks = bare->weeks;
  } else if (grows_not(garden, finding)) {
    free.ground = ground_of(garden.plan, now.schedule, *finding.planting);
  } else {
    return std::nullopt;
  }
  const Bed& bed = garden.plan.beds[free.ground.bed];
  const Stretch& stretch = bed.stretches[free.ground.stretch];
  free.size = weeks * bed.width.value() * stretch.length.value() * 1e-6;
  return free;
}

bool is_on(const Plan& plan, const Change& change, const Ground& ground) {
  if (const auto* added = std::get_if<AddCrop>(&change)) {
    return added->bed == ground.bed && added->stretch == ground.stretch;
  }
  const auto* instead = std::get_if<Instead>(&change);
  if (instead == nullptr) return false;
  const Patch& patch = *plan.plantings[instead->planting].patch;
  return patch.bed == ground.bed && patch.stretch == static_cast<int>(ground.stretch) + 1;
}

void name(Finding& finding, std::vector<Filler> fillers) {
  if (fillers.empty()) return;
  if (!finding.remedy) finding.remedy.emplace();
  finding.remedy->fillers = std::move(fillers);
}

class Namer {
 public:
  // `garden`: with every sheet there is.
  Namer(const Garden& garden, const Outcome& now, std::vector<Finding>& findings)
      : garden_(garden), now_(now), findings_(findings) {}

  void run() {
    std::vector<Free> list;
    for (Finding& finding : findings_) {
      if (auto free = free_ground(garden_, now_, finding)) list.push_back(std::move(*free));
    }
    std::ranges::stable_sort(list, std::greater{}, &Free::size);
    name_for_weeks(list);
    if (list.empty()) return;
    const Filling filling(garden_, now_);
    for (std::size_t filled = 0; filled < kMostFilled && !list.empty(); ++filled) {
      const Ground ground = list.front().ground;
      name_for_all(list, filling.fill(ground), [&](const Free& free) {
        return free.ground.bed == ground.bed && free.ground.stretch == ground.stretch;
      });
    }
  }

 private:
  void name_for_weeks(std::vector<Free>& list) {
    const auto weeks = std::ranges::find_if(findings_, [](const Finding& finding) {
      return std::holds_alternative<ShortWeeks>(finding.found);
    });
    if (weeks == findings_.end()) return;
    const auto filler = first_addition();
    if (!filler) return;
    name(*weeks, {*filler});
    name_for_all(list, {*filler}, [&](const Free& free) {
      return is_on(garden_.plan, filler->change, free.ground);
    });
  }

  // What mend() begins with.
  std::optional<Filler> first_addition() const {
    if (plots(garden_, now_.schedule, false).empty()) return std::nullopt;
    const Mended mended = mend(garden_, now_, false, {}, 1);
    if (mended.additions.empty()) return std::nullopt;
    const Addition& first = mended.additions.front();
    const auto sowings = mended.after.schedule.of(*changed(garden_.plan, first.change).added);
    if (sowings.empty()) return std::nullopt;
    return Filler{.change = first.change,
                  .crop = first.sheet->name,
                  .in_ground = sowings.front().in_ground,
                  .weeks = harvest::count(mended.after.weeks, harvest::WeekState::Full) -
                           harvest::count(now_.weeks, harvest::WeekState::Full),
                  .stems = stems(sowings),
                  .cautions = first.sheet->cautions};
  }

  // And takes them off the list.
  template <class Is>
  static void name_for_all(std::vector<Free>& list, const std::vector<Filler>& fillers,
                           const Is& is_same) {
    std::erase_if(list, [&](const Free& free) {
      if (!is_same(free)) return false;
      name(*free.finding, fillers);
      return true;
    });
  }

  const Garden& garden_;
  const Outcome& now_;
  std::vector<Finding>& findings_;
};

}  // namespace

void fill_free_ground(const Garden& garden, const Outcome& now, const AllSheets& all_sheets,
                      std::vector<Finding>& findings) {
  const bool may_fill = std::ranges::any_of(findings, [&](Finding& finding) {
    return std::holds_alternative<ShortWeeks>(finding.found) || free_ground(garden, now, finding);
  });
  if (!may_fill) return;
  const ground::Sheets sheets = all_sheets();
  const Garden whole{garden.plan, sheets, garden.climate, garden.today, garden.weather};
  Namer(whole, now, findings).run();
}

}  // namespace trug::ask
