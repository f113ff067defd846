// SPDX-License-Identifier: MIT
// The files a run has read: none of them is ever written over.
#pragma once

#include <mutex>
#include <optional>
#include <set>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "app/environment.h"
#include "base/files.h"

namespace trug::app {

// May be asked by several threads, as far as `files` may.
class Inputs : public FileReader {
 public:
  // `files` must outlive it.
  explicit Inputs(const FileReader& files) : files_(files) {}
  FileBytes read(const std::string& path, std::size_t limit) const override;
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override;
  // Whether that file has been read, by whatever name.
  bool hold(const std::string& path) const;

 private:
  const FileReader& files_;
  mutable std::mutex mutex_;
  mutable std::set<std::string> read_;
};

// The gardener named a file to write that cannot be meant. `what()` says why.
class BadOutput : public std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Throws BadOutput where the name is empty, or that of a file this run has read: a plan, a sheet, a
// record. To be called before each OutputFile.
void require_writable(const Environment& environment, const std::string& path);

}  // namespace trug::app
