// SPDX-License-Identifier: MIT
// What a week's stems are worth in the vase: parts by role, no kind more than half of it, fillers
// in proportion to main flowers. Limits and worths are rules of thumb (memory), tried on drawn
// plans.
#pragma once

#include <algorithm>
#include <string_view>
#include <vector>

#include "garden/sheet.h"

namespace trug::harvest {

enum class Part { Main, Filler };
// Focal, secondary and line flowers are main; a crop plays the first of its sheet's roles.
Part part_of(Role role);

// The stems that a week's vases want; none outside the wish.
struct Wanted {
  double stems = 0;
  bool mixed = true;  // false: bunches of one kind, every part main
  double most_of_a_kind() const { return mixed ? stems / 2 : stems; }
  Part counts_as(Part part) const { return mixed ? part : Part::Main; }
};

inline constexpr double kMostFiller = 0.6;    // of the vase
inline constexpr double kFillersPerMain = 3;  // beyond, a filler stem counts half
inline constexpr double kUsableWorth = 0.85;  // of a stem that finds its place in a vase
inline constexpr double kStemWorth = 0.15;    // of every stem, in a vase or not

// The stems that find a place, from main and filler stems of which no kind is above its most.
inline double usable(double wanted, double main, double filler) {
  const double fit = std::min(kMostFiller * wanted, filler);
  return std::min(wanted, main + (fit + std::min(fit, kFillersPerMain * main)) / 2);
}

// Usable stems with the first half of the vases counting twice as much as the second; all that are
// wanted count as they are.
inline double first_half_twice(double wanted, double usable) {
  return (usable + std::min(usable, wanted / 2)) / 1.5;
}

// One crop's stems in a week, of all its plantings together.
struct Kind {
  Part part = Part::Main;
  double stems = 0;
};

// "full": the week has its vases; "half": at least half of them.
enum class WeekState { Full, Half, Short };
// What would help: a main flower for the fillers there are; a filler; a second kind beside one that
// is above its half; more stems of any kind.
enum class Lack { Main, Filler, Kind, Stems };

struct Vase {
  double wanted = 0;
  double usable = 0;
  double stems = 0;         // all there are
  double value = 0;         // what the choice of dates weighs
  std::vector<Lack> lacks;  // empty exactly where the week has its vases
  WeekState state() const;
};
Vase vase(const Wanted& wanted, const std::vector<Kind>& kinds);

std::string_view to_string(WeekState state);
std::string_view to_string(Lack lack);

// What one crop's further stems are worth in a week, beside what grows there already; no dearer to
// ask where there are many crops.
class Beside {
 public:
  // Outside the wish.
  Beside() = default;
  // `own`: stems of this crop already there; `main`, `filler`: the parts of all others, none above
  // its most.
  Beside(const Wanted& wanted, Part part, double own, double main, double filler);
  // Every stem is worth the same: a plan without a wish, or a week with a price.
  static Beside flat(double stem_worth);

  double gain(double further) const {
    if (wanted_ <= 0) return stem_worth_ * further;
    return usable_worth(own_ + further) - worth_without_ + stem_worth_ * further;
  }

 private:
  double usable_worth(double own) const {
    const double fit = std::min(own, most_);
    const double stems = part_ == Part::Main ? usable(wanted_, main_ + fit, filler_)
                                             : usable(wanted_, main_, filler_ + fit);
    return kUsableWorth * first_half_twice(wanted_, stems);
  }

  double wanted_ = 0;
  double most_ = 0;
  double own_ = 0;
  double main_ = 0;
  double filler_ = 0;
  double worth_without_ = 0;
  double stem_worth_ = kStemWorth;
  Part part_ = Part::Main;
};

}  // namespace trug::harvest
