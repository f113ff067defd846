// SPDX-License-Identifier: MIT
#include "ask/findings.h"

#include <algorithm>
#include <utility>

namespace trug::ask {

std::string_view to_string(Rank rank) {
  switch (rank) {
    case Rank::Broken:
      return "broken";
    case Rank::Short:
      return "short";
    case Rank::Mild:
      return "mild";
  }
  return "";
}

std::vector<std::string_view> all_finding_codes() {
  return []<class... Each>(const std::variant<Each...>*) {
    return std::vector<std::string_view>{Each::kCode...};
  }(static_cast<const Found*>(nullptr));
}

std::string_view Finding::code() const {
  return std::visit([](const auto& one) { return one.kCode; }, found);
}

Rank Finding::rank() const {
  return std::visit(
      [](const auto& one) {
        if constexpr (requires { one.in_ground, one.days_late; }) {
          if (one.days_late > kMildlyLate) return Rank::Short;
        }
        return one.kRank;
      },
      found);
}

Finding about_planting(const Plan& plan, std::size_t planting, Found found) {
  return {plan.plantings[planting].asked.at, "crop", planting, std::move(found), {}};
}

void sort_by_rank(std::vector<Finding>& findings) {
  std::ranges::stable_sort(findings, {}, &Finding::rank);
}

}  // namespace trug::ask
