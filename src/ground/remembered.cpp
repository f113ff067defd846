// SPDX-License-Identifier: MIT
#include "ground/remembered.h"

#include <algorithm>
#include <functional>
#include <utility>

namespace trug::ground {
namespace {

bool is_as_told(const Candidate& c, const Earlier& told) {
  return c.way == told.way && (c.group ? c.group->name : "") == told.group &&
         c.start == told.start && c.in_ground == told.in_ground;
}

// In a part of the list.
std::optional<std::size_t> place_of(const Earlier& told, const Candidates& candidates,
                                    std::size_t from, std::size_t until) {
  for (std::size_t i = from; i < until; ++i) {
    if (is_as_told(candidates.list[i], told)) return i;
  }
  return std::nullopt;
}

std::optional<std::size_t> place_of(const Earlier& told, const Candidates& candidates, int number) {
  const auto known = std::ranges::find(candidates.known, number, &KnownSowing::number);
  if (known != candidates.known.end()) return place_of(told, candidates, known->from, known->until);
  return place_of(told, candidates, 0, candidates.free().size());
}

// The start that was told last of a planting; null: none was.
const Earlier* last_told(const Weighed& weighed) {
  const Earlier* last = nullptr;
  for (int number = weighed.streams.empty() ? 0 : 1;; ++number) {
    const Begun* begun = standing(weighed.begun, number);
    if (!begun || !begun->earlier) return last;
    last = &*begun->earlier;
    if (number == 0) return last;
  }
}

std::optional<Pick> told_pick(const Weighed& weighed, const Earlier& last, const Options& options,
                              const DayCount& count) {
  std::optional<std::size_t> option;
  if (weighed.streams.empty()) {
    option = place_of(last, *weighed.candidates, 0, weighed.candidates->list.size());
  } else if (const auto stream = told_stream(*weighed.candidates, weighed.begun)) {
    const auto same = std::ranges::find(weighed.streams, stream->sowings, &Stream::sowings);
    if (same != weighed.streams.end()) {
      option = static_cast<std::size_t>(same - weighed.streams.begin());
    }
  }
  if (!option) return std::nullopt;
  const Option& chosen = options.list[*option];
  if (chosen.free == Free::Never) return std::nullopt;
  return Pick{*option, std::clamp(count.number(last.lift), chosen.lift_from,
                                  std::max(chosen.lift_from, chosen.lift_to))};
}

// Each free for the next in time.
bool fit(const StretchGround& ground, const Picks& picks) {
  int free = 0;
  for (std::size_t i = 0; i < picks.size(); ++i) {
    if (!picks[i]) continue;
    const Option& option = ground.crops[i].options->list[picks[i]->option];
    if (option.in_ground < free) return false;
    free = picks[i]->lift + ground.gap;
  }
  return true;
}

}  // namespace

std::optional<Stream> told_stream(const Candidates& candidates, const std::vector<Begun>& begun) {
  Stream stream;
  for (int number = 1;; ++number) {
    const Begun* one = standing(begun, number);
    if (!one || !one->earlier) break;
    const auto place = place_of(*one->earlier, candidates, number);
    if (!place) return std::nullopt;
    stream.sowings.push_back(*place);
  }
  if (stream.sowings.empty()) return std::nullopt;
  stream.useful = stream.sowings.size();
  return stream;
}

std::optional<Remembered> remembered(const Plan& plan, const std::vector<Weighed>& weighed,
                                     const std::vector<std::vector<std::size_t>>& chains,
                                     const PlanProblem& problem, const DayCount& count) {
  if (!plan.remembers) return std::nullopt;
  const bool tells = std::ranges::any_of(weighed, last_told);
  Remembered result;
  for (std::size_t stretch = 0; stretch < chains.size(); ++stretch) {
    const StretchGround& ground = problem.stretches[stretch];
    Picks picks;
    bool free = false;
    for (std::size_t i = 0; i < chains[stretch].size(); ++i) {
      const std::size_t planting = chains[stretch][i];
      const Earlier* told = last_told(weighed[planting]);
      picks.push_back(told ? told_pick(weighed[planting], *told, *ground.crops[i].options, count)
                           : std::nullopt);
      // What it does not tell of was left out, unless it tells of no choice at all.
      free |= plan.plantings[planting].touched || (told ? !picks.back() : !tells);
    }
    result.free.push_back(free || !fit(ground, picks));
    result.picks.push_back(std::move(picks));
  }
  return result;
}

bool stands_whole(const Plan& plan, const Remembered& remembered) {
  return plan.unchanged && std::ranges::none_of(remembered.free, std::identity());
}

}  // namespace trug::ground
