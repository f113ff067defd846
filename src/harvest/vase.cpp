// SPDX-License-Identifier: MIT
#include "harvest/vase.h"

namespace trug::harvest {
namespace {

constexpr double kHair = 1e-6;  // of a stem: sums of halves and thirds that should be whole

// Sums of a week's kinds, none above its most.
struct Parts {
  double main = 0, filler = 0, stems = 0;
  bool above_most = false;
};

Parts parts_of(const Wanted& wanted, const std::vector<Kind>& kinds) {
  Parts parts;
  for (const Kind& kind : kinds) {
    const double fit = std::min(kind.stems, wanted.most_of_a_kind());
    (wanted.counts_as(kind.part) == Part::Main ? parts.main : parts.filler) += fit;
    parts.stems += kind.stems;
    parts.above_most = parts.above_most || kind.stems > fit;
  }
  return parts;
}

std::vector<Lack> lacks(const Wanted& wanted, const Parts& parts) {
  std::vector<Lack> result;
  const double fillers_fit = std::min(kMostFiller * wanted.stems, kFillersPerMain * parts.main);
  if (parts.filler > fillers_fit) result.push_back(Lack::Main);
  if (wanted.mixed && parts.main > 0 && parts.filler <= 0) result.push_back(Lack::Filler);
  if (parts.above_most) result.push_back(Lack::Kind);
  if (parts.stems < wanted.stems || result.empty()) result.push_back(Lack::Stems);
  return result;
}

}  // namespace

Part part_of(Role role) {
  return role == Role::Filler || role == Role::Foliage ? Part::Filler : Part::Main;
}

WeekState Vase::state() const {
  if (usable >= wanted - kHair) return WeekState::Full;
  return usable >= wanted / 2 - kHair ? WeekState::Half : WeekState::Short;
}

Vase vase(const Wanted& wanted, const std::vector<Kind>& kinds) {
  const Parts parts = parts_of(wanted, kinds);
  Vase result{.wanted = wanted.stems, .stems = parts.stems};
  result.usable = usable(wanted.stems, parts.main, parts.filler);
  result.value =
      kUsableWorth * first_half_twice(wanted.stems, result.usable) + kStemWorth * parts.stems;
  if (result.state() != WeekState::Full) result.lacks = lacks(wanted, parts);
  return result;
}

std::string_view to_string(WeekState state) {
  switch (state) {
    case WeekState::Full:
      return "full";
    case WeekState::Half:
      return "half";
    case WeekState::Short:
      return "short";
  }
  return "";
}

std::string_view to_string(Lack lack) {
  switch (lack) {
    case Lack::Main:
      return "main";
    case Lack::Filler:
      return "filler";
    case Lack::Kind:
      return "kind";
    case Lack::Stems:
      return "stems";
  }
  return "";
}

Beside::Beside(const Wanted& wanted, Part part, double own, double main, double filler)
    : wanted_(wanted.stems),
      most_(wanted.most_of_a_kind()),
      own_(own),
      main_(main),
      filler_(filler),
      part_(wanted.counts_as(part)) {
  worth_without_ = usable_worth(own_);
}

Beside Beside::flat(double stem_worth) {
  Beside beside;
  beside.stem_worth_ = stem_worth;
  return beside;
}

}  // namespace trug::harvest
