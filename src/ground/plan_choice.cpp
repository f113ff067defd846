// SPDX-License-Identifier: MIT
#include "ground/plan_choice.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "ground/bound.h"
#include "ground/options.h"
#include "ground/plan_weeks.h"
#include "ground/remembered.h"
#include "ground/search.h"

namespace trug::ground {
namespace {

constexpr Days kSummerBeforeFrosts{30};  // of bare ground, before either
// What has begun has the ground before all that has not, what is in the ground before all else.
constexpr int kRatherThanAny = 1000, kRatherThanBegun = 100'000;

// The entry without what no candidate depends on: plantings that agree in the rest share theirs.
CropEntry dating(CropEntry entry) {
  entry.variety.reset();
  entry.id.reset();
  entry.plants.reset();
  entry.spacing_cm.reset();
  entry.colours.clear();
  entry.gap_days.reset();
  entry.leave = 0;
  entry.person.reset();
  entry.at = {};
  return entry;
}

// Likewise; what has begun goes out on the day that was told, where it can.
std::vector<Begun> dating(std::vector<Begun> all) {
  for (Begun& one : all) {
    one.plants.reset();
    if (!one.way) one.earlier.reset();
  }
  return all;
}

// As how many crops that have not begun it counts where it is left out.
int times_missed(const std::vector<Begun>& begun) {
  int times = 1;
  for (const Begun& one : begun) {
    if (!one.way || one.failed) continue;
    times = std::max(times, one.in_ground ? kRatherThanBegun : kRatherThanAny);
  }
  return times;
}

// The sowings of one planting as picked.
class Sower {
 public:
  Sower(const Plan& plan, const Schedule& schedule, std::size_t planting)
      : planting_(plan.plantings[planting]),
        weighed_(schedule.weighed[planting]),
        index_(planting) {}

  // `next`: what follows on its ground; null: nothing does.
  std::vector<Sowing> sow(const Pick& pick, Date lift, const Sowing* next) const {
    const std::vector<Candidate>& list = weighed_.candidates->list;
    std::vector<Sowing> result;
    if (weighed_.streams.empty()) {
      result.push_back(sowing(list[pick.option], 0, 1));
    } else {
      const Stream& stream = weighed_.streams[pick.option];
      const int strips = weighed_.strips(planting_.asked, stream);
      for (std::size_t i = 0; i < stream.sowings.size(); ++i) {
        result.push_back(sowing(list[stream.sowings[i]], static_cast<int>(i), strips));
        result.back().number = static_cast<int>(i) + 1;
      }
    }
    // The last to be over goes when the planting does, the others when they are over.
    const auto last = std::ranges::max_element(result, {}, &Sowing::lift_to);
    for (Sowing& one : result) {
      one.lift = &one == &*last ? lift : std::min(one.lift_to, lift);
      if (next == nullptr) continue;
      one.next_in_ground = next->in_ground;
      one.next_sheet = next->sheet;
      one.next_is_sown = is_sown_in_place(next->raised_by());
    }
    // Its neighbours' days may have asked for less.
    for (Sowing& one : result) {
      if (one.begun.lift) one.lift = *one.begun.lift;
    }
    return result;
  }

  // What became of the starts that failed, as far as it can be told how they were begun.
  std::vector<Sowing> failed(const Setting& setting) const {
    std::vector<Sowing> result;
    for (const Begun& begun : weighed_.begun) {
      if (!begun.failed) continue;
      CropEntry entry = planting_.asked;
      entry.successions = 1;
      Begun alone = begun;
      alone.number = 0;
      const Candidates all = candidates(setting, *weighed_.sheet, entry, {alone});
      const Candidate* likeliest = nullptr;
      for (const Candidate& c : all.list) {
        const auto off = [](const Candidate& one) {
          return std::pair(one.way, std::abs(days_between(one.window_middle(), one.in_ground)));
        };
        const bool before = c.start <= *begun.failed;
        if (before && (!likeliest || off(c) < off(*likeliest))) likeliest = &c;
      }
      if (!likeliest) continue;
      result.push_back(
          sowing(*likeliest, std::max(0, begun.number - 1),
                 std::max({1, begun.number, planting_.asked.successions.value_or(1)})));
      result.back().number = begun.number;
      result.back().begun = begun;
      result.back().lift = *begun.failed;
    }
    return result;
  }

 private:
  // The i-th of so many.
  Sowing sowing(const Candidate& candidate, int i, int count) const {
    Sowing result{candidate};
    const Layout ground = layout(planting_, *weighed_.sheet, count);
    result.planting = index_;
    if (planting_.patch) {
      result.length = Millimetres{planting_.patch->length.value() / count};
      result.offset = planting_.patch->offset + result.length * i;
    }
    result.plants = plants_of_sowing(ground, count, i);
    const Begun* known = standing(weighed_.begun, count > 1 ? i + 1 : 0);
    if (known && known->plants) {
      const bool just_so = known->way || known->young_plants;
      result.plants = just_so ? *known->plants : std::max(*known->plants, result.plants);
    }
    result.rows = ground.rows / count;
    result.spacing_cm = ground.spacing_cm;
    result.cut_share = 1 - planting_.asked.leave;
    result.sheet = weighed_.sheet;
    return result;
  }

  const Planting& planting_;
  const Weighed& weighed_;
  std::size_t index_;
};

// But for what waits until after the wish.
std::shared_ptr<const Options> useful(Options options, const std::optional<DateRange>& wish,
                                      const DayCount& count) {
  if (wish) refuse_hardly_useful(options, count.number(wish->from), count.number(wish->until) - 1);
  return std::make_shared<Options>(std::move(options));
}

// Puts a plan together as numbers, and its sowings together from the picks.
class Chooser {
 public:
  Chooser(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
          ChoiceOptions options)
      : plan_(plan),
        sheets_(sheets),
        climate_(climate),
        options_(options),
        count_(climate, plan.flowering_year),
        wish_(harvest::wish_days(plan, climate)),
        chains_(chains(plan)),
        setting_{.climate = climate,
                 .place = plan.place,
                 .work = plan.work,
                 .shelter = plan.shelter,
                 .flowering_year = plan.flowering_year,
                 .first_day = options.first_day,
                 .today = options.today,
                 .wish_end = wish_ ? std::optional(wish_->until - Days{1}) : std::nullopt} {
    const climate::SeasonFrosts frosts = climate.frosts(plan.flowering_year);
    summer_ = {count_.number(frosts.last - kSummerBeforeFrosts),
               count_.number(frosts.first - kSummerBeforeFrosts)};
  }

  Schedule run() {
    weigh();
    const PlanProblem problem = this->problem();
    const Found found = this->found(problem);
    take_over(found.picks);
    add_failed();
    schedule_.rounds = found.rounds;
    schedule_.calls = found.calls;
    schedule_.settled = found.settled;
    schedule_.exact = found.is_best;
    if (options_.with_bound) schedule_.bound = bound_of(problem, found.picks);
    return std::move(schedule_);
  }

 private:
  void weigh() {
    std::vector<const Sheet*> sheets;
    for (const Planting& each : plan_.plantings) sheets.push_back(sheets_.at(each.asked.crop));
    auto all = begun(plan_, sheets, climate::Season(climate_, plan_.flowering_year));
    std::map<std::tuple<CropEntry, std::vector<Begun>, Cover>, std::shared_ptr<const Candidates>>
        known;
    for (std::size_t i = 0; i < plan_.plantings.size(); ++i) {
      const Planting& planting = plan_.plantings[i];
      const Setting setting = setting_of(planting);
      auto& shared = known[{dating(planting.asked), dating(all[i]), setting.cover}];
      if (!shared) {
        shared =
            std::make_shared<Candidates>(candidates(setting, *sheets[i], planting.asked, all[i]));
      }
      Weighed weighed{.sheet = sheets[i], .candidates = shared, .begun = std::move(all[i])};
      const auto wish_begin = wish_ ? std::optional(wish_->from) : std::nullopt;
      weighed.streams = streams_of(*shared, planting.asked, *sheets[i], wish_begin, weighed.begun);
      weighed.layout = layout(planting, *sheets[i], std::max(1, weighed.most_sowings()));
      schedule_.weighed.push_back(std::move(weighed));
    }
  }

  // Of the bed it stands in.
  Setting setting_of(const Planting& planting) const {
    Setting setting = setting_;
    const Bed* bed = bed_of(plan_, planting);
    if (bed != nullptr) setting.cover = bed->cover;
    return setting;
  }

  // Those of one list of candidates are laid out once.
  using KnownOptions = std::map<const Candidates*, std::shared_ptr<const Options>>;

  StretchCrop crop_of(std::size_t planting, std::size_t kind, KnownOptions& known) {
    const Weighed& weighed = schedule_.weighed[planting];
    StretchCrop crop{.kind = kind};
    crop.missed = times_missed(weighed.begun);
    crop.plants = 1 - plan_.plantings[planting].asked.leave;
    if (!weighed.streams.empty()) {
      crop.options = stream_options(planting);
      return crop;
    }
    crop.plants *= weighed.layout.plants;
    auto& shared = known[weighed.candidates.get()];
    if (!shared) shared = single_options(planting);
    crop.options = shared;
    return crop;
  }

  PlanProblem problem() {
    PlanProblem problem;
    std::map<std::string, std::size_t> kinds;
    KnownOptions known;
    for (const auto& chain : chains_) {
      StretchGround ground = empty_ground(plan_.plantings[chain.front()].patch);
      for (const std::size_t planting : chain) {
        const Sheet& sheet = *schedule_.weighed[planting].sheet;
        const auto kind = kinds.emplace(sheet.name, problem.kinds.size());
        if (kind.second) problem.kinds.push_back(harvest::part_of(sheet.roles.front()));
        ground.crops.push_back(crop_of(planting, kind.first->second, known));
      }
      begin_with_what_stands(ground);
      problem.stretches.push_back(std::move(ground));
    }
    problem.wanted = wanted();
    return problem;
  }

  // What was told stands whole as long as nothing is edited.
  Found found(const PlanProblem& problem) const {
    const auto before = remembered(plan_, schedule_.weighed, chains_, problem, count_);
    if (before && stands_whole(plan_, *before)) return {.picks = before->picks, .score = {}};
    return search(problem, before);
  }

  static Bound bound_of(const PlanProblem& problem, const std::vector<Picks>& picks) {
    PlanWeeks weeks(problem);
    for (std::size_t i = 0; i < picks.size(); ++i) weeks.add(i, picks[i]);
    return {score_of(problem, picks, weeks).value, upper_bound(problem, picks)};
  }

  // What grows outside the beds takes no ground that could lie bare.
  StretchGround empty_ground(const std::optional<Patch>& patch) const {
    StretchGround ground{.area_m2 = 0,
                         .gap = plan_.work.days_between_crops,
                         .horizon = count_.horizon(),
                         .summer = summer_};
    if (patch) ground.area_m2 = patch->length.value() / 1000.0 * (patch->width.value() / 1000.0);
    if (options_.first_day) ground.free_on = std::max(0, count_.number(*options_.first_day));
    return ground;
  }

  // What stands already began before the first day of the plan.
  static void begin_with_what_stands(StretchGround& ground) {
    for (const StretchCrop& crop : ground.crops) {
      for (const Option& option : crop.options->list) {
        ground.free_on = std::min(ground.free_on, option.in_ground);
      }
    }
  }

  std::shared_ptr<const Options> single_options(std::size_t planting) const {
    const Weighed& weighed = schedule_.weighed[planting];
    const CropEntry& asked = plan_.plantings[planting].asked;
    return useful(options_of(*weighed.candidates, asked, *weighed.sheet, count_), wish_, count_);
  }
  std::shared_ptr<const Options> stream_options(std::size_t planting) const {
    const Weighed& weighed = schedule_.weighed[planting];
    return useful(options_of(weighed, plan_.plantings[planting], summer_, count_), wish_, count_);
  }

  std::optional<std::vector<harvest::Wanted>> wanted() const {
    if (!wish_) return std::nullopt;
    std::vector<harvest::Wanted> weeks(count_.weeks());
    const int first = count_.number(wish_->from) / 7;
    const int last = count_.number(wish_->until - Days{1}) / 7;
    for (int week = first; week <= last; ++week) {
      weeks[static_cast<std::size_t>(week)] = harvest::wanted(*plan_.wish);
    }
    return weeks;
  }

  void take_over(const std::vector<Picks>& picks) {
    std::vector<std::vector<Sowing>> sown(plan_.plantings.size());
    for (std::size_t stretch = 0; stretch < chains_.size(); ++stretch) {
      const Sowing* next = nullptr;
      for (std::size_t i = chains_[stretch].size(); i-- > 0;) {
        const auto& pick = picks[stretch][i];
        if (!pick) continue;
        const std::size_t planting = chains_[stretch][i];
        sown[planting] =
            Sower(plan_, schedule_, planting).sow(*pick, count_.date(pick->lift), next);
        next = &sown[planting].front();
      }
    }
    for (auto& sowings : sown) {
      for (Sowing& sowing : sowings) schedule_.sowings.push_back(std::move(sowing));
    }
  }

  void add_failed() {
    for (std::size_t i = 0; i < plan_.plantings.size(); ++i) {
      for (Sowing& sowing : Sower(plan_, schedule_, i).failed(setting_of(plan_.plantings[i]))) {
        schedule_.failed.push_back(std::move(sowing));
      }
    }
  }

  const Plan& plan_;
  const Sheets& sheets_;
  const climate::Climate& climate_;
  const ChoiceOptions options_;
  const DayCount count_;
  const std::optional<DateRange> wish_;
  const std::vector<std::vector<std::size_t>> chains_;
  Setting setting_;
  Summer summer_;
  Schedule schedule_;
};

}  // namespace

Schedule choose_plan(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                     ChoiceOptions options) {
  return Chooser(plan, sheets, climate, options).run();
}

}  // namespace trug::ground
