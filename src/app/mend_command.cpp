// SPDX-License-Identifier: MIT
#include "app/commands.h"
#include "app/inputs.h"
#include "app/new_plan.h"
#include "app/reckoning.h"
#include "ask/mend.h"
#include "show/mend_page.h"
#include "show/plan_toml.h"

namespace trug::app {
namespace {

constexpr const char* kFormat = "trug.mend/1";

bool stays_short(const ask::Mended& mended) {
  return harvest::count(mended.after.weeks, harvest::WeekState::Full) <
         static_cast<int>(mended.after.weeks.size());
}

}  // namespace

int run_mend(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, kFormat);
  if (!r) return kBadInput;
  if (!r->plan.wish) return refuse_without_wish(options, environment, kFormat, r->plan);
  const bool to_file = !options.output.empty() && options.output != kStandardStream;
  if (to_file) require_writable(environment, options.output);
  const ground::Sheets sheets = all_sheets(*r);
  const ask::Garden garden{r->plan, sheets, r->climate, today(options, environment), r->weather};
  const auto mended = ask::mend(garden, *r, options.replant, additions_told(environment));
  if (environment.colour) environment.err << "\r";
  if (to_file) {
    write_new_plan(environment, options.output, show::plan_toml(mended.plan));
  }
  const show::MendFacts facts{r->plan, r->weeks, mended};
  if (options.output == kStandardStream) {
    environment.out << show::plan_toml(mended.plan);
  } else if (options.is_json()) {
    environment.out << show::mend_json(document_head(options, environment, kFormat), r->shown(),
                                       facts);
  } else {
    environment.out << show::mend_page(facts, page_style(options, environment));
  }
  return options.strict && stays_short(mended) ? kFindings : kDone;
}

}  // namespace trug::app
