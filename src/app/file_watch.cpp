// SPDX-License-Identifier: MIT
#include "app/file_watch.h"

#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <system_error>
#include <utility>

namespace trug::app {

FileWatch::FileWatch(std::vector<std::string> files, std::vector<std::string> folders,
                     std::string ending)
    : files_(std::move(files)),
      folders_(std::move(folders)),
      ending_(std::move(ending)),
      told_(look()),
      last_(told_) {}

void FileWatch::add(const std::string& file) {
  if (std::ranges::find(files_, file) != files_.end()) return;
  files_.push_back(file);
  const auto in_a_folder = std::ranges::find(told_, file, &Seen::path);
  const auto seen = look_at(file);
  if (!seen || in_a_folder != told_.end()) return;
  for (std::vector<Seen>* list : {&told_, &last_}) {
    list->insert(std::ranges::upper_bound(*list, file, {}, &Seen::path), *seen);
  }
}

bool FileWatch::changed() {
  const std::vector<Seen> before = std::exchange(last_, look());
  if (last_ != before || last_ == told_) return false;
  told_ = last_;
  return true;
}

std::optional<FileWatch::Seen> FileWatch::look_at(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return std::nullopt;
  constexpr std::int64_t kNanoseconds = 1'000'000'000;
  return Seen{path, std::int64_t{status.st_mtim.tv_sec} * kNanoseconds + status.st_mtim.tv_nsec,
              std::int64_t{status.st_size}, std::uint64_t{status.st_ino}};
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
  paths.erase(std::unique(paths.begin(), paths.end()), paths.end());  // named, and in a folder too
  std::vector<Seen> seen;
  for (const std::string& path : paths) {
    if (auto found = look_at(path)) seen.push_back(std::move(*found));
  }
  return seen;
}

}  // namespace trug::app
