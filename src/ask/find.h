// SPDX-License-Identifier: MIT
// Findings by looking: nothing is chosen or reckoned anew.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "ask/findings.h"
#include "ask/garden.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"

namespace trug::ask {

// All there is to look at.
struct View {
  const Garden& garden;
  const ground::Schedule& chosen;    // by the averages, as are the flags that are judged
  const ground::Schedule& schedule;  // as measured weather moves it
  const std::vector<harvest::Week>& weeks;

  const Plan& plan() const { return garden.plan; }
  std::span<const ground::Sowing> sowings(std::size_t planting) const {
    return chosen.of(planting);
  }
  bool grown(std::size_t planting) const { return !sowings(planting).empty(); }
  const ground::Weighed& weighed(std::size_t planting) const { return chosen.weighed[planting]; }
  const Sheet& sheet(std::size_t planting) const { return *weighed(planting).sheet; }
};

// All that is seen, worst first, then in the plan's order.
std::vector<Finding> find(const View& view);

// What find() looks at, one after the other.
Found left_out(const View& view, std::size_t planting);
// The nearest planting before it on its ground that is grown.
std::optional<std::size_t> grown_before(const View& view, std::size_t planting);
// The way that came nearest, of a crop that is not grown: what the gardener would try first.
const ground::WayReport* nearest_way(const ground::Candidates& candidates);
std::vector<Finding> of_grown(const View& view, std::size_t planting);
std::optional<AgainstTold> against_told(const View& view, const ground::Sowing& sowing);
std::optional<HeatPause> heat_pause(const ground::Sowing& sowing);
std::optional<OneGroup> one_group(const View& view, std::size_t planting);
// What the plan says of a crop, grown or not.
std::vector<Finding> of_asked(const View& view, std::size_t planting);
// Ground without a use, bed by bed.
std::vector<Finding> of_ground(const View& view);
// What the frosts of the place mean for all that is planned there.
std::vector<Finding> of_place(const View& view);
std::vector<Finding> of_wish(const View& view);
// Trays, frames and nursery beds that are too small.
std::vector<Finding> of_shelter(const View& view);

}  // namespace trug::ask
