// SPDX-License-Identifier: MIT
#include "calibrate/sheet_files.h"

#include <fmt/format.h>

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string_view>

#include "base/text.h"
#include "calibrate/facts.h"
#include "read/sheet_reader.h"

namespace trug::calibrate {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  std::ostringstream text;
  if (!(text << file.rdbuf())) throw BadTable(path + ": cannot be read");
  return text.str();
}

}  // namespace

std::map<std::string, SheetFile> read_sheets(const std::string& folder) {
  std::map<std::string, SheetFile> sheets;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".toml") continue;
    const std::string path = entry.path().string();
    Diagnostics diagnostics;
    const auto sheet = read::read_sheet(text_of(path), path, diagnostics);
    if (!sheet) throw BadTable(diagnostics.render());
    if (sheet->growth) sheets[sheet->name] = {path, *sheet};
    for (const Group& group : sheet->groups) {
      if (!group.growth) continue;
      Sheet alone = *sheet;
      alone.name += " " + group.name;
      alone.growth = group.growth;
      sheets[alone.name] = {path, alone, true};
    }
  }
  return sheets;
}

void write_growth(const std::string& path, const Growth& growth) {
  const std::pair<std::string_view, double> numbers[] = {
      {"top_c = ", growth.top_c},
      {"heat_to_respond_kd = ", growth.heat_to_respond_kd},
      {"heat_to_first_flower_kd = ", growth.heat_to_first_flower_kd}};
  std::istringstream lines(text_of(path));
  std::string result;
  bool inside = false;
  for (std::string line; std::getline(lines, line);) {
    if (!line.empty() && line.front() == '[') {
      inside = line == "[growth]" || line == "[group.growth]";
    }
    for (const auto& [key, value] : numbers) {
      if (inside && line.starts_with(key)) line = fmt::format("{}{}", key, number(value));
    }
    if (inside && line.starts_with("spread_days = ")) continue;
    result += line + "\n";
    if (inside && line.starts_with("heat_to_first_flower_kd = ") &&
        growth.spread_days > Growth{}.spread_days) {
      result += fmt::format("spread_days = {}\n", number(growth.spread_days));
    }
  }
  std::ofstream file(path);
  if (!(file << result)) throw BadTable(path + ": cannot be written");
}

}  // namespace trug::calibrate
