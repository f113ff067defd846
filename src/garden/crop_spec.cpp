// SPDX-License-Identifier: MIT
#include "garden/crop_spec.h"

#include <algorithm>
#include <cmath>

namespace trug {

std::string CropSpec::name() const {
  return group_ ? sheet_->name + " (" + group_->name + ")" : sheet_->name;
}

const std::optional<Growth>& CropSpec::growth() const {
  return group_ && group_->growth ? group_->growth : sheet_->growth;
}

Range CropSpec::cutting_weeks() const {
  return group_ && group_->cutting_weeks ? *group_->cutting_weeks : sheet_->cutting_weeks;
}

int CropSpec::cutting_days() const {
  constexpr int kFewest = 7;
  return std::max(kFewest, static_cast<int>(std::lround(cutting_weeks().middle() * 7)));
}

Range CropSpec::stems_per_plant(const Way& way) const {
  if (way.stems_per_plant) return *way.stems_per_plant;
  return group_ && group_->stems_per_plant ? *group_->stems_per_plant : sheet_->stems_per_plant;
}

const std::optional<FrostWindow>& CropSpec::first_flower(const Way& way) const {
  return group_ && group_->first_flower ? group_->first_flower : way.first_flower;
}

}  // namespace trug
