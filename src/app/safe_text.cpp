// SPDX-License-Identifier: MIT
#include "app/safe_text.h"

#include <string_view>

#include "base/text.h"

namespace trug::app {

SafeText::~SafeText() { pass_on(line_.size()); }

SafeText::int_type SafeText::overflow(int_type c) {
  if (traits_type::eq_int_type(c, traits_type::eof())) return traits_type::not_eof(c);
  const char letter = traits_type::to_char_type(c);
  return xsputn(&letter, 1) == 1 ? c : traits_type::eof();
}

std::streamsize SafeText::xsputn(const char* text, std::streamsize count) {
  line_.append(text, static_cast<std::size_t>(count));
  const std::size_t end = line_.rfind('\n');
  if (end != std::string::npos) pass_on(end + 1);
  return target_ ? count : 0;
}

int SafeText::sync() {
  pass_on(line_.size());
  target_.flush();
  return target_ ? 0 : -1;
}

void SafeText::pass_on(std::size_t count) {
  target_ << printable(std::string_view(line_).substr(0, count), colours_);
  line_.erase(0, count);
}

}  // namespace trug::app
