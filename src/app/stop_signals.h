// SPDX-License-Identifier: MIT
// The signals that end a server.
#pragma once

#include <csignal>
#include <ctime>

namespace trug::app {

// SIGINT and SIGTERM, which from here on wait until they are asked for, in all threads.
class StopSignals {
 public:
  StopSignals() {
    sigemptyset(&signals_);
    sigaddset(&signals_, SIGINT);
    sigaddset(&signals_, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals_, &before_);
  }
  ~StopSignals() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  StopSignals(const StopSignals&) = delete;
  StopSignals& operator=(const StopSignals&) = delete;
  // Waits for one, at most a second.
  bool came() const {
    const timespec second{.tv_sec = 1, .tv_nsec = 0};
    return sigtimedwait(&signals_, nullptr, &second) >= 0;
  }

 private:
  sigset_t signals_{};
  sigset_t before_{};
};

}  // namespace trug::app
