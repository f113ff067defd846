// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <algorithm>
#include <map>
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

const std::string& name_of(const Planting& planting) {
  return planting.asked.id ? *planting.asked.id : planting.asked.crop;
}

std::string doing(const Subject& of) {
  if (of.job.key.kind == JobKind::OrderBulbs || of.job.key.kind == JobKind::OrderTubers) {
    return fmt::format("Order {}s", word_for_bulb(of.sheet.life_cycle));
  }
  if (of.job.key.kind == JobKind::Lift) return capitalised(std::string(leave_word(of.sheet)));
  return capitalised(std::string(work::trait(of.job.key.kind).words));
}

std::string crop_words(const Subject& of) {
  const int succession = of.job.key.succession;
  return name_of(of.plan.plantings[of.job.planting]) +
         (succession > 0 ? fmt::format(" {}", succession) : "") +
         (of.job.key.repeat > 0 ? " again" : "");
}

bool stands_in_two_beds(const Plan& plan, const Planting& planting) {
  return std::ranges::any_of(plan.plantings, [&](const Planting& other) {
    return bed_of(plan, other) != bed_of(plan, planting) && name_of(other) == name_of(planting);
  });
}

// "Sow late cornflower (2), wall bed": the bed where there are such in two.
std::string title(const Subject& of) {
  const Planting& planting = of.plan.plantings[of.job.planting];
  const bool in_sheets_words =
      !planting.asked.id && planting.asked.crop == of.sheet.name && !of.sheet.plural.empty();
  std::string title(title_pattern(of));
  title.replace(title.find("{}"), 2, in_sheets_words ? of.sheet.plural : name_of(planting));
  if (of.job.key.succession > 0) title += fmt::format(" ({})", of.job.key.succession);
  if (of.job.key.repeat > 0) title += " again";
  return stands_in_two_beds(of.plan, planting) ? title + ", " + of.job.bed : title;
}

// "Order gladiolus corms", "Order seed of 4 crops".
std::string title(const JobRow& order) {
  std::set<const Sheet*> crops;
  for (const work::Purchase& item : order.items) crops.insert(item.sheet);
  if (crops.size() > 1) return fmt::format("{} of {} crops", order.doing, crops.size());
  const Sheet& sheet = **crops.begin();
  const bool bulbs =
      order.key.kind == JobKind::OrderBulbs || order.key.kind == JobKind::OrderTubers;
  const std::string goods = bulbs ? fmt::format("{}s", word_for_bulb(sheet.life_cycle))
                                  : order.doing.substr(order.doing.find(' ') + 1);
  return fmt::format("Order {} {}", sheet.name, goods);
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
  row.title = title(row);
  row.text = order_text(plan, order, row.items);
  for (const work::Purchase& item : row.items) {
    if (item.sheet->cautions.empty()) continue;
    row.cautions_of[item.sheet->name] = caution_lines(*item.sheet);
    row.cautions[item.sheet->name] = buyers_caution_lines(*item.sheet);
  }
  return row;
}

JobRow row_of(const Subject& of) {
  JobRow row{of.job};
  row.doing = doing(of);
  row.crop_words = crop_words(of);
  row.title = title(of);
  row.text = job_text(of);
  if (work::trait(of.job.key.kind).hands_on && !of.sheet.cautions.empty()) {
    row.cautions_of[of.job.crop] = caution_lines(of.sheet);
  }
  return row;
}

// What is handled again is told where its cautions stand whole.
void say_cautions(const ground::Schedule& schedule, std::vector<JobRow>& rows) {
  std::map<std::size_t, std::string> first_titles;  // by the sowing
  for (JobRow& row : rows) {
    if (!row.parts.empty() || row.cautions_of.empty()) continue;
    row.cautions = row.cautions_of;
    const bool bought = work::trait(row.key.kind).group == work::JobGroup::Buying;
    if (bought || row.told_with || row.key.kind == JobKind::FirstCut) continue;
    const auto [first, fresh] = first_titles.try_emplace(row.sowing, row.title);
    if (fresh) continue;
    row.cautions[row.crop] = {short_caution(*schedule.at(row.sowing).sheet, first->second)};
  }
}

}  // namespace

std::vector<std::string> caution_lines(const JobRow& row) {
  std::vector<std::string> lines;
  for (const auto& [crop, its] : row.cautions) {
    for (const std::string& line : its) {
      lines.push_back(row.parts.empty() ? line : fmt::format("{}: {}", crop, line));
    }
  }
  return lines;
}

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
  say_cautions(schedule, rows);
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
