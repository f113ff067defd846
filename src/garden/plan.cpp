// SPDX-License-Identifier: MIT
#include "garden/plan.h"

#include <utility>

namespace trug {

void add_planting(Plan& plan, std::size_t bed, std::size_t stretch, CropEntry asked) {
  const Bed& of = plan.beds[bed];
  const Stretch& on = of.stretches[stretch];
  Planting planting;
  planting.name = of.name + "/" + asked.id.value_or(asked.crop);
  planting.asked = std::move(asked);
  planting.flowering_year = plan.flowering_year;
  planting.patch = Patch{bed, static_cast<int>(stretch) + 1, on.offset, on.length, of.width};
  if (!plan.plantings.empty()) {
    const auto& last = plan.plantings.back().patch;
    if (last && last->bed == bed && last->stretch == planting.patch->stretch) {
      planting.follows = plan.plantings.size() - 1;
    }
  }
  plan.plantings.push_back(std::move(planting));
}

void add_elsewhere(Plan& plan, CropEntry asked) {
  Planting planting;
  planting.name = "elsewhere/" + asked.id.value_or(asked.crop);
  planting.asked = std::move(asked);
  planting.flowering_year = plan.flowering_year;
  plan.plantings.push_back(std::move(planting));
}

std::vector<std::vector<std::size_t>> chains(const Plan& plan) {
  std::vector<std::vector<std::size_t>> result;
  std::vector<std::size_t> chain_of(plan.plantings.size());
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto& before = plan.plantings[i].follows;
    if (!before) result.emplace_back();
    chain_of[i] = before ? chain_of[*before] : result.size() - 1;
    result[chain_of[i]].push_back(i);
  }
  return result;
}

Plan with_only(const Plan& plan, const std::vector<std::size_t>& kept) {
  Plan result = plan;
  result.plantings.clear();
  std::vector<std::optional<std::size_t>> place(plan.plantings.size());
  for (const std::size_t i : kept) {
    Planting planting = plan.plantings[i];
    while (planting.follows && !place[*planting.follows]) {
      planting.follows = plan.plantings[*planting.follows].follows;
    }
    if (planting.follows) planting.follows = place[*planting.follows];
    place[i] = result.plantings.size();
    result.plantings.push_back(std::move(planting));
  }
  return result;
}

const Bed* bed_of(const Plan& plan, const Planting& planting) {
  return planting.patch ? &plan.beds[planting.patch->bed] : nullptr;
}

const std::string& bed_name(const Plan& plan, const Planting& planting) {
  static const std::string kElsewhere = "elsewhere";
  return planting.patch ? plan.beds[planting.patch->bed].name : kElsewhere;
}

const std::string& bed_identity(const Bed& bed) { return bed.id ? *bed.id : bed.name; }

std::optional<Date> told_day(const Planting& planting, int succession, int repeat,
                             const std::string& job) {
  for (const Told& told : planting.told) {
    if (told.succession != succession || told.repeat != repeat) continue;
    const auto found = told.jobs.find(job);
    if (found != told.jobs.end()) return found->second;
  }
  return std::nullopt;
}

Date due_again(Date said, std::optional<Date> told) {
  if (!told) return said;
  return *told > said ? *told : said + Days{1};
}

bool is_southern(const Place& place) { return place.latitude < 0; }

}  // namespace trug
