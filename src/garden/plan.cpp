// SPDX-License-Identifier: MIT
#include "garden/plan.h"

namespace trug {

const CropEntry& entry(const Plan& plan, PlantingRef ref) {
  return plan.beds[ref.bed].stretches[ref.stretch].crops[ref.crop];
}

std::vector<PlantingRef> plantings(const Plan& plan) {
  std::vector<PlantingRef> result;
  for (std::size_t b = 0; b < plan.beds.size(); ++b) {
    for (std::size_t s = 0; s < plan.beds[b].stretches.size(); ++s) {
      for (std::size_t c = 0; c < plan.beds[b].stretches[s].crops.size(); ++c) {
        result.push_back({b, s, c});
      }
    }
  }
  return result;
}

std::string planting_name(const Plan& plan, PlantingRef ref) {
  const CropEntry& crop = entry(plan, ref);
  return plan.beds[ref.bed].name + "/" + crop.id.value_or(crop.crop);
}

const std::string& bed_identity(const Bed& bed) { return bed.id ? *bed.id : bed.name; }

bool is_southern(const Place& place) { return place.latitude < 0; }

}  // namespace trug
