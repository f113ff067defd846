// SPDX-License-Identifier: MIT
#include "show/json_parts.h"

namespace trug::show {

Json json_of(const DocumentHead& head) {
  Json document;
  document["format"] = head.format;
  document["program"] = head.program;
  document["today"] = iso(head.today);
  for (const char* list : {"plans", "findings", "errors"}) document[list] = Json::array();
  return document;
}

// The name of a file need not be UTF-8: what is not becomes U+FFFD.
std::string dump(const Json& document) {
  return document.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace trug::show
