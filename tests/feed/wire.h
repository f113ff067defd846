// SPDX-License-Identifier: MIT
// A client made of bare sockets, so that it can also misbehave, and a server on its own thread.
// Loopback only; every wait has an end.
#pragma once

#include <chrono>
#include <map>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "feed/server.h"
#include "feed/site.h"

namespace trug::feed {

// A connection to 127.0.0.1:`port`.
class Wire {
 public:
  // `from`: the address it comes from; Linux lets all of 127.0.0.0/8 be used.
  explicit Wire(int port, const std::string& from = "127.0.0.1");
  ~Wire();
  Wire(Wire&& other) noexcept;
  Wire& operator=(Wire&&) = delete;

  bool connected() const { return socket_ >= 0; }
  // False where the server has closed the connection.
  bool send(std::string_view bytes);
  // One answer: its head, and its body by Content-Length. Empty where none came within the time.
  std::string answer(bool has_body = true,
                     std::chrono::milliseconds patience = std::chrono::milliseconds{3000});
  // Everything until the server closes or the time is over.
  std::string rest(std::chrono::milliseconds patience = std::chrono::milliseconds{3000});
  // True where the server has closed it, as far as is known now; takes no time.
  bool closed();

 private:
  // Reads what there is; false at the end of the stream or of the time.
  bool read_more(std::chrono::steady_clock::time_point deadline);

  int socket_ = -1;
  std::string received_;
};

int status_of(std::string_view answer);
std::string body_of(std::string_view answer);
// Names in lower case.
std::map<std::string, std::string> headers_of(std::string_view answer);

// "GET /... HTTP/1.1" with a Host.
std::string get(const std::string& path, const std::string& more_headers = {});

// A site with one open link and one withdrawn, served until the end of the test.
class RunningServer {
 public:
  explicit RunningServer(const Limits& limits = {}, int port = 0);
  int port() const { return server_.port(); }
  std::vector<std::string> troubles();

  Site site;

 private:
  std::mutex mutex_;
  std::vector<std::string> troubles_;
  Server server_;
  std::jthread thread_;
};

extern const std::string kOpenToken;
extern const std::string kWithdrawnToken;
extern const std::string kCalendarPath;
extern const std::string kCalendarBytes;  // about 100 kB

// What this process holds in memory, in bytes (/proc/self/statm).
long long resident_bytes();

}  // namespace trug::feed
