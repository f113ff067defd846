// SPDX-License-Identifier: MIT
// One crop as it is grown: a sheet with one of its groups (early, mid, late) resolved.
#pragma once

#include <optional>
#include <string>

#include "garden/sheet.h"

namespace trug {

// Every figure that a group may replace is asked here, and nowhere else.
//
// Two pointers, copied freely: the sheet, which holds the group, must outlive it.
class CropSpec {
 public:
  explicit CropSpec(const Sheet& sheet, const Group* group = nullptr)
      : sheet_(&sheet), group_(group) {}
  explicit CropSpec(Sheet&& sheet, const Group* group = nullptr) = delete;

  const Sheet& sheet() const { return *sheet_; }
  const Group* group() const { return group_; }  // null: none is meant
  bool operator==(const CropSpec&) const = default;

  // "tulip", or with its group "tulip (late)".
  std::string name() const;
  // Absent: first cuts come from windows.
  const std::optional<Growth>& growth() const;
  Range cutting_weeks() const;
  // The days of one flush from the first cut to the last: the middle of the weeks, at least 7.
  int cutting_days() const;
  // Of a plant raised this way, over its whole flowering: the way's own figure before the group's.
  Range stems_per_plant(const Way& way) const;
  // The trade's window for the first flower: the group's before the way's.
  const std::optional<FrostWindow>& first_flower(const Way& way) const;
  FrostClass frost_class() const { return trug::frost_class(*sheet_); }

 private:
  const Sheet* sheet_;
  const Group* group_;
};

}  // namespace trug
