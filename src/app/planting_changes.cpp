// SPDX-License-Identifier: MIT
#include "app/planting_changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>
#include <span>
#include <string_view>
#include <utility>

#include "app/day_events.h"
#include "base/text.h"
#include "calendar/event.h"
#include "show/job_words.h"
#include "work/job_kinds.h"

namespace trug::app {
namespace {

using calendar::Change;
using calendar::ChangeKind;

bool is_gone(const Change& change) {
  return change.kind == ChangeKind::Cancelled || change.kind == ChangeKind::Removed;
}

bool is_order(const std::string& category) {
  const auto kind = work::parse_job_kind(category);
  return kind && work::trait(*kind).group == work::JobGroup::Buying;
}

// "lane" of "lane, 0 to 130 cm"
std::string bed_of_location(const std::string& location) {
  return location.substr(0, location.rfind(", "));
}

work::JobKey key_of(const Plan& plan, const Planting& planting, const Told& told) {
  const Bed* bed = bed_of(plan, planting);
  return {.flowering_year = planting.flowering_year,
          .bed = bed ? bed_identity(*bed) : "",
          .crop = planting.asked.crop,
          .planting = planting.asked.id.value_or("1"),
          .succession = told.succession,
          .repeat = told.repeat};
}

// What is bought for a planting and how it is raised, over all its sowings.
struct Grown {
  std::string way, group, variety;
  Method method{};
  int plants = 0;
};

std::optional<Grown> told(const Planting& planting) {
  std::optional<Grown> result;
  for (const Told& told : planting.told) {
    if (!told.start || told.repeat > 0) continue;
    const ToldStart& start = *told.start;
    if (!result) result = Grown{start.way, start.group, start.variety, start.method, 0};
    result->plants += start.plants;
  }
  return result;
}

std::optional<Grown> grown_now(const Planting& planting, std::span<const ground::Sowing> sowings) {
  if (sowings.empty() || sowings.front().begun.repeat > 0) return std::nullopt;
  const ground::Sowing& first = sowings.front();
  Grown result{first.raised_by().name, first.group ? first.group->name : "",
               planting.asked.variety.value_or(""), first.raised_by().method, 0};
  for (const ground::Sowing& sowing : sowings) result.plants += sowing.plants;
  return result;
}

std::string kind_words(const Grown& grown, int number, LifeCycle life_cycle) {
  switch (grown.method) {
    case Method::Seed:
      return fmt::format("seed for {}", counted(number, "plant"));
    case Method::BoughtPlants:
      return counted(number, "young plant");
    case Method::Bulb:
      return counted(number, life_cycle == LifeCycle::Bulb   ? "bulb"
                             : life_cycle == LifeCycle::Corm ? "corm"
                                                             : "tuber");
    case Method::Established:
      return counted(number, "plant");
  }
  return "";
}

std::string instead(const std::string& now, const std::string& before) {
  return fmt::format("{} instead of {}", now, before);
}

std::string quoted(const std::string& name, const char* none) {
  return name.empty() ? none : "'" + name + "'";
}

// Whether an order of it lies behind.
bool is_bought(const Planting& planting) {
  return std::ranges::any_of(planting.told,
                             [](const Told& told) { return told.degree >= Degree::Bought; });
}

std::string number_words(const Planting& planting, const Grown& before, const Grown& now,
                         LifeCycle life_cycle) {
  std::string text =
      instead(kind_words(now, now.plants, life_cycle), std::to_string(before.plants));
  if (now.plants > before.plants && is_bought(planting)) {
    text += fmt::format(", {} more than were ordered", now.plants - before.plants);
  }
  return text;
}

show::PlantingChange compared(const Planting& planting, const Grown& before, const Grown& now,
                              LifeCycle life_cycle) {
  show::PlantingChange result{planting.name, {}, {}};
  if (now.variety != before.variety) {
    result.buy.push_back(
        instead(quoted(now.variety, "no variety"), quoted(before.variety, "no variety")));
  }
  if (now.group != before.group) {
    result.buy.push_back(instead(now.group.empty() ? "any" : now.group,
                                 before.group.empty() ? "any" : before.group));
  }
  if (now.method != before.method) {
    result.buy.push_back(instead(kind_words(now, now.plants, life_cycle),
                                 kind_words(before, before.plants, life_cycle)));
    return result;
  }
  if (now.plants != before.plants) {
    result.buy.push_back(number_words(planting, before, now, life_cycle));
  }
  if (now.way != before.way) {
    result.way.push_back(instead("\"" + now.way + "\"", "\"" + before.way + "\""));
  }
  return result;
}

// The UIDs of what is gone, and of what is new.
struct Turnover {
  std::set<std::string> gone, fresh;
};

// Whether all its jobs are new, and each of its plantings has one that is gone under the other
// name.
bool was_named(const std::string& name, const Bed& bed, const Turnover& turnover,
               const Reckoning& r, const Uuid& space) {
  std::set<std::string> plantings, same;
  for (const work::Job& job : r.rows) {
    if (!job.parts.empty() || job.bed != bed.name || job.told_with)
      continue;  // another's event tells of it
    if (!turnover.fresh.contains(calendar::job_uid(space, job.key))) return false;
    plantings.insert(job.planting_name);
    work::JobKey key = job.key;
    key.bed = name;
    if (turnover.gone.contains(calendar::job_uid(space, key))) same.insert(job.planting_name);
  }
  return !plantings.empty() && plantings == same;
}

}  // namespace

PlantingsOfEvents::PlantingsOfEvents(const Reckoning& r, const Uuid& space) {
  for (const Planting& planting : r.plan.plantings) {
    for (const Told& told : planting.told) {
      work::JobKey key = key_of(r.plan, planting, told);
      for (const work::JobTrait& kind : work::kTraits) {
        key.kind = kind.kind;
        names_[calendar::job_uid(space, key)] = planting.name;
      }
    }
  }
  for (const work::Job& job : r.jobs) names_[calendar::job_uid(space, job.key)] = job.planting_name;
}

std::string PlantingsOfEvents::planting(const Change& change) const {
  const auto found = names_.find(change.uid);
  if (found != names_.end()) return found->second;
  if (change.category == kDayCategory) return "";
  if (is_order(change.category)) return "orders";
  const auto kind = work::parse_job_kind(change.category);
  if (change.location.empty() || !kind) return change.summary;
  const std::string bed = bed_of_location(change.location);
  std::string_view name = show::name_in_title(*kind, change.summary);
  if (name.ends_with(", " + bed)) name.remove_suffix(bed.size() + 2);
  return fmt::format("{}/{}", bed, name);
}

std::vector<show::PlantingChange> altered_plantings(const Reckoning& r) {
  std::vector<show::PlantingChange> result;
  for (std::size_t i = 0; i < r.plan.plantings.size(); ++i) {
    const Planting& planting = r.plan.plantings[i];
    const auto before = told(planting);
    const auto now = grown_now(planting, r.schedule.of(i));
    if (!before || !now) continue;
    auto change = compared(planting, *before, *now, r.schedule.weighed[i].sheet->life_cycle);
    if (!change.buy.empty() || !change.way.empty()) result.push_back(std::move(change));
  }
  return result;
}

std::vector<show::Renamed> renamed_beds(const Reckoning& r, const Uuid& space,
                                        const std::vector<Change>& changes) {
  Turnover turnover;
  std::set<std::string> names_gone;
  for (const Change& change : changes) {
    if (change.kind == ChangeKind::New) turnover.fresh.insert(change.uid);
    if (!is_gone(change)) continue;
    turnover.gone.insert(change.uid);
    names_gone.insert(bed_of_location(change.location));
  }
  for (const Bed& bed : r.plan.beds) names_gone.erase(bed.name);
  std::vector<show::Renamed> result;
  for (const Bed& bed : r.plan.beds) {
    for (const std::string& name : names_gone) {
      if (!bed.id && was_named(name, bed, turnover, r, space)) result.push_back({name, bed.name});
    }
  }
  return result;
}

}  // namespace trug::app
