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
  std::string kind;  // new, moved, changed, reworded, revived, cancelled, removed, expired
  std::string uid;
  std::string doing;  // "Sow"
  std::string summary;
  Date from;
  Date to;
  std::string planting;         // "lane/zinnia"
  std::vector<Reason> reasons;  // of a job whose day is another, or what is to be done
};

// A planting that is grown otherwise than the previous file told. Phrases, "late instead of mid".
struct PlantingChange {
  std::string planting;
  std::vector<std::string> buy;  // what is to be bought for it
  std::vector<std::string> way;
  bool operator==(const PlantingChange&) const = default;
};

// A bed whose crops were those of one that is gone: with its name as id it is that one.
struct Renamed {
  std::string before, now;
  bool operator==(const Renamed&) const = default;
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
  std::vector<PlantingChange> altered;
  std::vector<Renamed> renamed;
  // Past events that the plan now wants on a later day: they stay.
  std::vector<CalendarChange> overtaken;
};

// Told by planting, what matters first; `each_job`: then one by one as well.
std::string changes_page(const CalendarFile& file, bool each_job = false);
std::string changes_json(const DocumentHead& head, const Reckoned& reckoned,
                         const std::vector<CalendarFile>& files);

}  // namespace trug::show
