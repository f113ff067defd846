// SPDX-License-Identifier: MIT
// What a calendar file's new version changed.
#pragma once

#include <string>
#include <vector>

#include "base/date.h"
#include "show/json.h"

namespace trug::show {

struct CalendarChange {
  std::string kind;  // new, moved, reworded, revived, cancelled, removed, expired
  std::string uid;
  std::string summary;
  Date from;
  Date to;
};

struct CalendarFile {
  std::string path;
  bool had_previous = false;
  bool dry_run = false;
  int events = 0;
  std::vector<CalendarChange> changes;
  // Past events that the plan now puts on a later day: they stay.
  std::vector<CalendarChange> overtaken;
};

std::string changes_page(const CalendarFile& file);
std::string changes_json(const DocumentHead& head, const std::vector<CalendarFile>& files);

}  // namespace trug::show
