// SPDX-License-Identifier: MIT
#include "calendar/event.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/text.h"
#include "calendar/planting_line.h"
#include "work/job_kinds.h"

namespace trug::calendar {

std::string category_text(std::string_view word) {
  const auto kind = work::parse_job_kind(word);
  const bool by_its_word = kind && work::to_string(*kind) == word;
  return capitalised(std::string(by_its_word ? work::trait(*kind).words : word));
}

std::string category_word(std::string_view text) {
  std::string word = uncapitalised(std::string(text));
  std::string joined = word;
  std::ranges::replace(joined, ' ', '-');
  return work::parse_job_kind(joined) ? joined : word;
}

Uuid namespace_of(const Uuid& garden, std::string_view part) {
  return uuid_v5(garden, folded(part));
}

std::string job_uid(const Uuid& space, const work::JobKey& key) {
  // U+001F (unit separator) is a control character: no name or id of a plan can hold it.
  const std::string name =
      fmt::format("{}\x1f{}\x1f{}\x1f{}\x1f{}\x1f{}\x1f{}", key.flowering_year, key.bed, key.crop,
                  key.planting, work::to_string(key.kind), key.succession, key.repeat);
  return to_string(uuid_v5(space, folded(name)));
}

std::string day_uid(const Uuid& space, Date day, int flowering_year) {
  return to_string(uuid_v5(space, fmt::format("day\x1f{}\x1f{}", iso(day), flowering_year)));
}

Uuid order_part_id(const Uuid& garden, work::JobKey key,
                   const std::optional<std::string>& variety) {
  if (variety) key.crop += "\x1f" + *variety;
  return planting_id(garden, key);
}

}  // namespace trug::calendar
