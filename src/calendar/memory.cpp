// SPDX-License-Identifier: MIT
#include "calendar/memory.h"

#include <fmt/format.h>

#include <algorithm>
#include <initializer_list>
#include <optional>
#include <span>
#include <utility>

#include "calendar/check.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr std::string_view kEventBegin = "BEGIN:VEVENT";

std::string without(std::string_view bytes, std::initializer_list<std::string_view> left_out) {
  std::string content;
  for (ContentLines lines(bytes); lines.next();) {
    const std::string_view text = lines.line().text;
    const auto property = parse_property(text);
    if (property && std::ranges::find(left_out, property->name) != left_out.end()) continue;
    content += text;
    content += '\n';
  }
  return content;
}

// A moment before 2200: no plan reaches that far, and there is room for later ones.
std::optional<Instant> parse_stamp(std::string_view text) {
  const auto stamp = parse_instant_value(text);
  return stamp && *stamp < make_date(2200, 1, 1) ? stamp : std::nullopt;
}

// The bytes with CRLF at each line's end, without empty lines and byte-order mark.
std::string as_written(std::string_view bytes) {
  std::string text;
  text.reserve(bytes.size() + bytes.size() / 16);
  if (bytes.starts_with("\xef\xbb\xbf")) bytes.remove_prefix(3);
  while (!bytes.empty()) {
    const std::size_t end = std::min(bytes.find('\n'), bytes.size());
    std::string_view line = bytes.substr(0, end);
    bytes.remove_prefix(std::min(end + 1, bytes.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    if (line.empty()) continue;
    text += line;
    text += "\r\n";
  }
  return text;
}

// "2 <space> <floor> <stamp>", and "day" where its events tell of a day each; format 1 has no
// X-TRUG-PLANTING lines.
bool read_counters(std::string_view value, Memory& memory) {
  memory.per_day = value.ends_with(kPerDay);
  if (memory.per_day) value.remove_suffix(kPerDay.size());
  const auto words = words_of(value);
  if (words.size() != 4 || (words[0] != "1" && words[0] != kMemoryFormat)) return false;
  const auto space = parse_uuid(words[1]);
  const auto floor = parse_count(words[2]);
  const auto stamp = parse_stamp(words[3]);
  if (!space || !floor || !stamp) return false;
  memory.space = *space;
  memory.counters = {*floor, *stamp};
  return true;
}

// "-//trug//NONSGML <product>//EN"
std::string product_of(std::string_view value) {
  constexpr std::string_view kBefore = "-//trug//NONSGML ", kAfter = "//EN";
  if (!value.starts_with(kBefore) || !value.ends_with(kAfter)) return {};
  value.remove_prefix(kBefore.size());
  value.remove_suffix(kAfter.size());
  return std::string(value);
}

// "1 <name>=<value> <name>=<value> ..."
std::optional<Facts> read_facts(std::string_view value) {
  const auto words = words_of(value);
  if (words.empty() || words[0] != "1") return std::nullopt;
  Facts facts;
  for (const std::string_view word : std::span(words).subspan(1)) {
    const std::size_t equals = word.find('=');
    if (equals == std::string_view::npos) return std::nullopt;
    facts.emplace(word.substr(0, equals), word.substr(equals + 1));
  }
  return facts;
}

// "<month> <number in it> <start>=<plants> ..."
std::optional<Order> read_order(std::span<const std::string_view> words) {
  if (words.size() < 2) return std::nullopt;
  const auto month = parse_count(words[0]), repeat = parse_count(words[1]);
  if (!month || !repeat) return std::nullopt;
  Order order{*month, *repeat, {}};
  for (const std::string_view word : words.subspan(2)) {
    const std::size_t equals = std::min(word.find('='), word.size());
    const auto start = parse_uuid(word.substr(0, equals));
    const auto plants = parse_count(word.substr(std::min(equals + 1, word.size())));
    if (!start || !plants) return std::nullopt;
    order.plants[*start] = *plants;
  }
  return order;
}

// "<UID> <kind>", and of a joint order its parts.
bool read_of_day(std::string_view value, StoredEvent& stored) {
  const auto words = words_of(value);
  if (words.size() < 2) return false;
  DayJob job{std::string(words[0]), std::string(words[1]), {}};
  if (words.size() > 2) {
    job.order = read_order(std::span(words).subspan(2));
    if (!job.order) return false;
  }
  stored.event.jobs.push_back(std::move(job));
  return true;
}

// "<flowering year> <latest DTEND>", and of a joint order its kind and parts.
bool read_job(std::string_view value, StoredEvent& stored) {
  const auto words = words_of(value);
  if (words.size() < 2) return false;
  if (words.size() > 2) {
    stored.event.order = read_order(std::span(words).subspan(3));
    if (!stored.event.order) return false;
  }
  const auto year = parse_count(words[0]);
  const auto latest_end = parse_date_value(words[1]);
  if (!year || !latest_end) return false;
  stored.event.flowering_year = *year;
  stored.revision.latest_end = *latest_end;
  return true;
}

template <class Value>
bool keep(const std::optional<Value>& read, Value& target) {
  if (read) target = *read;
  return read.has_value();
}

// Takes one property into the event; false where it is not as trug writes it.
bool read_property(const Property& property, StoredEvent& stored) {
  Event& event = stored.event;
  const std::string& name = property.name;
  const std::string_view value = property.value;
  if (name == "UID") event.uid = value;
  if (name == "SUMMARY") event.summary = unescape(value);
  if (name == "DESCRIPTION") event.description = unescape(value);
  if (name == "LOCATION") event.location = unescape(value);
  if (name == "CATEGORIES") event.category = category_word(unescape(value));
  if (name == "STATUS") event.cancelled = value == "CANCELLED";
  if (name == "DTSTAMP") return keep(parse_stamp(value), stored.revision.stamp);
  if (name == "SEQUENCE") return keep(parse_count(value), stored.revision.sequence);
  if (name == "DTSTART") return keep(parse_date_value(value), event.start);
  if (name == "DTEND") return keep(parse_date_value(value), event.end);
  if (name == "X-TRUG-JOB") return read_job(value, stored);
  if (name == "X-TRUG-OF-DAY") return read_of_day(value, stored);
  return true;
}

// Goes on to the next event; false where there is none.
bool find_event(ContentLines& lines) {
  while (lines.next()) {
    if (lines.line().text == kEventBegin) return true;
  }
  return false;
}

// The event that the line begins, to its END.
std::optional<StoredEvent> read_event(std::string_view bytes, ContentLines& lines) {
  StoredEvent stored;
  const std::size_t from = lines.line().from;
  int essentials = 0;
  // In an alarm a DESCRIPTION is the alarm's.
  for (bool in_alarm = false; lines.next() && lines.line().text != "END:VEVENT";) {
    in_alarm = in_alarm || lines.line().text == "BEGIN:VALARM";
    if (in_alarm) continue;
    const auto property = parse_property(lines.line().text);
    if (!property || !read_property(*property, stored)) return std::nullopt;
    for (const std::string_view name : {"DTEND", "SEQUENCE", "X-TRUG-JOB"}) {
      if (property->name == name) ++essentials;
    }
  }
  stored.bytes = bytes.substr(from, lines.line().until - from);
  // The checker has seen to UID, DTSTAMP and DTSTART, and that none stands twice.
  if (essentials != 3) return std::nullopt;
  return stored;
}

// The events from the one that the line begins, in the file's order; the message where one cannot
// be read.
std::string read_events(std::string_view bytes, ContentLines& lines, Memory& memory) {
  do {
    const int begin = lines.line().line;
    auto stored = read_event(bytes, lines);
    if (!stored) return fmt::format("line {}: not an event as trug writes it", begin);
    memory.events.push_back(std::move(*stored));
  } while (find_event(lines));
  return {};
}

// A line that this version cannot read is none.
void add_planting(std::string_view value, Memory& memory) {
  if (auto planting = parse_planting_value(value)) memory.plantings.push_back(*planting);
}

// What the lines before the first event say, which the lines go on to; whether trug wrote them, and
// there is one.
bool read_head(ContentLines& lines, Memory& memory) {
  bool ours = false;
  while (lines.next()) {
    if (lines.line().text == kEventBegin) return ours;
    const auto property = parse_property(lines.line().text);
    if (!property) continue;
    if (property->name == "X-TRUG-MEMORY") ours = read_counters(property->value, memory);
    if (property->name == "NAME") memory.name = unescape(property->value);
    if (property->name == "PRODID") memory.product = product_of(property->value);
    if (property->name == "X-TRUG-FACTS") memory.facts = read_facts(property->value);
    if (property->name == "X-TRUG-PLANTING") add_planting(property->value, memory);
  }
  return false;
}

}  // namespace

std::string event_content(std::string_view vevent) {
  return without(vevent, {"DTSTAMP", "LAST-MODIFIED", "SEQUENCE", "X-TRUG-JOB"});
}

std::string head_content(std::string_view head) {
  return without(head, {"PRODID", "X-TRUG-MEMORY", "X-TRUG-FACTS", "X-TRUG-PLANTING"});
}

ReadMemory read_memory(std::string_view given) {
  ReadMemory read{.bytes = std::string(given), .memory = {}, .refused = {}};
  const std::string bytes = as_written(given);
  read.memory.mended = bytes != given;
  const std::vector<std::string> defects = check_calendar(bytes);
  if (!defects.empty()) {
    read.refused = defects.front();
    return read;
  }
  ContentLines lines(bytes);
  if (!read_head(lines, read.memory)) {
    read.refused = "it has no X-TRUG-MEMORY line that this version of trug can read";
    return read;
  }
  read.memory.head = head_content(std::string_view(bytes).substr(0, lines.line().from));
  read.refused = read_events(bytes, lines, read.memory);
  return read;
}

bool has_an_event_a_day(std::string_view bytes) {
  for (ContentLines lines(bytes.substr(0, bytes.find(kEventBegin))); lines.next();) {
    const std::string_view text = lines.line().text;
    if (text.starts_with("X-TRUG-MEMORY:")) return text.ends_with(kPerDay);
  }
  return false;
}

bool are_remains(std::string_view bytes, const Uuid& space) {
  // Its line folds after the space, if at all.
  const auto holds = [&](std::string_view format) {
    return bytes.find(fmt::format("\nX-TRUG-MEMORY:{} {} ", format, to_string(space))) !=
           std::string_view::npos;
  };
  return bytes.empty() || holds("1") || holds(kMemoryFormat);
}

}  // namespace trug::calendar
