// SPDX-License-Identifier: MIT
#include "show/chart_labels.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "show/chart_block.h"

namespace trug::show {
namespace {

// Of its flowers a label hides no more than this.
constexpr double kHidden = 0.5;

std::vector<std::string> cut_facts(const ChartBlock& block) {
  if (block.in_flower.until <= block.in_flower.from) return {"not cut"};
  return {"cut " + brief_day(block.in_flower.from),
          "to " + brief_day(block.in_flower.until - Days{1})};
}

LabelWords words_of(const ChartBlock& block) {
  LabelWords words{block.name, {block.plants}};
  if (!block.begin.empty()) words.facts.push_back(block.begin);
  for (std::string& fact : cut_facts(block)) words.facts.push_back(std::move(fact));
  return words;
}

std::string row_of(const ChartBlock& block) {
  std::string text = fmt::format("{}: {}", block.name, block.plants);
  if (block.raising) {
    text += fmt::format(", {} from {}", block.raising->place, brief_day(block.raising->days.from));
  }
  text += ", " + (block.begin.empty() ? "stands" : block.begin);
  for (const std::string& fact : cut_facts(block)) {
    text += (fact.starts_with("to ") ? " " : ", ") + fact;
  }
  return text + (block.end.empty() ? "" : ", " + block.end);
}

// At the left of the first part that has room for the place, with the plants where it has.
std::optional<Label> raising_label(const ChartBlock& block, const std::vector<Box>& parts) {
  for (const LabelWords& words : {LabelWords{"", {block.raising->place, block.plants}},
                                  LabelWords{"", {block.raising->place}}}) {
    for (const Box& part : parts) {
      auto label = fit(words, part);
      if (!label) continue;
      label->box.x = part.x;
      return label;
    }
  }
  return std::nullopt;
}

std::string bare_days(const BareGround& bare) {
  return fmt::format("{} to {}", brief_day(bare.days.from), brief_day(bare.days.until - Days{1}));
}

}  // namespace

BedLabels::BedLabels(const ChartFacts& facts, std::size_t bed) {
  for (const ChartBlock& block : facts.blocks) {
    if (block.bed == bed) {
      subjects_.push_back({.title = block.words,
                           .name = block.name,
                           .words = words_of(block),
                           .row = row_of(block),
                           .block = &block});
    }
  }
  for (const BareGround& bare : facts.bare) {
    if (bare.bed != bed) continue;
    const std::string days = bare_days(bare);
    subjects_.push_back({.title = fmt::format("bare ground, {}, {} to {} cm along the bed", days,
                                              bare.at_cm, bare.at_cm + bare.length_cm),
                         .name = "bare",
                         .words = {"",
                                   {"bare " + brief_day(bare.days.from),
                                    "to " + brief_day(bare.days.until - Days{1})}},
                         .row = "bare, " + days,
                         .bare = &bare});
  }
}

std::vector<Box> BedLabels::areas(const BedPage& page, const Subject& subject) const {
  if (subject.bare != nullptr) {
    const BareGround& bare = *subject.bare;
    return free_parts(page.box(bare.at_cm, bare.length_cm, bare.days), taken_);
  }
  const ChartBlock& block = *subject.block;
  Box flowers = flower_box(page, block);
  const Box leaf = leaf_box(page, block);
  const Box before{leaf.x, leaf.y, leaf.width, flowers.y - leaf.y};
  flowers.height *= kHidden;
  std::vector<Box> result;
  for (const Box& area : {leaf, before, flowers}) {
    for (const Box& part : free_parts(area, taken_)) result.push_back(part);
  }
  return result;
}

void BedLabels::place_raisings(const BedPage& page) {
  std::vector<Box> flowers;  // no words of another crop hide them
  for (const Subject& subject : subjects_) {
    if (subject.block != nullptr) flowers.push_back(flower_box(page, *subject.block));
  }
  for (std::size_t i = 0; i < subjects_.size(); ++i) {
    const ChartBlock* block = subjects_[i].block;
    if (block == nullptr || !block->raising) continue;
    const Box stalk = stalk_box(page, *block), column = whole_box(page, *block);
    taken_.push_back(stalk);
    const Box beside{stalk.right(), stalk.y, column.right() - stalk.right(), stalk.height};
    if (const auto label = raising_label(*block, free_parts(beside, flowers))) {
      taken_.push_back(label->box);
      raisings_.push_back({subjects_[i].title, *label});
    } else {
      below_.insert(i);
    }
  }
}

bool BedLabels::place(const BedPage& page) {
  const std::size_t before = below_.size();
  raisings_.clear();
  taken_.clear();
  areas_.clear();
  placed_.assign(subjects_.size(), std::nullopt);
  place_raisings(page);
  for (std::size_t i = 0; i < subjects_.size(); ++i) {
    areas_.push_back(areas(page, subjects_[i]));
    if (below_.contains(i)) continue;
    placed_[i] = fit(subjects_[i].words, areas_[i]);
    if (!placed_[i]) below_.insert(i);
  }
  return below_.size() > before;
}

Label BedLabels::numbered(std::size_t subject, int number) const {
  const std::string key = std::to_string(number);
  if (auto label = fit({key + " " + subjects_[subject].name, {}}, areas_[subject])) {
    return *label;
  }
  if (auto label = fit({key, {}}, areas_[subject])) return *label;
  return forced(key, *std::ranges::max_element(areas_[subject], {}, [](const Box& area) {
                  return std::min(area.width, area.height);
                }));
}

std::vector<TitledLabel> BedLabels::labels() const {
  std::vector<TitledLabel> result = raisings_;
  int number = 0;
  for (std::size_t i = 0; i < subjects_.size(); ++i) {
    result.push_back({subjects_[i].title, placed_[i] ? *placed_[i] : numbered(i, ++number)});
  }
  return result;
}

std::vector<std::string> BedLabels::rows() const {
  std::vector<std::string> result;
  for (const std::size_t i : below_) {
    result.push_back(fmt::format("{} {}.", result.size() + 1, subjects_[i].row));
  }
  return result;
}

}  // namespace trug::show
