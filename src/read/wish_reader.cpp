// SPDX-License-Identifier: MIT
#include "read/wish_reader.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "garden/sheet.h"
#include "read/crop_reader.h"

namespace trug::read {
namespace {

// A wish lies within one flowering year: from 1 January, in the south from 1 July.
void check_wish(const Wish& wish, const Place& place, TomlTable& table) {
  const bool southern = is_southern(place);
  const MonthDay start{std::chrono::month{southern ? 7u : 1u}, std::chrono::day{1}};
  if (days_into_season(start, wish.from) <= days_into_season(start, wish.to)) return;
  table.error("to",
              fmt::format("the wish ends on {}, before it begins on {}", short_day(wish.to),
                          short_day(wish.from)),
              southern ? "south of the equator a flowering year runs from July to June"
                       : "a flowering year runs from January to December");
}

// Crops by their sheets' names. `wish`: what they may not contradict.
std::vector<std::string> read_crops(TomlTable& table, std::string_view key, const Wish& wish,
                                    SheetLibrary& sheets, Diagnostics& diagnostics) {
  std::vector<std::string> crops;
  for (const PlacedText& crop : table.strings(key)) {
    CropEntry entry{.crop = crop.text};
    const Sheet* sheet = resolve_crop(entry, crop.at, sheets, diagnostics);
    if (std::ranges::find(crops, entry.crop) != crops.end()) continue;
    crops.push_back(entry.crop);
    if (std::ranges::find(wish.dislike, entry.crop) != wish.dislike.end()) {
      diagnostics.error(crop.at, fmt::format("{} is both liked and disliked", entry.crop));
    } else if (sheet && wish.safe && !is_harmless(*sheet)) {
      diagnostics.error(crop.at,
                        fmt::format("{} can do harm, and the wish is a safe one", entry.crop),
                        "trug crop --safe lists those of which nothing is known");
    }
  }
  return crops;
}

}  // namespace

int days_into_season(MonthDay season_start, MonthDay day) {
  const int days = days_between(on(season_start, 2027), on(day, 2027));
  return days < 0 ? days + 365 : days;
}

void read_wish(TomlTable& table, SheetLibrary& sheets, Diagnostics& diagnostics,
               std::span<const KeyHome> homes, Plan& plan) {
  Wish wish;
  wish.at = table.at();
  wish.vases_per_week =
      table.number("vases_per_week", kOptional, {0.1, 1000}).value_or(wish.vases_per_week);
  wish.stems_per_vase =
      table.whole_number("stems_per_vase", kOptional, {1, 1000}).value_or(wish.stems_per_vase);
  const auto from = table.month_day("from", required("from = \"10 May\""));
  const auto to = table.month_day("to", required("to = \"10 October\""));
  wish.from = from.value_or(MonthDay{});
  wish.to = to.value_or(MonthDay{});
  if (from && to) check_wish(wish, plan.place, table);
  for (const PlacedText& colour : table.strings("colours")) wish.colours.push_back(colour.text);
  wish.safe = table.boolean("safe").value_or(false);
  wish.dislike = read_crops(table, "dislike", {}, sheets, diagnostics);
  wish.like = read_crops(table, "like", wish, sheets, diagnostics);
  wish.mixed = table.boolean("mixed").value_or(true);
  table.finish(homes);
  plan.wish = std::move(wish);
}

}  // namespace trug::read
