// SPDX-License-Identifier: MIT
// Feeds kept inputs to a fuzz target, without a fuzzer: each argument is a file, or a folder whose
// files are taken, those of folders below too. After --all every output is made of them, after
// --some one of each.
#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "whole_program.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

namespace fs = std::filesystem;

std::vector<fs::path> files_in(const std::string& name) {
  if (!fs::is_directory(name)) return {name};
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(name)) {
    if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::ranges::sort(files);
  return files;
}

void replay(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  trug::fuzz::require(file.good(), "cannot read " + path.string());
  const std::string bytes{std::istreambuf_iterator<char>(file), {}};
  std::fprintf(stderr, "%s\n", path.c_str());
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
}

}  // namespace

int main(int count, char** words) {
  std::size_t replayed = 0;
  for (const std::string& word : std::vector<std::string>(words + 1, words + count)) {
    if (word == "--all" || word == "--some") {
      trug::fuzz::try_all = word == "--all";
      continue;
    }
    for (const fs::path& path : files_in(word)) {
      replay(path);
      ++replayed;
    }
  }
  std::printf("%zu inputs held\n", replayed);
  return replayed > 0 ? 0 : 1;
}
