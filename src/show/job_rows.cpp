// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/job_sentences.h"
#include "show/job_words.h"
#include "work/job_kinds.h"

namespace trug::show {
namespace {

using ground::Sowing;
using work::Job;
using work::JobKind;

std::string doing(const Subject& of) {
  if (of.job.key.kind == JobKind::OrderBulbs) {
    return fmt::format("Order {}s", word_for_bulb(of.sheet.life_cycle));
  }
  return capitalised(std::string(work::trait(of.job.key.kind).words));
}

std::string crop_words(const Subject& of) {
  const CropEntry& asked = of.plan.plantings[of.job.planting].asked;
  const int succession = of.job.key.succession;
  return asked.id.value_or(asked.crop) + (succession > 0 ? fmt::format(" {}", succession) : "") +
         (of.job.key.repeat > 0 ? " again" : "");
}

}  // namespace

std::vector<JobRow> job_rows(const Plan& plan, const ground::Schedule& schedule,
                             const std::vector<Job>& jobs, const std::vector<std::string>& uids) {
  std::vector<JobRow> rows;
  rows.reserve(jobs.size());
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const Sowing& sowing = schedule.at(jobs[i].sowing);
    const Subject of{plan, sowing, *sowing.sheet, jobs[i]};
    const bool handled = work::trait(jobs[i].key.kind).hands_on;
    rows.push_back({jobs[i], uids.empty() ? "" : uids[i], doing(of), crop_words(of), job_text(of),
                    handled ? caution_lines(of.sheet) : std::vector<std::string>{}});
  }
  for (const JobRow& row : rows) {
    if (!row.told_with) continue;
    const Sowing& sowing = schedule.at(row.sowing);
    const Subject of{plan, sowing, *sowing.sheet, row};
    rows[*row.told_with].text += " " + what_to_do(of);
  }
  return rows;
}

}  // namespace trug::show
