// SPDX-License-Identifier: MIT
#include "show/chart.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>

#include "base/text.h"
#include "show/chart_block.h"
#include "show/chart_facts.h"
#include "show/chart_labels.h"
#include "show/chart_layout.h"
#include "show/chart_legend.h"
#include "show/chart_scale.h"
#include "show/chart_weeks.h"
#include "show/markup.h"
#include "show/pages.h"
#include "show/svg.h"
#include "show/week_words.h"

namespace trug::show {
namespace {

constexpr std::string_view kFirstLines =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- trug chart -->\n";

std::string metres(Millimetres length) { return number(length.value() / 1000.0, 2) + " m"; }

std::string bed_words(const Bed& bed) {
  return fmt::format("{}, {} long and {} wide{}", bed.name, metres(bed.length), metres(bed.width),
                     bed.person ? ", " + *bed.person : "");
}

std::string heading(const Plan& plan) {
  return fmt::format("{}, flowering {}", plan.title, plan.flowering_year);
}

std::vector<std::string> wrapped_rows(const std::vector<std::string>& texts) {
  std::vector<std::string> rows;
  for (const std::string& text : texts) {
    for (std::string& row : lines_in(BedPage::width(), text, kText)) rows.push_back(std::move(row));
  }
  return rows;
}

constexpr double kRow = kText * 1.25;
constexpr double kRowsGap = 2;

// Below the ground: that many rows, and the legend.
double foot_of(std::size_t rows) {
  return kRowsGap + kRow * static_cast<double>(rows) + kLegendHeight;
}

std::string frost_words(const climate::SeasonFrosts& frosts) {
  return fmt::format("frost to {} and from {}", brief_day(frosts.last), brief_day(frosts.first));
}

// The pages, below each other.
class Drawing {
 public:
  Drawing(const Plan& plan, const ground::Schedule& schedule,
          const std::vector<harvest::Week>& weeks, const climate::Climate& climate)
      : plan_(plan),
        weeks_(plan.wish ? weeks : std::vector<harvest::Week>{}),
        climate_(climate),
        facts_(chart_facts(plan, schedule, climate)) {}

  std::string svg(Paper paper) {
    for (std::size_t i = 0; i < plan_.beds.size(); ++i) bed(i);
    if (plan_.beds.empty()) {
      head("No bed yet", "");
      lines(notes(std::nullopt), kPageMargin + kPageHead);
      ++pages_;
    }
    return opening(paper) + svg_.bytes() + "</g>\n</svg>\n";
  }

 private:
  std::string opening(Paper paper) const {
    const double scale = paper == Paper::A3 ? std::sqrt(2.0) : 1;
    const double height = kPageHeight * pages_;
    return fmt::format(
        "{0}<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{1}mm\" "
        "height=\"{2}mm\" viewBox=\"0 0 {3} {4}\" role=\"img\" aria-labelledby=\"title "
        "description\">\n<title id=\"title\">{5}</title>\n<desc id=\"description\">{6}</desc>\n"
        "<style>@page {{ size: {1}mm {7}mm; margin: 0; }} svg {{ max-width: 100%; height: auto; }}"
        "</style>\n<defs>{8}</defs>\n"
        "<rect class=\"paper\" x=\"0\" y=\"0\" width=\"{3}\" height=\"{4}\" {9}/>\n"
        "<g font-family=\"'DejaVu Sans', Verdana, sans-serif\" fill=\"{10}\">\n",
        kFirstLines, mm(kPageWidth * scale), mm(height * scale), mm(kPageWidth), mm(height),
        escaped(heading(plan_)), escaped(description()), mm(kPageHeight * scale), chart_patterns(),
        filled(kPaper), kInk);
  }

  std::string description() const {
    std::string text = fmt::format(
        "What stands where, to scale: the beds' metres across, the year down, from {} to {}.",
        month_and_year(facts_.days.from), month_and_year(facts_.days.until - Days{1}));
    for (std::size_t i = 0; i < plan_.beds.size(); ++i) {
      text += " " + bed_words(plan_.beds[i]) + ".";
      for (const ChartBlock& block : facts_.blocks) {
        if (block.bed == i) text += " " + block.words + ".";
      }
    }
    for (const LeftOut& left : facts_.left_out) text += " " + left.name + " found no place.";
    if (!weeks_.empty()) text += " " + weeks_paragraph(weeks_);
    return text;
  }

  double page_top() const { return pages_ * kPageHeight; }

  // What hangs beside other pages says whose it is.
  void head(const std::string& name, const std::string& size) {
    const double y = page_top() + kPageMargin;
    const double fitted = kTitle * BedPage::width() / text_width(name, kTitle, true);
    const double type = std::clamp(fitted, kText, kTitle);
    const std::string title =
        fitted < kText ? shortened(name, letters(BedPage::width(), kText, true)) : name;
    svg_.text(kPageMargin, y + 7, title, {.size = type, .bold = true});
    const double x = kPageMargin + text_width(title, type, true) + 3;
    const double room = kPageWidth - kPageMargin - x;
    if (!size.empty() && text_width(size, kName) <= room) {
      svg_.text(x, y + 7, size, {.size = kName});
    }
    const std::string weeks = weeks_.empty() ? "" : fmt::format(": {}", full_weeks(weeks_));
    const int room_for_name = letters(BedPage::width(), kText) - display_width(weeks);
    svg_.text(kPageMargin, y + 14, shortened(heading(plan_), room_for_name) + weeks,
              {.size = kText});
  }

  // What the bed's page says below it; nullopt: the page of no bed.
  std::vector<std::string> notes(std::optional<std::size_t> bed) const {
    std::vector<std::string> texts;
    if (const std::string note = trust_note(climate_); !note.empty()) texts.push_back(note);
    if (!bed) texts.push_back("The plan has no beds yet.");
    std::vector<std::string> left_out;
    for (const LeftOut& left : facts_.left_out) {
      if (left.bed.value_or(0) == bed.value_or(0)) left_out.push_back(left.name);
    }
    if (!left_out.empty()) {
      texts.push_back("Found no place, see trug check: " + listed(left_out) + ".");
    }
    return wrapped_rows(texts);
  }

  // A page as its labels leave it room; `rows` that would take too much of it have pages of their
  // own.
  void bed(std::size_t index) {
    const Bed& bed = plan_.beds[index];
    const DateRange days = facts_.bed_days[index];
    BedLabels labels(facts_, index);
    const std::vector<std::string> remarks = notes(index);
    std::vector<std::string> rows, below;
    BedPage page;
    bool apart = false;
    do {
      rows = wrapped_rows(labels.rows());
      apart = foot_of(rows.size() + remarks.size()) > most_foot(days);
      below = apart ? std::vector<std::string>{"The numbers are told on the next page."} : rows;
      below.insert(below.end(), remarks.begin(), remarks.end());
      page = bed_page(static_cast<std::size_t>(pages_), bed.length, days, !weeks_.empty(),
                      foot_of(below.size()));
    } while (labels.place(page));
    draw(index, page, labels);
    lines(below, page.ground.bottom() + kRowsGap);
    draw_legend(svg_, page_top() + kPageHeight - kPageMargin - kLegendHeight,
                frost_words(climate_.frosts(plan_.flowering_year)), !weeks_.empty());
    ++pages_;
    if (apart) own_pages(bed, rows);
  }

  void draw(std::size_t index, const BedPage& page, const BedLabels& labels) {
    const Bed& bed = plan_.beds[index];
    svg_.open_group("bed", bed_words(bed));
    head(bed.name, fmt::format("{} × {}{}", metres(bed.length), metres(bed.width),
                               bed.person ? ", " + *bed.person : ""));
    svg_.rect("soil", page.ground, filled(kSoil));
    draw_days(svg_, page);
    draw_metres(svg_, page, bed.length);
    svg_.close_group();
    for (const BareGround& bare : facts_.bare) {
      if (bare.bed == index) draw_bare(svg_, page.box(bare.at_cm, bare.length_cm, bare.days));
    }
    for (const ChartBlock& block : facts_.blocks) {
      if (block.bed == index) draw_block(svg_, page, block);
    }
    draw_month_lines(svg_, page);
    frosts(page);
    draw_weeks(svg_, page, weeks_);
    raisings(index, page);
    for (const TitledLabel& label : labels.labels()) {
      svg_.open_group("label", label.title);
      draw_label(svg_, label.label);
      svg_.close_group();
    }
  }

  void raisings(std::size_t index, const BedPage& page) {
    for (const ChartBlock& block : facts_.blocks) {
      if (block.bed != index || !block.raising) continue;
      svg_.open_group(
          "raising",
          fmt::format("{}: {}, {} from {} to {}", block.name, block.plants, block.raising->place,
                      plain_day(block.raising->days.from), plain_day(block.raising->days.until)));
      draw_stalk(svg_, stalk_box(page, block));
      svg_.close_group();
    }
  }

  void frosts(const BedPage& page) {
    const int year = plan_.flowering_year;
    draw_frost(svg_, page, "first frost", climate_.frosts(year - 1).first);
    draw_frost(svg_, page, "last frost", climate_.frosts(year).last);
    draw_frost(svg_, page, "first frost", climate_.frosts(year).first);
  }

  void lines(const std::vector<std::string>& rows, double top) {
    double y = top + kText * kAscent;
    for (const std::string& row : rows) {
      svg_.text(kPageMargin, y, row, {.size = kText});
      y += kRow;
    }
  }

  void own_pages(const Bed& bed, const std::vector<std::string>& rows) {
    const double room = kPageHeight - 2 * kPageMargin - kPageHead;
    const auto a_page = static_cast<std::size_t>(room / kRow);
    for (std::size_t from = 0; from < rows.size(); from += a_page) {
      const std::size_t until = std::min(rows.size(), from + a_page);
      head(bed.name, "");
      lines({rows.begin() + static_cast<std::ptrdiff_t>(from),
             rows.begin() + static_cast<std::ptrdiff_t>(until)},
            page_top() + kPageMargin + kPageHead);
      ++pages_;
    }
  }

  const Plan& plan_;
  const std::vector<harvest::Week> weeks_;
  const climate::Climate& climate_;
  ChartFacts facts_;
  int pages_ = 0;
  Svg svg_;
};

}  // namespace

std::string chart_svg(const Plan& plan, const ground::Schedule& schedule,
                      const std::vector<harvest::Week>& weeks, const climate::Climate& climate,
                      Paper paper) {
  return Drawing(plan, schedule, weeks, climate).svg(paper);
}

bool is_chart(std::string_view bytes) { return bytes.starts_with(kFirstLines); }

}  // namespace trug::show
