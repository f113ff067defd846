// SPDX-License-Identifier: MIT
// What the plan cannot do, or what the gardener should know: facts with numbers, worded in show/.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/diagnostics.h"
#include "ground/remedy.h"
#include "ground/schedule.h"
#include "harvest/weeks.h"

namespace trug::ground {

// Broken: the plan cannot do it. Short: it can, but the wish goes short. Mild: worth knowing.
enum class Rank { Broken, Short, Mild };

enum class FindingCode {
  CannotGrow,     // no way keeps the rules here this year
  GroundTaken,    // grows here, but not between its neighbours on this stretch
  TooLate,        // should have begun before no_jobs_before
  ShortWeeks,     // weeks of the wish without their stems
  LateStart,      // begins after the trade's window
  TooEarly,       // far on before the winter
  SmallRosette,   // a biennial that gives half its stems
  NeedsFleece,    // survives the winter only under fleece
  NeedsCold,      // bulbs where no winter chills them in the ground
  ColdSoil,       // sown by a pin before the soil is likely warm enough
  HardlyFrost,    // a place all but free of frost
  ShortSeason,    // a place with few weeks free of frost
  CostsStems,     // keeping the crop costs the stretch more than a fifth of its stems
  TooManyPlants,  // more plants than the ground holds at their spacing
  FewStems,       // too few plants to give one vase their share
  OffColour,      // none of the wish's colours
  NotSettled      // the rounds were stopped before they settled
};

// The stable word in files: "cannot-grow".
std::string_view to_string(FindingCode code);
std::string_view to_string(Rank rank);

struct Finding {
  FindingCode code{};
  Rank rank = Rank::Mild;
  Position at;
  std::string key;                      // the plan's key it speaks of: "crops", "wish"
  std::optional<std::size_t> planting;  // in the plan's list
  std::string planting_name;
  std::string crop;
  std::string way;
  std::optional<Refusal> refusal;
  std::vector<std::pair<std::string, double>> numbers;
  std::vector<std::pair<std::string, Date>> days;
  std::vector<std::string> words;  // weeks, colours
  std::optional<Remedy> remedy;

  double number(std::string_view name) const;  // 0 where there is none
  std::optional<Date> day(std::string_view name) const;
};

// Worst first, then in the plan's order. `schedule` as the averages chose it; `weeks` as they will
// be.
std::vector<Finding> find(const Plan& plan, const Sheets& sheets, const climate::Climate& climate,
                          const Schedule& schedule, const std::vector<harvest::Week>& weeks);

}  // namespace trug::ground
