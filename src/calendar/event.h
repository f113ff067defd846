// SPDX-License-Identifier: MIT
// One event of the calendar, in words already, and who it is.
#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/date.h"
#include "base/uuid.h"
#include "work/jobs.h"

namespace trug::calendar {

// A moment in UTC, to the second.
using Instant = std::chrono::sys_seconds;

// Of a joint order: who it is, and how many plants of each start (order_part_id()) it is for.
struct Order {
  int month = 0;  // 202701
  int repeat = 0;
  std::map<Uuid, int> plants;
  bool operator==(const Order&) const = default;
};

// One job of an event that tells of a whole day: what the next run wants to know of it.
struct DayJob {
  std::string uid;       // job_uid()
  std::string category;  // the job's word
  std::optional<Order> order;
  bool operator==(const DayJob&) const = default;
};

struct Event {
  std::string uid;  // job_uid() or day_uid()
  Date start;
  Date end;  // exclusive, as DTEND
  std::string summary;
  std::string description;
  std::string location;
  std::string category;  // the job's word; commas, semicolons and backslashes are dropped
  // Before the first moment of `start`, always more than none; absent: no reminder.
  std::optional<std::chrono::minutes> reminder;
  bool cancelled = false;
  int flowering_year = 0;
  std::optional<Order> order;
  std::vector<DayJob> jobs;  // of a day, in the order of the work; empty: it is one job itself
  bool recorded = false;  // its day follows from what really happened: it may move even when past
};

// What CATEGORIES says of a job's word, "First cut", and the word of what it says; earlier
// calendars have the word itself. Other words begin with a capital.
std::string category_text(std::string_view word);
std::string category_word(std::string_view text);

// The space of one calendar's UIDs. `part` names a split file (a bed, a person, a kind of job);
// empty: the whole garden.
Uuid namespace_of(const Uuid& garden, std::string_view part);

// UUIDv5 of the key: the same job keeps its UID whatever its date, wording or position.
// RFC 5545, 3.8.4.7: globally unique and persistent; RFC 7986, 5.3: it gives nobody away.
std::string job_uid(const Uuid& space, const work::JobKey& key);

// UUIDv5 of the day and the flowering year: the day is who the event is, whatever jobs move to it.
std::string day_uid(const Uuid& space, Date day, int flowering_year);

// A start of a planting as joint orders name it: planting_id(), another for each variety, so that
// what is ordered of one is not taken for the other.
Uuid order_part_id(const Uuid& garden, work::JobKey key, const std::optional<std::string>& variety);

}  // namespace trug::calendar
