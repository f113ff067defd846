// SPDX-License-Identifier: MIT
#include "show/chart.h"

#include <fmt/format.h>

#include <utility>
#include <vector>

#include "base/text.h"
#include "show/chart_block.h"
#include "show/chart_layout.h"
#include "show/chart_scale.h"
#include "show/markup.h"
#include "show/pages.h"
#include "show/svg.h"

namespace trug::show {
namespace {

constexpr std::string_view kFirstLines =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- trug chart -->\n";

constexpr std::string_view kSoil = "#e9dfd0";

constexpr double kBedName = 4.2;
constexpr double kTitle = 6.5;

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

  void bed(std::size_t index) {
    const Bed& bed = plan_.beds[index];
    const BedPlace& place = layout_.beds[index];
    ChartScale scale(svg_, layout_, facts_.days);
    const Box ground = scale.ground(place, bed.length);
    svg_.open_group("bed", bed_words(bed));
    bed_name(bed, ground);
    svg_.rect("soil", ground, filled(kSoil));
    if (place.first_in_row) scale.months(ground);
    svg_.close_group();
    const std::vector<PlacedBlock> blocks = placed_blocks(index, ground, scale);
    for (const PlacedBlock& block : blocks) draw_block(svg_, block);
    scale.month_lines(ground);
    scale.metre_rule(ground, bed.length);
    frosts(scale, ground, place);
    for (const PlacedBlock& block : blocks) draw_labels(svg_, block);
  }

  std::vector<PlacedBlock> placed_blocks(std::size_t bed, const Box& ground,
                                         const ChartScale& scale) const {
    std::vector<PlacedBlock> result;
    for (const ChartBlock& block : facts_.blocks) {
      if (block.bed != bed) continue;
      const double top = scale.y_of(ground, block.in_ground.from);
      const Box box{ground.x + layout_.per_metre * block.at_cm / 100.0, top,
                    layout_.per_metre * block.length_cm / 100.0,
                    scale.y_of(ground, block.in_ground.until) - top};
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

  void frosts(ChartScale& scale, const Box& ground, const BedPlace& place) {
    const int year = plan_.flowering_year;
    scale.frost(ground, place, "first frost", climate_.frosts(year - 1).first);
    scale.frost(ground, place, "last frost", climate_.frosts(year).last);
    scale.frost(ground, place, "first frost", climate_.frosts(year).first);
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
