// SPDX-License-Identifier: MIT
#include "work/job_kinds.h"

#include <algorithm>

namespace trug::work {

std::string_view word_for(JobKind kind, LifeCycle life_cycle) {
  const JobTrait& its = trait(kind);
  return its.of_annuals.empty() || is_planted(life_cycle) ? its.word : its.of_annuals;
}

std::optional<JobKind> parse_job_kind(std::string_view word) {
  const auto found = std::ranges::find_if(kTraits, [&](const JobTrait& kind) {
    return kind.word == word || (!word.empty() && kind.of_annuals == word);
  });
  if (found == kTraits.end()) return std::nullopt;
  return found->kind;
}

std::vector<JobKind> kinds_in_group(std::string_view word) {
  std::vector<JobKind> kinds;
  for (const JobTrait& kind : kTraits) {
    if (word_of(kJobGroups, kind.group) == word) kinds.push_back(kind.kind);
  }
  return kinds;
}

bool cannot_wait(JobKind kind, bool another_crop_follows) {
  const Urgent urgent = trait(kind).urgent;
  return urgent == Urgent::Yes || (urgent == Urgent::IfAnotherFollows && another_crop_follows);
}

const YearlyJob* yearly_job(JobKind kind, const Sheet& sheet) {
  const auto yearly = trait(kind).yearly;
  if (yearly == nullptr || (kind == JobKind::CutBack && sheet.second_flush)) return nullptr;
  const std::optional<YearlyJob>& job = sheet.*yearly;
  return job ? &*job : nullptr;
}

}  // namespace trug::work
