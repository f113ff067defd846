// SPDX-License-Identifier: MIT
#include "app/new_plan.h"

#include <fmt/format.h>

#include "app/output_file.h"

namespace trug::app {

int write_new_plan(const Environment& environment, const std::string& path,
                   const std::string& text) {
  OutputFile file(path);
  if (file.previous()) {
    environment.err << fmt::format(
        "error: {} stays as it is: a plan is never written over\n  hint: name another file\n",
        path);
    return kRefused;
  }
  file.replace(text);
  environment.err << fmt::format("wrote {}\n", path);
  return kDone;
}

}  // namespace trug::app
