// SPDX-License-Identifier: MIT
// In what form a command prints what it found.
#pragma once

#include <string_view>

namespace trug::show {

enum class Format { Page, Json, Csv };

// What asks for it, and how the help calls it. A page needs no asking: it is for people.
struct FormatOption {
  Format format = Format::Page;
  std::string_view option, name;
};
inline constexpr FormatOption kFormatOptions[] = {{Format::Json, "--json", "JSON"},
                                                  {Format::Csv, "--csv", "comma-separated values"}};

// Of what is a list: jobs, weeks, what to buy.
inline constexpr Format kListFormats[] = {Format::Json, Format::Csv};
inline constexpr Format kJsonOnly[] = {Format::Json};

}  // namespace trug::show
