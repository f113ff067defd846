// SPDX-License-Identifier: MIT
#include "calibrate/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace trug::calibrate {
namespace {

struct Summary {
  int facts = 0, never = 0, inside = 0;
  double sum = 0, worst = 0;

  void add(const Judged& judged) {
    ++facts;
    if (!judged.error) {
      ++never;
      return;
    }
    sum += std::abs(*judged.error);
    if (std::abs(*judged.error) <= judged.fact.half_width()) ++inside;
    if (std::abs(*judged.error) > std::abs(worst)) worst = *judged.error;
  }
  std::string mean() const {
    if (facts == 0) return "";
    if (facts == never) return "never";
    return fmt::format("{:.1f}", sum / (facts - never));
  }
  std::string worst_text() const {
    if (facts == 0) return "";
    if (never > 0) return "never";
    return std::abs(worst) < 0.75 ? "0" : fmt::format("{:+.0f}", worst);
  }
};

std::string row(const std::string& crop, const Growth* growth, const Summary& in,
                const Summary& out, bool markdown) {
  const auto heat = [&](double Growth::*value) {
    return growth ? fmt::format("{:.0f}", growth->*value) : "";
  };
  return fmt::format(
      fmt::runtime(markdown ? "| {} | {} | {} | {} | {} | {} | {} | {} | {} | {} |\n"
                            : "{:<20} {:>4} {:>6} {:>6} {:>4} {:>6} {:>6} {:>4} {:>6} {:>6}\n"),
      crop, heat(&Growth::top_c), heat(&Growth::heat_to_respond_kd),
      heat(&Growth::heat_to_first_flower_kd), in.facts, in.mean(), in.worst_text(), out.facts,
      out.mean(), out.worst_text());
}

}  // namespace

std::string table(const std::vector<CropResult>& crops, bool markdown) {
  std::string text =
      markdown ? "| Crop | Top, °C | To respond, K d | To flower, K d | Fitted facts | mean, d | "
                 "worst, d | Facts kept out | mean, d | worst, d |\n"
                 "|---|---|---|---|---|---|---|---|---|---|\n"
               : "crop                  top respond flower  in   mean  worst  out   mean  worst\n";
  Summary all_in, all_out;
  for (const CropResult& crop : crops) {
    Summary in, out;
    for (const Judged& judged : crop.facts) {
      (judged.fact.fitted ? in : out).add(judged);
      (judged.fact.fitted ? all_in : all_out).add(judged);
    }
    text += row(crop.crop, &crop.after, in, out, markdown);
  }
  text += row("all", nullptr, all_in, all_out, markdown);
  return text +
         fmt::format(
             "\nErrors count to the middle of a fact's window, late positive. Inside its window: "
             "{} of {} fitted facts, {} of {} kept out.\n",
             all_in.inside, all_in.facts, all_out.inside, all_out.facts);
}

std::string fact_list(const std::vector<CropResult>& crops) {
  std::string text;
  for (const CropResult& crop : crops) {
    text +=
        fmt::format("{}: respond {:.0f} -> {:.0f}, flower {:.0f} -> {:.0f}, top {:.0f} -> {:.0f}\n",
                    crop.crop, crop.before.heat_to_respond_kd, crop.after.heat_to_respond_kd,
                    crop.before.heat_to_first_flower_kd, crop.after.heat_to_first_flower_kd,
                    crop.before.top_c, crop.after.top_c);
    std::vector<Judged> facts = crop.facts;
    std::ranges::stable_sort(facts, std::greater{}, [](const Judged& judged) {
      return judged.error ? std::abs(*judged.error) : HUGE_VAL;
    });
    for (const auto& [fact, error] : facts) {
      text += fmt::format("  {:>5} {:<3} {} {}, {} to {}, {}: {}\n",
                          error ? fmt::format("{:+.1f}", *error) : "never",
                          fact.fitted ? "in" : "out", iso(fact.start), fact.way, iso(fact.earliest),
                          iso(fact.latest), fact.place, fact.source);
    }
  }
  return text;
}

}  // namespace trug::calibrate
