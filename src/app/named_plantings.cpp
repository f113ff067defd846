// SPDX-License-Identifier: MIT
#include "app/named_plantings.h"

#include <string>

#include "base/text.h"

namespace trug::app {
namespace {

// sweet_pea and sweet-pea are sweet pea: shells make it hard to write a space.
std::string plain(const std::string& name) {
  std::string text = folded(name);
  for (char& c : text) {
    if (c == '_' || c == '-') c = ' ';
  }
  return text;
}

bool is_same(const std::string& asked, const std::string& name) {
  return plain(asked) == plain(name);
}

bool is_in_bed(const Options& options, const Plan& plan, const Planting& planting) {
  if (options.bed.empty() || is_same(options.bed, bed_name(plan, planting))) return true;
  const Bed* bed = bed_of(plan, planting);
  return bed && is_same(options.bed, bed_identity(*bed));
}

bool is_crop(const Options& options, const CropEntry& asked) {
  return options.crop.empty() || is_same(options.crop, asked.crop) ||
         is_same(options.crop, asked.id.value_or(asked.crop));
}

}  // namespace

std::vector<std::size_t> named_plantings(const Options& options, const Plan& plan) {
  std::vector<std::size_t> named;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const Planting& planting = plan.plantings[i];
    if (is_in_bed(options, plan, planting) && is_crop(options, planting.asked)) named.push_back(i);
  }
  return named;
}

int refuse_named(const Options& options, const Environment& environment, const Plan& plan) {
  std::vector<std::string> names;
  for (const Planting& each : plan.plantings) names.push_back(each.name);
  const std::string asked = options.crop.empty()  ? "in a bed '" + options.bed + "'"
                            : options.bed.empty() ? "of '" + options.crop + "'"
                                                  : "'" + options.bed + "/" + options.crop + "'";
  environment.err << "error: there is no planting " << asked << " in " << plan.file
                  << "\n  hint: there are " << listed(names) << "\n";
  return kBadInput;
}

}  // namespace trug::app
