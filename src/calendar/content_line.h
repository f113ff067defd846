// SPDX-License-Identifier: MIT
// The lines of an iCalendar file (RFC 5545, 3.1), read and written without any library: the parts
// the checker, the memory and the writer share.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
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
  std::string_view text;  // unfolded, without its line end; until the next line is taken
};

// The lines of a file, one after the other. Only what is folded is copied, always into the same
// buffer. Takes LF for CRLF: whether the line ends are right is the checker's question.
class ContentLines {
 public:
  // `bytes` must outlive it.
  explicit ContentLines(std::string_view bytes) : bytes_(bytes) {}
  // False at the end of the file.
  bool next();
  // The line that next() went to.
  const ContentLine& line() const { return line_; }

 private:
  std::string_view take_physical_line();
  bool is_folded() const;

  std::string_view bytes_;
  std::size_t at_ = 0;
  int physical_lines_ = 0;
  ContentLine line_;
  std::string unfolded_;
};

// Appends the line folded, CRLF at its end. It breaks between characters; inside a word where it
// can, so that nobody who strips blanks glues words together; never after a blank unless nothing
// else is there to break at.
void append_folded(std::string& bytes, std::string_view text);

// Of a line, as long as its text lasts.
struct Property {
  std::string name;             // upper case
  std::string_view parameters;  // as written, and the colon: ";VALUE=DATE:"
  std::string_view value;       // as written

  // The parameter's (first) value, without quotes; empty where it is absent.
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
