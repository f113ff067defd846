// SPDX-License-Identifier: MIT
// What the documents for programs are made of. Only .cpp files include this: the library stays
// behind this folder.
#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "show/document_head.h"

namespace trug::show {

using Json = nlohmann::ordered_json;

// A document that holds its head so far, with no plan, no finding and no error.
Json json_of(const DocumentHead& head);
// The document's bytes.
std::string dump(const Json& document);
// Comma-separated values (RFC 4180): a header line with the keys of `names`, then the values of
// each row. Lists are joined.
std::string csv(const Json& names, const std::vector<Json>& rows);

// The number of a sowing in its succession; null: there is none.
inline Json succession_json(int number) { return number > 0 ? Json(number) : Json(nullptr); }

template <class Value>
Json maybe(const std::optional<Value>& value) {
  return value ? Json(*value) : Json(nullptr);
}
template <class Value, class Change>
Json maybe(const std::optional<Value>& value, Change change) {
  return value ? Json(change(*value)) : Json(nullptr);
}

}  // namespace trug::show
