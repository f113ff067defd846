// SPDX-License-Identifier: MIT
// The words of one bed's picture: on what they speak of where they have room, below the bed where
// they have none.
#pragma once

#include <cstddef>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "show/chart_facts.h"
#include "show/chart_label.h"
#include "show/chart_layout.h"

namespace trug::show {

// A label and the words of what it belongs to.
struct TitledLabel {
  std::string title;
  Label label;
};

class BedLabels {
 public:
  BedLabels(const ChartFacts& facts, std::size_t bed);

  // Sets the labels on that page. True where more has no room on it than before: what has none goes
  // below, which leaves less for the rest.
  bool place(const BedPage& page);
  // Once nothing more goes below: those of the last page, what went below with its number.
  std::vector<TitledLabel> labels() const;
  // What goes below, in order: "1 zinnia: 9 plants, ...".
  std::vector<std::string> rows() const;

 private:
  // A block or bare ground.
  struct Subject {
    std::string title;
    std::string name;
    LabelWords words;
    std::string row;
    const ChartBlock* block = nullptr;
    const BareGround* bare = nullptr;
  };

  void place_raisings(const BedPage& page);
  std::vector<Box> areas(const BedPage& page, const Subject& subject) const;
  Label numbered(std::size_t subject, int number) const;

  std::vector<Subject> subjects_;
  std::set<std::size_t> below_;
  // Of the last page.
  std::vector<std::optional<Label>> placed_;
  std::vector<TitledLabel> raisings_;
  std::vector<Box> taken_;  // stalks and their words
  std::vector<std::vector<Box>> areas_;
};

}  // namespace trug::show
