// SPDX-License-Identifier: MIT
// HTTP/1.1 on one address. Plain text on purpose: encryption is the work of a proxy in front.
//
// Slow, broken and hostile clients are held off by limits, not by trust. The time limit is one of
// silence, so a client that sends a byte now and then stays; what keeps such clients from taking
// every place is the limit per address. From some twenty addresses at once they can: a server for
// the open internet belongs behind a proxy.
#pragma once

#include <functional>
#include <stop_token>
#include <string_view>

#include "feed/address.h"
#include "feed/http.h"

namespace trug::feed {

struct Limits {
  unsigned connections = 256;
  unsigned per_address = 16;       // 0: none, for behind a proxy, where all share one address
  unsigned silent_seconds = 10;    // then a connection is closed
  std::size_t memory = 16 * 1024;  // bytes a connection may use; longer requests are refused
};

// Told what is wrong with connections, never what was asked for: no path, no header, no token. Only
// the 1st, 2nd, 4th, 8th ... trouble is told, so a million broken clients make twenty lines. Called
// by one thread at a time.
using TroubleLog = std::function<void(std::string_view)>;

class Server {
 public:
  // Binds the address; from here on clients can connect, and wait. Throws std::system_error,
  // "cannot listen on 127.0.0.1:80: Permission denied", where it cannot.
  Server(const Address& address, Handler handler, Limits limits = {}, TroubleLog log = {});
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  int port() const { return port_; }
  // Answers, with two threads, until stopped; then closes all connections. Once only. Throws
  // std::system_error where threads cannot be started. What the handler throws becomes a 500.
  void run(const std::stop_token& stop);

 private:
  Handler handler_;
  Limits limits_;
  TroubleLog log_;
  int socket_ = -1;
  int port_ = 0;
};

}  // namespace trug::feed
