// SPDX-License-Identifier: MIT
#include "feed/server.h"

#include <arpa/inet.h>
#include <fmt/format.h>
#include <microhttpd.h>
#include <netdb.h>
#include <netinet/in.h>
#include <strings.h>
#include <sys/socket.h>
#include <unistd.h>

#include <atomic>
#include <bit>
#include <cerrno>
#include <condition_variable>
#include <cstdarg>
#include <cstdint>
#include <cstring>
#include <memory>
#include <mutex>
#include <string>
#include <system_error>
#include <utility>

namespace trug::feed {
namespace {

constexpr unsigned kThreads = 2;
// Bodies are read and thrown away, so that a client that sends one hears the answer; one that goes
// on for longer is cut off.
constexpr std::uintptr_t kBodyLimit = 1024 * 1024;

using Body = std::shared_ptr<const std::string>;

class Troubles {
 public:
  explicit Troubles(const TroubleLog& log) : log_(log) {}
  void add(std::string_view what) {
    const std::uint64_t count = ++count_;
    if (!log_ || !std::has_single_bit(count)) return;
    const std::lock_guard lock(mutex_);
    log_(fmt::format("connection trouble {}: {}", count, what));
  }

 private:
  const TroubleLog& log_;
  std::atomic<std::uint64_t> count_ = 0;
  std::mutex mutex_;
};

struct Service {
  const Handler& handler;
  Troubles troubles;
};

struct StopDaemon {
  void operator()(MHD_Daemon* daemon) const { MHD_stop_daemon(daemon); }
};
struct DestroyResponse {
  void operator()(MHD_Response* response) const { MHD_destroy_response(response); }
};
using WireResponse = std::unique_ptr<MHD_Response, DestroyResponse>;

struct FreeAddresses {
  void operator()(addrinfo* list) const { freeaddrinfo(list); }
};

// The library's words for what ordinary clients bring about, and ours.
constexpr std::pair<std::string_view, std::string_view> kTroubleWords[] = {
    {"Error processing request",
     "a request could not be read as plain HTTP and was refused; for https put a proxy in front"},
    {"Server reached connection limit", "too many clients at once; some were turned away"},
};

// Only what the format says before its first value: values may come from the client.
void note_trouble(void* service, const char* format, va_list) {
  std::string_view what = format;
  what = what.substr(0, what.find_first_of("(%"));
  what = what.substr(0, what.find_last_not_of(" .:`'\n") + 1);
  for (const auto& [theirs, ours] : kTroubleWords) {
    if (what.starts_with(theirs)) what = ours;
  }
  static_cast<Service*>(service)->troubles.add(what.empty() ? "not named by the library" : what);
}

// Paths stay as they were sent: ours need no escapes, and "%00" or "%2f" decoded would only be a
// second spelling of something.
std::size_t leave_escapes(void*, MHD_Connection*, char* text) { return std::strlen(text); }

void release_body(void* body) { delete static_cast<Body*>(body); }

WireResponse wire_with_body(const Response& response) {
  static const Body kNone = std::make_shared<const std::string>();
  auto body = std::make_unique<Body>(response.body ? response.body : kNone);
  // The library takes a pointer to what it could change, and only reads.
  WireResponse wire(MHD_create_response_from_buffer_with_free_callback_cls(
      (*body)->size(), const_cast<char*>((*body)->data()), release_body, body.get()));
  if (wire) static_cast<void>(body.release());  // release_body() has it now
  return wire;
}

ssize_t nothing(void*, std::uint64_t, char*, std::size_t) {
  return MHD_CONTENT_READER_END_OF_STREAM;
}

// A 304 may carry no length but that of the 200 (RFC 9110, 8.6), and then some wait for that many
// bytes (wrk 4.1 does; browsers and caches were reported to), while a wrong 0 was reported to empty
// what caches hold. On a connection that stays, this library (0.9.75) always states a length, or
// sends the end of a chunked body after the head; only one that closes has neither. To clients that
// look in every few hours a new connection costs a fraction of a millisecond.
WireResponse wire_without_length() {
  constexpr std::size_t kUnusedBuffer = 16;
  WireResponse wire(MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, kUnusedBuffer, nothing,
                                                      nullptr, nullptr));
  if (wire) {
    MHD_set_response_options(wire.get(), MHD_RF_HTTP_1_0_COMPATIBLE_STRICT, MHD_RO_END);
  }
  return wire;
}

WireResponse wire_response(const Response& response) {
  WireResponse wire =
      response.status == MHD_HTTP_NOT_MODIFIED ? wire_without_length() : wire_with_body(response);
  if (!wire) return wire;
  for (const Header& header : response.headers) {
    MHD_add_response_header(wire.get(), std::string(header.name).c_str(), header.value.c_str());
  }
  return wire;
}

std::string header_of(MHD_Connection* connection, const char* name) {
  const char* value = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
  return value == nullptr ? std::string() : std::string(value);
}

MHD_Result reply(const Service& service, MHD_Connection* connection, const char* path,
                 const char* method) {
  const Request request{method, path, header_of(connection, MHD_HTTP_HEADER_IF_NONE_MATCH),
                        header_of(connection, MHD_HTTP_HEADER_IF_MODIFIED_SINCE)};
  const Response response = service.handler(request);
  const WireResponse wire = wire_response(response);
  if (!wire) return MHD_NO;
  return MHD_queue_response(connection, static_cast<unsigned>(response.status), wire.get());
}

// What the head of a request must not leave in doubt.
struct Head {
  int framings = 0;
  int hosts = 0;
  bool sound = true;
};

MHD_Result look_at_header(void* head, MHD_ValueKind, const char* name, std::size_t name_size,
                          const char*, std::size_t) {
  Head& seen = *static_cast<Head*>(head);
  const auto is = [name](const char* other) { return strcasecmp(name, other) == 0; };
  if (is(MHD_HTTP_HEADER_CONTENT_LENGTH) || is(MHD_HTTP_HEADER_TRANSFER_ENCODING)) ++seen.framings;
  if (is(MHD_HTTP_HEADER_HOST)) ++seen.hosts;
  const std::string_view whole(name, name_size);
  seen.sound = seen.sound && whole.find_first_of(" \t") == whole.npos;
  return MHD_YES;
}

// Two statements of where the request ends (RFC 9112, 6.3): the library believes the first, a proxy
// in front might believe the other, and take the answer to one client for that to the next.
bool end_is_doubtful(const Head& head) { return head.framings > 1; }

// RFC 9112, 3.2: HTTP/1.1 names one host; 5.1: no blank before the colon.
bool is_bad(const Head& head, const char* version) {
  const bool must_name_host = std::strcmp(version, MHD_HTTP_VERSION_1_1) == 0;
  return !head.sound || head.hosts > 1 || (must_name_host && head.hosts == 0);
}

MHD_Result refuse(MHD_Connection* connection, int status) {
  const WireResponse wire = wire_response({status, {{"Connection", "close"}}, nullptr});
  return wire ? MHD_queue_response(connection, static_cast<unsigned>(status), wire.get()) : MHD_NO;
}

MHD_Result on_head(MHD_Connection* connection, const char* version) {
  Head head;
  MHD_get_connection_values_n(connection, MHD_HEADER_KIND, look_at_header, &head);
  if (end_is_doubtful(head)) return MHD_NO;
  return is_bad(head, version) ? refuse(connection, MHD_HTTP_BAD_REQUEST) : MHD_YES;
}

// Called once for the head of a request, once for each piece of its body, once at its end. `state`
// begins as null and counts the bytes of the body, plus 1.
MHD_Result on_request(void* cls, MHD_Connection* connection, const char* path, const char* method,
                      const char* version, const char*, std::size_t* body_bytes, void** state) {
  const auto count = reinterpret_cast<std::uintptr_t>(*state) + (*state ? *body_bytes : 1);
  const bool at_head = *state == nullptr;
  *state = reinterpret_cast<void*>(count);
  if (at_head) return on_head(connection, version);
  if (*body_bytes > 0) {
    *body_bytes = 0;
    return count > kBodyLimit ? MHD_NO : MHD_YES;
  }
  Service& service = *static_cast<Service*>(cls);
  try {
    return reply(service, connection, path, method);
  } catch (...) {  // nothing may pass through the library's C
    service.troubles.add("our own mistake in answering");
    return refuse(connection, MHD_HTTP_INTERNAL_SERVER_ERROR);
  }
}

[[noreturn]] void cannot_listen(const Address& address, int error) {
  throw std::system_error(error, std::generic_category(),
                          fmt::format("cannot listen on {}", to_string(address)));
}

// Our own socket rather than the library's: it tells why it could not be had, and it has
// SO_REUSEADDR (a restart need not wait) without SO_REUSEPORT (two programs would share a port and
// each get half of the clients).
int listening_socket(const Address& address) {
  addrinfo hints{};
  hints.ai_flags = AI_NUMERICHOST | AI_NUMERICSERV;
  hints.ai_socktype = SOCK_STREAM;
  addrinfo* list = nullptr;
  const std::string port = std::to_string(address.port);
  if (getaddrinfo(address.host.c_str(), port.c_str(), &hints, &list) != 0) {
    cannot_listen(address, EADDRNOTAVAIL);
  }
  const std::unique_ptr<addrinfo, FreeAddresses> found(list);
  const int fd = socket(found->ai_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0);
  if (fd < 0) cannot_listen(address, errno);
  const int on = 1;
  setsockopt(fd, SOL_SOCKET, SO_REUSEADDR, &on, sizeof on);
  if (bind(fd, found->ai_addr, found->ai_addrlen) != 0 || listen(fd, SOMAXCONN) != 0) {
    const int error = errno;
    close(fd);
    cannot_listen(address, error);
  }
  return fd;
}

int port_of(int fd) {
  sockaddr_storage storage{};
  socklen_t length = sizeof storage;
  getsockname(fd, reinterpret_cast<sockaddr*>(&storage), &length);
  // The port stands in the same place in both families.
  sockaddr_in address{};
  std::memcpy(&address, &storage, sizeof address);
  return ntohs(address.sin_port);
}

}  // namespace

Server::Server(const Address& address, Handler handler, Limits limits, TroubleLog log)
    : handler_(std::move(handler)),
      limits_(limits),
      log_(std::move(log)),
      socket_(listening_socket(address)),
      port_(port_of(socket_)) {}

Server::~Server() {
  if (socket_ >= 0) close(socket_);
}

void Server::run(const std::stop_token& stop) {
  Service service{handler_, Troubles(log_)};
  // The socket is the library's from here on: it closes it. Without MHD_USE_ITC a thread that has
  // no place left for clients hears of the stop only when one of them has been silent for too long.
  const std::unique_ptr<MHD_Daemon, StopDaemon> daemon(MHD_start_daemon(
      MHD_USE_EPOLL_INTERNAL_THREAD | MHD_USE_ITC | MHD_USE_ERROR_LOG, 0, nullptr, nullptr,
      on_request, &service, MHD_OPTION_EXTERNAL_LOGGER, note_trouble, &service,
      MHD_OPTION_LISTEN_SOCKET, std::exchange(socket_, -1), MHD_OPTION_THREAD_POOL_SIZE, kThreads,
      MHD_OPTION_CONNECTION_LIMIT, limits_.connections, MHD_OPTION_PER_IP_CONNECTION_LIMIT,
      limits_.per_address, MHD_OPTION_CONNECTION_TIMEOUT, limits_.silent_seconds,
      MHD_OPTION_CONNECTION_MEMORY_LIMIT, limits_.memory, MHD_OPTION_UNESCAPE_CALLBACK,
      leave_escapes, nullptr, MHD_OPTION_END));
  if (!daemon) throw std::system_error(errno, std::generic_category(), "cannot serve");
  std::mutex mutex;
  std::condition_variable_any wake;
  std::unique_lock lock(mutex);
  wake.wait(lock, stop, [] { return false; });
}

}  // namespace trug::feed
