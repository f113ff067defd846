// SPDX-License-Identifier: MIT
#include "show/json_parts.h"

#include <string_view>

namespace trug::show {
namespace {

std::string csv_text(const Json& value) {
  if (!value.is_array()) return value.is_string() ? value.get<std::string>() : value.dump();
  std::string text;
  for (const Json& item : value) text += (text.empty() ? "" : " | ") + item.get<std::string>();
  return text;
}

std::string csv_field(const Json& value) {
  if (value.is_null()) return "";
  std::string text = csv_text(value);
  // Spreadsheets would reckon with it.
  if (value.is_string() && !text.empty() && std::string_view("=+-@").find(text[0]) != text.npos) {
    text.insert(0, "'");
  }
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + '"';
}

std::string csv_line(const std::vector<std::string>& fields) {
  std::string line;
  for (const std::string& field : fields) line += (&field == &fields.front() ? "" : ",") + field;
  return line + "\r\n";
}

}  // namespace

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

std::string csv(const Json& names, const std::vector<Json>& rows) {
  std::vector<std::string> fields;
  for (const auto& item : names.items()) fields.push_back(item.key());
  std::string text = csv_line(fields);
  for (const Json& row : rows) {
    fields.clear();
    for (const auto& item : row.items()) fields.push_back(csv_field(item.value()));
    text += csv_line(fields);
  }
  return text;
}

}  // namespace trug::show
