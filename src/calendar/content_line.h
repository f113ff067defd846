// SPDX-License-Identifier: MIT
// The lines of an iCalendar file (RFC 5545, 3.1), read and written without any library: the parts
// the checker, the memory and the writer share.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/date.h"
#include "calendar/event.h"

namespace trug::calendar {

// Octets in a physical line, its end not counted (RFC 5545, 3.1).
inline constexpr std::size_t kLineOctets = 75;

// One unfolded line and where it stands in the file.
struct ContentLine {
  int line = 0;           // its first physical line, from 1
  std::size_t from = 0;   // its octets in the file,
  std::size_t until = 0;  // line end included
  std::string text;       // unfolded, without its line end
};

// Takes LF for CRLF: whether the line ends are right is the checker's question.
std::vector<ContentLine> unfold(std::string_view bytes);

// The line folded, CRLF at its end. It breaks between characters; inside a word where it can, so
// that nobody who strips blanks glues words together; never after a blank unless nothing else is
// there to break at.
std::string fold(std::string_view text);

struct Property {
  std::string name;                                             // upper case
  std::vector<std::pair<std::string, std::string>> parameters;  // names in upper case, no quotes
  std::string value;                                            // as written

  // The parameter's value; empty where it is absent.
  std::string_view parameter(std::string_view parameter_name) const;
};

// nullopt where the line is not name *(";" parameter) ":" value.
std::optional<Property> parse_property(std::string_view text);

// A TEXT value as it was meant (RFC 5545, 3.3.11).
std::string unescape(std::string_view value);
// Of a value of our own: what stands between single blanks.
std::vector<std::string_view> words_of(std::string_view value);

// DATE, "20270514" (RFC 5545, 3.3.4); nullopt also where there is no such day.
std::string date_value(Date day);
std::optional<Date> parse_date_value(std::string_view text);
// DATE-TIME in UTC, "20270514T060000Z" (RFC 5545, 3.3.5, form 2).
std::string instant_value(Instant instant);
std::optional<Instant> parse_instant_value(std::string_view text);
// INTEGER from 0 to 2147483647 (RFC 5545, 3.3.8), as SEQUENCE wants it.
std::optional<int> parse_count(std::string_view text);

}  // namespace trug::calendar
