// SPDX-License-Identifier: MIT
#include "app/new_plan.h"

#include <fmt/format.h>

#include "app/inputs.h"
#include "app/output_file.h"

namespace trug::app {

void write_new_plan(const Environment& environment, const std::string& path,
                    const std::string& text) {
  OutputFile file(path);
  if (file.previous()) {
    throw BadOutput(fmt::format("{} stays as it is: a plan is never written over", path));
  }
  file.replace(text);
  environment.err << fmt::format("wrote {}\n", path);
}

ask::Progress additions_told(const Environment& environment) {
  if (!environment.colour) return {};
  return [&environment](int number) {
    environment.err << fmt::format("\rlooking for addition {} ... ", number);
    environment.err.flush();
  };
}

}  // namespace trug::app
