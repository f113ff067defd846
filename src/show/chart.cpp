// SPDX-License-Identifier: MIT
#include "show/chart.h"

#include <fmt/format.h>

#include <chrono>
#include <utility>

#include "base/text.h"
#include "show/chart_block.h"
#include "show/chart_layout.h"
#include "show/markup.h"
#include "show/pages.h"
#include "show/svg.h"

namespace trug::show {
namespace {

constexpr std::string_view kFirstLines =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- trug chart -->\n";

constexpr std::string_view kSoil = "#e9dfd0";
constexpr std::string_view kFrost = "#3f6f9c";

// Type sizes: 2.6 mm is 7.4 points.
constexpr double kSmall = 2.6;
constexpr double kPlain = 3.3;
constexpr double kBedName = 4.2;
constexpr double kTitle = 6.5;

Date next_month(Date first) {
  const unsigned month = month_of(first);
  return month == 12 ? make_date(year_of(first) + 1, 1, 1)
                     : make_date(year_of(first), month + 1, 1);
}

std::string metres(Millimetres length) { return number(length.value() / 1000.0, 2) + " m"; }

class Drawing {
 public:
  Drawing(const Plan& plan, const ground::Schedule& schedule, const climate::Climate& climate)
      : plan_(plan), climate_(climate), facts_(chart_facts(plan, schedule, climate)) {
    set_notes();
    foot_ = notes_.empty() ? 0 : kNoteLine * static_cast<double>(notes_.size()) + 2;
    layout_ = chart_layout(plan, facts_.days, foot_);
  }

  std::string svg() {
    open();
    head();
    for (std::size_t i = 0; i < plan_.beds.size(); ++i) bed(i);
    notes();
    svg_.raw("</g>\n</svg>\n");
    return svg_.bytes();
  }

 private:
  static constexpr double kNoteLine = 3.8;

  void set_notes() {
    std::vector<std::string> texts;
    if (const std::string note = trust_note(climate_); !note.empty()) texts.push_back(note);
    if (plan_.beds.empty()) texts.push_back("The plan has no beds yet.");
    if (!facts_.left_out.empty()) {
      texts.push_back("Found no place, see trug check: " + listed(facts_.left_out) + ".");
    }
    const double width = kPageWidth - 2 * kPageMargin;
    for (const std::string& text : texts) {
      for (std::string& line : wrapped(text, letters(width, kSmall))) {
        notes_.push_back(std::move(line));
      }
    }
  }

  void open() {
    const double height = kPageHeight * layout_.pages;
    svg_.raw(kFirstLines);
    svg_.raw(fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}mm\" "
        "height=\"{1}mm\" viewBox=\"0 0 {0} {1}\" role=\"img\" aria-labelledby=\"title "
        "description\">\n<title id=\"title\">{2}</title>\n<desc id=\"description\">{3}</desc>\n",
        mm(kPageWidth), mm(height), escaped(heading()), escaped(description())));
    svg_.raw("<defs>" + leaf_pattern() + "</defs>\n");
    svg_.rect("paper", {0, 0, kPageWidth, height}, filled(kPaper));
    svg_.raw(
        fmt::format("<g font-family=\"'DejaVu Sans', Verdana, sans-serif\" fill=\"{}\">\n", kInk));
  }

  std::string heading() const {
    return fmt::format("{}, flowering {}", plan_.title, plan_.flowering_year);
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
    for (const std::string& name : facts_.left_out) text += " " + name + " found no place.";
    return text;
  }

  static std::string bed_words(const Bed& bed) {
    return fmt::format("{}, {} long and {} wide{}", bed.name, metres(bed.length), metres(bed.width),
                       bed.person ? ", " + *bed.person : "");
  }

  void head() {
    const double width = kPageWidth - 2 * kPageMargin;
    svg_.text(kPageMargin, kPageMargin + 6, shortened(heading(), letters(width, kTitle, true)),
              {.size = kTitle, .bold = true});
    svg_.text(
        kPageMargin, kPageMargin + 12,
        fmt::format("What stands where from {} to {}: metres across, the year down.",
                    month_and_year(facts_.days.from), month_and_year(facts_.days.until - Days{1})),
        {.size = kPlain});
    legend();
  }

  void legend() {
    const double y = kPageMargin + 16;
    double x = kPageMargin;
    const auto entry = [&](const std::string& words, auto draw) {
      const Box box{x, y, 9, 4};
      svg_.open_group("legend", words);
      draw(box);
      svg_.rect("edge", box, stroke(kEdge, 0.25));
      svg_.text(box.right() + 1.5, y + 3, words, {.size = kSmall});
      svg_.close_group();
      x = box.right() + 1.5 + text_width(words, kSmall) + 3;
    };
    entry("bare ground", [&](const Box& box) { svg_.rect("soil", box, filled(kSoil)); });
    entry("in the ground", [&](const Box& box) { draw_leaf(svg_, box); });
    entry("flowers in an early year", [&](const Box& box) {
      draw_leaf(svg_, box);
      draw_flecks(svg_, box, {"lilac", "white"});
    });
    entry("flowers to cut, in their colours", [&](const Box& box) {
      draw_flowers(svg_, box, {"lilac", "white"});
    });
  }

  double y_of(const BedPlace& place, Date day) const {
    return place.y + layout_.per_day * days_between(facts_.days.from, day);
  }

  void bed(std::size_t index) {
    const Bed& bed = plan_.beds[index];
    const BedPlace& place = layout_.beds[index];
    const Box ground{place.x, place.y, layout_.per_metre * bed.length.value() / 1000.0,
                     layout_.per_day * days_between(facts_.days.from, facts_.days.until)};
    svg_.open_group("bed", bed_words(bed));
    bed_name(bed, ground);
    svg_.rect("soil", ground, filled(kSoil));
    if (place.first_in_row) months(ground);
    svg_.close_group();
    const std::vector<PlacedBlock> blocks = placed_blocks(index);
    for (const PlacedBlock& block : blocks) draw_block(svg_, block);
    month_lines(ground, place);
    metre_rule(bed, ground);
    frosts(ground, place);
    for (const PlacedBlock& block : blocks) draw_labels(svg_, block);
  }

  std::vector<PlacedBlock> placed_blocks(std::size_t bed) const {
    const BedPlace& place = layout_.beds[bed];
    std::vector<PlacedBlock> result;
    for (const ChartBlock& block : facts_.blocks) {
      if (block.bed != bed) continue;
      const double top = y_of(place, block.in_ground.from);
      const Box box{place.x + layout_.per_metre * block.at_cm / 100.0, top,
                    layout_.per_metre * block.length_cm / 100.0,
                    y_of(place, block.in_ground.until) - top};
      result.push_back({&block, box, layout_.per_day});
    }
    return result;
  }

  void bed_name(const Bed& bed, const Box& ground) {
    const double y = ground.y - 9;
    const double room = ground.width + kBetweenBeds / 2;
    const std::string name = shortened(bed.name, letters(room, kBedName, true));
    svg_.text(ground.x, y, name, {.size = kBedName, .bold = true});
    const std::string size = fmt::format("{} × {}{}", metres(bed.length), metres(bed.width),
                                         bed.person ? ", " + *bed.person : "");
    const double x = ground.x + text_width(name, kBedName, true) + 2;
    if (x + text_width(size, kPlain) <= ground.x + room) {
      svg_.text(x, y, size, {.size = kPlain});
    }
  }

  // Months beside the beds, each in the middle of its days; the year where it begins.
  void months(const Box& ground) {
    for (Date first = facts_.days.from; first < facts_.days.until; first = next_month(first)) {
      const double middle =
          ground.y + layout_.per_day * (days_between(facts_.days.from, first) +
                                        days_between(first, next_month(first)) / 2.0);
      const double y = middle + kSmall * 0.36;
      svg_.text(ground.x - 2, y, short_month(std::chrono::month{month_of(first)}),
                {.size = kPlain * 0.9, .anchor = Anchor::End});
      if (first == facts_.days.from || month_of(first) == 1) {
        svg_.text(kPageMargin - 2, y, std::to_string(year_of(first)),
                  {.size = kSmall, .bold = true});
      }
    }
  }

  void month_lines(const Box& ground, const BedPlace& place) {
    std::string thin;
    for (Date first = next_month(facts_.days.from); first < facts_.days.until;
         first = next_month(first)) {
      const std::string line =
          fmt::format("M{} {}H{}", mm(ground.x - 1.2), mm(y_of(place, first)), mm(ground.right()));
      if (month_of(first) == 1) {
        svg_.path(line, stroke(kInk, 0.35) + " stroke-opacity=\"0.6\"");
      } else {
        thin += line;
      }
    }
    svg_.path(thin, stroke(kInk, 0.15) + " stroke-opacity=\"0.35\"");
    svg_.rect("edge", ground, stroke(kEdge, 0.3));
  }

  void metre_rule(const Bed& bed, const Box& ground) {
    const int whole = bed.length.value() / 1000;
    const int every = layout_.per_metre >= 6 ? 1 : layout_.per_metre >= 1.5 ? 5 : 10;
    std::string ticks =
        fmt::format("M{} {}H{}", mm(ground.x), mm(ground.y - 1.5), mm(ground.right()));
    for (int half = 0; half * 500 <= bed.length.value(); ++half) {
      if (half % 2 == 1 && layout_.per_metre < 10) continue;
      const double x = ground.x + layout_.per_metre * half / 2.0;
      ticks += fmt::format("M{} {}v-{}", mm(x), mm(ground.y - 1.5), half % 2 == 0 ? "1.8" : "1");
    }
    svg_.path(ticks, stroke(kInk, 0.25));
    for (int metre = 0; metre <= whole; metre += every) {
      const bool last = metre + every > whole;
      svg_.text(ground.x + layout_.per_metre * metre, ground.y - 4.2,
                std::to_string(metre) + (last ? " m" : ""),
                {.size = kSmall, .anchor = Anchor::Middle});
    }
  }

  void frosts(const Box& ground, const BedPlace& place) {
    const int year = plan_.flowering_year;
    frost(ground, place, "first frost", climate_.frosts(year - 1).first);
    frost(ground, place, "last frost", climate_.frosts(year).last);
    frost(ground, place, "first frost", climate_.frosts(year).first);
  }

  void frost(const Box& ground, const BedPlace& place, const std::string& name, Date day) {
    if (!facts_.days.contains(day)) return;
    const double y = y_of(place, day);
    const double right = place.last_in_row ? ground.right() + 2 : ground.right();
    svg_.open_group("frost", fmt::format("average {} in the garden, {}", name, plain_day(day)));
    svg_.path(fmt::format("M{} {}H{}", mm(ground.x), mm(y), mm(right)),
              stroke(kFrost, 0.35) + " stroke-dasharray=\"1.6 1\"");
    if (place.last_in_row) {
      svg_.text(right + 0.6, y + 0.2, name, {.size = kSmall, .fill = kFrost});
      svg_.text(right + 0.6, y + 3.2, short_day(day), {.size = kSmall, .fill = kFrost});
    }
    svg_.close_group();
  }

  void notes() {
    double y = kPageHeight * layout_.pages - kPageMargin - foot_ + 4;
    for (const std::string& line : notes_) {
      svg_.text(kPageMargin, y, line, {.size = kSmall});
      y += kNoteLine;
    }
  }

  const Plan& plan_;
  const climate::Climate& climate_;
  ChartFacts facts_;
  ChartLayout layout_;
  std::vector<std::string> notes_;
  double foot_ = 0;
  Svg svg_;
};

}  // namespace

std::string chart_svg(const Plan& plan, const ground::Schedule& schedule,
                      const climate::Climate& climate) {
  return Drawing(plan, schedule, climate).svg();
}

bool is_chart(std::string_view bytes) { return bytes.starts_with(kFirstLines); }

}  // namespace trug::show
