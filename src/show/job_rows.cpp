// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/job_sentences.h"
#include "show/job_words.h"
#include "show/purchase_words.h"
#include "work/job_kinds.h"
#include "work/minutes.h"

namespace trug::show {
namespace {

using ground::Sowing;
using work::Job;
using work::JobKind;

std::string doing(const Subject& of) {
  if (of.job.key.kind == JobKind::OrderBulbs || of.job.key.kind == JobKind::OrderTubers) {
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

// As many names as a line of a calendar holds: "cornflower, cosmos and 4 more".
std::string first_names(const std::vector<work::Purchase>& items) {
  constexpr int kRoom = 20;
  std::string text;
  std::set<std::string> names;
  for (const work::Purchase& item : items) names.insert(item.sheet->name);
  std::size_t said = 0;
  for (const std::string& name : names) {
    const bool fits = said == 0 || display_width(text) + display_width(name) <= kRoom;
    if (!fits) break;
    const bool last = ++said == names.size();
    text += (said == 1 ? "" : last ? " and " : ", ") + name;
  }
  const std::size_t more = names.size() - said;
  return more == 0 ? text : fmt::format("{} and {} more", text, more);
}

// A line an item, and until when it is right.
std::string order_text(const Plan& plan, const Job& order,
                       const std::vector<work::Purchase>& items) {
  std::string text = "To order:";
  for (const work::Purchase& item : items) {
    text += fmt::format("\n- {}, for {}", purchase_words(item), listed(plantings_of(plan, item)));
    if (const std::string note = note_of(item); !note.empty()) text += ". " + note;
  }
  const bool is_wanted_now =
      order.state == Job::State::Due &&
      std::ranges::any_of(items, [&](const auto& item) { return item.by <= order.day; });
  if (is_wanted_now) text += "\nIt is wanted at once: fetch it where it is sold near you.";
  if (order.first == order.last) return text;
  return text +
         fmt::format("\nStill right from {} to {}.", short_day(order.first), short_day(order.last));
}

JobRow order_row(const Plan& plan, const ground::Schedule& schedule, const Job& order) {
  JobRow row{order};
  row.items = work::items_of(plan, schedule, order, order.day);
  row.doing = capitalised(std::string(work::trait(order.key.kind).words));
  row.crop_words = first_names(row.items);
  row.text = order_text(plan, order, row.items);
  for (const work::Purchase& item : row.items) {
    const auto lines = caution_lines(*item.sheet);
    if (lines.empty() || !row.cautions_of.try_emplace(item.sheet->name, lines).second) continue;
    for (const std::string& line : lines) row.cautions.push_back(item.sheet->name + ": " + line);
  }
  return row;
}

JobRow row_of(const Subject& of) {
  JobRow row{of.job};
  row.doing = doing(of);
  row.crop_words = crop_words(of);
  row.text = job_text(of);
  if (work::trait(of.job.key.kind).hands_on) row.cautions = caution_lines(of.sheet);
  if (!row.cautions.empty()) row.cautions_of[of.job.crop] = row.cautions;
  return row;
}

}  // namespace

std::vector<JobRow> job_rows(const Plan& plan, const ground::Schedule& schedule,
                             const std::vector<Job>& jobs, const std::vector<std::string>& uids) {
  std::vector<JobRow> rows;
  rows.reserve(jobs.size());
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const Sowing& sowing = schedule.at(jobs[i].sowing);
    rows.push_back(jobs[i].parts.empty() ? row_of({plan, sowing, *sowing.sheet, jobs[i]})
                                         : order_row(plan, schedule, jobs[i]));
    if (!uids.empty()) rows.back().uid = uids[i];
    rows.back().minutes = work::minutes(jobs[i]);
  }
  for (JobRow& row : rows) {
    if (!row.told_with) continue;
    rows[*row.told_with].minutes += std::exchange(row.minutes, 0);
    const Sowing& sowing = schedule.at(row.sowing);
    const Subject of{plan, sowing, *sowing.sheet, row};
    rows[*row.told_with].text += " " + what_to_do(of);
  }
  return rows;
}

}  // namespace trug::show
