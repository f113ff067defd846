// SPDX-License-Identifier: MIT
// The previous file as the only memory: what each event said, its numbers and its very bytes.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/uuid.h"
#include "calendar/event.h"
#include "calendar/render.h"

namespace trug::calendar {

struct StoredEvent {
  Event event;  // its reminder is not read back
  Revision revision;
  std::string bytes;  // from BEGIN:VEVENT to the line end of END:VEVENT
};

struct Memory {
  bool mended = false;  // its line ends, or what stands before the first line, were another's
  Uuid space;
  bool per_day = false;  // CalendarHead::per_day
  std::string name;      // CalendarHead::name
  Counters counters;
  std::string product;         // CalendarHead::product of the version that wrote it
  std::string head;            // head_content()
  std::optional<Facts> facts;  // absent: the file keeps none, or not as this version writes them
  std::vector<PlantingLine> plantings;  // none in a file of format 1
  std::vector<StoredEvent> events;
};

struct ReadMemory {
  std::string bytes;  // as they were given
  Memory memory;
  std::string refused;  // why the bytes are no file of trug's; empty: they are
};

// Other line ends, empty lines and a byte-order mark, as editors and version control leave them,
// are read as if they were not there.
ReadMemory read_memory(std::string_view bytes);

// Whether a calendar's head says that its events tell of a day each; false also for other bytes.
bool has_an_event_a_day(std::string_view bytes);

// Whether bytes that cannot be read are what is left of the calendar with that space: its head, or
// nothing at all.
bool are_remains(std::string_view bytes, const Uuid& space);

// What an event says: its unfolded lines without DTSTAMP, LAST-MODIFIED, SEQUENCE and X-TRUG-JOB.
std::string event_content(std::string_view vevent);
// What a calendar's head says: its unfolded lines without PRODID and the X-TRUG lines.
std::string head_content(std::string_view head);

}  // namespace trug::calendar
