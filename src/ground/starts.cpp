// SPDX-License-Identifier: MIT
#include "ground/starts.h"

namespace trug::ground {

Free free_before(const Start& start) {
  if (start.pinned) return Free::Any;
  const bool at_first = start.in_ground <= start.first_allowed + kFortnight;
  const int late = start.in_ground - start.window_last;
  if (late <= 0) return at_first ? Free::Any : Free::Soon;
  if (late > (start.flowers_next_year ? kMostLateDaysNextYear : kMostLateDays)) return Free::Never;
  return start.first_allowed > start.window_last && at_first ? Free::Any : Free::Near;
}

double way_weight(std::size_t way, bool bought_plants) {
  if (way == 0) return 1;
  return bought_plants ? kBoughtPlants : kOtherWay;
}

double place_weight(const Start& start) {
  const int outside =
      std::max(start.in_ground - start.window_last, start.window_first - start.in_ground);
  if (outside > 0) return std::max(kLeastOutside, kJustOutside - kOutsidePerDay * outside);
  const int length = start.window_last - start.window_first;
  const bool last_quarter = 4 * (start.in_ground - start.window_first) > 3 * length;
  if (!last_quarter) return 1;
  return start.flowers_next_year ? kLastQuarterNextYear : kLastQuarter;
}

std::vector<int> first_of_run(const std::vector<int>& allowed) {
  std::vector<int> result;
  for (std::size_t i = 0; i < allowed.size(); ++i) {
    const bool goes_on = i > 0 && allowed[i] - allowed[i - 1] <= kLongestPause;
    result.push_back(goes_on ? result.back() : allowed[i]);
  }
  return result;
}

}  // namespace trug::ground
