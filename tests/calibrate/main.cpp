// SPDX-License-Identifier: MIT
// Fits heat_to_respond_kd and heat_to_first_flower_kd (and, where a warm place is among the facts,
// top_c) of the crops that are counted from their sowing to the facts of facts.tsv, and says how
// near all sheets come to the facts that were kept out.
//
//   calibrate             the table
//   calibrate --markdown  the table as it stands in DEVELOPERS.md
//   calibrate --facts     every fact with its error
//   calibrate --climates  the facts kept out, by crop and climate
//   calibrate --coverage  how many of them fall into the window that the program tells
//   calibrate --as-is     no fit: the sheets as they are (with any of the above)
//   calibrate --left-out  the fitted facts, each by heats fitted to the crop's others
//   calibrate --pot-pace=X, --check-days=N, --ground-of-sun=X: other constants of growth/day_sums.h
//   calibrate --write     also puts the numbers into the sheets
//   calibrate --check     ends with 1 where a sheet has other numbers than the fit
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>
#include <set>
#include <string>

#include "calibrate/fit.h"
#include "calibrate/report.h"
#include "calibrate/sheet_files.h"

namespace trug::calibrate {
namespace {

// The test `calibration`: the sheets hold what the fit gives.
int check(const std::vector<CropResult>& results) {
  const auto numbers = [](const Growth& growth) {
    return fmt::format("top {}, to respond {}, to flower {}, good to {}", growth.top_c,
                       growth.heat_to_respond_kd, growth.heat_to_first_flower_kd,
                       growth.spread_days);
  };
  int other = 0;
  for (const CropResult& result : results) {
    const std::string sheet = numbers(result.before), fitted = numbers(result.after);
    if (sheet == fitted) continue;
    fmt::print("{}: the sheet has {}; the fit gives {}\n", result.crop, sheet, fitted);
    ++other;
  }
  fmt::print("{} sheets, {} unlike their fit\n", results.size(), other);
  return other == 0 ? 0 : 1;
}

// Mild winters: the coldest month averages 2 degC or more; warm summers: the hottest 20.
std::string group_of(const climate::Climate& climate) {
  const bool mild = climate.coldest_month_c().value_or(0) >= 2;
  const Date midsummer = make_date(2027, climate.southern() ? 1 : 7, 15);
  const bool warm = climate.average_c(midsummer) >= 20;
  return fmt::format("{} winter, {} summer", mild ? "mild" : "cold", warm ? "warm" : "cool");
}

// Crops that grow by one rule; in bold, to stand under the crops of a table.
std::string kind_of(const Sheet& sheet) {
  if (sheet.growth->after_light) return "**ruled by light**";
  if (stays_in_ground(sheet.life_cycle)) return "**perennials and shrubs**";
  if (is_planted(sheet.life_cycle)) return "**bulbs, corms and tubers**";
  const bool is_long = sheet.growth->day_length.kind == DayLengthResponse::Kind::Long;
  return is_long ? "**long-day annuals and biennials**" : "**other annuals**";
}

// How near heats come to facts of their own crop that they were not fitted to.
int left_out(const std::map<std::string, SheetFile>& sheets,
             std::map<std::string, std::vector<Fact>>& facts, const World& world) {
  double sum = 0, squares = 0;
  int count = 0;
  for (const auto& [crop, file] : sheets) {
    if (!is_fitted(file.sheet, facts[crop])) continue;
    for (const double error : left_out_errors(file.sheet, facts[crop], world)) {
      sum += std::abs(error);
      squares += error * error;
      ++count;
    }
  }
  fmt::print("{} facts left out: mean {:.2f} days, root mean square {:.2f}\n", count,
             sum / std::max(1, count), std::sqrt(squares / std::max(1, count)));
  return 0;
}

// "--pot-pace=0.4": taken out of the options.
growth::Rules rules_of(std::set<std::string>& options) {
  growth::Rules rules;
  for (auto option = options.begin(); option != options.end();) {
    const auto [name, value] =
        std::pair(option->substr(0, option->find('=')), option->substr(option->find('=') + 1));
    const bool is_rule =
        name == "--pot-pace" || name == "--check-days" || name == "--ground-of-sun";
    if (name == "--pot-pace") rules.pot_pace = std::stod(value);
    if (name == "--check-days") rules.check_days = std::stoi(value);
    if (name == "--ground-of-sun") rules.ground_of_sun = std::stod(value);
    option = is_rule ? options.erase(option) : std::next(option);
  }
  return rules;
}

int run(const std::set<std::string>& options, const growth::Rules& rules) {
  const std::string root = TRUG_SOURCE_DIR;
  World world{.climates = {}, .rules = rules};
  for (const auto& [name, place] : read_places(root + "/tests/calibrate/climates.tsv")) {
    world.climates.emplace(name, climate::Climate::from(place));
  }
  const auto sheets = read_sheets(root + "/crops");
  std::map<std::string, std::vector<Fact>> facts;
  for (const Fact& fact : read_facts(root + "/tests/calibrate/facts.tsv")) {
    if (!sheets.contains(fact.crop)) throw BadTable("no sheet with growth for " + fact.crop);
    facts[fact.crop].push_back(fact);
  }
  if (options.contains("--left-out")) return left_out(sheets, facts, world);
  std::vector<CropResult> results;
  for (const auto& [crop, file] : sheets) {
    if (file.is_group && facts[crop].empty()) continue;
    CropResult result{crop, kind_of(file.sheet), *file.sheet.growth, *file.sheet.growth, {}};
    const bool fitted = is_fitted(file.sheet, facts[crop]);
    if (fitted && !options.contains("--as-is")) {
      result.after = fit(file.sheet, facts[crop], world);
    }
    for (const Fact& fact : facts[crop]) {
      result.facts.push_back({fact, error_days(file.sheet, result.after, fact, world),
                              told_spread(file.sheet, result.after, fact, world)});
    }
    if (fitted) result.after.spread_days = spread_days(result);
    if (fitted && options.contains("--write")) write_growth(file.path, result.after);
    results.push_back(result);
  }
  if (options.contains("--check")) return check(results);
  if (options.contains("--climates")) {
    std::map<std::string, std::string> groups;
    for (const auto& [name, climate] : world.climates) groups[name] = group_of(climate);
    fmt::print("{}", climate_table(results, groups, options.contains("--markdown")));
    return 0;
  }
  if (options.contains("--coverage")) {
    fmt::print("{}", coverage_table(results));
    return 0;
  }
  if (options.contains("--facts")) fmt::print("{}\n", fact_list(results));
  fmt::print("{}", table(results, options.contains("--markdown")));
  return 0;
}

}  // namespace
}  // namespace trug::calibrate

int main(int argc, char** argv) {
  const std::set<std::string> known = {"--as-is", "--check",    "--climates", "--coverage",
                                       "--facts", "--left-out", "--markdown", "--write"};
  std::set<std::string> options(argv + 1, argv + argc);
  const trug::growth::Rules rules = trug::calibrate::rules_of(options);
  if (!std::ranges::includes(known, options)) {
    fmt::print(
        stderr,
        "usage: calibrate [--as-is] [--check] [--climates] [--coverage] [--facts] [--left-out]\n"
        "                 [--markdown] [--write] [--pot-pace=X] [--check-days=N] "
        "[--ground-of-sun=X]\n");
    return 2;
  }
  try {
    return trug::calibrate::run(options, rules);
  } catch (const trug::calibrate::BadTable& bad) {
    fmt::print(stderr, "{}\n", bad.what());
    return 1;
  }
}
