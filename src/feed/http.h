// SPDX-License-Identifier: MIT
// What passes between the server, which knows sockets, and the site, which knows calendars.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace trug::feed {

struct Request {
  std::string method;
  std::string path;           // as sent: neither decoded nor tidied; the query is cut off
  std::string if_none_match;  // these two are empty where the client did not send them
  std::string if_modified_since;
};

struct Header {
  std::string_view name;  // a constant
  std::string value;
  bool operator==(const Header&) const = default;
};

struct Response {
  int status = 500;
  std::vector<Header> headers;
  // Shared, never copied: a hundred clients read the same bytes. Null: no body. For HEAD it is that
  // of GET; the server sends its length only.
  std::shared_ptr<const std::string> body;
};

// Called from several threads at once.
using Handler = std::function<Response(const Request&)>;

}  // namespace trug::feed
