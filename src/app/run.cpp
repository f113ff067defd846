// SPDX-License-Identifier: MIT
#include <exception>
#include <string>
#include <system_error>
#include <vector>

#include "app/commands.h"
#include "app/environment.h"

namespace trug::app {
namespace {

int dispatch(const Options& options, const Environment& environment) {
  if (options.command == "check") return run_check(options, environment);
  if (options.command == "jobs") return run_jobs(options, environment);
  if (options.command == "calendar") return run_calendar(options, environment);
  if (options.command == "chart") return run_chart(options, environment);
  if (options.command == "feed") return run_feed(options, environment);
  if (options.command == "why") return run_why(options, environment);
  if (options.command == "frost") return run_frost(options, environment);
  if (options.command == "help") return run_help(options, environment);
  if (options.command.empty()) return run_nothing(environment);
  return run_crop(options, environment);
}

}  // namespace

int run(const std::vector<std::string>& arguments, const Environment& environment) {
  try {
    const ParsedOptions parsed =
        parse_options(arguments, environment.today, environment.out, environment.err);
    return parsed.options ? dispatch(*parsed.options, environment) : parsed.exit;
  } catch (const std::system_error& error) {  // the world refuses
    environment.err << "error: " << error.what() << "\n";
    return kRefused;
  } catch (const std::exception& error) {
    environment.err << "error: this is a defect of trug, please report it with your plan: "
                    << error.what() << "\n";
    return kOurBug;
  }
}

}  // namespace trug::app
