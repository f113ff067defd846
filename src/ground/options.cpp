// SPDX-License-Identifier: MIT
#include "ground/options.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <span>
#include <utility>

#include "ground/remembered.h"

namespace trug::ground {
namespace {

constexpr double kSuccessionGap = 14;  // days between first cuts (common practice)
constexpr int kBeforeWishDays = 7;
constexpr int kHorizonDays = 120;  // after the flowering year: what is kept or stays lies on

// What has begun, or should have by now, is as right as a pin.
bool is_pinned(const Candidate& c, const CropEntry& asked) {
  const Begun& begun = c.begun;
  return c.stands || asked.pins.start_on || asked.pins.plant_on || begun.way || begun.start_from ||
         begun.in_ground_from;
}

bool is_alike(const Candidate& a, const Candidate& b) {
  return a.way == b.way && a.group == b.group;
}

// Calls `look(first, last)` for each run of candidates of one way and group.
template <class Look>
void each_way(std::span<const Candidate> list, const Look& look) {
  for (std::size_t first = 0; first < list.size();) {
    std::size_t last = first + 1;
    while (last < list.size() && is_alike(list[first], list[last])) ++last;
    look(first, last);
    first = last;
  }
}

// Each candidate's start with what its way allows around it.
std::vector<Start> starts_of(const Candidates& candidates, const CropEntry& asked,
                             const Sheet& sheet, const DayCount& count) {
  const std::vector<Candidate>& list = candidates.list;
  std::vector<Start> result;
  for (const Candidate& c : list) {
    result.push_back({.in_ground = count.number(c.in_ground),
                      .window_first = count.number(c.window.from),
                      .window_last = count.number(c.window.until) - 1,
                      .flowers_next_year = sheet.ways[c.way].flowers != FlowersIn::SameYear,
                      .pinned = is_pinned(c, asked)});
  }
  each_way(list, [&](std::size_t first, std::size_t last) {
    std::vector<int> days;
    for (std::size_t i = first; i < last; ++i) days.push_back(result[i].in_ground);
    std::ranges::sort(days);
    const std::vector<int> runs = first_of_run(days);
    for (std::size_t i = first; i < last; ++i) {
      const auto day = std::ranges::lower_bound(days, result[i].in_ground) - days.begin();
      result[i].first_allowed = runs[static_cast<std::size_t>(day)];
    }
  });
  return result;
}

constexpr double kAnotherDay = 0.8;  // of what was told to go out on a day that can still be had

// What has begun goes out as it was told, unless its ground or another rule asks for another day.
double told_weight(const Candidate& c) {
  const bool waits = c.begun.way && c.begun.earlier && !c.begun.in_ground;
  return waits && c.in_ground != c.begun.earlier->in_ground ? kAnotherDay : 1;
}

double weight_of(const Candidate& c, const Start& start, const Sheet& sheet) {
  return way_weight(c.way, sheet.ways[c.way].method == Method::BoughtPlants) * place_weight(start) *
         told_weight(c);
}

// What gives nothing yet goes in by the way that its sheet names first, where that can still be
// had.
int by_way(const Candidate& c) {
  constexpr int kYear = 366;
  return c.stems_of(1) > 0 ? 0 : kYear * static_cast<int>(c.way);
}

// All but stems and curve.
Option dated(const Candidate& c, const Start& start, const DayCount& count) {
  return {.start = count.number(c.start),
          .in_ground = start.in_ground,
          .first_cut = count.number(c.timeline.first_cut.likely),
          .lift_from = count.number(c.lift_from),
          .lift_to = count.number(c.lift_to),
          .off_middle = std::abs(days_between(c.window_middle(), c.in_ground)) + by_way(c),
          .way_rank = static_cast<int>(c.way),
          .free = free_before(start)};
}

// A stream's stems by day from its first cut.
class StreamStems {
 public:
  explicit StreamStems(Date first_cut) : first_cut_(first_cut) {}

  void add(const Candidate& c, double stems) {
    const auto offset = static_cast<std::size_t>(
        std::max(0, days_between(first_cut_, c.timeline.first_cut.likely)));
    const std::vector<double>& shares = c.timeline.shares;
    by_day_.resize(std::max(by_day_.size(), offset + shares.size()));
    for (std::size_t day = 0; day < shares.size(); ++day) {
      by_day_[offset + day] += stems * shares[day];
    }
  }
  std::vector<double> take() { return std::move(by_day_); }

 private:
  Date first_cut_;
  std::vector<double> by_day_;
};

constexpr Date kAnyDay;  // from which a stream's days are counted

StreamStart stream_start(const Candidate& c) {
  return {days_between(kAnyDay, c.start), days_between(kAnyDay, c.in_ground),
          days_between(kAnyDay, c.timeline.first_cut.likely), c.days_late() == 0};
}

// Streams of which some sowings are known: those stand in their places, the others go on from them.
class BegunStreams {
 public:
  BegunStreams(const Candidates& all, const StreamRules& rules) : all_(all), rules_(rules) {}

  // The longest there are.
  std::vector<Stream> all() const {
    std::vector<Stream> result;
    const KnownSowing& known = all_.known.front();
    const bool begins = known.number == 1 && known.from < known.until;
    const std::size_t from = begins ? known.from : 0;
    const std::size_t until = begins ? known.until : all_.free().size();
    for (std::size_t first = from; first < until; ++first) result.push_back(stream(first));
    std::size_t longest = 0;
    for (const Stream& one : result) longest = std::max(longest, one.useful);
    std::erase_if(result, [&](const Stream& one) { return one.useful < longest; });
    return result;
  }

 private:
  Stream stream(std::size_t first) const {
    Stream stream{.sowings = {first}};
    while (!rules_.most || static_cast<int>(stream.sowings.size()) < *rules_.most) {
      const auto next = after(stream.sowings.back(), static_cast<int>(stream.sowings.size()) + 1);
      if (!next) break;
      stream.sowings.push_back(*next);
    }
    stream.useful = stream.sowings.size();
    return stream;
  }

  std::optional<std::size_t> after(std::size_t last, int number) const {
    const Date due = all_.list[last].timeline.first_cut.likely + Days{rules_.gap};
    bool another_is_known = false;
    for (const KnownSowing& known : all_.known) {
      if (known.number == number) return nearest(known.from, known.until, due);
      another_is_known |= known.number > number;
    }
    if (const auto next = free_after(last)) return next;
    // One that is known to come after it has its place, however the others lie.
    return another_is_known ? nearest(0, all_.free().size(), due) : std::nullopt;
  }

  std::optional<std::size_t> free_after(std::size_t last) const {
    std::vector<StreamStart> starts;
    std::vector<std::size_t> places;
    for (std::size_t i = 0; i < all_.free().size(); ++i) {
      if (!is_alike(all_.list[i], all_.list[last])) continue;
      starts.push_back(stream_start(all_.list[i]));
      places.push_back(i);
    }
    const auto next = next_sowing(starts, stream_start(all_.list[last]), rules_.gap);
    return next ? std::optional(places[*next]) : std::nullopt;
  }

  // The one first cut nearest to that day.
  std::optional<std::size_t> nearest(std::size_t from, std::size_t until, Date due) const {
    std::optional<std::size_t> best;
    const auto off = [&](std::size_t i) {
      return std::abs(days_between(all_.list[i].timeline.first_cut.likely, due));
    };
    for (std::size_t i = from; i < until; ++i) {
      if (!best || off(i) < off(*best)) best = i;
    }
    return best;
  }

  const Candidates& all_;
  const StreamRules& rules_;
};

}  // namespace

DayCount::DayCount(const climate::Climate& climate, int flowering_year)
    : zero_(monday_of(climate.season_start(flowering_year - 2))),
      horizon_(days_between(zero_, climate.season_start(flowering_year + 1)) + kHorizonDays) {}

namespace {

// Ground that was divided among so many sowings, of which some have begun, takes no more.
std::optional<int> most_sowings(const CropEntry& asked, const Candidates& candidates,
                                const std::vector<Begun>& begun) {
  for (const Begun& one : begun) {
    if (one.strips) return one.strips;
  }
  const bool divided = !candidates.known.empty() && !begun.empty() && begun.front().earlier;
  return asked.successions || !divided ? asked.successions : std::optional(begun.back().number);
}

// Of the ways that go on for longest, or for as long as is asked: who wants four sowings is given
// no way of which one is useful.
std::vector<Stream> streams_by_rules(const Candidates& candidates, const StreamRules& rules) {
  if (!candidates.known.empty()) return BegunStreams(candidates, rules).all();
  std::vector<Stream> result;
  std::size_t longest = 0;
  each_way(candidates.list, [&](std::size_t first, std::size_t last) {
    std::vector<StreamStart> starts;
    for (std::size_t i = first; i < last; ++i) starts.push_back(stream_start(candidates.list[i]));
    std::vector<Stream> its = streams(starts, rules);
    std::size_t its_longest = 0;
    for (const Stream& stream : its) its_longest = std::max(its_longest, stream.sowings.size());
    if (its_longest < longest) return;
    if (its_longest > longest) result.clear();
    longest = its_longest;
    for (Stream& stream : its) {
      for (std::size_t& sowing : stream.sowings) sowing += first;
      result.push_back(std::move(stream));
    }
  });
  return result;
}

}  // namespace

std::vector<Stream> streams_of(const Candidates& candidates, const CropEntry& asked,
                               const Sheet& sheet, std::optional<Date> wish_begin,
                               const std::vector<Begun>& begun) {
  if (asked.successions == 1) return {};
  StreamRules rules{.most = most_sowings(asked, candidates, begun)};
  rules.gap = asked.gap_days.value_or(
      static_cast<int>(std::lround(sheet.succession_gap_days.value_or(kSuccessionGap))));
  if (wish_begin) rules.cut_from = days_between(kAnyDay, *wish_begin) - kBeforeWishDays;
  std::vector<Stream> result = streams_by_rules(candidates, rules);
  auto told = told_stream(candidates, begun);
  if (!told || std::ranges::find(result, told->sowings, &Stream::sowings) != result.end()) {
    return result;
  }
  for (const Stream& one : result) told->useful = std::max(told->useful, one.useful);
  result.push_back(std::move(*told));
  return result;
}

Options options_of(const Candidates& candidates, const CropEntry& asked, const Sheet& sheet,
                   const DayCount& count) {
  const std::vector<Start> starts = starts_of(candidates, asked, sheet, count);
  Options options;
  std::map<std::vector<double>, std::size_t> curves;  // most candidates of a crop share a few
  for (std::size_t i = 0; i < candidates.list.size(); ++i) {
    const Candidate& c = candidates.list[i];
    const auto curve = curves.emplace(c.timeline.shares, options.curves.size());
    if (curve.second) options.curves.push_back(c.timeline.shares);
    Option option = dated(c, starts[i], count);
    option.weight = weight_of(c, starts[i], sheet);
    option.stems_per_plant = c.stems_of(1);
    option.curve = curve.first->second;
    options.list.push_back(option);
  }
  return options;
}

// A stream takes the ground with its first sowing and leaves it with its last: which those are is
// seen by their days, since one that failed is begun again after its followers.
Options options_of(const Weighed& weighed, const Planting& planting, const Summer& summer,
                   const DayCount& count) {
  const Candidates& candidates = *weighed.candidates;
  const Sheet& sheet = *weighed.sheet;
  const std::vector<Start> starts = starts_of(candidates, planting.asked, sheet, count);
  Options options;
  for (const Stream& stream : weighed.streams) {
    const auto sowings = static_cast<int>(stream.sowings.size());
    const int strips = weighed.strips(planting.asked, stream);
    const Layout ground = layout(planting, sheet, strips);
    const std::size_t first = stream.sowings.front();
    Option option = dated(candidates.list[first], starts[first], count);
    for (const std::size_t sowing : stream.sowings) {
      const Candidate& c = candidates.list[sowing];
      option.in_ground = std::min(option.in_ground, starts[sowing].in_ground);
      option.first_cut = std::min(option.first_cut, count.number(c.timeline.first_cut.likely));
      option.lift_from = std::max(option.lift_from, count.number(c.lift_from));
      option.lift_to = std::max(option.lift_to, count.number(c.lift_to));
    }
    // Begun later than the year allows only because the ground was taken.
    const bool may_wait = option.free == Free::Any || option.free == Free::Soon;
    if (stream.late && may_wait && !starts[first].pinned) option.free = Free::Near;
    StreamStems stems(count.date(option.first_cut));
    double summer_days = 0;
    for (int i = 0; i < sowings; ++i) {
      const std::size_t sowing = stream.sowings[static_cast<std::size_t>(i)];
      const Candidate& c = candidates.list[sowing];
      stems.add(
          c, c.stems_of(plants_of_sowing(ground, strips, i)) * weight_of(c, starts[sowing], sheet));
      summer_days += summer.days_before(starts[sowing].in_ground);
    }
    option.strips_wait_days = summer_days / sowings - summer.days_before(option.in_ground);
    option.curve = options.curves.size();
    options.curves.push_back(stems.take());
    options.list.push_back(option);
  }
  return options;
}

double stems_within(const Candidate& candidate, DateRange days) {
  const growth::Timeline& timeline = candidate.timeline;
  double share = 0;
  for (std::size_t day = 0; day < timeline.shares.size(); ++day) {
    if (days.contains(timeline.first_cut.likely + Days{day})) share += timeline.shares[day];
  }
  return candidate.stems_of(1) * share;
}

void refuse_hardly_useful(Options& options, int wish_first, int wish_last) {
  std::vector<double> useful;
  double most = 0;
  for (const Option& option : options.list) {
    const std::vector<double>& curve = options.curves[option.curve];
    double share = 0;
    for (int day = std::max(option.first_cut, wish_first); day <= wish_last; ++day) {
      const auto index = static_cast<std::size_t>(day - option.first_cut);
      if (index >= curve.size()) break;
      share += curve[index];
    }
    useful.push_back(option.stems_per_plant * share);
    most = std::max(most, useful.back());
  }
  for (std::size_t i = 0; i < useful.size(); ++i) {
    Option& option = options.list[i];
    if (option.free == Free::Near && useful[i] < kLeastUseful * most) option.free = Free::Never;
  }
}

int plants_of_sowing(const Layout& layout, int sowings, int index) {
  return layout.plants / sowings + (index < layout.plants % sowings ? 1 : 0);
}

}  // namespace trug::ground
