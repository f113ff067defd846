// SPDX-License-Identifier: MIT
#include "app/inputs.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace trug::app {

FileBytes Inputs::read(const std::string& path, std::size_t limit) const {
  FileBytes file = files_.read(path, limit);
  if (file.state == FileState::Read || file.state == FileState::TooLarge) {
    const std::scoped_lock lock(mutex_);
    read_.insert(path);
  }
  return file;
}

std::optional<std::vector<std::string>> Inputs::list(const std::string& folder,
                                                     std::string_view ending) const {
  return files_.list(folder, ending);
}

bool Inputs::hold(const std::string& path) const {
  const std::scoped_lock lock(mutex_);
  return std::ranges::any_of(read_, [&](const std::string& input) {
    std::error_code error;
    return input == path || std::filesystem::equivalent(input, path, error);
  });
}

void require_writable(const Environment& environment, const std::string& path) {
  if (path.empty()) throw BadOutput("the name of the file to write is empty");
  if (environment.inputs != nullptr && environment.inputs->hold(path)) {
    throw BadOutput(path + " is read in this run, and never written over");
  }
}

}  // namespace trug::app
