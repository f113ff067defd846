// SPDX-License-Identifier: MIT
// `trug feed` as a program of its own, trug-feed: a server brings twice as many shared libraries as
// all the rest, and only the feed should wait for them. Linked into trug instead of
// feed_command.cpp; trug-feed is the same program with that one.
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <fstream>
#include <ios>
#include <string>
#include <system_error>
#include <vector>

#include "app/commands.h"

namespace trug::app {
namespace {

namespace fs = std::filesystem;

// Where it is built, and where it is installed: both told from where this program lies.
std::vector<std::string> places() {
  const fs::path here = fs::read_symlink("/proc/self/exe").parent_path();
  return {(here / "trug-feed").string(),
          (here.parent_path() / "libexec" / "trug" / "trug-feed").string()};
}

// The words this program was started with.
std::vector<std::string> own_words() {
  std::ifstream file("/proc/self/cmdline", std::ios::binary);
  std::vector<std::string> words;
  for (std::string word; std::getline(file, word, '\0');) words.push_back(word);
  return words;
}

}  // namespace

// Does not come back where the program is found.
int run_feed(const Options&, const Environment& environment) {
  std::vector<std::string> words = own_words();
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  for (const std::string& program : places()) {
    ::execv(program.c_str(), pointers.data());
    if (errno != ENOENT) {
      throw std::system_error(errno, std::generic_category(), "cannot start " + program);
    }
  }
  environment.err << "error: trug-feed, the part of trug that serves, is not where trug is\n"
                     "  hint: install trug anew\n";
  return kRefused;
}

}  // namespace trug::app
