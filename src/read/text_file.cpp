// SPDX-License-Identifier: MIT
#include "read/text_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/text.h"

namespace trug::read {
namespace {

void report_state(FileState state, const std::string& path, std::size_t limit,
                  Diagnostics& diagnostics) {
  const Position whole{path, 0, 0};
  switch (state) {
    case FileState::Read:
      return;
    case FileState::Missing:
      return diagnostics.error(whole, "there is no such file", "check the name and the folder");
    case FileState::Folder:
      return diagnostics.error(whole, "this is a folder, not a file", "name the file inside it");
    case FileState::NotPlain:
      return diagnostics.error(whole, "this is a pipe or a device, not a file",
                               "save what comes out of it in a file");
    case FileState::TooLarge:
      return diagnostics.error(
          whole, fmt::format("the file is larger than {} MiB", limit / (1024 * 1024)),
          limit == kLargestFile ? "a plan is a few hundred lines of text; is this the right file?"
                                : "is this the right file?");
    case FileState::Unreadable:
      return diagnostics.error(whole, "the file cannot be read", "check its permissions");
  }
}

// What is wrong with one line, by the column where it is; nothing where it is fine.
struct Fault {
  int column = 1;
  std::string message;
  std::string hint;
};

std::optional<Fault> fault_of(std::string_view line) {
  if (line.size() > kLongestLine) {
    return Fault{
        1, fmt::format("this line has {} bytes; at most {} are read", line.size(), kLongestLine),
        "break it into several lines"};
  }
  const auto dots = static_cast<std::size_t>(std::ranges::count(line, '.'));
  if (dots > kMostDots) {
    return Fault{1, fmt::format("this line has {} dots; at most {} are read", dots, kMostDots),
                 "a key has few parts"};
  }
  if (line.find('\0') != std::string_view::npos) {
    return Fault{1, "this line holds a NUL byte: this is not a text file", ""};
  }
  if (!is_valid_utf8(line)) {
    return Fault{1, "this line is not UTF-8 text", "save the file with the encoding UTF-8"};
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::string> read_bytes(const FileReader& files, const std::string& path,
                                      Diagnostics& diagnostics, std::size_t limit) {
  FileBytes file = files.read(path, limit);
  if (file.state == FileState::Read) return std::move(file.bytes);
  report_state(file.state, path, limit, diagnostics);
  return std::nullopt;
}

std::optional<std::string> checked_text(std::string_view bytes, const std::string& path,
                                        Diagnostics& diagnostics) {
  if (bytes.size() > kLargestFile) {
    report_state(FileState::TooLarge, path, kLargestFile, diagnostics);
    return std::nullopt;
  }
  if (bytes.starts_with("\xef\xbb\xbf")) bytes.remove_prefix(3);
  std::string text(bytes);
  diagnostics.add_file(path, text);
  if (bytes.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    diagnostics.error({path, 0, 0}, "the file is empty");
    return std::nullopt;
  }
  std::size_t from = 0;
  for (int number = 1; from <= bytes.size(); ++number) {
    const std::size_t end = std::min(bytes.find('\n', from), bytes.size());
    if (const auto fault = fault_of(bytes.substr(from, end - from))) {
      diagnostics.error({path, number, fault->column}, fault->message, fault->hint);
      return std::nullopt;
    }
    from = end + 1;
  }
  return text;
}

}  // namespace trug::read
