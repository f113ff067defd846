// SPDX-License-Identifier: MIT
#include "calendar/check_value.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace trug::calendar {
namespace {

enum class ValueType { Text, TextList, Day, Utc, Duration, Trigger, Count, Uri, Word, Recurrence };

struct Typed {
  std::string_view property;
  ValueType type;
  std::string_view rule;
  std::array<std::string_view, 3> words = {};  // of a Word: those allowed
};
constexpr std::array kTypes = {
    Typed{"VERSION", ValueType::Word, "RFC 5545, 3.7.4", {"2.0"}},
    Typed{"PRODID", ValueType::Text, "RFC 5545, 3.7.3"},
    Typed{"CALSCALE", ValueType::Word, "RFC 5545, 3.7.1", {"GREGORIAN"}},
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
    Typed{"STATUS", ValueType::Word, "RFC 5545, 3.8.1.11", {"TENTATIVE", "CONFIRMED", "CANCELLED"}},
    Typed{"TRANSP", ValueType::Word, "RFC 5545, 3.8.2.7", {"OPAQUE", "TRANSPARENT"}},
    Typed{"URL", ValueType::Uri, "RFC 5545, 3.8.4.6"},
    Typed{"RRULE", ValueType::Recurrence, "RFC 5545, 3.3.10"},
    Typed{"ACTION", ValueType::Word, "RFC 5545, 3.8.6.1", {"AUDIO", "DISPLAY", "EMAIL"}},
    Typed{"TRIGGER", ValueType::Trigger, "RFC 5545, 3.8.6.3"},
    Typed{"REPEAT", ValueType::Count, "RFC 5545, 3.8.6.2"},
};

const Typed* typed(std::string_view property) {
  const auto found = std::find_if(kTypes.begin(), kTypes.end(),
                                  [&](const Typed& type) { return type.property == property; });
  return found == kTypes.end() ? nullptr : &*found;
}

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
bool is_recurrence(std::string_view value) {
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
      return !property.value.empty() &&
             std::ranges::find(type.words, property.value) != type.words.end();
    case ValueType::Recurrence:
      return is_recurrence(property.value);
  }
  return false;
}

}  // namespace

std::vector<ValueFault> value_faults(const Property& property) {
  const Typed* type = typed(property.name);
  if (type == nullptr) return {};
  std::vector<ValueFault> faults;
  if (!has_right_value(property, *type)) {
    faults.push_back(
        {fmt::format("{} cannot be \"{}\"", property.name, property.value), type->rule});
  }
  if (!property.parameter("TZID").empty()) {
    faults.push_back(
        {property.name + " names a time zone the file does not hold", "RFC 5545, 3.2.19"});
  }
  if (property.name == "REFRESH-INTERVAL" && property.parameter("VALUE") != "DURATION") {
    faults.push_back({"REFRESH-INTERVAL without VALUE=DURATION", "RFC 7986, 5.7"});
  }
  return faults;
}

}  // namespace trug::calendar
