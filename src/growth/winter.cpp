// SPDX-License-Identifier: MIT
#include "growth/winter.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numeric>

#include "climate/frost.h"
#include "climate/heat.h"
#include "climate/soil.h"

namespace trug::growth {
namespace {

constexpr double kHalfBelow = 4;
constexpr double kChillingSoilC = 7;  // memory
constexpr double kDeviation = 3;
constexpr double kFrameGain = 4;  // above the coldest night outdoors (memory)

Survival survival(const Sheet& sheet, double coldest_c, double mulch_c) {
  return {coldest_c, share_alive(coldest_c, 0, sheet.survives_c),
          share_alive(coldest_c, mulch_c, sheet.survives_c)};
}

}  // namespace

std::optional<WinterCold> winter_cold(const climate::Season& season, const CropSpec& crop) {
  const climate::Climate& climate = season.climate();
  const auto& chill = crop.sheet().chill;
  const bool vernal = crop.growth() && crop.growth()->vernal_days;
  if (!climate.has_temperatures() || !(chill || vernal)) return std::nullopt;
  const DateRange months = season.cold_months();
  WinterCold cold{chill ? chill->days : *crop.growth()->vernal_days, months.from, {}};
  for (Date day = months.from; day < months.until; day += Days{1}) {
    const double mean_c = climate.average_c(day);
    cold.by_day.push_back(chill ? climate::cold_day(*chill, mean_c)
                                : climate::vernalisation(mean_c));
  }
  return cold;
}

Cold WinterCold::since(Date planted) const {
  const auto days = static_cast<std::ptrdiff_t>(by_day.size());
  const auto missed = std::clamp<std::ptrdiff_t>(days_between(from, planted), 0, days);
  return {std::accumulate(by_day.begin() + missed, by_day.end(), 0.0), needed};
}

bool ground_chills_seed(const climate::Climate& climate, const Sheet& sheet, const Way& way,
                        Date sown) {
  const auto& treat = sheet.pretreat;
  const bool asks = treat && treat->kind == Pretreatment::Kind::Chill;
  if (!asks || !is_sown_in_place(way) || !climate.has_temperatures()) return false;
  const int days = std::max(1, static_cast<int>(std::ceil(treat->days.high)));
  double sum = 0;
  for (int i = 0; i < days; ++i) sum += climate::soil_c(climate, sown + Days{i});
  return sum <= kChillingSoilC * days;
}

double share_alive(double coldest_c, double cover_c, double survives_c) {
  return climate::normal_cdf((coldest_c + cover_c - survives_c + kHalfBelow) / kDeviation);
}

double snow_cover_c(const climate::Climate& climate) {
  constexpr double kUnderSnow = 6;
  return climate.snow_lies() ? kUnderSnow : 0;
}

Survival in_bed(const climate::Climate& climate, const Sheet& sheet, double coldest_c,
                double cover_c) {
  return survival(sheet, coldest_c + cover_c + snow_cover_c(climate), sheet.mulch_gain_c);
}

Survival in_frame(const Sheet& sheet, double coldest_c) {
  return survival(sheet, coldest_c + kFrameGain, 0);
}

double coldest_borne_c(double survives_c, double share) {
  return survives_c - kHalfBelow + kDeviation * climate::normal_quantile(share);
}

}  // namespace trug::growth
