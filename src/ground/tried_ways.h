// SPDX-License-Identifier: MIT
// Which ways of a sheet are tried for a planting at all, and on which days.
#pragma once

#include <cstddef>
#include <optional>

#include "base/date.h"
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

// A pinned start may leave the usual weeks by this, and no plant goes out before so much of the
// fewest (memory).
inline constexpr double kWeeksOff = 2, kGrownShare = 0.75;

// The fewest days from a start until its plants can go out.
Days grown_after(const Way& way);
// The days of `window` on which plants started on that day can go out; where there are none, all
// on which they can: pins beat windows.
DateRange within_reach(const Way& way, Date start, DateRange window);
// Of those on which it may go into the ground, the ones that the pins leave.
DateRange days_to_try(const Way& way, const Pins& pins, DateRange days);
// The day on which it was told to go out: it stays, unless it began so much later than was told
// that its plants are too small then.
std::optional<Date> day_told(const Way& way, Date start, const std::optional<Earlier>& earlier);

// So many weeks later than its window it may go into the ground; what is overdue is as right as a
// pin.
int late_weeks(const Way& way, const Begun& begun);

}  // namespace trug::ground
