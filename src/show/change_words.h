// SPDX-License-Identifier: MIT
// What a calendar file's new version changed.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/date.h"
#include "show/document_head.h"
#include "show/json.h"

namespace trug::show {

// Why a day is another than before.
struct Reason {
  std::string code;  // "last-frost"
  std::string text;  // "last frost 8 days later"
  bool operator==(const Reason&) const = default;
};

struct CalendarChange {
  std::string kind;  // new, moved, reworded, revived, cancelled, removed, expired
  std::string uid;
  std::string summary;
  Date from;
  Date to;
  std::vector<Reason> reasons;  // of a job whose day is another
};

struct CalendarFile {
  std::string path;
  bool had_previous = false;
  bool dry_run = false;
  int events = 0;
  // What the days hang on and is another than in the previous file; absent where that file does not
  // tell.
  std::optional<std::vector<Reason>> what_changed;
  std::vector<CalendarChange> changes;
  // Past events that the plan now wants on a later day: they stay.
  std::vector<CalendarChange> overtaken;
};

std::string changes_page(const CalendarFile& file);
std::string changes_json(const DocumentHead& head, const Reckoned& reckoned,
                         const std::vector<CalendarFile>& files);

}  // namespace trug::show
