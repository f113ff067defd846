// SPDX-License-Identifier: MIT
// A file that is read, thought over and replaced as a whole, while no other run does the same.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <system_error>

namespace trug::app {

// The world refuses: cannot read, write, lock. `what()` names the file and the reason.
class IoError : public std::system_error {
 public:
  IoError(int error_number, const std::string& what)
      : std::system_error(error_number, std::generic_category(), what) {}
};

// Holds the lock on one output file from construction to replace() or destruction.
//
// The new bytes go to a file beside it (".NAME.trug-new"), which is also the lock: held with
// flock(), so a run that dies lets it go, and the next run takes over what it left. Then: fsync,
// rename, fsync of the folder. Whoever reads the file sees all of the old or all of the new.
//
// A symbolic link is written through, to where it points, provided that is a regular file of the
// same user; any other link is refused. The file keeps its permissions and, where the system
// allows, its group (where not, the group loses its permissions); a hard link to it does not
// follow.
class OutputFile {
 public:
  // Waits at most `patience` for another run. Throws IoError.
  explicit OutputFile(const std::string& path,
                      std::chrono::milliseconds patience = std::chrono::seconds{10});
  ~OutputFile();
  OutputFile(const OutputFile&) = delete;
  OutputFile& operator=(const OutputFile&) = delete;

  // The file as it stands; nullopt where there is none. Throws IoError.
  std::optional<std::string> previous() const;
  // Once only; the lock is let go. Throws IoError, and then the old file still stands (or the new
  // one does, where only the folder could not be synced).
  void replace(std::string_view bytes);

 private:
  // A file descriptor, closed at the end.
  class Descriptor {
   public:
    Descriptor() = default;
    explicit Descriptor(int number) : number_(number) {}
    Descriptor(Descriptor&& other) noexcept;
    Descriptor& operator=(Descriptor&& other) noexcept;
    ~Descriptor();
    int number() const { return number_; }
    bool is_open() const { return number_ >= 0; }

   private:
    int number_ = -1;
  };

  [[noreturn]] void fail(const char* doing) const;
  void follow_link();
  void take_lock(std::chrono::milliseconds patience);
  bool try_lock();
  bool stands_under_its_name() const;
  void keep_permissions() const;
  void write_all(std::string_view bytes) const;

  std::string path_;    // as given, for messages
  std::string target_;  // where it really lies
  std::string name_;    // in folder_
  std::string lock_name_;
  Descriptor folder_;
  Descriptor lock_;
};

}  // namespace trug::app
