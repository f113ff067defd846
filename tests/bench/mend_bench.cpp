// SPDX-License-Identifier: MIT
// `mend` beside an exact solver of mixed-integer programmes on twelve drawn plans with half their
// plantings taken out and four written ones: what both add to the stems that find a place, the gap
// and the time. Needs the program cbc (Debian: coinor-cbc). Prints a table; nothing is asserted.
//
// The programme: on each plot of free ground any of the starts that `mend` weighs, as often as
// there are pieces, one after the other; twelve additions at most; a new kind costs what it costs
// `mend`. A kind counts up to half of a vase, fillers to six tenths, and half of what is more than
// three to a main flower: harvest/vase.h, which is piecewise linear and concave. It knows nothing
// of what the choice makes of the rest of the plan: there `mend` may do better than its optimum.
#include <fmt/core.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <optional>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "ask/growings.h"
#include "ask/ideas.h"
#include "ask/mend.h"
#include "ask/plots.h"
#include "ask/reckon.h"
#include "drawn_plans.h"
#include "harvest/weeks.h"
#include "read/plan_reader.h"

namespace trug::bench {
namespace {

constexpr int kDrawn = 12;
constexpr double kPriceOfAKind = 2;  // as ask/mend.cpp
constexpr int kSecondsEach = 120;    // then the best bound is printed

double seconds_since(std::chrono::steady_clock::time_point start) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double usable(const ask::Outcome& outcome) {
  double sum = 0;
  for (const harvest::Week& week : outcome.weeks) sum += week.vase.usable;
  return sum;
}

std::set<std::string> kinds(const Plan& plan) {
  std::set<std::string> result;
  for (const Planting& planting : plan.plantings) result.insert(planting.asked.crop);
  return result;
}

// A start on a plot: one column of the programme.
struct Column {
  std::size_t plot = 0;
  ask::Growing growing;
  int plants = 0;
};

class Programme {
 public:
  Programme(const ask::Garden& garden, const ask::Outcome& now)
      : garden_(garden), wanted_(harvest::wanted(*garden.plan.wish)), base_(ask::kinds_of(now)) {
    plots_ = ask::plots(garden, now.schedule, false);
    const auto mondays = ask::wish_mondays(garden);
    const DateRange summer = ask::summer_of(garden);
    for (const Sheet* sheet : ask::wished_sheets(garden)) {
      for (const ask::Growing& growing : ask::growings(garden, *sheet, mondays)) {
        if (!growing.usual) continue;
        for (std::size_t i = 0; i < plots_.size(); ++i) {
          if (!ask::fits(growing, plots_[i], summer)) continue;
          const int plants = ask::plants_on(plots_[i], *sheet);
          if (plants >= ask::kFewestOfAKind) columns_.push_back({i, growing, plants});
        }
      }
    }
    for (const ask::Kinds& week : base_) {
      for (const auto& [crop, kind] : week) parts_.emplace(crop, kind.part), grown_.insert(crop);
    }
    for (const Column& column : columns_) {
      parts_.emplace(column.growing.sheet->name,
                     harvest::part_of(column.growing.sheet->roles.front()));
    }
    for (const auto& [crop, part] : parts_) numbers_.emplace(crop, numbers_.size());
  }

  // The programme; `most`: additions.
  std::string text(int most) const {
    std::string text = "Maximize\n value:";
    for (std::size_t week = 0; week < base_.size(); ++week) text += fmt::format("\n + u{}", week);
    for (const auto& [crop, number] : numbers_) {
      if (!grown_.contains(crop)) text += fmt::format("\n - {} n{}", kPriceOfAKind, number);
    }
    text += "\nSubject To\n" + ground() + additions(most);
    for (std::size_t week = 0; week < base_.size(); ++week) text += of_week(week);
    text += "Bounds\n";
    for (std::size_t week = 0; week < base_.size(); ++week) {
      text += fmt::format(" u{} <= {}\n f{} <= {}\n", week, wanted_.stems, week,
                          harvest::kMostFiller * wanted_.stems);
      for (const auto& [crop, number] : numbers_) {
        text += fmt::format(" k{}w{} <= {}\n", number, week, wanted_.most_of_a_kind());
      }
    }
    for (const auto& [crop, number] : numbers_) text += fmt::format(" n{} <= 1\n", number);
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      text += fmt::format(" x{} <= {}\n", i, pieces(columns_[i].plot));
    }
    text += "General\n";
    for (std::size_t i = 0; i < columns_.size(); ++i) text += fmt::format(" x{}\n", i);
    for (const auto& [crop, number] : numbers_) text += fmt::format(" n{}\n", number);
    return text + "End\n";
  }
  std::size_t columns() const { return columns_.size(); }

 private:
  int pieces(std::size_t plot) const {
    if (plots_[plot].stretch) return 1;
    const Bed& bed = garden_.plan.beds[plots_[plot].bed];
    int rest = bed.length.value();
    for (const Stretch& stretch : bed.stretches) rest -= stretch.length.value();
    return (rest + plots_[plot].length.value() - 1) / plots_[plot].length.value();
  }

  // On no day more crops on a plot than it has pieces.
  std::string ground() const {
    const Days between{garden_.plan.work.days_between_crops};
    std::string text;
    for (std::size_t plot = 0; plot < plots_.size(); ++plot) {
      std::set<Date> starts;
      for (const Column& column : columns_) {
        if (column.plot == plot) starts.insert(column.growing.ground.from);
      }
      for (const Date day : starts) {
        std::string row;
        for (std::size_t i = 0; i < columns_.size(); ++i) {
          const DateRange& ground = columns_[i].growing.ground;
          const bool there = ground.from <= day && day < ground.until + between;
          if (columns_[i].plot == plot && there) row += fmt::format("\n + x{}", i);
        }
        text +=
            fmt::format(" rg{}d{}:{} <= {}\n", plot, days_between(Date{}, day), row, pieces(plot));
      }
    }
    return text;
  }

  std::string additions(int most) const {
    std::string text = " all:";
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      text += fmt::format("\n + x{}", i);
    }
    if (columns_.empty()) text += "\n + 0 u0";
    text += fmt::format(" <= {}\n", most);
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      const std::string& crop = columns_[i].growing.sheet->name;
      if (grown_.contains(crop)) continue;
      text +=
          fmt::format(" rp{}: x{} - {} n{} <= 0\n", i, i, ask::kMostAdditions, numbers_.at(crop));
    }
    return text;
  }

  // u: usable; m and f: main flowers, and fillers that fit; h: those that count full.
  std::string of_week(std::size_t week) const {
    std::string text, main, filler;
    for (const auto& [crop, number] : numbers_) {
      const auto there = base_[week].find(crop);
      std::string row = fmt::format(" rs{}w{}: k{}w{}", number, week, number, week);
      for (std::size_t i = 0; i < columns_.size(); ++i) {
        const ask::Growing& growing = columns_[i].growing;
        const double stems = growing.stems[week] * columns_[i].plants;
        if (growing.sheet->name == crop && stems > 0)
          row += fmt::format("\n - {:.6f} x{}", stems, i);
      }
      text +=
          row + fmt::format(" <= {:.6f}\n", there == base_[week].end() ? 0 : there->second.stems);
      const bool is_main = wanted_.counts_as(parts_.at(crop)) == harvest::Part::Main;
      (is_main ? main : filler) += fmt::format("\n - k{}w{}", number, week);
    }
    text += fmt::format(" rm{}: m{}{} <= 0\n", week, week, main);
    text += fmt::format(" rf{}: f{}{} <= 0\n", week, week, filler);
    text += fmt::format(" rh{}: h{} - f{} <= 0\n", week, week, week);
    text += fmt::format(" rt{}: h{} - {} m{} <= 0\n", week, week, harvest::kFillersPerMain, week);
    text +=
        fmt::format(" ru{}: u{} - m{} - 0.5 f{} - 0.5 h{} <= 0\n", week, week, week, week, week);
    return text;
  }

  const ask::Garden& garden_;
  const harvest::Wanted wanted_;
  std::vector<ask::Kinds> base_;
  std::vector<ask::Plot> plots_;
  std::vector<Column> columns_;
  std::map<std::string, harvest::Part> parts_;
  std::map<std::string, std::size_t> numbers_;
  std::set<std::string> grown_;
};

struct Solved {
  double value = 0;
  bool proved = false;
  double seconds = 0;
};

// Ends the program where the solver says nothing.
Solved solve(const std::string& programme, const std::string& folder) {
  const std::string in = folder + "/mend.lp", out = folder + "/mend.sol";
  std::ofstream(in) << programme;
  std::remove(out.c_str());
  const auto start = std::chrono::steady_clock::now();
  const std::string command = fmt::format("cbc {} sec {} solve solution {} >{}/mend.log 2>&1", in,
                                          kSecondsEach, out, folder);
  if (std::system(command.c_str()) != 0) {
    fmt::print(stderr, "cbc failed: see {}/mend.log\n", folder);
    std::exit(1);
  }
  Solved solved{.seconds = seconds_since(start)};
  std::ifstream file(out);
  std::string line;
  std::getline(file, line);
  const std::size_t at = line.find("objective value");
  if (at == std::string::npos) {
    fmt::print(stderr, "cbc gave no value: {}\n", line);
    std::exit(1);
  }
  solved.proved = line.starts_with("Optimal");
  solved.value = std::abs(std::strtod(line.c_str() + at + 15, nullptr));
  return solved;
}

void compare(const std::string& name, const Plan& plan, const ground::Sheets& sheets,
             const std::string& folder) {
  if (!plan.wish) {
    fmt::print("{:<22} no wish\n", name);
    return;
  }
  const Date today = plan.began.value_or(make_date(plan.flowering_year - 1, 5, 1));
  const ask::Garden garden{plan, sheets, climate::Climate::from(plan.place), today};
  const ask::Outcome now = ask::reckon(garden);
  const auto start = std::chrono::steady_clock::now();
  const ask::Mended mended = ask::mend(garden, now, false);
  const double took = seconds_since(start);
  const auto fresh = static_cast<double>(kinds(mended.plan).size() - kinds(plan).size());
  const double gain = usable(mended.after) - usable(now) - kPriceOfAKind * fresh;
  const Programme programme(garden, now);
  // What the plan gives as it is, by the programme's own rule.
  const double without = solve(programme.text(0), folder).value;
  const Solved solved = solve(programme.text(ask::kMostAdditions), folder);
  const double best = solved.value - without;
  const double gap = best > 0.5 ? 100 * (1 - gain / best) : 0;
  fmt::print("{:<22} {:>7.0f} {:>7.1f} {:>7.1f}{} {:>6.1f} % {:>8.2f} s {:>8.2f} s {:>6}\n", name,
             usable(now), gain, best, solved.proved ? " " : "*", gap, took, solved.seconds,
             programme.columns());
  std::fflush(stdout);
}

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// Every other planting, so that ground lies free.
Plan thinned(const Plan& plan) {
  std::vector<std::size_t> kept;
  for (std::size_t i = 0; i < plan.plantings.size(); i += 2) kept.push_back(i);
  return with_only(plan, kept);
}

int run(const std::string& source, const std::string& folder) {
  if (std::system("command -v cbc >/dev/null 2>&1") != 0) {
    fmt::print(stderr, "the solver cbc is missing: Debian has it as coinor-cbc\n");
    return 1;
  }
  fmt::print("{:<22} {:>7} {:>7} {:>8} {:>8} {:>10} {:>10} {:>6}\n", "plan", "stems", "mend", "cbc",
             "gap", "mend", "cbc", "starts");
  read::SheetLibrary library;
  Diagnostics diagnostics;
  ground::Sheets sheets;
  for (const std::string& name : library.names()) {
    const Sheet* sheet = library.find(name, diagnostics);
    if (sheet) sheets[sheet->name] = sheet;
  }
  DrawnPlans drawn;
  for (int number = 0; number < kDrawn; ++number) {
    compare(fmt::format("drawn {} {}", number, place_name(number)), thinned(drawn.draw(number)),
            sheets, folder);
  }
  for (const char* file : {"examples/harbour-office", "examples/southern-terrace",
                           "examples/frost-dates-only", "tests/gardens/allotment"}) {
    const MemoryFiles files({{"plan.toml", text_of(source + "/" + file + ".toml")}});
    const auto plan = read::read_plan(files, "plan.toml", library, diagnostics);
    if (!plan) {
      fmt::print(stderr, "{}: {}\n", file, diagnostics.render());
      return 1;
    }
    compare(std::string(file).substr(std::string(file).rfind('/') + 1), *plan, sheets, folder);
  }
  fmt::print(
      "stems: that find a place in the plan as it is; what both add, a new kind costing {};\n"
      "* not proved best within {} s\n",
      kPriceOfAKind, kSecondsEach);
  return 0;
}

}  // namespace
}  // namespace trug::bench

int main(int argc, char** argv) {
  if (argc != 3) {
    fmt::print(stderr, "usage: mend_bench SOURCE_DIR FOLDER_FOR_FILES\n");
    return 2;
  }
  return trug::bench::run(argv[1], argv[2]);
}
