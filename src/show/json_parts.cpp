// SPDX-License-Identifier: MIT
#include "show/json_parts.h"

namespace trug::show {

Json json_of(const DocumentHead& head) {
  Json document;
  document["format"] = head.format;
  document["program"] = head.program;
  document["today"] = iso(head.today);
  return document;
}

std::string dump(const Json& document) { return document.dump(2) + "\n"; }

}  // namespace trug::show
