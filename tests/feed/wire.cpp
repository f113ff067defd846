// SPDX-License-Identifier: MIT
#include "feed/wire.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cerrno>
#include <fstream>
#include <utility>

namespace trug::feed {

using std::chrono::steady_clock;

const std::string kOpenToken = "-yBFao-02f4jSG2St9wBJktwlbrfBClOc5i94gcsUXY";
const std::string kWithdrawnToken = "AAECAwQFBgcICQoLDA0ODxAREhMUFRYXGBkaGxwdHh8";
const std::string kCalendarPath = "/" + kOpenToken + "/calendar.ics";
const std::string kCalendarBytes = "BEGIN:VCALENDAR\r\n" + std::string(100000, 'x') + "\r\n";

namespace {

sockaddr_in loopback(const std::string& host, int port) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  inet_pton(AF_INET, host.c_str(), &address.sin_addr);
  return address;
}

}  // namespace

Wire::Wire(int port, const std::string& from) {
  socket_ = socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0);
  const sockaddr_in here = loopback(from, 0);
  const sockaddr_in there = loopback("127.0.0.1", port);
  if (bind(socket_, reinterpret_cast<const sockaddr*>(&here), sizeof here) != 0 ||
      connect(socket_, reinterpret_cast<const sockaddr*>(&there), sizeof there) != 0) {
    close(socket_);
    socket_ = -1;
  }
}

Wire::~Wire() {
  if (socket_ >= 0) close(socket_);
}

Wire::Wire(Wire&& other) noexcept
    : socket_(std::exchange(other.socket_, -1)), received_(std::move(other.received_)) {}

bool Wire::send(std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent < 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool Wire::read_more(steady_clock::time_point deadline) {
  const auto left =
      std::chrono::ceil<std::chrono::milliseconds>(deadline - steady_clock::now()).count();
  pollfd waiting{socket_, POLLIN, 0};
  if (left <= 0 || poll(&waiting, 1, static_cast<int>(left)) <= 0) return false;
  std::array<char, 65536> buffer{};
  const ssize_t got = recv(socket_, buffer.data(), buffer.size(), 0);
  if (got <= 0) return false;
  received_.append(buffer.data(), static_cast<std::size_t>(got));
  return true;
}

std::string Wire::answer(bool has_body, std::chrono::milliseconds patience) {
  const auto deadline = steady_clock::now() + patience;
  std::size_t head_end = std::string::npos;
  while ((head_end = received_.find("\r\n\r\n")) == std::string::npos) {
    if (!read_more(deadline)) return {};
  }
  std::size_t length = head_end + 4;
  const auto headers = headers_of(received_);
  const auto body_length = headers.find("content-length");
  if (has_body && body_length != headers.end()) length += std::stoul(body_length->second);
  while (received_.size() < length) {
    if (!read_more(deadline)) return {};
  }
  std::string whole = received_.substr(0, length);
  received_.erase(0, length);
  return whole;
}

std::string Wire::rest(std::chrono::milliseconds patience) {
  const auto deadline = steady_clock::now() + patience;
  while (read_more(deadline)) continue;
  return std::exchange(received_, {});
}

bool Wire::closed() {
  char byte = 0;
  const ssize_t got = recv(socket_, &byte, 1, MSG_PEEK | MSG_DONTWAIT);
  return got == 0 || (got < 0 && errno != EAGAIN && errno != EWOULDBLOCK);
}

int status_of(std::string_view answer) {
  if (!answer.starts_with("HTTP/1.") || answer.size() < 12) return 0;
  return std::stoi(std::string(answer.substr(9, 3)));
}

std::string body_of(std::string_view answer) {
  const std::size_t end = answer.find("\r\n\r\n");
  return end == std::string_view::npos ? std::string() : std::string(answer.substr(end + 4));
}

std::map<std::string, std::string> headers_of(std::string_view answer) {
  std::map<std::string, std::string> headers;
  answer = answer.substr(0, answer.find("\r\n\r\n"));
  while (true) {
    const std::size_t line_end = answer.find("\r\n");
    if (line_end == std::string_view::npos) return headers;
    answer.remove_prefix(line_end + 2);
    const std::string_view line = answer.substr(0, answer.find("\r\n"));
    const std::size_t colon = std::min(line.find(": "), line.size());
    std::string name(line.substr(0, colon));
    std::ranges::transform(name, name.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    headers[name] = line.substr(std::min(colon + 2, line.size()));
  }
}

std::string get(const std::string& path, const std::string& more_headers) {
  return "GET " + path + " HTTP/1.1\r\nHost: localhost\r\n" + more_headers + "\r\n";
}

RunningServer::RunningServer(const Limits& limits, int port)
    : server_(
          {"127.0.0.1", port}, [this](const Request& request) { return site.answer(request); },
          limits,
          [this](std::string_view trouble) {
            const std::lock_guard lock(mutex_);
            troubles_.emplace_back(trouble);
          }) {
  site.set_links({{token_hash(kOpenToken), LinkState::Active},
                  {token_hash(kWithdrawnToken), LinkState::Revoked}});
  site.publish({kCalendarBytes, "<!DOCTYPE html>\n", "", "", {}});
  thread_ = std::jthread([this](const std::stop_token& stop) { server_.run(stop); });
}

std::vector<std::string> RunningServer::troubles() {
  const std::lock_guard lock(mutex_);
  return troubles_;
}

long long resident_bytes() {
  long long total = 0;
  long long resident = 0;
  std::ifstream("/proc/self/statm") >> total >> resident;
  return resident * sysconf(_SC_PAGESIZE);
}

}  // namespace trug::feed
