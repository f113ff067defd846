// SPDX-License-Identifier: MIT
#include <utility>
#include <vector>

#include "app/commands.h"
#include "app/reckoning.h"
#include "climate/frost_record.h"
#include "read/daily_csv.h"
#include "show/frost_json.h"
#include "show/frost_page.h"

namespace trug::app {
namespace {

// Screen minima of 0 and -2.2 degC (32 and 28 degF) are light and moderate frost in the freeze
// tables of the United States.
constexpr double kAlwaysShown[] = {0, -2.2};

}  // namespace

int run_frost(const Options& options, const Environment& environment) {
  const show::DocumentHead head = document_head(options, environment, "trug.frost/1");
  Diagnostics diagnostics;
  auto record =
      read::read_daily_file(environment.files, options.record, options.columns, diagnostics);
  environment.err << diagnostics.render();
  if (!record) {
    if (options.is_json()) environment.out << show::errors_json(head, diagnostics.sorted());
    return kBadInput;
  }
  if (options.years > 0) *record = climate::last_years(*record, options.years);
  std::vector<double> thresholds(std::begin(kAlwaysShown), std::end(kAlwaysShown));
  thresholds.insert(thresholds.end(), options.thresholds.begin(), options.thresholds.end());
  const bool southern = options.south || options.latitude.value_or(0) < 0;
  const show::FrostReport report =
      show::frost_report(options.record, std::move(*record), std::move(thresholds), southern);
  if (options.is_json()) {
    environment.out << show::frost_json(head, report);
  } else if (options.place) {
    environment.out << show::place_block(report, options.latitude);
  } else {
    environment.out << show::frost_page(
        report, {options.colour.value_or(environment.colour) && !options.plain, environment.width});
  }
  return kDone;
}

}  // namespace trug::app
