// SPDX-License-Identifier: MIT
// The machine's own files; "-" is the standard input, which can be read once.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/files.h"

namespace trug::app {

class RealFiles : public FileReader {
 public:
  FileBytes read(const std::string& path, std::size_t limit) const override;
  std::optional<std::vector<std::string>> list(const std::string& folder,
                                               std::string_view ending) const override;
};

}  // namespace trug::app
