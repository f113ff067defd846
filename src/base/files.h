// SPDX-License-Identifier: MIT
// The seam to the file system: the program reads real files, tests read from memory.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace trug {

// NotPlain: a pipe or a device, which may never end, or keep who reads it waiting for ever.
enum class FileState { Read, Missing, Folder, NotPlain, TooLarge, Unreadable };

struct FileBytes {
  FileState state = FileState::Missing;
  std::string bytes;
};

class FileReader {
 public:
  virtual ~FileReader() = default;
  // Reads a whole file of at most `limit` bytes.
  virtual FileBytes read(const std::string& path, std::size_t limit) const = 0;
  // Names (not paths) of the files of a folder that end in `ending`, sorted; nullopt when it is no
  // folder.
  virtual std::optional<std::vector<std::string>> list(const std::string& folder,
                                                       std::string_view ending) const = 0;
};

// Files held in memory, for tests and for the sheets compiled into the program.
class MemoryFiles : public FileReader {
 public:
  explicit MemoryFiles(std::map<std::string, std::string> files) : files_(std::move(files)) {}
  FileBytes read(const std::string& path, std::size_t limit) const override;
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override;

 private:
  std::map<std::string, std::string> files_;
};

}  // namespace trug
