// SPDX-License-Identifier: MIT
#include "work/told.h"

#include <algorithm>
#include <optional>
#include <string>

namespace trug::work {
namespace {

std::optional<Date> told_day(const Planting& planting, const Job& job) {
  for (const Told& told : planting.told) {
    if (told.succession != job.key.succession || told.repeat != job.key.repeat) continue;
    const auto found = told.jobs.find(std::string(to_string(job.key.kind)));
    if (found != told.jobs.end()) return found->second;
  }
  return std::nullopt;
}

}  // namespace

bool agree_with_told(const ground::Sowing& sowing, const JobDraft& draft,
                     const RuleContext& context, Job& job) {
  const JobTrait& kind = trait(job.key.kind);
  if (!context.plan.remembers || kind.forecast || kind.chosen || draft.pinned || draft.recorded ||
      draft.soonest) {
    return true;
  }
  const Date today = context.when.today;
  const auto told = told_day(context.plan.plantings[sowing.planting], job);
  if (told && *told < today) {
    job.day = *told;
    job.state = Job::State::Assumed;
  } else if (job.day < today) {
    const bool begun = sowing.start < today;
    if (begun && !told && job.last < today) return false;
    job.day = today;
    job.state = Job::State::Due;
  }
  job.first = std::min(job.first, job.day);
  job.last = std::max(job.last, job.day);
  return true;
}

}  // namespace trug::work
