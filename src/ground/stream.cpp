// SPDX-License-Identifier: MIT
#include "ground/stream.h"

#include <algorithm>
#include <map>
#include <tuple>

namespace trug::ground {
namespace {

// Of one day's sowings the last has the ground latest and is cut latest.
auto rank(const StreamStart& start) {
  return std::tuple(start.start, start.first_cut, start.in_ground);
}

bool can_follow(const StreamStart& next, const StreamStart& last, int gap) {
  return next.in_window && next.start >= last.start + kFewestDaysBetweenSowings &&
         next.in_ground > last.in_ground && 3 * (next.first_cut - last.first_cut) >= 2 * gap;
}

class Streams {
 public:
  Streams(const std::vector<StreamStart>& starts, const StreamRules& rules)
      : starts_(starts), rules_(rules) {
    for (std::size_t i = 0; i < starts.size(); ++i) order_.push_back(i);
    std::ranges::stable_sort(order_, {}, [&](std::size_t i) { return rank(starts[i]); });
  }

  std::vector<Stream> all() const {
    std::vector<Stream> result;
    std::optional<int> first_cut;
    for (const auto& [cut, begin] : beginnings()) {
      if (!first_cut) first_cut = cut;
      result.push_back(from(begin));
      result.back().late = cut >= *first_cut + rules_.gap;
    }
    return result;
  }

 private:
  bool is_for_wish(const StreamStart& start) const {
    return !rules_.cut_from || start.first_cut >= *rules_.cut_from;
  }

  // For each first cut its latest sowing, inside the window where one is.
  std::map<int, std::size_t> beginnings() const {
    const bool any_for_wish =
        std::ranges::any_of(starts_, [&](const StreamStart& start) { return is_for_wish(start); });
    std::map<int, std::size_t> result;
    for (const std::size_t i : order_) {
      if (any_for_wish && !is_for_wish(starts_[i])) continue;
      const auto [known, is_new] = result.emplace(starts_[i].first_cut, i);
      if (!is_new && (starts_[i].in_window || !starts_[known->second].in_window)) known->second = i;
    }
    return result;
  }

  Stream from(std::size_t begin) const {
    Stream stream{.sowings = {begin}};
    while (const auto next = next_sowing(starts_, starts_[stream.sowings.back()], rules_.gap)) {
      stream.sowings.push_back(*next);
    }
    stream.useful = stream.sowings.size();
    if (rules_.most) {
      stream.sowings.resize(std::min(stream.useful, static_cast<std::size_t>(*rules_.most)));
    }
    return stream;
  }

  const std::vector<StreamStart>& starts_;
  const StreamRules& rules_;
  std::vector<std::size_t> order_;
};

}  // namespace

std::optional<std::size_t> next_sowing(const std::vector<StreamStart>& starts,
                                       const StreamStart& last, int gap) {
  std::optional<std::size_t> latest, soonest;
  for (std::size_t i = 0; i < starts.size(); ++i) {
    if (!can_follow(starts[i], last, gap)) continue;
    if (!soonest || rank(starts[i]) < rank(starts[*soonest])) soonest = i;
    const bool is_due = starts[i].first_cut <= last.first_cut + gap;
    if (is_due && (!latest || rank(starts[i]) >= rank(starts[*latest]))) latest = i;
  }
  return latest ? latest : soonest;
}

std::vector<Stream> streams(const std::vector<StreamStart>& starts, const StreamRules& rules) {
  return Streams(starts, rules).all();
}

}  // namespace trug::ground
