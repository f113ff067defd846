// SPDX-License-Identifier: MIT
// A file that is read, thought over and replaced as a whole, while no other run does the same.
#pragma once

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

#include "app/descriptor.h"

namespace trug::app {

// The world refuses: cannot read, write, lock. `what()` names the file and the reason.
class IoError : public std::system_error {
 public:
  IoError(int error_number, const std::string& what)
      : std::system_error(error_number, std::generic_category(), what) {}
};

// The largest file that is read and replaced: some 70,000 events.
inline constexpr std::size_t kLargestOutput = 64 * 1024 * 1024;

// Who may read the file.
enum class Access {
  Usual,         // a new file: whom the umask allows; an earlier one: whoever could
  OwnerAtFirst,  // a new file: its owner alone; an earlier one: whoever could
  OwnerAlways    // its owner alone, whoever could before
};

// Holds the lock on one output file from construction to replace() or destruction.
//
// The new bytes go to a file beside it (".NAME.trug-new"), which is also the lock: held with
// flock(), so a run that dies lets it go, and the next run takes over what it left. Then: fsync,
// rename, fsync of the folder. Whoever reads the file sees all of the old or all of the new.
//
// A symbolic link is written through, to where it points, provided that is a regular file of the
// same user; any other link is refused. The file keeps its permissions and, where the system
// allows, its group (where not, the new group may do what everybody may); root keeps its owner too;
// a hard link to it does not follow.
class OutputFile {
 public:
  // Waits at most `patience` for another run. Throws IoError.
  explicit OutputFile(const std::string& path, Access access = Access::Usual,
                      std::chrono::milliseconds patience = std::chrono::seconds{10});
  ~OutputFile();
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;

  // The file as it stands; nullopt where there is none. Throws IoError, also where it is larger
  // than kLargestOutput.
  std::optional<std::string> previous() const;
  // The same for a run that only looks: nothing is locked, and nothing need be writable.
  static std::optional<std::string> look(const std::string& path);
  // Once only; the lock is let go. Throws IoError, and then the old file still stands (or the new
  // one does, where only the folder could not be synced).
  void replace(std::string_view bytes);

 private:
  struct Unlocked {};
  OutputFile(const std::string& path, Access access, Unlocked);

  [[noreturn]] void fail(const char* doing) const;
  void follow_link();
  void take_lock(std::chrono::milliseconds patience);
  bool try_lock();
  bool is_too_open() const;
  bool stands_under_its_name() const;
  void keep_permissions() const;
  void write_all(std::string_view bytes) const;

  std::string path_;  // as given, for messages
  Access access_;
  std::string target_;  // where it really lies
  std::string name_;    // in folder_
  std::string lock_name_;
  Descriptor folder_;
  Descriptor lock_;
};

}  // namespace trug::app
