// SPDX-License-Identifier: MIT
#include "work/records.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <optional>
#include <string>
#include <utility>

#include "work/goods.h"
#include "work/seeds.h"

namespace trug::work {
namespace {

using ground::Schedule;
using ground::Sowing;

// Whether the record says that this job was done.
bool is_record_of(Happening what, const JobDraft& draft) {
  const bool into_bed = draft.where == Raised::InPlace;
  switch (what) {
    case Happening::Sown:
      return draft.kind == JobKind::Sow || (draft.kind == JobKind::Plant && !into_bed);
    case Happening::Planted:
    case Happening::PlantedOut:
      return draft.kind == JobKind::PlantOut || (draft.kind == JobKind::Plant && into_bed);
    case Happening::Pinched:
      return draft.kind == JobKind::Pinch;
    case Happening::FirstCut:
    case Happening::Cut:
      return draft.kind == JobKind::FirstCut;
    case Happening::Lifted:
      return draft.kind == JobKind::Lift || draft.kind == JobKind::LiftAndStore;
    case Happening::Failed:
    case Happening::NotDone:
      return false;
  }
  return false;
}

bool is_of(const Happened& happened, const Sowing& sowing) {
  return happened.succession == sowing.number && happened.repeat == sowing.begun.repeat;
}

// Of tubers and corms that were potted up; else as it says.
Happening done_by(const Happened& happened, const Sowing& sowing) {
  const bool potted = happened.what == Happening::Planted && sowing.start == happened.on &&
                      sowing.start < sowing.in_ground;
  return potted ? Happening::Sown : happened.what;
}

void take_record(const Happened& happened, const Sowing& sowing, std::vector<JobDraft>& drafts) {
  // What the sheet leaves to the gardener was done all the same.
  if (happened.what == Happening::Pinched &&
      std::ranges::find(drafts, JobKind::Pinch, &JobDraft::kind) == drafts.end()) {
    drafts.push_back({.kind = JobKind::Pinch, .where = Raised::InPlace});
  }
  for (JobDraft& draft : drafts) {
    if (!is_record_of(done_by(happened, sowing), draft)) continue;
    // The first of its cuts, where none is called so.
    if (happened.what == Happening::Cut && draft.recorded) continue;
    draft.window = {happened.on, happened.on, happened.on};
    draft.recorded = true;
    draft.note = happened.note;
  }
}

// Nothing is due once it has failed, and there is nothing to lift; and what is done to it in pots
// is over once it is out.
bool is_over(const JobDraft& draft, const Sowing& sowing) {
  if (draft.recorded) return false;
  const ground::Begun& begun = sowing.begun;
  const Date day = draft.window.day;
  if (begun.failed) {
    const bool frees = draft.kind == JobKind::Lift || draft.kind == JobKind::ClearAndFeed;
    return frees || day >= *begun.failed;
  }
  const bool in_pots = draft.where && *draft.where != Raised::InPlace;
  return in_pots && begun.way && begun.in_ground && day > *begun.in_ground;
}

// Whether the choice puts such jobs off.
bool is_chosen(const Happened& not_done) {
  const auto kind = not_done.job ? parse_job_kind(*not_done.job) : std::nullopt;
  return !kind || *kind == JobKind::Sow || *kind == JobKind::Plant || *kind == JobKind::PlantOut;
}

// The last day on which a job that was not done is still worth doing.
Date last_right(const JobDraft& draft, const Sowing& sowing) {
  constexpr JobKind kWhileRaised[] = {JobKind::PrickOut, JobKind::PotOn, JobKind::HardenOff};
  constexpr JobKind kBeforeCut[] = {JobKind::Thin, JobKind::Support};
  const auto is_one_of = [&](const auto& kinds) {
    return std::ranges::find(kinds, draft.kind) != std::end(kinds);
  };
  if (is_one_of(kWhileRaised)) return sowing.in_ground - Days{1};
  if (is_one_of(kBeforeCut)) return sowing.timeline.first_cut.likely - Days{1};
  const Date last = std::max(draft.window.last, draft.window.day);
  const bool buys = trait(draft.kind).group == JobGroup::Buying;
  return buys ? std::max(last, sowing.start - Days{1}) : last;
}

// From the day on which it is due again; not before today, unless the calendar told a day for it.
Date put_off_to(Date day, Date said, std::optional<Date> told, Date today) {
  if (told && *told > said) return *told;
  const Date from = day == said && !told ? day + Days{1} : due_again(said, told);
  return std::max(from, today);
}

void put_off(const Happened& not_done, const Sowing& sowing, const RuleContext& context,
             std::vector<JobDraft>& drafts) {
  const auto draft = std::ranges::find_if(
      drafts, [&](const JobDraft& one) { return is_word_of(*not_done.job, one.kind); });
  if (draft == drafts.end()) return;
  const Date day = placed(*draft, context).day;
  const auto told = told_day(context.plan.plantings[sowing.planting], sowing.number,
                             sowing.begun.repeat, *not_done.job);
  if (std::min(day, told.value_or(day)) > not_done.on) return;
  const Date from = put_off_to(day, not_done.on, told, context.when.today);
  if (from > last_right(*draft, sowing)) {
    drafts.erase(draft);
    return;
  }
  draft->window.day = draft->window.first = from;
  draft->window.last = std::max(draft->window.last, from);
  draft->soonest = true;
}

int plants_in_hand(const Sowing& sowing, double there) {
  const Way& way = sowing.raised_by();
  if (sowing.young_plants || way.method != Method::Seed) return static_cast<int>(there);
  return static_cast<int>(there / seeds_per_plant(sowing));
}

std::optional<Held> held_for(const Sowing& sowing) {
  if (sowing.stands) return std::nullopt;
  if (sowing.young_plants) return Held::Plants;
  switch (sowing.raised_by().method) {
    case Method::Seed:
      return Held::Seed;
    case Method::Bulb:
      return Held::Bulbs;
    case Method::BoughtPlants:
      return Held::Plants;
    case Method::Established:
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace

void take_records(const Sowing& sowing, const RuleContext& context, std::vector<JobDraft>& drafts) {
  const auto& all = context.plan.plantings[sowing.planting].happened;
  for (const Happened& happened : all) {
    if (!is_of(happened, sowing)) continue;
    if (happened.what == Happening::NotDone) {
      if (!is_chosen(happened)) put_off(happened, sowing, context, drafts);
    } else {
      take_record(happened, sowing, drafts);
    }
  }
  std::erase_if(drafts, [&](const JobDraft& draft) { return is_over(draft, sowing); });
}

std::vector<int> in_hand(const Plan& plan, const Schedule& schedule) {
  std::map<std::pair<std::string, Held>, double> there;
  for (const InHand& held : plan.have) there[{held.crop, held.what}] += held.number;
  std::vector<std::size_t> order(schedule.sowings.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return schedule.sowings[i].start; });
  std::vector<int> result(order.size());
  for (const std::size_t i : order) {
    const Sowing& sowing = schedule.sowings[i];
    const auto held = held_for(sowing);
    const auto found = held ? there.find({sowing.sheet->name, *held}) : there.end();
    if (found == there.end()) continue;
    result[i] = std::min(sowing.plants, plants_in_hand(sowing, found->second));
    const double each = *held == Held::Seed ? seeds_per_plant(sowing) : 1;
    found->second = std::max(0.0, found->second - each * sowing.plants);
  }
  return result;
}

}  // namespace trug::work
