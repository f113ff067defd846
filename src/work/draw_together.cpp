// SPDX-License-Identifier: MIT
#include "work/draw_together.h"

#include <algorithm>
#include <cstddef>
#include <map>
#include <string>
#include <utility>

namespace trug::work {
namespace {

constexpr int kDrawnBy = 7;  // days at most

bool is_free(const Job& job, Date today) {
  return trait(job.key.kind).together && job.state != Job::State::Recorded && !job.told_with &&
         (job.state == Job::State::Due || job.day >= today);
}

bool may_be_on(Date day, const Job& job, const std::vector<Job>& jobs) {
  return job.first <= day && job.day - Days{kDrawnBy} <= day &&
         std::ranges::all_of(job.after, [&](std::size_t i) { return jobs[i].day <= day; });
}

}  // namespace

void draw_together(Date today, std::vector<Job>& jobs) {
  std::map<std::pair<std::string, JobKind>, std::vector<std::size_t>> alike;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    if (is_free(jobs[i], today)) alike[{jobs[i].key.bed, jobs[i].key.kind}].push_back(i);
  }
  for (auto& [key, places] : alike) {
    std::ranges::stable_sort(places, {}, [&](std::size_t i) { return jobs[i].day; });
    Date with = jobs[places.front()].day;
    for (const std::size_t i : places) {
      if (with >= today && may_be_on(with, jobs[i], jobs)) {
        jobs[i].day = with;
      } else {
        with = jobs[i].day;
      }
    }
  }
}

}  // namespace trug::work
