// SPDX-License-Identifier: MIT
#include "app/output_file.h"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdlib>
#include <memory>
#include <stdexcept>
#include <thread>
#include <utility>

namespace trug::app {
namespace {

constexpr std::chrono::milliseconds kBetweenTries{20};
constexpr mode_t kForAll = 0666;  // less what the umask takes
constexpr mode_t kForOwner = 0600;

std::string folder_of(const std::string& path) {
  const std::size_t slash = path.rfind('/');
  if (slash == std::string::npos) return ".";
  return slash == 0 ? "/" : path.substr(0, slash);
}

std::string name_of(const std::string& path) { return path.substr(path.rfind('/') + 1); }

}  // namespace

OutputFile::OutputFile(const std::string& path, Access access, Unlocked)
    : path_(path), access_(access), target_(path) {
  follow_link();
  name_ = name_of(target_);
  lock_name_ = "." + name_ + ".trug-new";
  folder_ = Descriptor(::open(folder_of(target_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!folder_.is_open()) fail("cannot open the folder of");
}

OutputFile::OutputFile(const std::string& path, Access access, std::chrono::milliseconds patience)
    : OutputFile(path, access, Unlocked{}) {
  take_lock(patience);
}

OutputFile::~OutputFile() {
  // Still under its name and held by us: not used, so taken away.
  if (lock_.is_open()) ::unlinkat(folder_.number(), lock_name_.c_str(), 0);
}

void OutputFile::fail(const char* doing) const {
  throw IoError(errno, std::string(doing) + " " + path_);
}

void OutputFile::follow_link() {
  struct stat status {};
  if (::lstat(path_.c_str(), &status) != 0) {
    if (errno == ENOENT) return;
    fail("cannot look at");
  }
  if (S_ISLNK(status.st_mode)) {
    const std::unique_ptr<char, decltype(&std::free)> real(::realpath(path_.c_str(), nullptr),
                                                           &std::free);
    if (!real) fail("cannot follow the link");
    target_ = real.get();
    if (::lstat(target_.c_str(), &status) != 0) fail("cannot follow the link");
    if (status.st_uid != ::geteuid()) {
      throw IoError(EPERM, "the link leads to a file of another user: " + path_);
    }
  }
  if (!S_ISREG(status.st_mode)) {
    throw IoError(S_ISDIR(status.st_mode) ? EISDIR : EINVAL, "not a plain file: " + path_);
  }
}

void OutputFile::take_lock(std::chrono::milliseconds patience) {
  const auto until = std::chrono::steady_clock::now() + patience;
  while (!try_lock()) {
    if (std::chrono::steady_clock::now() >= until) {
      throw IoError(EWOULDBLOCK, "another run is writing " + path_);
    }
    std::this_thread::sleep_for(kBetweenTries);
  }
}

// False where another run holds it, or has just used it up.
bool OutputFile::try_lock() {
  Descriptor lock(::openat(folder_.number(), lock_name_.c_str(),
                           O_RDWR | O_CREAT | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC,
                           access_ == Access::Usual ? kForAll : kForOwner));
  if (!lock.is_open()) fail("cannot write beside");
  struct stat status {};
  if (::fstat(lock.number(), &status) != 0) fail("cannot write beside");
  if (!S_ISREG(status.st_mode) || status.st_uid != ::geteuid() || status.st_nlink > 1) {
    throw IoError(EPERM, "remove " + lock_name_ + " beside " + path_ +
                             ": it is not of our making, and in the way");
  }
  if (::flock(lock.number(), LOCK_EX | LOCK_NB) != 0) {
    if (errno == EWOULDBLOCK || errno == EINTR) return false;
    fail("cannot lock");
  }
  lock_ = std::move(lock);
  const bool stands = stands_under_its_name();
  if (stands && !is_too_open()) return true;
  if (stands) ::unlinkat(folder_.number(), lock_name_.c_str(), 0);
  lock_ = Descriptor();
  return false;
}

// A run that died may have left it readable for others, who may have it open still.
bool OutputFile::is_too_open() const {
  struct stat status {};
  return access_ != Access::Usual &&
         (::fstat(lock_.number(), &status) != 0 || (status.st_mode & 0777 & ~kForOwner) != 0);
}

// The holder before us may have renamed or removed what we have just locked.
bool OutputFile::stands_under_its_name() const {
  struct stat held {};
  struct stat named {};
  return ::fstat(lock_.number(), &held) == 0 &&
         ::fstatat(folder_.number(), lock_name_.c_str(), &named, AT_SYMLINK_NOFOLLOW) == 0 &&
         held.st_dev == named.st_dev && held.st_ino == named.st_ino;
}

std::optional<std::string> OutputFile::previous() const {
  const Descriptor file(
      ::openat(folder_.number(), name_.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
  if (!file.is_open()) {
    if (errno == ENOENT) return std::nullopt;
    fail("cannot read");
  }
  struct stat status {};
  if (::fstat(file.number(), &status) != 0) fail("cannot read");
  const auto require_small = [&](std::size_t octets) {
    if (octets > kLargestOutput) throw IoError(EFBIG, "cannot read " + path_);
  };
  require_small(static_cast<std::size_t>(status.st_size));
  std::string bytes;
  std::array<char, 65536> buffer{};
  while (true) {
    const ssize_t count = ::read(file.number(), buffer.data(), buffer.size());
    if (count == 0) return bytes;
    if (count > 0) bytes.append(buffer.data(), static_cast<std::size_t>(count));
    if (count < 0 && errno != EINTR) fail("cannot read");
    require_small(bytes.size());
  }
}

std::optional<std::string> OutputFile::look(const std::string& path) {
  return OutputFile(path, Access::Usual, Unlocked{}).previous();
}

void OutputFile::keep_permissions() const {
  struct stat status {};
  if (::fstatat(folder_.number(), name_.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0) {
    if (errno == ENOENT) return;
    fail("cannot look at");
  }
  mode_t mode = access_ == Access::OwnerAlways ? kForOwner : status.st_mode & 0777;
  const uid_t owner = ::geteuid() == 0 ? status.st_uid : static_cast<uid_t>(-1);
  // Another group gets no more than everybody has.
  if (::fchown(lock_.number(), owner, status.st_gid) != 0) {
    mode = (mode & static_cast<mode_t>(~S_IRWXG)) | (mode & S_IRWXO) << 3;
  }
  if (::fchmod(lock_.number(), mode) != 0) fail("cannot keep the permissions of");
}

void OutputFile::write_all(std::string_view bytes) const {
  // What a run that died has left behind.
  if (::ftruncate(lock_.number(), 0) != 0) fail("cannot write");
  while (!bytes.empty()) {
    const ssize_t count = ::write(lock_.number(), bytes.data(), bytes.size());
    if (count < 0 && errno != EINTR) fail("cannot write");
    if (count > 0) bytes.remove_prefix(static_cast<std::size_t>(count));
  }
}

void OutputFile::replace(std::string_view bytes) {
  if (!lock_.is_open()) throw std::logic_error("an output file is replaced once only");
  if (bytes.size() > kLargestOutput) throw IoError(EFBIG, "cannot write " + path_);
  keep_permissions();
  write_all(bytes);
  if (::fsync(lock_.number()) != 0) fail("cannot write");
  if (::renameat(folder_.number(), lock_name_.c_str(), folder_.number(), name_.c_str()) != 0) {
    fail("cannot replace");
  }
  lock_ = Descriptor();
  // Some file systems cannot do this (EINVAL); the file is whole all the same.
  if (::fsync(folder_.number()) != 0 && errno != EINVAL) fail("cannot make sure of");
}

}  // namespace trug::app
