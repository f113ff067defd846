// SPDX-License-Identifier: MIT
#include "calendar/content_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <system_error>

namespace trug::calendar {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }

// Octets 10xxxxxx continue a UTF-8 character.
bool continues_character(char c) { return (static_cast<unsigned char>(c) & 0xc0) == 0x80; }

bool is_name_letter(char c) {
  return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-';
}

std::string upper(std::string_view text) {
  std::string result(text);
  for (char& c : result) {
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  }
  return result;
}

// Where to break a text longer than `room`.
std::size_t break_point(std::string_view text, std::size_t room) {
  for (std::size_t at = room; at > room / 2; --at) {
    if (!continues_character(text[at]) && !is_blank(text[at]) && !is_blank(text[at - 1])) return at;
  }
  for (std::size_t at = room; at > 1; --at) {
    if (!continues_character(text[at]) && !is_blank(text[at - 1])) return at;
  }
  std::size_t at = room;
  while (at > 1 && continues_character(text[at])) --at;
  return at;
}

// Takes a name off the front of `text`.
std::string take_name(std::string_view& text) {
  const auto end = std::find_if_not(text.begin(), text.end(), is_name_letter);
  const auto length = static_cast<std::size_t>(end - text.begin());
  std::string name = upper(text.substr(0, length));
  text.remove_prefix(length);
  return name;
}

// Takes "value" or "\"value\"" off the front of `text`; nullopt where a quote is open or astray.
std::optional<std::string_view> take_parameter_value(std::string_view& text) {
  const bool quoted = text.starts_with('"');
  if (quoted) text.remove_prefix(1);
  const std::size_t end = text.find_first_of(quoted ? "\"" : "\",;:");
  if (end == std::string_view::npos || (!quoted && text[end] == '"')) return std::nullopt;
  const std::string_view value = text.substr(0, end);
  text.remove_prefix(quoted ? end + 1 : end);
  return value;
}

struct Parameter {
  std::string name;        // upper case
  std::string_view value;  // the first
};

// Takes ";NAME=value,value" off the front of `text`.
std::optional<Parameter> take_parameter(std::string_view& text) {
  text.remove_prefix(1);
  Parameter parameter{take_name(text), {}};
  if (parameter.name.empty() || !text.starts_with('=')) return std::nullopt;
  for (bool first = true; first || text.starts_with(','); first = false) {
    text.remove_prefix(1);
    const auto value = take_parameter_value(text);
    if (!value) return std::nullopt;
    if (first) parameter.value = *value;
  }
  return parameter;
}

}  // namespace

std::string_view ContentLines::take_physical_line() {
  const std::size_t end = std::min(bytes_.find('\n', at_), bytes_.size());
  std::string_view text = bytes_.substr(at_, end - at_);
  if (text.ends_with('\r')) text.remove_suffix(1);
  at_ = std::min(end + 1, bytes_.size());
  ++physical_lines_;
  return text;
}

bool ContentLines::is_folded() const { return at_ < bytes_.size() && is_blank(bytes_[at_]); }

bool ContentLines::next() {
  if (at_ == bytes_.size()) return false;
  line_.line = physical_lines_ + 1;
  line_.from = at_;
  line_.text = take_physical_line();
  if (is_folded()) {
    unfolded_ = line_.text;
    while (is_folded()) unfolded_ += take_physical_line().substr(1);
    line_.text = unfolded_;
  }
  line_.until = at_;
  return true;
}

void append_folded(std::string& bytes, std::string_view text) {
  std::size_t room = kLineOctets;
  while (text.size() > room) {
    const std::size_t at = break_point(text, room);
    bytes += text.substr(0, at);
    bytes += "\r\n ";
    text.remove_prefix(at);
    room = kLineOctets - 1;  // the blank that marks a continuation counts
  }
  bytes += text;
  bytes += "\r\n";
}

std::string_view Property::parameter(std::string_view parameter_name) const {
  for (std::string_view rest = parameters; rest.starts_with(';');) {
    const auto parameter = take_parameter(rest);
    if (parameter && parameter->name == parameter_name) return parameter->value;
  }
  return {};
}

std::optional<Property> parse_property(std::string_view text) {
  Property property;
  property.name = take_name(text);
  if (property.name.empty()) return std::nullopt;
  property.parameters = text;
  while (text.starts_with(';')) {
    if (!take_parameter(text)) return std::nullopt;
  }
  if (!text.starts_with(':')) return std::nullopt;
  property.value = text.substr(1);
  property.parameters.remove_suffix(property.value.size());
  return property;
}

std::string unescape(std::string_view value) {
  std::string text;
  for (std::size_t i = 0; i < value.size(); ++i) {
    if (value[i] != '\\' || i + 1 == value.size()) {
      text += value[i];
      continue;
    }
    ++i;
    text += value[i] == 'n' || value[i] == 'N' ? '\n' : value[i];
  }
  return text;
}

std::string date_value(Date day) {
  const std::chrono::year_month_day civil(day);
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(civil.year()),
                     static_cast<unsigned>(civil.month()), static_cast<unsigned>(civil.day()));
}

std::optional<Date> parse_date_value(std::string_view text) {
  if (text.size() != 8) return std::nullopt;
  const auto year = parse_count(text.substr(0, 4));
  const auto month = parse_count(text.substr(4, 2));
  const auto day = parse_count(text.substr(6));
  if (!year || !month || !day) return std::nullopt;
  const std::chrono::year_month_day civil{std::chrono::year{*year},
                                          std::chrono::month{static_cast<unsigned>(*month)},
                                          std::chrono::day{static_cast<unsigned>(*day)}};
  return civil.ok() ? std::optional(Date(civil)) : std::nullopt;
}

std::string instant_value(Instant instant) {
  const Date day = std::chrono::floor<Days>(instant);
  const std::chrono::hh_mm_ss time(instant - day);
  return fmt::format("{}T{:02}{:02}{:02}Z", date_value(day), time.hours().count(),
                     time.minutes().count(), time.seconds().count());
}

std::optional<Instant> parse_instant_value(std::string_view text) {
  if (text.size() != 16 || text[8] != 'T' || text[15] != 'Z') return std::nullopt;
  const auto day = parse_date_value(text.substr(0, 8));
  const auto hours = parse_count(text.substr(9, 2));
  const auto minutes = parse_count(text.substr(11, 2));
  const auto seconds = parse_count(text.substr(13, 2));
  if (!day || !hours || !minutes || !seconds) return std::nullopt;
  if (*hours > 23 || *minutes > 59 || *seconds > 59) return std::nullopt;
  return *day + std::chrono::hours(*hours) + std::chrono::minutes(*minutes) +
         std::chrono::seconds(*seconds);
}

std::optional<int> parse_count(std::string_view text) {
  int value = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, value);
  if (error != std::errc{} || stop != end || value < 0 || text.starts_with('-')) {
    return std::nullopt;
  }
  return value;
}

std::vector<std::string_view> words_of(std::string_view value) {
  std::vector<std::string_view> words;
  while (!value.empty()) {
    const std::size_t blank = std::min(value.find(' '), value.size());
    words.push_back(value.substr(0, blank));
    value.remove_prefix(std::min(blank + 1, value.size()));
  }
  return words;
}

}  // namespace trug::calendar
