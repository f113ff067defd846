// SPDX-License-Identifier: MIT
#include "calendar/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "base/text.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr std::string_view kOwnRule = "trug's own rule";
constexpr std::size_t kUidOctets = 255;

// How often a property may stand in a component.
struct Cardinality {
  std::string_view component;
  std::string_view property;
  int least;
  int most;
  std::string_view rule;
};

constexpr std::array kCardinalities = {
    Cardinality{"VCALENDAR", "VERSION", 1, 1, "RFC 5545, 3.7.4"},
    Cardinality{"VCALENDAR", "PRODID", 1, 1, "RFC 5545, 3.7.3"},
    Cardinality{"VCALENDAR", "CALSCALE", 0, 1, "RFC 5545, 3.7.1"},
    // PUBLISH would need an ORGANIZER (RFC 5546, 3.2.1); stored objects must have none (RFC 4791,
    // 4.1).
    Cardinality{"VCALENDAR", "METHOD", 0, 0, kOwnRule},
    Cardinality{"VCALENDAR", "REFRESH-INTERVAL", 0, 1, "RFC 7986, 5.7"},
    Cardinality{"VCALENDAR", "SOURCE", 0, 1, "RFC 7986, 5.8"},
    Cardinality{"VCALENDAR", "COLOR", 0, 1, "RFC 7986, 5.9"},
    Cardinality{"VEVENT", "UID", 1, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "DTSTAMP", 1, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "DTSTART", 1, 1, "RFC 5545, 3.6.1"},  // required without METHOD
    Cardinality{"VEVENT", "DTEND", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "DURATION", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "LAST-MODIFIED", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "CREATED", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "SEQUENCE", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "SUMMARY", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "DESCRIPTION", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "LOCATION", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "STATUS", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "TRANSP", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "CLASS", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "GEO", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "ORGANIZER", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "PRIORITY", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "RECURRENCE-ID", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "RRULE", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "URL", 0, 1, "RFC 5545, 3.6.1"},
    Cardinality{"VEVENT", "COLOR", 0, 1, "RFC 7986, 5.9"},
    Cardinality{"VALARM", "ACTION", 1, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "TRIGGER", 1, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "DESCRIPTION", 0, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "DURATION", 0, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "REPEAT", 0, 1, "RFC 5545, 3.6.6"},
};

// Which component may stand in which; "" is the file itself.
struct Nesting {
  std::string_view parent;
  std::string_view child;
};
constexpr std::array kNestings = {Nesting{"", "VCALENDAR"}, Nesting{"VCALENDAR", "VEVENT"},
                                  Nesting{"VEVENT", "VALARM"}};

enum class ValueType { Text, TextList, Day, Utc, Duration, Trigger, Count, Uri, Word, Rule };

struct Typed {
  std::string_view property;
  ValueType type;
  std::string_view rule;
  std::string_view words = {};  // of a Word: those allowed, each between blanks
};
constexpr std::array kTypes = {
    Typed{"VERSION", ValueType::Word, "RFC 5545, 3.7.4", " 2.0 "},
    Typed{"PRODID", ValueType::Text, "RFC 5545, 3.7.3"},
    Typed{"CALSCALE", ValueType::Word, "RFC 5545, 3.7.1", " GREGORIAN "},
    Typed{"NAME", ValueType::Text, "RFC 7986, 5.1"},
    Typed{"COLOR", ValueType::Text, "RFC 7986, 5.9"},
    Typed{"REFRESH-INTERVAL", ValueType::Duration, "RFC 7986, 5.7"},
    Typed{"X-PUBLISHED-TTL", ValueType::Duration, kOwnRule},
    Typed{"SOURCE", ValueType::Uri, "RFC 7986, 5.8"},
    Typed{"UID", ValueType::Text, "RFC 5545, 3.8.4.7"},
    Typed{"DTSTAMP", ValueType::Utc, "RFC 5545, 3.8.7.2"},
    Typed{"LAST-MODIFIED", ValueType::Utc, "RFC 5545, 3.8.7.3"},
    Typed{"CREATED", ValueType::Utc, "RFC 5545, 3.8.7.1"},
    Typed{"SEQUENCE", ValueType::Count, "RFC 5545, 3.8.7.4"},
    Typed{"DTSTART", ValueType::Day, "RFC 5545, 3.8.2.4"},
    Typed{"DTEND", ValueType::Day, "RFC 5545, 3.8.2.2"},
    Typed{"DURATION", ValueType::Duration, "RFC 5545, 3.8.2.5"},
    Typed{"SUMMARY", ValueType::Text, "RFC 5545, 3.8.1.12"},
    Typed{"DESCRIPTION", ValueType::Text, "RFC 5545, 3.8.1.5"},
    Typed{"LOCATION", ValueType::Text, "RFC 5545, 3.8.1.7"},
    Typed{"COMMENT", ValueType::Text, "RFC 5545, 3.8.1.4"},
    Typed{"CATEGORIES", ValueType::TextList, "RFC 5545, 3.8.1.2"},
    Typed{"STATUS", ValueType::Word, "RFC 5545, 3.8.1.11", " TENTATIVE CONFIRMED CANCELLED "},
    Typed{"TRANSP", ValueType::Word, "RFC 5545, 3.8.2.7", " OPAQUE TRANSPARENT "},
    Typed{"URL", ValueType::Uri, "RFC 5545, 3.8.4.6"},
    Typed{"RRULE", ValueType::Rule, "RFC 5545, 3.3.10"},
    Typed{"ACTION", ValueType::Word, "RFC 5545, 3.8.6.1", " AUDIO DISPLAY EMAIL "},
    Typed{"TRIGGER", ValueType::Trigger, "RFC 5545, 3.8.6.3"},
    Typed{"REPEAT", ValueType::Count, "RFC 5545, 3.8.6.2"},
};

const Typed* typed(std::string_view property) {
  const auto found = std::find_if(kTypes.begin(), kTypes.end(),
                                  [&](const Typed& type) { return type.property == property; });
  return found == kTypes.end() ? nullptr : &*found;
}

struct PlacedProperty {
  int line;
  Property property;
};

struct Component {
  std::string name;
  int line = 0;  // of its BEGIN
  std::vector<PlacedProperty> properties;
  int children = 0;

  int count(std::string_view property) const {
    return static_cast<int>(std::count_if(
        properties.begin(), properties.end(),
        [&](const PlacedProperty& placed) { return placed.property.name == property; }));
  }
  const PlacedProperty* find(std::string_view property) const {
    for (const PlacedProperty& placed : properties) {
      if (placed.property.name == property) return &placed;
    }
    return nullptr;
  }
};

// Digits off the front of `text`; how many.
std::size_t take_digits(std::string_view& text) {
  const std::size_t count = std::min(text.find_first_not_of("0123456789"), text.size());
  text.remove_prefix(count);
  return count;
}

// "6H", "6H30M", "30M", "5S": from one unit to the next without a gap (RFC 5545, 3.3.6: dur-time).
bool is_duration_time(std::string_view text) {
  constexpr std::string_view kUnits = "HMS";
  std::size_t expected = std::string_view::npos;  // any unit first
  while (!text.empty()) {
    if (take_digits(text) == 0 || text.empty()) return false;
    const std::size_t unit = kUnits.find(text.front());
    if (unit == std::string_view::npos) return false;
    if (expected != std::string_view::npos && unit != expected) return false;
    expected = unit + 1;
    text.remove_prefix(1);
  }
  return expected != std::string_view::npos;
}

// RFC 5545, 3.3.6: dur-value.
bool is_duration(std::string_view text) {
  if (text.starts_with('-') || text.starts_with('+')) text.remove_prefix(1);
  if (!text.starts_with('P')) return false;
  text.remove_prefix(1);
  if (text.starts_with('T')) return is_duration_time(text.substr(1));
  if (take_digits(text) == 0 || text.empty()) return false;
  const char unit = text.front();
  text.remove_prefix(1);
  if (text.empty()) return unit == 'W' || unit == 'D';
  return unit == 'D' && text.starts_with('T') && is_duration_time(text.substr(1));
}

// RFC 5545, 3.3.11: a backslash only before \ ; , n N, and no bare semicolon or comma.
bool is_text(std::string_view value, bool list) {
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] == '\\') {
      if (++i == value.size() || std::string_view("\\;,nN").find(value[i]) == std::string::npos) {
        return false;
      }
    } else if (value[i] == ';' || (value[i] == ',' && !list)) {
      return false;
    }
  }
  return true;
}

// RFC 3986, 3.1: a scheme and a colon.
bool is_uri(std::string_view value) {
  const std::size_t colon = value.find(':');
  if (colon == std::string_view::npos || colon == 0 || value.find(' ') != std::string_view::npos) {
    return false;
  }
  const auto letter = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); };
  const auto scheme = [&](char c) {
    return letter(c) || (c >= '0' && c <= '9') || c == '+' || c == '.' || c == '-';
  };
  const std::string_view name = value.substr(0, colon);
  return letter(name.front()) && std::all_of(name.begin(), name.end(), scheme);
}

// RFC 5545, 3.3.10: COUNT and UNTIL must not stand in one rule.
bool is_rule(std::string_view value) {
  const auto has = [&](std::string_view part) {
    return value.find(part) != std::string_view::npos;
  };
  return has("FREQ=") && !(has("COUNT=") && has("UNTIL="));
}

// DATE with VALUE=DATE, else DATE-TIME in UTC: trug writes no time zones and no floating times.
bool is_day(const Property& property) {
  const std::string_view type = property.parameter("VALUE");
  if (type == "DATE") return parse_date_value(property.value).has_value();
  return (type.empty() || type == "DATE-TIME") && parse_instant_value(property.value).has_value();
}

bool is_trigger(const Property& property) {
  const std::string_view type = property.parameter("VALUE");
  if (type == "DATE-TIME") return parse_instant_value(property.value).has_value();
  return (type.empty() || type == "DURATION") && is_duration(property.value);
}

bool has_right_value(const Property& property, const Typed& type) {
  switch (type.type) {
    case ValueType::Text:
      return is_text(property.value, false);
    case ValueType::TextList:
      return is_text(property.value, true);
    case ValueType::Day:
      return is_day(property);
    case ValueType::Utc:
      return parse_instant_value(property.value).has_value();
    case ValueType::Duration:
      return is_duration(property.value);
    case ValueType::Trigger:
      return is_trigger(property);
    case ValueType::Count:
      return parse_count(property.value).has_value();
    case ValueType::Uri:
      return is_uri(property.value);
    case ValueType::Word:
      return property.value.find(' ') == std::string::npos &&
             type.words.find(fmt::format(" {} ", property.value)) != std::string_view::npos;
    case ValueType::Rule:
      return is_rule(property.value);
  }
  return false;
}

class Checker {
 public:
  std::vector<std::string> check(std::string_view bytes) {
    check_line_ends(bytes);
    for (const ContentLine& line : unfold(bytes)) take(line);
    if (!open_.empty()) {
      add(open_.back().line, fmt::format("{} has no END", open_.back().name), "RFC 5545, 3.6");
    } else if (calendars_ == 0) {
      add(1, "there is no VCALENDAR", "RFC 5545, 3.4");
    }
    std::stable_sort(found_.begin(), found_.end(),
                     [](const Found& a, const Found& b) { return a.line < b.line; });
    std::vector<std::string> messages;
    for (const Found& found : found_) messages.push_back(found.message);
    return messages;
  }

 private:
  struct Found {
    int line;
    std::string message;
  };

  void add(int line, std::string_view what, std::string_view rule) {
    found_.push_back({line, fmt::format("line {}: {} ({})", line, what, rule)});
  }

  // Physical lines: their ends, their length, their characters.
  void check_line_ends(std::string_view bytes) {
    int number = 0;
    while (!bytes.empty()) {
      ++number;
      const std::size_t end = bytes.find('\n');
      std::string_view line = bytes.substr(0, end);
      if (end == std::string_view::npos || !line.ends_with('\r')) {
        add(number, "the line does not end in CRLF", "RFC 5545, 3.1");
      }
      if (line.ends_with('\r')) line.remove_suffix(1);
      check_physical_line(number, line);
      bytes.remove_prefix(end == std::string_view::npos ? bytes.size() : end + 1);
    }
  }

  void check_physical_line(int number, std::string_view line) {
    if (line.size() > kLineOctets) {
      add(number, fmt::format("{} octets in a line, more than 75", line.size()), "RFC 5545, 3.1");
    }
    if (!is_valid_utf8(line)) {
      add(number, "not UTF-8, or a character split by a fold", "RFC 5545, 3.1.4");
    }
    const bool control = std::any_of(line.begin(), line.end(), [](char c) {
      return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7f;
    });
    if (control) add(number, "a control character", "RFC 5545, 3.1");
  }

  void take(const ContentLine& line) {
    auto property = parse_property(line.text);
    if (!property) {
      add(line.line, "neither a property nor a component", "RFC 5545, 3.1");
    } else if (property->name == "BEGIN") {
      begin(line.line, property->value);
    } else if (property->name == "END") {
      end(line.line, property->value);
    } else if (open_.empty()) {
      add(line.line, fmt::format("{} outside the calendar", property->name), "RFC 5545, 3.4");
    } else {
      check_value(line.line, *property);
      if (open_.back().children > 0) {
        add(line.line, fmt::format("{} after a component", property->name), "RFC 5545, 3.6");
      }
      open_.back().properties.push_back({line.line, std::move(*property)});
    }
  }

  void begin(int line, const std::string& name) {
    const std::string_view parent = open_.empty() ? "" : std::string_view(open_.back().name);
    const bool allowed = std::any_of(kNestings.begin(), kNestings.end(), [&](const Nesting& n) {
      return n.parent == parent && n.child == name;
    });
    if (!allowed) {
      add(line,
          fmt::format("{} may not stand {}{}", name, parent.empty() ? "outside a calendar" : "in ",
                      parent),
          "RFC 5545, 3.6");
    }
    if (name == "VCALENDAR" && open_.empty() && ++calendars_ > 1) {
      add(line, "a second VCALENDAR", kOwnRule);
    }
    if (!open_.empty()) ++open_.back().children;
    open_.push_back({name, line, {}, 0});
  }

  void end(int line, const std::string& name) {
    if (open_.empty() || open_.back().name != name) {
      add(line, fmt::format("END:{} closes no BEGIN:{}", name, name), "RFC 5545, 3.6");
      return;
    }
    const Component component = std::move(open_.back());
    open_.pop_back();
    check_cardinalities(component);
    if (name == "VCALENDAR" && component.children == 0) {
      add(component.line, "the calendar holds no component", "RFC 5545, 3.6");
    }
    if (name == "VEVENT") check_event(component);
    if (name == "VALARM") check_alarm(component);
  }

  void check_value(int line, const Property& property) {
    const Typed* type = typed(property.name);
    if (type == nullptr) return;
    if (!has_right_value(property, *type)) {
      add(line, fmt::format("{} cannot be \"{}\"", property.name, property.value), type->rule);
    }
    if (!property.parameter("TZID").empty()) {
      add(line, fmt::format("{} names a time zone the file does not hold", property.name),
          "RFC 5545, 3.2.19");
    }
    if (property.name == "REFRESH-INTERVAL" && property.parameter("VALUE") != "DURATION") {
      add(line, "REFRESH-INTERVAL without VALUE=DURATION", "RFC 7986, 5.7");
    }
  }

  void check_cardinalities(const Component& component) {
    for (const Cardinality& rule : kCardinalities) {
      if (rule.component != component.name) continue;
      const int count = component.count(rule.property);
      if (count < rule.least) {
        add(component.line, fmt::format("{} has no {}", component.name, rule.property), rule.rule);
      }
      if (count > rule.most) {
        add(component.line,
            fmt::format("{} has {} {}, at most {} allowed", component.name, count, rule.property,
                        rule.most),
            rule.rule);
      }
    }
  }

  void check_event(const Component& event) {
    if (event.count("DTEND") > 0 && event.count("DURATION") > 0) {
      add(event.line, "VEVENT has both DTEND and DURATION", "RFC 5545, 3.6.1");
    }
    check_span(event);
    const PlacedProperty* uid = event.find("UID");
    if (uid == nullptr) return;
    const std::string& value = uid->property.value;
    if (value.empty() || value.size() > kUidOctets) {
      add(uid->line, fmt::format("UID of {} octets", value.size()), "RFC 7986, 5.3");
    }
    if (event.count("RECURRENCE-ID") == 0 && !uids_.insert(value).second) {
      add(uid->line, fmt::format("a second event with UID {}", value), "RFC 5545, 3.8.4.7");
    }
  }

  void check_span(const Component& event) {
    const PlacedProperty* start = event.find("DTSTART");
    const PlacedProperty* end = event.find("DTEND");
    if (start == nullptr || end == nullptr) return;
    const bool start_is_date = start->property.parameter("VALUE") == "DATE";
    if (start_is_date != (end->property.parameter("VALUE") == "DATE")) {
      add(end->line, "DTEND is of another type than DTSTART", "RFC 5545, 3.8.2.2");
    } else if (end->property.value <= start->property.value) {
      // Both forms sort as text by time.
      add(end->line, "DTEND is not later than DTSTART", "RFC 5545, 3.8.2.2");
    }
  }

  void check_alarm(const Component& alarm) {
    const PlacedProperty* action = alarm.find("ACTION");
    if (action != nullptr && action->property.value != "AUDIO" && alarm.count("DESCRIPTION") == 0) {
      add(alarm.line,
          fmt::format("VALARM with ACTION:{} has no DESCRIPTION", action->property.value),
          "RFC 5545, 3.6.6");
    }
    if ((alarm.count("DURATION") > 0) != (alarm.count("REPEAT") > 0)) {
      add(alarm.line, "VALARM has one of DURATION and REPEAT without the other", "RFC 5545, 3.6.6");
    }
  }

  std::vector<Component> open_;
  std::set<std::string> uids_;
  int calendars_ = 0;
  std::vector<Found> found_;
};

}  // namespace

std::vector<std::string> check_calendar(std::string_view bytes) { return Checker().check(bytes); }

}  // namespace trug::calendar
