// SPDX-License-Identifier: MIT
#include "show/markup.h"

namespace trug::show {

std::string escaped(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '&') {
      result += "&amp;";
    } else if (c == '<') {
      result += "&lt;";
    } else if (c == '>') {
      result += "&gt;";
    } else if (c == '"') {
      result += "&quot;";
    } else if (c == '\'') {
      result += "&#39;";
    } else if (static_cast<unsigned char>(c) < 0x20) {
      result += ' ';
    } else if (text.substr(i, 3) == "\xEF\xBF\xBE" || text.substr(i, 3) == "\xEF\xBF\xBF") {
      result += "\xEF\xBF\xBD";  // U+FFFE and U+FFFF
      i += 2;
    } else {
      result += c;
    }
  }
  return result;
}

}  // namespace trug::show
