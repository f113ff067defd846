// SPDX-License-Identifier: MIT
// Writes the manual page and the completions into a folder; run while trug is built.
#include <fstream>
#include <iostream>
#include <string>
#include <vector>

#include "app/manual.h"
#include "read/sheet_library.h"

namespace {

bool write(const std::string& path, const std::string& text) {
  std::ofstream file(path, std::ios::binary);
  file << text << std::flush;
  if (!file) std::cerr << "cannot write " << path << "\n";
  return static_cast<bool>(file);
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "usage: trug_documents FOLDER\n";
    return 2;
  }
  const std::string folder = words[1];
  const std::vector<std::string> crops = trug::read::SheetLibrary().names();
  const bool written = write(folder + "/trug.1", trug::app::manual_page()) &&
                       write(folder + "/trug.bash", trug::app::bash_completion(crops)) &&
                       write(folder + "/_trug", trug::app::zsh_completion(crops)) &&
                       write(folder + "/trug.fish", trug::app::fish_completion(crops));
  return written ? 0 : 3;
}
