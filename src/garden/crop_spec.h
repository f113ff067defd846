// SPDX-License-Identifier: MIT
// One crop as it is grown: a sheet with one of its groups (early, mid, late), pinched or not.
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
  // `pinch`: the plan's word; absent: as the sheet advises.
  explicit CropSpec(const Sheet& sheet, const Group* group = nullptr,
                    std::optional<bool> pinch = std::nullopt)
      : sheet_(&sheet),
        group_(group),
        pinched_(pinch.value_or(sheet.pinch.advice == Pinch::Advice::Yes)) {}
  explicit CropSpec(Sheet&& sheet, const Group* group = nullptr,
                    std::optional<bool> pinch = std::nullopt) = delete;

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
  bool pinched() const { return pinched_; }
  FrostClass frost_class() const { return trug::frost_class(*sheet_); }

 private:
  const Sheet* sheet_;
  const Group* group_;
  bool pinched_;
};

}  // namespace trug
