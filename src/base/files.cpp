// SPDX-License-Identifier: MIT
#include "base/files.h"

namespace trug {

FileBytes MemoryFiles::read(const std::string& path, std::size_t limit) const {
  const auto found = files_.find(path);
  if (found == files_.end()) {
    const bool folder = list(path, "").has_value();
    return {folder ? FileState::Folder : FileState::Missing, {}};
  }
  if (found->second.size() > limit) return {FileState::TooLarge, {}};
  return {FileState::Read, found->second};
}

std::optional<std::vector<std::string>> MemoryFiles::list(const std::string& folder,
                                                          std::string_view ending) const {
  std::optional<std::vector<std::string>> names;
  const std::string prefix = folder + "/";
  for (const auto& [path, bytes] : files_) {
    if (!path.starts_with(prefix)) continue;
    if (!names) names.emplace();
    const std::string name = path.substr(prefix.size());
    if (name.find('/') == std::string::npos && name.ends_with(ending)) names->push_back(name);
  }
  return names;
}

}  // namespace trug
