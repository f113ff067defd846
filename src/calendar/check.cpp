// SPDX-License-Identifier: MIT
#include "calendar/check.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <span>
#include <unordered_set>
#include <utility>

#include "base/text.h"
#include "calendar/check_value.h"
#include "calendar/content_line.h"

namespace trug::calendar {
namespace {

constexpr std::size_t kUidOctets = 255;

// How often a property may stand in a component.
struct Cardinality {
  std::string_view component;
  std::string_view property;
  int least;
  int most;
  std::string_view rule;
};

// By component.
constexpr std::array kCardinalities = {
    Cardinality{"VALARM", "ACTION", 1, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "TRIGGER", 1, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "DESCRIPTION", 0, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "DURATION", 0, 1, "RFC 5545, 3.6.6"},
    Cardinality{"VALARM", "REPEAT", 0, 1, "RFC 5545, 3.6.6"},
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
};

std::span<const Cardinality> rules_of(std::string_view component) {
  const auto is_its = [&](const Cardinality& rule) { return rule.component == component; };
  const auto first = std::find_if(kCardinalities.begin(), kCardinalities.end(), is_its);
  return {first, std::find_if_not(first, kCardinalities.end(), is_its)};
}

// Which component may stand in which; "" is the file itself.
struct Nesting {
  std::string_view parent;
  std::string_view child;
};
constexpr std::array kNestings = {Nesting{"", "VCALENDAR"}, Nesting{"VCALENDAR", "VEVENT"},
                                  Nesting{"VEVENT", "VALARM"}};

// A property whose value is looked at again at the end of its component.
struct Kept {
  int line = 0;  // 0: there is none
  std::string value;
  std::string type;  // its VALUE

  // Takes the first of that name.
  void take(std::string_view name, int at, const Property& property) {
    if (line > 0 || property.name != name) return;
    *this = {at, std::string(property.value), std::string(property.parameter("VALUE"))};
  }
};

struct Component {
  std::string name;
  int line = 0;                                     // of its BEGIN
  std::span<const Cardinality> rules;               // its own
  std::array<int, kCardinalities.size()> counts{};  // by rule
  Kept uid, start, end, action;                     // the first of each
  int children = 0;

  Component(int at, std::string_view called) : name(called), line(at), rules(rules_of(called)) {}

  void take(int at, const Property& property) {
    if (const std::size_t rule = rule_of(property.name); rule < rules.size()) ++counts[rule];
    uid.take("UID", at, property);
    start.take("DTSTART", at, property);
    end.take("DTEND", at, property);
    action.take("ACTION", at, property);
  }
  int count(std::string_view property) const { return counts[rule_of(property)]; }
  // Behind the last where there is none.
  std::size_t rule_of(std::string_view property) const {
    const auto rule = std::ranges::find(rules, property, &Cardinality::property);
    return static_cast<std::size_t>(rule - rules.begin());
  }
};

class Checker {
 public:
  std::vector<std::string> check(std::string_view bytes) {
    check_physical_lines(bytes);
    for (ContentLines lines(bytes); lines.next();) take(lines.line());
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

  // Their ends, their length, their characters.
  void check_physical_lines(std::string_view bytes) {
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
    bool control = false;
    for (const char c : line) {  // many at a time
      control |= (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == 0x7f;
    }
    if (control) add(number, "a control character", "RFC 5545, 3.1");
  }

  void take(const ContentLine& line) {
    const auto property = parse_property(line.text);
    if (!property) {
      add(line.line, "neither a property nor a component", "RFC 5545, 3.1");
    } else if (property->name == "BEGIN") {
      begin(line.line, property->value);
    } else if (property->name == "END") {
      end(line.line, property->value);
    } else if (open_.empty()) {
      add(line.line, fmt::format("{} outside the calendar", property->name), "RFC 5545, 3.4");
    } else {
      for (const ValueFault& fault : value_faults(*property)) {
        add(line.line, fault.what, fault.rule);
      }
      if (open_.back().children > 0) {
        add(line.line, fmt::format("{} after a component", property->name), "RFC 5545, 3.6");
      }
      open_.back().take(line.line, *property);
    }
  }

  void begin(int line, std::string_view name) {
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
    open_.emplace_back(line, name);
  }

  void end(int line, std::string_view name) {
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

  void check_cardinalities(const Component& component) {
    for (std::size_t i = 0; i < component.rules.size(); ++i) {
      const Cardinality& rule = component.rules[i];
      const int count = component.counts[i];
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
    if (event.uid.line == 0) return;
    const std::string& uid = event.uid.value;
    if (uid.empty() || uid.size() > kUidOctets) {
      add(event.uid.line, fmt::format("UID of {} octets", uid.size()), "RFC 7986, 5.3");
    }
    if (event.count("RECURRENCE-ID") == 0 && !uids_.insert(uid).second) {
      add(event.uid.line, fmt::format("a second event with UID {}", uid), "RFC 5545, 3.8.4.7");
    }
  }

  void check_span(const Component& event) {
    const Kept &start = event.start, &end = event.end;
    if (start.line == 0 || end.line == 0) return;
    if ((start.type == "DATE") != (end.type == "DATE")) {
      add(end.line, "DTEND is of another type than DTSTART", "RFC 5545, 3.8.2.2");
    } else if (end.value <= start.value) {
      // Both forms sort as text by time.
      add(end.line, "DTEND is not later than DTSTART", "RFC 5545, 3.8.2.2");
    }
  }

  void check_alarm(const Component& alarm) {
    const Kept& action = alarm.action;
    if (action.line > 0 && action.value != "AUDIO" && alarm.count("DESCRIPTION") == 0) {
      add(alarm.line, fmt::format("VALARM with ACTION:{} has no DESCRIPTION", action.value),
          "RFC 5545, 3.6.6");
    }
    if ((alarm.count("DURATION") > 0) != (alarm.count("REPEAT") > 0)) {
      add(alarm.line, "VALARM has one of DURATION and REPEAT without the other", "RFC 5545, 3.6.6");
    }
  }

  std::vector<Component> open_;
  std::unordered_set<std::string> uids_;
  int calendars_ = 0;
  std::vector<Found> found_;
};

}  // namespace

std::vector<std::string> check_calendar(std::string_view bytes) { return Checker().check(bytes); }

}  // namespace trug::calendar
