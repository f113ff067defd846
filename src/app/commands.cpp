// SPDX-License-Identifier: MIT
#include "app/commands.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <string>

#include "app/named_plantings.h"
#include "app/reckoning.h"
#include "ask/gave_way.h"
#include "ask/spare_plants.h"
#include "ask/wish_ground.h"
#include "ask/years.h"
#include "ground/weather_forecast.h"
#include "show/ground_page.h"
#include "show/order_page.h"
#include "show/pages.h"
#include "show/weeks_page.h"
#include "show/why.h"
#include "show/why_choice.h"
#include "show/years_page.h"
#include "work/purchases.h"

namespace trug::app {

int run_check(const Options& options, const Environment& environment) {
  auto r = reckon(options, environment, "trug.check/1");
  if (!r) return kBadInput;
  advise(options, environment, *r);
  if (options.bound) r->schedule.bound = ask::bound(garden_of(options, environment, *r));
  environment.out << (options.is_json()
                          ? show::check_json(document_head(options, environment, "trug.check/1"),
                                             r->shown())
                          : show::check_page(r->plan, r->schedule, r->weeks, r->findings,
                                             r->climate, page_style(options, environment)));
  const bool broken = std::ranges::any_of(
      r->findings, [](const ask::Finding& finding) { return finding.rank() == ask::Rank::Broken; });
  return broken ? kFindings : exit_code(options, *r);
}

namespace {

// Without ten recorded years there is nothing to draw from.
int refuse_without_years(const Options& options, const Environment& environment, const Plan& plan) {
  Diagnostics diagnostics;
  diagnostics.error(
      plan.place.at,
      plan.place.weather
          ? fmt::format("the record tells fewer than {} whole years", ground::kFewestYears)
          : std::string("the plan names no weather record"),
      fmt::format("--years wants {} years or more of daily minima and maxima: weather = "
                  "\"daily.csv\" in [place]",
                  ground::kFewestYears));
  return refuse(options, environment, "trug.weeks/1", diagnostics);
}

}  // namespace

int run_weeks(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, "trug.weeks/1");
  if (!r) return kBadInput;
  std::optional<ask::Chances> chances;
  if (options.by_years) {
    if (!r->plan.wish) {
      return refuse_without_wish(options, environment, "trug.weeks/1", r->plan);
    }
    if (r->weather) {
      chances = ask::chances(garden_of(options, environment, *r), *r, options.draw_seed);
    }
    if (!chances) return refuse_without_years(options, environment, r->plan);
  }
  if (options.is_json()) {
    environment.out << show::weeks_json(document_head(options, environment, "trug.weeks/1"),
                                        r->shown(), r->weeks, chances);
    return exit_code(options, *r);
  }
  const show::Style style = page_style(options, environment);
  environment.out << (options.format == show::Format::Csv
                          ? show::weeks_csv(r->plan, r->weeks, chances)
                      : chances ? show::years_page(r->plan, *chances, style)
                                : show::weeks_page(r->plan, r->weeks, r->climate, style));
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

int run_ground(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, "trug.ground/1");
  if (!r) return kBadInput;
  if (!r->plan.wish) {
    return refuse_without_wish(options, environment, "trug.ground/1", r->plan);
  }
  const ground::Sheets sheets = all_sheets(*r);
  const auto ground =
      ask::wish_ground({r->plan, sheets, r->climate, today(options, environment), r->weather});
  const auto spare = ask::spare_plants(r->plan, *r);
  const show::GroundFacts facts{ground, spare, r->weeks};
  environment.out << (options.is_json()
                          ? show::ground_json(document_head(options, environment, "trug.ground/1"),
                                              r->shown(), facts)
                          : show::ground_page(r->plan, facts, page_style(options, environment)));
  return exit_code(options, *r);
}

int run_order(const Options& options, const Environment& environment) {
  const auto r = reckon(options, environment, "trug.order/1");
  if (!r) return kBadInput;
  const Date day = today(options, environment);
  const auto list = work::purchases(r->plan, r->schedule, r->jobs, day);
  const auto bought = work::taken_as_bought(r->plan, r->schedule, r->jobs, day);
  if (options.is_json()) {
    environment.out << show::order_json(document_head(options, environment, "trug.order/1"),
                                        r->shown(), list, bought);
    return exit_code(options, *r);
  }
  environment.out << (options.format == show::Format::Csv
                          ? show::order_csv(r->plan, list)
                          : show::order_page(r->plan, list, bought,
                                             page_style(options, environment)));
  environment.out.flush();
  environment.err << show::findings_line(r->findings, r->plan.file);
  return exit_code(options, *r);
}

int run_why(const Options& options, const Environment& environment) {
  auto r = reckon(options, environment, "trug.why/1");
  if (!r) return kBadInput;
  if (options.is_json() || options.strict) advise(options, environment, *r);
  const auto named = named_plantings(options, r->plan);
  if (named.empty()) return refuse_named(options, environment, r->plan);
  const std::size_t planting = named.front();
  const auto gave_way = ask::gave_way(garden_of(options, environment, *r), *r, planting);
  if (options.is_json()) {
    environment.out << show::why_json(document_head(options, environment, "trug.why/1"), r->shown(),
                                      planting, r->climate, gave_way);
    return exit_code(options, *r);
  }
  const show::Style style = page_style(options, environment);
  environment.out << show::why_page(r->shown(), planting, r->climate, style)
                  << show::why_choice(r->plan, r->schedule, planting, gave_way, style);
  return exit_code(options, *r);
}

}  // namespace trug::app
