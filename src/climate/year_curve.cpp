// SPDX-License-Identifier: MIT
#include "climate/year_curve.h"

#include <chrono>
#include <cmath>
#include <numbers>
#include <utility>

#include "climate/day_length.h"

namespace trug::climate {
namespace {

constexpr std::array<int, 12> kMonthDays = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

using Twelve = std::array<double, 12>;

std::size_t next_month(std::size_t month) { return (month + 1) % 12; }
std::size_t month_before(std::size_t month) { return (month + 11) % 12; }

// Solves a 12 x 12 system by elimination. The rows are diagonally dominant (2(a+b) against a+b),
// so no row need be exchanged.
Twelve solve(std::array<Twelve, 12> rows, Twelve right) {
  for (std::size_t pivot = 0; pivot < 12; ++pivot) {
    for (std::size_t row = pivot + 1; row < 12; ++row) {
      const double factor = rows[row][pivot] / rows[pivot][pivot];
      for (std::size_t column = pivot; column < 12; ++column) {
        rows[row][column] -= factor * rows[pivot][column];
      }
      right[row] -= factor * right[pivot];
    }
  }
  Twelve result{};
  for (std::size_t row = 12; row-- > 0;) {
    double rest = right[row];
    for (std::size_t column = row + 1; column < 12; ++column) {
      rest -= rows[row][column] * result[column];
    }
    result[row] = rest / rows[row][row];
  }
  return result;
}

// Second derivatives at the month starts of the periodic cubic spline through `sums`.
Twelve second_derivatives(const Twelve& sums) {
  std::array<Twelve, 12> rows{};
  Twelve right{};
  for (std::size_t i = 0; i < 12; ++i) {
    const double before = kMonthDays[month_before(i)];
    const double after = kMonthDays[i];
    rows[i][month_before(i)] = before;
    rows[i][i] = 2 * (before + after);
    rows[i][next_month(i)] = after;
    right[i] =
        6 * ((sums[next_month(i)] - sums[i]) / after - (sums[i] - sums[month_before(i)]) / before);
  }
  return solve(rows, right);
}

}  // namespace

YearCurve YearCurve::from_months(const std::array<double, 12>& monthly_c) {
  double mean = 0;
  for (std::size_t i = 0; i < 12; ++i) mean += monthly_c[i] * kMonthDays[i] / 365;
  Twelve sums{};  // of the anomaly, up to the start of each month; the twelfth returns to 0
  for (std::size_t i = 1; i < 12; ++i) {
    sums[i] = sums[i - 1] + (monthly_c[i - 1] - mean) * kMonthDays[i - 1];
  }
  const Twelve second = second_derivatives(sums);

  YearCurve curve;
  std::size_t day = 0;
  for (std::size_t i = 0; i < 12; ++i) {
    const double h = kMonthDays[i];
    const std::size_t j = next_month(i);
    double sum_before = sums[i];
    for (int done = 1; done <= kMonthDays[i]; ++done) {
      const double a = h - done;
      const double c = done;
      const double sum = second[i] * a * a * a / (6 * h) + second[j] * c * c * c / (6 * h) +
                         (sums[i] / h - second[i] * h / 6) * a +
                         (sums[j] / h - second[j] * h / 6) * c;
      curve.days_[day++] = mean + sum - std::exchange(sum_before, sum);
    }
  }
  return curve;
}

YearCurve YearCurve::from_two(double year_mean_c, double warmest_month_c, bool southern) {
  const double amplitude = (warmest_month_c - year_mean_c) / 0.985;
  const double warmest_day = southern ? 21.5 : 204;
  YearCurve curve;
  for (std::size_t i = 0; i < 365; ++i) {
    const double day = static_cast<double>(i + 1);
    curve.days_[i] =
        year_mean_c + amplitude * std::cos(2 * std::numbers::pi * (day - warmest_day) / 365);
  }
  return curve;
}

YearCurve YearCurve::of_sun(double latitude) {
  YearCurve curve;
  Date day = make_date(2001, 1, 1);
  for (double& energy : curve.days_) {
    energy = sun_mj(latitude, day);
    day += Days{1};
  }
  return curve;
}

double YearCurve::on(Date day) const {
  const int year = year_of(day);
  const bool leap = std::chrono::year{year}.is_leap();
  const int of_year = days_between(make_date(year, 1, 1), day) + 1;
  return days_[static_cast<std::size_t>(leap && of_year >= 60 ? of_year - 2 : of_year - 1)];
}

}  // namespace trug::climate
