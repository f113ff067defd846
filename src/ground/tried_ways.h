// SPDX-License-Identifier: MIT
// Which ways of a sheet are tried for a planting at all.
#pragma once

#include <cstddef>
#include <optional>

#include "garden/plan.h"
#include "garden/sheet.h"
#include "ground/begun.h"
#include "ground/candidates.h"
#include "ground/refusal.h"

namespace trug::ground {

// Whether the plan or what has begun is another way than this one of the sheet.
bool is_another(const Sheet& sheet, const CropEntry& entry, const Begun& begun, std::size_t index);
// Why a way is not even tried for what begins anew: no place to raise it, or nobody asked for it.
std::optional<Refusal> not_tried(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                                 const Begun& begun, const Way& way);

// Whether seed that nobody asked to have raised could by then be sown where it is to flower.
bool is_better_sown_in_place(const Setting& setting, const Sheet& sheet, const CropEntry& entry,
                             const Way& way, Date start);

}  // namespace trug::ground
