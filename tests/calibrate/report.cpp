// SPDX-License-Identifier: MIT
#include "calibrate/report.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string_view>

namespace trug::calibrate {
namespace {

constexpr std::string_view kAnywhere = "of them all";

struct Summary {
  int facts = 0, never = 0, inside = 0;
  double sum = 0, worst = 0;
  double outside = 0, farthest = 0;  // days beyond the nearer end of the window

  void add(const Judged& judged) {
    ++facts;
    if (!judged.error) {
      ++never;
      return;
    }
    sum += std::abs(*judged.error);
    const double beyond = std::max(0.0, std::abs(*judged.error) - judged.fact.half_width());
    if (beyond == 0) ++inside;
    outside += beyond;
    farthest = std::max(farthest, beyond);
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
      fmt::runtime(markdown
                       ? "| {} | {} | {} | {} | {} | {} | {} | {} | {} | {} | {} |\n"
                       : "{:<20} {:>4} {:>6} {:>6} {:>7} {:>4} {:>6} {:>6} {:>4} {:>6} {:>6}\n"),
      crop, heat(&Growth::top_c), heat(&Growth::heat_to_respond_kd),
      heat(&Growth::heat_to_first_flower_kd), heat(&Growth::spread_days), in.facts, in.mean(),
      in.worst_text(), out.facts, out.mean(), out.worst_text());
}

// Facts of one source are one statement applied to several crops or days as often as not: the mean
// of the sources' own means.
std::string by_source(const std::vector<CropResult>& crops) {
  std::map<std::string, Summary> sources;
  for (const CropResult& crop : crops) {
    for (const Judged& judged : crop.facts) {
      if (!judged.fact.fitted) sources[judged.fact.source].add(judged);
    }
  }
  double sum = 0;
  for (const auto& [source, summary] : sources) sum += summary.sum / std::max(1, summary.facts);
  const auto count = std::max<std::size_t>(1, sources.size());
  return fmt::format("Each source kept out taken as one: {} sources, mean {:.1f} days.\n",
                     sources.size(), sum / static_cast<double>(count));
}

}  // namespace

double spread_days(const CropResult& crop) {
  constexpr double kEightyInHundred = 1.2816;  // standard deviations, normal distribution
  double squares = 0;
  int count = 0;
  for (const Judged& judged : crop.facts) {
    if (!judged.error || judged.fact.kind == "account") continue;
    squares += *judged.error * *judged.error;
    ++count;
  }
  const double days = count == 0 ? 0 : kEightyInHundred * std::sqrt(squares / count);
  return std::max(Growth{}.spread_days, std::ceil(days));
}

std::string table(const std::vector<CropResult>& crops, bool markdown) {
  std::string text = markdown ? "| Crop | Top, °C | To respond, K d | To flower, K d | Good to, d "
                                "| Fitted facts | mean, d | "
                                "worst, d | Facts kept out | mean, d | worst, d |\n"
                                "|---|---|---|---|---|---|---|---|---|---|---|\n"
                              : "crop                  top respond flower good to  in   mean  "
                                "worst  out   mean  worst\n";
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
  const auto windows = [](const Summary& of, std::string_view which) {
    return fmt::format(
        "{} of {} {} lie inside their window; mean {:.1f} days outside it, worst {:.0f}", of.inside,
        of.facts, which, of.outside / std::max(1, of.facts - of.never), of.farthest);
  };
  return text +
         fmt::format("\nErrors count to the middle of a fact's window, late positive. {}; {}.\n",
                     windows(all_in, "fitted"), windows(all_out, "kept out")) +
         by_source(crops);
}

std::string climate_table(const std::vector<CropResult>& crops,
                          const std::map<std::string, std::string>& climates, bool markdown) {
  std::set<std::string> groups;
  for (const auto& [place, group] : climates) groups.insert(group);
  groups.emplace(kAnywhere);
  const auto line = [&](const std::string& crop, const std::map<std::string, Summary>& by_group) {
    std::string text = markdown ? "| " + crop + " |" : fmt::format("{:<20}", crop);
    for (const std::string& group : groups) {
      const auto found = by_group.find(group);
      const std::string cell = found == by_group.end()
                                   ? ""
                                   : fmt::format("{}: {}, worst {}", found->second.facts,
                                                 found->second.mean(), found->second.worst_text());
      text += markdown ? fmt::format(" {} |", cell) : fmt::format(" {:<30}", cell);
    }
    return text + "\n";
  };
  std::string text = markdown ? "| Kept out |" : fmt::format("{:<20}", "kept out");
  for (const std::string& group : groups) {
    text += markdown ? fmt::format(" {} |", group) : fmt::format(" {:<30}", group);
  }
  text += "\n";
  if (markdown) {
    text += "|---|";
    for (std::size_t i = 0; i < groups.size(); ++i) text += "---|";
    text += "\n";
  }
  std::map<std::string, std::map<std::string, Summary>> kinds;
  for (const CropResult& crop : crops) {
    std::map<std::string, Summary> own;
    for (const Judged& judged : crop.facts) {
      if (judged.fact.fitted) continue;
      const std::string& group = climates.at(judged.fact.place);
      own[group].add(judged);
      for (auto* more : {&kinds[crop.kind], &kinds["all"]}) {
        (*more)[group].add(judged);
        (*more)[std::string(kAnywhere)].add(judged);
      }
    }
    if (!own.empty()) text += line(crop.crop, own);
  }
  for (const auto& [kind, summaries] : kinds) text += line(kind, summaries);
  return text;
}

std::string coverage_table(const std::vector<CropResult>& crops) {
  struct Count {
    int facts = 0, inside = 0;
    double width = 0;
  };
  std::map<std::string, Count> counts;
  for (const CropResult& crop : crops) {
    for (const Judged& judged : crop.facts) {
      const bool is_general = judged.fact.source.find("Sowing hardy annuals") != std::string::npos;
      const std::string use = judged.fact.fitted ? "fitted" : "kept out";
      for (const std::string& name :
           {use, use + (is_general ? ", one general sentence" : ", " + judged.fact.kind)}) {
        Count& count = counts[name];
        ++count.facts;
        if (!judged.error || !judged.told) continue;
        count.width += *judged.told;
        if (std::abs(*judged.error) <= *judged.told) ++count.inside;
      }
    }
  }
  std::string text;
  for (const auto& [name, count] : counts) {
    text += fmt::format("{:<32} {:>3} of {:>3} in the window told, {:.0f} in 100; +-{:.1f} days\n",
                        name, count.inside, count.facts, 100.0 * count.inside / count.facts,
                        count.width / count.facts);
  }
  return text;
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
    for (const auto& [fact, error, told] : facts) {
      text += fmt::format("  {:>5} {:<3} {} {}, {} to {}, {}: {}\n",
                          error ? fmt::format("{:+.1f}", *error) : "never",
                          fact.fitted ? "in" : "out", iso(fact.start), fact.way, iso(fact.earliest),
                          iso(fact.latest), fact.place, fact.source);
    }
  }
  return text;
}

}  // namespace trug::calibrate
