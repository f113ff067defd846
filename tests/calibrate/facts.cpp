// SPDX-License-Identifier: MIT
#include "calibrate/facts.h"

#include <array>
#include <cstddef>
#include <fstream>
#include <optional>

#include "base/day_text.h"

namespace trug::calibrate {
namespace {

// The rows of a table with tabs, without comments and without the line of headings.
class Table {
 public:
  Table(const std::string& path, std::size_t columns) : path_(path), columns_(columns) {
    std::ifstream file(path);
    if (!file) throw BadTable(path + ": cannot be read");
    bool headed = false;
    for (std::string line; std::getline(file, line);) {
      ++line_;
      if (line.empty() || line.front() == '#') continue;
      if (headed) rows_.push_back({line_, split(line)});
      headed = true;
    }
  }

  struct Row {
    int line;
    std::vector<std::string> cells;
  };
  const std::vector<Row>& rows() const { return rows_; }

  template <class Value>
  Value need(const Row& row, const std::optional<Value>& value, const std::string& what) const {
    if (!value) complain(row.line, what);
    return *value;
  }

 private:
  std::vector<std::string> split(const std::string& line) const {
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == '\t') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    if (cells.size() != columns_) complain(line_, "wants " + std::to_string(columns_) + " cells");
    return cells;
  }

  [[noreturn]] void complain(int line, const std::string& what) const {
    throw BadTable(path_ + ":" + std::to_string(line) + ": " + what);
  }

  std::string path_;
  std::size_t columns_;
  int line_ = 0;
  std::vector<Row> rows_;
};

}  // namespace

std::map<std::string, Place> read_places(const std::string& path) {
  const Table table(path, 17);
  std::map<std::string, Place> places;
  for (const Table::Row& row : table.rows()) {
    Place place;
    place.latitude = std::stod(row.cells[1]);
    place.last_frost = table.need(row, parse_month_day(row.cells[2]), "no day of the year");
    place.first_frost = table.need(row, parse_month_day(row.cells[3]), "no day of the year");
    MonthlyMeans means;
    for (std::size_t i = 0; i < 12; ++i) means.mean_c[i] = std::stod(row.cells[4 + i]);
    place.temperatures = means;
    places[row.cells[0]] = place;
  }
  return places;
}

std::vector<Fact> read_facts(const std::string& path) {
  const Table table(path, 10);
  std::vector<Fact> facts;
  for (const Table::Row& row : table.rows()) {
    const auto day = [&](std::size_t i) {
      return table.need(row, parse_iso(row.cells[i]), row.cells[i] + " is no date");
    };
    Fact fact{row.cells[0], row.cells[1], day(2), day(3), row.cells[4], day(5), day(6)};
    if (fact.latest < fact.earliest || fact.in_ground < fact.start) {
      table.need<int>(row, std::nullopt, "days the wrong way round");
    }
    fact.fitted = row.cells[7] == "in";
    fact.kind = row.cells[8];
    fact.source = row.cells[9];
    facts.push_back(fact);
  }
  return facts;
}

}  // namespace trug::calibrate
