// SPDX-License-Identifier: MIT
#pragma once

#include <sys/stat.h>

namespace trug::app {

// While it lives, new files are readable for their owner alone.
class OwnerOnly {
 public:
  OwnerOnly() : mask_(::umask(S_IRWXG | S_IRWXO)) {}
  ~OwnerOnly() { ::umask(mask_); }
  OwnerOnly(const OwnerOnly&) = delete;
  OwnerOnly& operator=(const OwnerOnly&) = delete;

 private:
  mode_t mask_;
};

}  // namespace trug::app
