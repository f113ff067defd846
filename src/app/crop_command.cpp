// SPDX-License-Identifier: MIT
#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include "app/commands.h"
#include "app/reckoning.h"
#include "ask/growings.h"
#include "base/text.h"
#include "ground/sheet_check.h"
#include "read/sheet_reader.h"
#include "read/text_file.h"
#include "show/crop_page.h"

namespace trug::app {
namespace {

// Judges a folder of sheets: what does not read, and what cannot be believed.
int check_sheets(const Options& options, const Environment& environment) {
  const auto names = environment.files.list(options.check_folder, ".toml");
  if (!names || names->empty()) {
    environment.err << "error: there are no sheets (*.toml) in '" << options.check_folder << "'\n";
    return kBadInput;
  }
  Diagnostics diagnostics;
  int wrong = 0;
  for (const std::string& name : *names) {
    const std::string path = options.check_folder + "/" + name;
    const auto text = read::read_bytes(environment.files, path, diagnostics);
    const auto sheet = text ? read::read_sheet(*text, path, diagnostics) : std::nullopt;
    if (!sheet) continue;
    for (const std::string& what : ground::judge_sheet(*sheet)) {
      environment.out << path << ": " << what << "\n";
      ++wrong;
    }
  }
  environment.err << diagnostics.render();
  environment.out << counted(static_cast<int>(names->size()), "sheet") << ", "
                  << counted(wrong + static_cast<int>(diagnostics.error_count()), "thing")
                  << " wrong\n";
  return wrong > 0 || diagnostics.has_errors() ? kBadInput : kDone;
}

// "annual" is any of them: "hardy annual", "tender annual".
bool is_wanted(const Sheet& sheet, const WantedCrops& wanted) {
  const std::string life(to_string(sheet.life_cycle));
  if (wanted.life && life.find(*wanted.life) == std::string::npos) return false;
  if (wanted.role && std::ranges::find(sheet.roles, *wanted.role) == sheet.roles.end()) {
    return false;
  }
  if (wanted.petals && std::ranges::find(sheet.colours, *wanted.petals) == sheet.colours.end()) {
    return false;
  }
  return !wanted.safe || is_harmless(sheet);
}

// Keeps what is likely cut in the month at the place of a plan, in its flowering year and raised in
// what the plan has, from today on. False: the plan is wrong, and that was said.
bool keep_cut_in_month(Options options, const Environment& environment,
                       std::vector<const Sheet*>& sheets) {
  options.plans = {options.crops.plan};
  const auto r = reckon(options, environment, "trug.crop/1");
  if (!r) return false;
  ask::Garden garden = garden_of(options, environment, *r);
  garden.plan.began = garden.today;
  const Date from = r->climate.season_start(r->plan.flowering_year);
  const Date until = r->climate.season_start(r->plan.flowering_year + 1);
  std::vector<Date> mondays;
  for (Date day = monday_of(from); day < until; day += Days{7}) {
    if (month_of(day) == static_cast<unsigned>(*options.crops.month)) mondays.push_back(day);
  }
  std::erase_if(sheets,
                [&](const Sheet* sheet) { return ask::growings(garden, *sheet, mondays).empty(); });
  return true;
}

std::vector<const Sheet*> wanted_sheets(read::SheetLibrary& library, const WantedCrops& wanted,
                                        Diagnostics& diagnostics) {
  std::vector<const Sheet*> sheets;
  for (const std::string& name : library.names()) {
    const Sheet* sheet = library.find(name, diagnostics);
    if (sheet && is_wanted(*sheet, wanted)) sheets.push_back(sheet);
  }
  return sheets;
}

int show_crop(const Options& options, const Environment& environment, read::SheetLibrary& library,
              Diagnostics& diagnostics) {
  const Sheet* sheet = library.find(options.crop, diagnostics);
  if (!sheet && !library.has(options.crop)) {
    const std::string better = library.what_to_write(options.crop, diagnostics);
    environment.err << "error: there is no sheet '" << options.crop
                    << "'\n  hint: " << (better.empty() ? "trug crop lists them all" : better)
                    << "\n";
    return kBadInput;
  }
  environment.err << diagnostics.render();
  if (!sheet || diagnostics.has_errors()) return kBadInput;
  environment.out << show::crop_page(*sheet, page_style(options, environment));
  return kDone;
}

}  // namespace

int run_crop(const Options& options, const Environment& environment) {
  if (!options.check_folder.empty()) return check_sheets(options, environment);
  Diagnostics diagnostics;
  const auto library = open_library(options, "", environment, diagnostics);
  if (!options.crop.empty()) return show_crop(options, environment, *library, diagnostics);
  auto sheets = wanted_sheets(*library, options.crops, diagnostics);
  environment.err << diagnostics.render();
  if (diagnostics.has_errors()) return kBadInput;
  if (options.crops.month && !keep_cut_in_month(options, environment, sheets)) return kBadInput;
  environment.out << show::crop_list(sheets, page_style(options, environment));
  return kDone;
}

}  // namespace trug::app
