// SPDX-License-Identifier: MIT
// Notices that files have changed. It looks only when it is asked to, so it works on every file
// system, and for the few files of a plan it costs nothing.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace trug::app {

class FileWatch {
 public:
  FileWatch() = default;
  // Of the folders, the files in them whose names end in `ending`. What is not there is watched
  // too: it may come.
  FileWatch(std::vector<std::string> files, std::vector<std::string> folders, std::string ending);

  // Watches one more file. To be called before the file is read, so that no edit is missed between;
  // coming to be watched is no change.
  void add(const std::string& file);
  // True once after a change, when two looks in a row have seen the same: a file that is being
  // written is left alone. To be called about once a second.
  bool changed();

 private:
  struct Seen {
    std::string path;
    std::int64_t modified_ns = 0;
    std::int64_t size = 0;
    std::uint64_t inode = 0;
    bool operator==(const Seen&) const = default;
  };
  static std::optional<Seen> look_at(const std::string& path);
  std::vector<Seen> look() const;

  std::vector<std::string> files_;
  std::vector<std::string> folders_;
  std::string ending_;
  std::vector<Seen> told_;
  std::vector<Seen> last_;
};

}  // namespace trug::app
