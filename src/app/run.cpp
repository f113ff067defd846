// SPDX-License-Identifier: MIT
#include <ostream>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/environment.h"
#include "app/guarded.h"
#include "app/inputs.h"
#include "app/safe_text.h"

namespace trug::app {
namespace {

int dispatch(const Options& options, const Environment& environment) {
  if (options.command == "check") return run_check(options, environment);
  if (options.command == "jobs") return run_jobs(options, environment);
  if (options.command == "weeks") return run_weeks(options, environment);
  if (options.command == "ground") return run_ground(options, environment);
  if (options.command == "mend") return run_mend(options, environment);
  if (options.command == "order") return run_order(options, environment);
  if (options.command == "start") return run_start(options, environment);
  if (options.command == "calendar") return run_calendar(options, environment);
  if (options.command == "chart") return run_chart(options, environment);
  if (options.command == "feed") return run_feed(options, environment);
  if (options.command == "why") return run_why(options, environment);
  if (options.command == "frost") return run_frost(options, environment);
  if (options.command == "help") return run_help(options, environment);
  if (options.command.empty()) return run_nothing(environment);
  return run_crop(options, environment);
}

int parse_and_dispatch(const std::vector<std::string>& arguments, const Environment& environment) {
  const ParsedOptions parsed =
      parse_options(arguments, environment.today, environment.out, environment.err);
  if (!parsed.options) return parsed.exit;
  // What programs read goes out as it is.
  const bool is_text =
      parsed.options->format == show::Format::Page && parsed.options->output != kStandardStream;
  if (!is_text) return dispatch(*parsed.options, environment);
  SafeText safe(environment.out, parsed.options->colour.value_or(environment.colour));
  std::ostream out(&safe);
  return dispatch(*parsed.options, with(environment, environment.files, out, environment.err));
}

}  // namespace

Environment with(const Environment& environment, const FileReader& files, std::ostream& out,
                 std::ostream& err) {
  return {.files = files,
          .out = out,
          .err = err,
          .today = environment.today,
          .now = environment.now,
          .colour = environment.colour,
          .width = environment.width,
          .random = environment.random,
          .clock = environment.clock,
          .inputs = environment.inputs,
          .in = environment.in};
}

int run(const std::vector<std::string>& arguments, const Environment& environment) {
  const Inputs inputs(environment.files);
  SafeText safe(environment.err);
  std::ostream err(&safe);
  Environment whole = with(environment, inputs, environment.out, err);
  whole.inputs = &inputs;
  const int code = guarded(whole, [&] { return parse_and_dispatch(arguments, whole); });
  environment.out.flush();
  if (environment.out || (code != kDone && code != kFindings)) return code;
  err << "error: the standard output did not take all that was written to it\n";
  return kRefused;
}

}  // namespace trug::app
