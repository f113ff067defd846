// SPDX-License-Identifier: MIT
#include "app/real_files.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>
#include <utility>
#include <vector>

#include "app/descriptor.h"

namespace trug::app {

namespace fs = std::filesystem;

namespace {

FileBytes read_to_end(int number, std::size_t limit) {
  // What the system says of the size is no promise: the file may grow, or be of /proc.
  std::string bytes;
  std::array<char, 16384> buffer{};
  while (bytes.size() <= limit) {
    const ssize_t count = ::read(number, buffer.data(), buffer.size());
    if (count == 0) return {FileState::Read, std::move(bytes)};
    if (count < 0 && errno != EINTR) return {FileState::Unreadable, {}};
    if (count > 0) bytes.append(buffer.data(), static_cast<std::size_t>(count));
  }
  return {FileState::TooLarge, {}};
}

}  // namespace

FileBytes RealFiles::read(const std::string& path, std::size_t limit) const {
  if (path == "-") return read_to_end(STDIN_FILENO, limit);
  // Without O_NONBLOCK a pipe would keep us waiting for a writer.
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_NONBLOCK | O_CLOEXEC));
  if (!file.is_open()) {
    const bool missing = errno == ENOENT || errno == ENOTDIR;
    return {missing ? FileState::Missing : FileState::Unreadable, {}};
  }
  struct stat status {};
  if (::fstat(file.number(), &status) != 0) return {FileState::Unreadable, {}};
  if (S_ISDIR(status.st_mode)) return {FileState::Folder, {}};
  if (!S_ISREG(status.st_mode)) return {FileState::NotPlain, {}};
  return read_to_end(file.number(), limit);
}

std::optional<std::vector<std::string>> RealFiles::list(const std::string& folder,
                                                        std::string_view ending) const {
  std::error_code error;
  fs::directory_iterator entry(folder, error);
  if (error) return std::nullopt;
  std::vector<std::string> names;
  for (const fs::directory_iterator end; entry != end; entry.increment(error)) {
    std::string name = entry->path().filename().string();
    if (name.ends_with(ending)) names.push_back(std::move(name));
  }
  if (error) return std::nullopt;
  std::ranges::sort(names);
  return names;
}

}  // namespace trug::app
