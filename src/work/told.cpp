// SPDX-License-Identifier: MIT
#include "work/told.h"

#include <algorithm>
#include <string>

namespace trug::work {
namespace {

// Whether what happened has overtaken the day that was told: it was not done then, or what it
// follows began later than was told.
bool is_overtaken(Date told, const ground::Sowing& sowing, const RuleContext& context,
                  const Job& job) {
  if (told >= job.day) return false;
  const Planting& planting = context.plan.plantings[sowing.planting];
  const ground::Begun& begun = sowing.begun;
  const bool began_later = begun.earlier && !begun.start_told &&
                           begun.earlier->start < sowing.start && told < job.first &&
                           job.day >= context.when.today;
  return began_later || std::ranges::any_of(planting.happened, [&](const Happened& one) {
           return one.what == Happening::NotDone && one.succession == sowing.number &&
                  one.repeat == begun.repeat && told <= one.on && one.on <= job.day;
         });
}

// What only its own eyes tell the gardener is not taken as done while it is forecast for later.
// What was told for a day that is past stays on it; what was told for later and should have been
// done by now stays on its day while that is right, else it is due today.
void keep_told(Date told, Date today, bool only_seen, Job& job) {
  if (told < today) {
    if (only_seen && job.day >= today) return;
    job.day = told;
    job.state = Job::State::Assumed;
  } else if (job.day < today) {
    job.day = told <= job.last ? told : today;
    job.state = Job::State::Due;
  }
}

}  // namespace

bool agree_with_told(const ground::Sowing& sowing, const JobDraft& draft,
                     const RuleContext& context, Job& job) {
  const JobTrait& kind = trait(job.key.kind);
  if (!context.plan.remembers) return true;
  const Planting& planting = context.plan.plantings[sowing.planting];
  const auto told =
      told_day(planting, job.key.succession, job.key.repeat, std::string(to_string(job.key.kind)));
  job.due_again = told && is_overtaken(*told, sowing, context, job);
  if (job.due_again || kind.chosen || draft.pinned || draft.recorded || draft.soonest) return true;
  const Date today = context.when.today;
  if (told) {
    keep_told(*told, today, draft.kind == JobKind::FirstCut, job);
  } else if (job.day < today && !kind.forecast) {
    if (sowing.start < today && job.last < today) return false;
    job.day = today;
    job.state = Job::State::Due;
  }
  job.first = std::min(job.first, job.day);
  job.last = std::max(job.last, job.day);
  return true;
}

int plants_ordered(const Planting& planting, const ground::Sowing& sowing, Date today) {
  Date since{};
  for (const Happened& one : planting.happened) {
    const bool is_its = one.succession == sowing.number && one.repeat == sowing.begun.repeat;
    if (is_its && one.what == Happening::NotDone) since = std::max(since, one.on + Days{1});
  }
  int plants = 0;
  for (const Told& told : planting.told) {
    if (told.succession != sowing.number || told.repeat != sowing.begun.repeat) continue;
    for (const ToldPart& part : told.ordered) {
      if (since <= part.day && part.day < today) plants += part.plants;
    }
  }
  return plants;
}

int plants_spare(const Planting& planting, std::span<const ground::Sowing> sowings,
                 const ground::Sowing& sowing, Date today) {
  int spare = 0;
  for (const Told& told : planting.told) {
    int ordered = 0;
    for (const ToldPart& part : told.ordered) ordered += part.day < today ? part.plants : 0;
    const auto its = std::ranges::find_if(sowings, [&](const ground::Sowing& one) {
      return one.number == told.succession && one.begun.repeat == told.repeat;
    });
    if (its != sowings.end()) {
      spare += std::max(0, ordered - its->plants);
    } else if (told.degree < Degree::Started) {
      spare += ordered;
    }
  }
  for (const ground::Sowing& before : sowings) {
    if (before.number >= sowing.number) break;
    spare -= std::max(0, before.plants - plants_ordered(planting, before, today));
  }
  return std::max(0, spare);
}

}  // namespace trug::work
