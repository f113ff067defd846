// SPDX-License-Identifier: MIT
// The documents that are made of the table of commands and the table of words.
#pragma once

#include <string>
#include <vector>

namespace trug::app {

// The manual page, for man(1).
std::string manual_page();

// Completions for the shells. `crops` are the names of the sheets.
std::string bash_completion(const std::vector<std::string>& crops);
std::string zsh_completion(const std::vector<std::string>& crops);
std::string fish_completion(const std::vector<std::string>& crops);

}  // namespace trug::app
