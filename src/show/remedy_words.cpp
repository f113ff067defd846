// SPDX-License-Identifier: MIT
#include "show/remedy_words.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>
#include <string_view>
#include <variant>
#include <vector>

#include "base/text.h"
#include "show/caution_words.h"
#include "show/job_words.h"
#include "show/plan_toml.h"

namespace trug::show {
namespace {

using Toml = std::optional<std::string>;

const CropEntry& asked(const Plan& plan, std::size_t planting) {
  return plan.plantings[planting].asked;
}

// "crops = [...]", where the short form says all there is to say of them; absent where it does not,
// or where there are none.
Toml short_form(const std::vector<CropEntry>& crops) {
  std::string list;
  for (const CropEntry& crop : crops) {
    if (crop != CropEntry{.crop = crop.crop, .at = crop.at}) return std::nullopt;
    list += (list.empty() ? "" : ", ") + toml_text(crop.crop);
  }
  if (list.empty()) return std::nullopt;
  return fmt::format("crops = [{}]\n", list);
}

std::string not_before(const std::optional<Date>& day) {
  return day ? fmt::format("not_before = {}\n", iso(*day)) : "";
}

// Of a crop that a question adds, or that is plain.
std::string long_form(const CropEntry& crop) {
  return fmt::format("crop = {}\n", toml_text(crop.crop)) +
         (crop.id ? fmt::format("id = {}\n", toml_text(*crop.id)) : "") +
         (crop.colours.empty() ? "" : fmt::format("colours = {}\n", toml_texts(crop.colours))) +
         not_before(crop.pins.not_before);
}

// The crops of a stretch (by index and number), in order.
std::vector<std::size_t> crops_on(const Plan& plan, std::size_t bed, int stretch) {
  std::vector<std::size_t> found;
  for (std::size_t i = 0; i < plan.plantings.size(); ++i) {
    const auto& patch = plan.plantings[i].patch;
    if (patch && patch->bed == bed && patch->stretch == stretch) found.push_back(i);
  }
  return found;
}

std::vector<CropEntry> all_but(const Plan& plan, std::size_t planting) {
  std::vector<CropEntry> crops;
  const auto& patch = plan.plantings[planting].patch;
  if (!patch) return crops;
  for (const std::size_t i : crops_on(plan, patch->bed, patch->stretch)) {
    if (i != planting) crops.push_back(asked(plan, i));
  }
  return crops;
}

std::string place_of(const Plan& plan, std::size_t bed, int stretch) {
  return fmt::format("stretch {} of {}", stretch, plan.beds[bed].name);
}

// A stretch has one form or the other: one of `crops = [...]` is written anew, each crop for
// itself.
std::string in_the_place_of_crops(const std::string& place, const std::string& entries) {
  return fmt::format("# {}, in the place of its crops:\n{}", place, entries);
}

// Keys of one planting, under its crop.
std::string keys_of(const Plan& plan, std::size_t planting, const std::string& keys,
                    const std::string& note = "") {
  const auto& patch = plan.plantings[planting].patch;
  std::vector<CropEntry> crops;
  std::string entries;
  if (patch) {
    for (const std::size_t i : crops_on(plan, patch->bed, patch->stretch)) {
      crops.push_back(asked(plan, i));
      entries += "[[bed.stretch.crop]]\n" + long_form(crops.back()) + (i == planting ? keys : "");
    }
  }
  if (short_form(crops))
    return in_the_place_of_crops(place_of(plan, patch->bed, patch->stretch), entries);
  return fmt::format("# in the [[bed.stretch.crop]] of {}{}:\n{}", asked(plan, planting).crop, note,
                     keys);
}

// Two functions a change: what to do, and how the plan says so.

std::string advice(const ask::LeaveOut&, const Plan&) { return "leave it out of this stretch"; }
Toml toml(const ask::LeaveOut& change, const Plan& plan) {
  return short_form(all_but(plan, change.planting));
}

std::string advice(const ask::LiftOn& change, const Plan& plan) {
  return fmt::format("take {} out on {}", asked(plan, change.planting).crop, plain_day(change.day));
}
Toml toml(const ask::LiftOn& change, const Plan& plan) {
  return keys_of(plan, change.planting, fmt::format("lift_on = {}\n", iso(change.day)));
}

std::string advice(const ask::Plants& change, const Plan&) {
  return fmt::format("plant {}", change.number);
}
Toml toml(const ask::Plants& change, const Plan& plan) {
  return keys_of(plan, change.planting, fmt::format("plants = {}\n", change.number));
}

std::string advice(const ask::StartAfter& change, const Plan&) {
  return fmt::format("start it on {} or later", plain_day(change.day));
}
Toml toml(const ask::StartAfter& change, const Plan& plan) {
  return keys_of(plan, change.planting, fmt::format("not_before = {}\n", iso(change.day)));
}

std::string advice(const ask::Sowings& change, const Plan&) {
  return change.number == 1 ? "sow it once" : fmt::format("sow it {} times", change.number);
}
Toml toml(const ask::Sowings& change, const Plan& plan) {
  return keys_of(plan, change.planting, fmt::format("successions = {}\n", change.number));
}

std::string advice(const ask::Unpin& change, const Plan& plan) {
  const Pins& pins = asked(plan, change.planting).pins;
  std::vector<std::string> keys;
  if (pins.way) keys.emplace_back("way");
  if (pins.start_on) keys.emplace_back("start_on");
  if (pins.plant_on) keys.emplace_back("plant_on");
  if (pins.lift_on) keys.emplace_back("lift_on");
  if (pins.not_before) keys.emplace_back("not_before");
  return fmt::format("take out its {}: without, it can be grown by the rules", listed(keys));
}
Toml toml(const ask::Unpin&, const Plan&) { return std::nullopt; }

std::string advice(const ask::ByWay& change, const Plan& plan) {
  return fmt::format("grow {} as {}", asked(plan, change.planting).crop, change.way);
}
Toml toml(const ask::ByWay& change, const Plan& plan) {
  const CropEntry& entry = asked(plan, change.planting);
  const std::string others =
      entry.pins == Pins{.way = entry.pins.way} ? "" : ", in the place of its other ways and days";
  return keys_of(plan, change.planting,
                 fmt::format("way = {}\n", toml_text(change.way)) + not_before(change.not_before),
                 others);
}

std::string advice(const ask::Instead& change, const Plan& plan) {
  return fmt::format("grow {} in the place of {}", change.asked.crop,
                     asked(plan, change.planting).crop);
}
Toml toml(const ask::Instead& change, const Plan& plan) {
  const auto& patch = plan.plantings[change.planting].patch;
  std::vector<CropEntry> before, crops;
  if (patch) {
    for (const std::size_t i : crops_on(plan, patch->bed, patch->stretch)) {
      before.push_back(asked(plan, i));
      crops.push_back(i == change.planting ? change.asked : before.back());
    }
  }
  if (short_form(before)) {
    const std::string place = place_of(plan, patch->bed, patch->stretch);
    if (const Toml line = short_form(crops)) return fmt::format("# {}:\n{}", place, *line);
    std::string entries;
    for (const CropEntry& crop : crops) entries += "[[bed.stretch.crop]]\n" + long_form(crop);
    return in_the_place_of_crops(place, entries);
  }
  return fmt::format("# in the place of {}:\n{}", asked(plan, change.planting).crop,
                     long_form(change.asked));
}

std::string advice(const ask::AddCrop& change, const Plan& plan) {
  return fmt::format("grow {} on {}", change.asked.crop,
                     place_of(plan, change.bed, static_cast<int>(change.stretch) + 1));
}
Toml toml(const ask::AddCrop& change, const Plan& plan) {
  const int stretch = static_cast<int>(change.stretch) + 1;
  std::vector<CropEntry> before, crops;
  if (!change.after) crops.push_back(change.asked);
  for (const std::size_t i : crops_on(plan, change.bed, stretch)) {
    before.push_back(asked(plan, i));
    crops.push_back(asked(plan, i));
    if (change.after == i) crops.push_back(change.asked);
  }
  const std::string place = place_of(plan, change.bed, stretch);
  if (const Toml line = short_form(crops)) return fmt::format("# {}:\n{}", place, *line);
  if (short_form(before)) {  // a stretch has one form or the other
    std::string entries;
    for (const CropEntry& crop : crops) entries += "[[bed.stretch.crop]]\n" + long_form(crop);
    return in_the_place_of_crops(place, entries);
  }
  const std::string order = change.after ? fmt::format("after {}", asked(plan, *change.after).crop)
                                         : std::string("before its other crops");
  return fmt::format("# {}, {}:\n[[bed.stretch.crop]]\n{}", place, order, long_form(change.asked));
}

std::string advice(const ask::AddStretch& change, const Plan& plan) {
  return fmt::format("grow {} on the next {} m of {}", change.asked.crop,
                     number(change.length.value() / 1000.0, 2), plan.beds[change.bed].name);
}
Toml toml(const ask::AddStretch& change, const Plan& plan) {
  const std::string heading =
      fmt::format("# after the last stretch of {}:\n[[bed.stretch]]\nlength_m = {}\n",
                  plan.beds[change.bed].name, number(change.length.value() / 1000.0, 3));
  if (const Toml line = short_form({change.asked})) return heading + *line;
  return heading + "[[bed.stretch.crop]]\n" + long_form(change.asked);
}

std::string advice(const ask::Frame& change, const Plan&) {
  return fmt::format("build a frame of {} m2", number(change.m2));
}
Toml toml(const ask::Frame& change, const Plan&) {
  return fmt::format("# in [shelter]:\nframe_m2 = {}\n", number(change.m2));
}

// Said, never pasted: it would move the whole plan.
std::string advice(const ask::Year& c, const Plan&) {
  if (!c.start) return fmt::format("it can be grown for {}", c.flowering);
  const Date last = c.start->until - Days{1};
  const std::string when =
      c.start->from == last
          ? "about " + plain_day(last)
          : fmt::format("from {} to {}", plain_day(c.start->from), plain_day(last));
  return fmt::format("for flowers in {} {} it {} ({})", c.flowering, c.sown ? "sow" : "plant", when,
                     c.way);
}
Toml toml(const ask::Year&, const Plan&) { return std::nullopt; }

std::string advice(const ask::Frost& change, const Plan&) {
  return fmt::format("were the last frost on {} and the first on {}", short_day(change.last),
                     short_day(change.first));
}
Toml toml(const ask::Frost& change, const Plan&) {
  return fmt::format("last_frost = \"{}\"\nfirst_frost = \"{}\"\n", short_day(change.last),
                     short_day(change.first));
}

std::string advice(const ask::Risk& change, const Plan&) {
  return fmt::format("accept frost on tender plants in {} years of 100",
                     number(change.share * 100, 0));
}
Toml toml(const ask::Risk& change, const Plan&) {
  return fmt::format("risk = {}\n", number(change.share, 2));
}

// "1 week more with its vase".
std::string weeks_more(int weeks) {
  return fmt::format("{} more with {}", counted(weeks, "week"),
                     weeks == 1 ? "its vase" : "their vases");
}

// "40 stems", "26 stems fewer"
std::string stems_words(double stems) {
  const auto count = static_cast<int>(std::lround(stems));
  return counted(std::abs(count), "stem") + (count < 0 ? " fewer" : "");
}

// "; that costs 12 stems and gives 1 week more its vase"
std::string cost(const ask::Remedy& remedy) {
  const long stems = std::lround(std::abs(remedy.costs_stems));
  const bool costs = remedy.costs_stems > 0 && stems > 0;
  std::vector<std::string> gives;
  if (remedy.gives_weeks > 0) gives.push_back(weeks_more(remedy.gives_weeks));
  if (!costs && stems > 0) gives.push_back(stems_words(static_cast<double>(stems)) + " more");
  std::string text = costs ? "; that costs " + stems_words(static_cast<double>(stems)) : "";
  if (!gives.empty()) text += (costs ? " and gives " : "; that gives ") + listed(gives);
  return text;
}

// "still possible: bought plants (1 week more with its vase, 40 stems) or sown in place in spring"
std::string ways_text(const std::vector<ask::StillPossible>& ways) {
  std::vector<std::string> parts;
  for (const ask::StillPossible& one : ways) {
    parts.push_back(fmt::format("{} ({}{})", one.way,
                                one.weeks > 0 ? weeks_more(one.weeks) + ", " : "",
                                stems_words(one.stems)));
  }
  return "still possible: " + listed(parts, "or");
}

// --- Free ground.

std::string ground_of(const Plan& plan, const ask::Change& change) {
  if (const auto* added = std::get_if<ask::AddStretch>(&change)) {
    return fmt::format("the next {} m of {}", number(added->length.value() / 1000.0, 2),
                       plan.beds[added->bed].name);
  }
  if (const auto* added = std::get_if<ask::AddCrop>(&change)) {
    return place_of(plan, added->bed, static_cast<int>(added->stretch) + 1);
  }
  const auto& patch = plan.plantings[std::get<ask::Instead>(change).planting].patch;
  return place_of(plan, patch->bed, patch->stretch);
}

// "stretch 2 of long bed could grow larkspur (planted by 12 April: 2 weeks more with their vases,
// 140 stems; poisonous), orlaya (...) or ..."
std::string fillers_text(const Plan& plan, const ask::Remedy& remedy) {
  std::vector<std::string> crops;
  for (const ask::Filler& filler : remedy.fillers) {
    std::string note = fmt::format("in the ground from {}: {}{}", short_day(filler.in_ground),
                                   filler.weeks > 0 ? weeks_more(filler.weeks) + ", " : "",
                                   stems_words(filler.stems));
    for (const Caution& caution : filler.cautions) note += fmt::format("; {}", harm(caution.kind));
    crops.push_back(fmt::format("{} ({})", filler.crop, note));
  }
  return fmt::format("{} could grow {}", ground_of(plan, remedy.fillers.front().change),
                     listed(crops, "or"));
}

// The best of them; the others as a comment.
Toml fillers_toml(const Plan& plan, const std::vector<ask::Filler>& fillers) {
  Toml text = change_toml(plan, fillers.front().change);
  std::vector<std::string> others;
  for (std::size_t i = 1; i < fillers.size(); ++i) others.push_back(fillers[i].crop);
  if (text && !others.empty()) *text += fmt::format("# or {}\n", listed(others, "or"));
  return text;
}

}  // namespace

std::string change_words(const Plan& plan, const ask::Change& change) {
  return std::visit([&](const auto& one) { return advice(one, plan); }, change);
}

std::optional<std::string> change_toml(const Plan& plan, const ask::Change& change) {
  return std::visit([&](const auto& one) { return toml(one, plan); }, change);
}

std::string remedy_text(const Plan& plan, const ask::Finding& finding) {
  if (!finding.remedy) return "";
  const ask::Remedy& remedy = *finding.remedy;
  std::string text;
  if (!remedy.ways.empty()) {
    text = ways_text(remedy.ways);
  } else if (remedy.change) {
    text = change_words(plan, *remedy.change) + cost(remedy);
  } else if (finding.planting && plan.plantings[*finding.planting].patch) {
    text = "give its ground to another crop; as the plan is it cannot be grown here";
  }
  if (remedy.fillers.empty()) return text;
  const bool weeks = std::holds_alternative<ask::ShortWeeks>(finding.found);
  const std::string_view why = !weeks ? ""
                               : remedy.fillers.front().weeks > 0
                                   ? "for these weeks "
                                   : "to fill some of these weeks further ";
  return fmt::format("{}{}{}{}", text, text.empty() ? "" : "; ", why, fillers_text(plan, remedy));
}

std::optional<std::string> remedy_toml(const Plan& plan, const ask::Finding& finding) {
  if (!finding.remedy) return std::nullopt;
  const ask::Remedy& remedy = *finding.remedy;
  const Toml text = remedy.change ? change_toml(plan, *remedy.change) : std::nullopt;
  if (text || remedy.fillers.empty()) return text;
  return fillers_toml(plan, remedy.fillers);
}

}  // namespace trug::show
