// SPDX-License-Identifier: MIT
// The whole program in a folder of its own on disk, gone afterwards.
#pragma once

#include <gtest/gtest.h>
#include <stdlib.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>
#include <string>
#include <vector>

#include "app/environment.h"
#include "app/real_files.h"

namespace trug::app {

struct Answer {
  int exit = 0;
  std::string out, err;
};

class Program : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = testing::TempDir() + "program-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string path(const std::string& name) const { return folder_ + "/" + name; }
  void write(const std::string& name, const std::string& text) const {
    std::filesystem::create_directories(std::filesystem::path(path(name)).parent_path());
    std::ofstream(path(name), std::ios::binary) << text;
  }
  std::string read(const std::string& name) const {
    std::ifstream file(path(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  // Sorted; those in folders below too.
  std::vector<std::string> names() const {
    std::vector<std::string> found;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder_)) {
      if (!entry.is_directory()) {
        found.push_back(entry.path().lexically_relative(folder_).string());
      }
    }
    std::ranges::sort(found);
    return found;
  }

  // Runs the program; words that begin with "@" are names in the folder. What it prints shows them
  // so too.
  // `typed`: what is answered to its questions.
  Answer run(std::vector<std::string> words, const std::string& typed = "") const {
    for (std::string& word : words) {
      if (word.starts_with('@')) word = path(word.substr(1));
    }
    const RealFiles files;
    std::ostringstream out, err;
    std::istringstream in(typed);
    const int exit =
        app::run(words, {.files = files,
                         .out = out,
                         .err = err,
                         .today = now_.today,
                         .now = now_.now,
                         .random = [this] { return std::array<std::uint8_t, 16>{++octet_}; },
                         .clock = [this] { return now_; },
                         .in = &in});
    return {exit, shown(out.str()), shown(err.str())};
  }

  std::string folder_;
  mutable std::uint8_t octet_ = 0;  // of the randomness: no two are alike
  Moment now_{make_date(2026, 8, 3), make_date(2026, 8, 3) + std::chrono::hours{9}};

 private:
  std::string shown(std::string text) const {
    const std::string prefix = folder_ + "/";
    for (std::size_t at = 0; (at = text.find(prefix, at)) != std::string::npos; ++at) {
      text.replace(at, prefix.size(), "@");
    }
    return text;
  }
};

// How often `what` stands in `text`.
inline int count_of(const std::string& what, const std::string& text) {
  int count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) {
    ++count;
  }
  return count;
}

}  // namespace trug::app
