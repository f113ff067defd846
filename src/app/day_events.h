// SPDX-License-Identifier: MIT
// A calendar with an event a day: all that is to be done on it, in the order of the work.
#pragma once

#include <string>
#include <vector>

#include "calendar/event.h"
#include "show/job_words.h"

namespace trug::app {

inline constexpr const char* kDayCategory = "garden day";

// One job, and the event that it would have by itself.
struct JobEvent {
  const show::JobRow* job = nullptr;
  calendar::Event event;
  std::string note = {};  // that its day wants besides; empty: none
};

// An event for each of their days. What was recorded on any of its jobs may move it even when past;
// it rings where one of them does.
std::vector<calendar::Event> day_events(const Uuid& space, const std::vector<JobEvent>& jobs);

}  // namespace trug::app
