// SPDX-License-Identifier: MIT
#include <fmt/format.h>

#include <string>

#include "app/commands.h"
#include "app/inputs.h"
#include "app/output_file.h"
#include "app/reckoning.h"
#include "base/text.h"
#include "show/chart.h"
#include "show/pages.h"

namespace trug::app {

namespace {

// Writes the picture to its file. The exit code.
int write_chart(const Options& options, const Environment& environment, const Reckoning& r,
                const std::string& svg) {
  const std::string& path = options.output;
  require_writable(environment, path);
  OutputFile file(path);
  const auto previous = file.previous();
  if (previous && !show::is_chart(*previous) && !options.force) {
    environment.err << fmt::format(
        "error: {} stays as it is: trug did not draw it\n"
        "  hint: name another file, or replace it with --force\n",
        path);
    return kRefused;
  }
  const bool unchanged = previous == svg;
  if (!unchanged) file.replace(svg);
  environment.out << fmt::format("{}: {}, {}{}\n", path,
                                 counted(static_cast<int>(r.plan.beds.size()), "bed"),
                                 counted(static_cast<int>(r.plan.plantings.size()), "planting"),
                                 unchanged ? ", nothing changed" : "");
  return kDone;
}

}  // namespace

int run_chart(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, "trug.chart/1");
  if (!r) return kBadInput;
  const std::string svg =
      show::chart_svg(r->plan, r->schedule, r->weeks, r->climate, options.paper);
  if (options.output == kStandardStream) {
    environment.out << svg;
  } else if (const int code = write_chart(options, environment, *r, svg); code != kDone) {
    return code;
  }
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

}  // namespace trug::app
