// SPDX-License-Identifier: MIT
#include "app/file_watch.h"

#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace trug::app {

FileWatch::FileWatch(std::vector<std::string> files, std::vector<std::string> folders,
                     std::string ending)
    : files_(std::move(files)),
      folders_(std::move(folders)),
      ending_(std::move(ending)),
      told_(look()),
      last_(told_) {}

bool FileWatch::changed() {
  const std::vector<Seen> before = std::exchange(last_, look());
  if (last_ != before || last_ == told_) return false;
  told_ = last_;
  return true;
}

std::vector<FileWatch::Seen> FileWatch::look() const {
  std::vector<std::string> paths = files_;
  for (const std::string& folder : folders_) {
    std::error_code error;
    for (std::filesystem::directory_iterator entry(folder, error), end; !error && entry != end;
         entry.increment(error)) {
      if (entry->path().native().ends_with(ending_)) paths.push_back(entry->path());
    }
  }
  std::ranges::sort(paths);
  std::vector<Seen> seen;
  for (std::string& path : paths) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) continue;
    constexpr std::int64_t kNanoseconds = 1'000'000'000;
    seen.push_back({std::move(path),
                    std::int64_t{status.st_mtim.tv_sec} * kNanoseconds + status.st_mtim.tv_nsec,
                    std::int64_t{status.st_size}, std::uint64_t{status.st_ino}});
  }
  return seen;
}

}  // namespace trug::app
