// SPDX-License-Identifier: MIT
// The file of a feed's links. It holds hashes only, is readable for its owner alone, and the
// gardener's own lines in it ("# the kitchen telephone") stay.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/environment.h"
#include "feed/token.h"

namespace trug::app {

// "garden.feed.ics": "garden.feed.links", beside it.
std::string links_path(const std::string& feed_path);

// None where there is no file. nullopt where a line is wrong, which is told on `environment.err`.
// Throws IoError where the file cannot be read.
std::optional<std::vector<feed::Link>> read_links(const std::string& path,
                                                  const Environment& environment);

// Whether there is a link in it, open or withdrawn.
bool has_links(const std::string& path, const Environment& environment);

// A new token from the environment's randomness.
std::string new_token(const Environment& environment);

// "https://example.org/garden/TOKEN/garden.ics", "webcal://...", or the token alone; nullopt
// where there is no token in it.
std::optional<std::string> token_in(std::string_view link);

// These two hold the file's lock meanwhile, and throw IoError. Where the file has a wrong line,
// that is told, nothing is written, and the answer is false.
bool add_link(const std::string& path, const std::string& token, const Environment& environment);
// Withdraws that token's link, or all of them without one. Wrong lines do not stand in the way:
// they become remarks, which is told, so that a server that runs reads the file again. The answer
// is how many such links there are, those withdrawn before included, and without a token the wrong
// lines.
int withdraw_links(const std::string& path, const std::optional<std::string>& token,
                   const Environment& environment);

}  // namespace trug::app
