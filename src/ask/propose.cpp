// SPDX-License-Identifier: MIT
#include "ask/propose.h"

#include <algorithm>
#include <cstddef>
#include <iterator>
#include <optional>
#include <set>
#include <utility>

#include "ask/ask.h"
#include "harvest/vase.h"
#include "harvest/weeks.h"

namespace trug::ask {
namespace {

constexpr int kMostRounds = 3;  // of additions
// So many times the vases are planted for where there is ground: years differ (memory).
constexpr double kToSpare = 1.5;
constexpr std::size_t kEnoughKinds = 3;  // for a vase to look like one (memory)
constexpr double kWorse = 1;  // stems of all weeks, by which a plan drawn together may be it

// A stretch of a bed with what grows on it, in order.
struct Piece {
  Millimetres length;
  std::vector<CropEntry> crops;

  bool grows_the_same(const Piece& other) const {
    return std::ranges::equal(crops, other.crops, {}, &CropEntry::crop, &CropEntry::crop);
  }
};

std::vector<std::vector<Piece>> pieces_of(const Plan& plan) {
  std::vector<std::vector<Piece>> beds;
  for (const Bed& bed : plan.beds) {
    std::vector<Piece>& pieces = beds.emplace_back();
    for (const Stretch& stretch : bed.stretches) pieces.push_back({stretch.length, {}});
  }
  for (const Planting& planting : plan.plantings) {
    if (!planting.patch) continue;
    const Patch& patch = *planting.patch;
    beds[patch.bed][static_cast<std::size_t>(patch.stretch) - 1].crops.push_back(planting.asked);
  }
  return beds;
}

// "zinnia", and for the next of a bed "zinnia 2".
void name_anew(std::vector<Piece>& pieces) {
  std::vector<std::string> names;
  for (Piece& piece : pieces) {
    for (CropEntry& crop : piece.crops) {
      const auto number = std::ranges::count(names, crop.crop) + 1;
      names.push_back(crop.crop);
      crop.id =
          number == 1 ? std::nullopt : std::optional(crop.crop + " " + std::to_string(number));
    }
  }
}

Plan laid_out(Plan plan, std::vector<std::vector<Piece>> beds) {
  std::vector<Planting> elsewhere;
  std::ranges::copy_if(plan.plantings, std::back_inserter(elsewhere),
                       [](const Planting& planting) { return !planting.patch; });
  plan.plantings.clear();
  for (std::size_t bed = 0; bed < beds.size(); ++bed) {
    name_anew(beds[bed]);
    plan.beds[bed].stretches.clear();
    Millimetres offset{};
    for (const Piece& piece : beds[bed]) {
      plan.beds[bed].stretches.push_back({piece.length, offset, {}});
      offset = offset + piece.length;
      for (const CropEntry& crop : piece.crops) {
        add_planting(plan, bed, plan.beds[bed].stretches.size() - 1, crop);
      }
    }
  }
  plan.plantings.insert(plan.plantings.end(), elsewhere.begin(), elsewhere.end());
  return plan;
}

class Proposer {
 public:
  Proposer(const Garden& garden, const Outcome& now, const Progress& progress)
      : garden_(garden), plan_(garden.plan), now_(now), progress_(progress) {}

  Proposal run() {
    const std::vector<std::string> liked = plan_.wish->like;
    for (const std::string& crop : liked) {
      plan_.wish->like = {crop};
      mend(1);
    }
    plan_.wish->like.clear();
    Proposal result;
    result.bounds = mend(kMostAdditions);
    for (int round = 1; round < kMostRounds && grew_; ++round) mend(kMostAdditions);
    mend_for(kToSpare * plan_.wish->vases_per_week);
    draw_together();
    std::ranges::copy_if(liked, std::back_inserter(result.unused), [&](const std::string& crop) {
      return std::ranges::none_of(
          plan_.plantings, [&](const Planting& planting) { return planting.asked.crop == crop; });
    });
    result.plan = std::move(plan_);
    result.after = std::move(now_);
    return result;
  }

 private:
  std::vector<WeekBound> mend(int most) {
    const Progress counted = [this](int) {
      if (progress_) progress_(++steps_);
    };
    Mended mended = ask::mend(with_plan(garden_, plan_), now_, false, counted, most);
    grew_ = !mended.additions.empty();
    plan_ = std::move(mended.plan);
    now_ = std::move(mended.after);
    return std::move(mended.bounds);
  }

  // As if so many vases were wished for.
  void mend_for(double vases) {
    const double wished = std::exchange(plan_.wish->vases_per_week, vases);
    now_ = reckon(with_plan(garden_, plan_));
    add_kinds();
    mend(kMostAdditions);
    plan_.wish->vases_per_week = wished;
    now_ = reckon(with_plan(garden_, plan_));
  }

  // Until there are enough for a vase: of what is not planted yet.
  void add_kinds() {
    const std::vector<std::string> disliked = plan_.wish->dislike;
    for (grew_ = true; grew_;) {
      std::set<std::string> kinds;
      for (const Planting& planting : plan_.plantings) kinds.insert(planting.asked.crop);
      if (kinds.size() >= kEnoughKinds) break;
      plan_.wish->dislike = disliked;
      plan_.wish->dislike.insert(plan_.wish->dislike.end(), kinds.begin(), kinds.end());
      mend(1);
    }
    plan_.wish->dislike = disliked;
  }

  // Each piece onto the first of its bed that grows the same, where that loses nothing.
  void draw_together() {
    for (std::size_t bed = 0; bed < plan_.beds.size(); ++bed) {
      for (std::size_t first = 0; first < plan_.beds[bed].stretches.size(); ++first) {
        std::size_t next = first + 1;
        while (next < plan_.beds[bed].stretches.size()) {
          if (!joined(bed, first, next)) ++next;
        }
      }
    }
  }

  bool joined(std::size_t bed, std::size_t first, std::size_t next) {
    auto beds = pieces_of(plan_);
    std::vector<Piece>& pieces = beds[bed];
    if (!pieces[first].grows_the_same(pieces[next])) return false;
    pieces[first].length = pieces[first].length + pieces[next].length;
    pieces.erase(pieces.begin() + static_cast<std::ptrdiff_t>(next));
    Plan plan = laid_out(plan_, std::move(beds));
    Outcome after = reckon(with_plan(garden_, plan));
    if (!is_no_worse(after)) return false;
    plan_ = std::move(plan);
    now_ = std::move(after);
    return true;
  }

  bool is_no_worse(const Outcome& after) const {
    double more = 0;
    for (std::size_t week = 0; week < now_.weeks.size(); ++week) {
      const harvest::Vase& was = now_.weeks[week].vase;
      const harvest::Vase& is = after.weeks[week].vase;
      if (was.state() == harvest::WeekState::Full && is.state() != was.state()) return false;
      more += is.usable - was.usable;
    }
    const auto broken = [](const Outcome& outcome) {
      return std::ranges::count_if(
          outcome.findings, [](const Finding& finding) { return finding.rank() == Rank::Broken; });
    };
    return more > -kWorse && broken(after) <= broken(now_);
  }

  const Garden& garden_;
  Plan plan_;
  Outcome now_;
  const Progress& progress_;
  int steps_ = 0;
  bool grew_ = false;
};

}  // namespace

Proposal propose(const Garden& garden, const Outcome& now, const Progress& progress) {
  return Proposer(garden, now, progress).run();
}

}  // namespace trug::ask
