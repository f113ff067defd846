// SPDX-License-Identifier: MIT
#include "app/real_files.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <ios>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

namespace trug::app {

namespace fs = std::filesystem;

FileBytes RealFiles::read(const std::string& path, std::size_t limit) const {
  std::error_code error;
  const fs::file_status status = fs::status(path, error);
  if (status.type() == fs::file_type::not_found) return {FileState::Missing, {}};
  if (fs::is_directory(status)) return {FileState::Folder, {}};
  std::ifstream stream(path, std::ios::binary);
  if (!stream) return {FileState::Unreadable, {}};
  // Read a little beyond the limit, so that a pipe or a growing file cannot fill the memory.
  std::string bytes(limit + 1, '\0');
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (stream.bad()) return {FileState::Unreadable, {}};
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  if (bytes.size() > limit) return {FileState::TooLarge, {}};
  return {FileState::Read, std::move(bytes)};
}

std::optional<std::vector<std::string>> RealFiles::list(const std::string& folder,
                                                        std::string_view ending) const {
  std::error_code error;
  fs::directory_iterator entries(folder, error);
  if (error) return std::nullopt;
  std::vector<std::string> names;
  for (const fs::directory_entry& entry : entries) {
    std::string name = entry.path().filename().string();
    if (name.ends_with(ending)) names.push_back(std::move(name));
  }
  std::ranges::sort(names);
  return names;
}

}  // namespace trug::app
