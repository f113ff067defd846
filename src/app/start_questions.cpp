// SPDX-License-Identifier: MIT
#include "app/start_questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <system_error>
#include <utility>

#include "base/text.h"
#include "show/plan_toml.h"

namespace trug::app {
namespace {

constexpr std::string_view kAny = "any", kNone = "none";

constexpr Question kQuestions[] = {
    {"latitude", "DEGREES", "place", "latitude", Shape::Latitude,
     "Where is the garden? Its latitude in degrees, with S where it lies south of the equator.",
     "52.4 or 41.3 S", "", "of the garden: 52.4, or 41.3 S"},
    {"temperatures", "FIGURES", "place", "mean_c", Shape::Temperatures,
     "How warm is it there, in degrees Celsius? The means of the twelve months, January first; or "
     "two figures, the mean of the year and that of the warmest month; or the name of a daily "
     "record (a CSV file). Weather services publish all three.",
     "10.1, 16.8", kNone,
     "twelve monthly means, or the year's and the warmest month's, or a daily record (FILE.csv)"},
    {"coldest", "DEGREES", "place", "coldest_c", Shape::Number,
     "How cold is the coldest night of a usual winter there, in degrees Celsius? Without it what "
     "winters kill is not judged.",
     "-8", kNone, "the coldest night of a usual winter, degrees Celsius: -8"},
    {"last-frost", "DAY", "place", "last_frost", Shape::Text,
     "When does the last frost of spring come, in the usual year?", "12 May", "",
     "the last of spring: \"12 May\""},
    {"first-frost", "DAY", "place", "first_frost", Shape::Text, "And the first frost of autumn?",
     "18 October", "", "the first of autumn: \"18 October\""},
    {"frost-meaning", "WORD", "place", "frost_meaning", Shape::Text,
     "What are these dates? \"garden\": the average frost that marks tender plants; \"air\": the "
     "average 0 degrees of a weather station; \"safe\": nine years in ten have no frost beyond.",
     "garden, air or safe", "garden", "garden, air or safe: trug help frost_meaning"},
    {"beds", "SIZES", "bed", "bed", Shape::Beds,
     "How large are your beds? Length x width in metres (or with ft); several with commas, with a "
     "name before if you like.",
     "2.6 x 1.1, or gate bed: 2.6 x 1.1, wall bed: 4.5 x 0.9", "",
     "length x width in metres, several with commas: \"2.6 x 1.1, 4.5 x 0.9\""},
    {"trays", "NUMBER", "shelter", "heated_trays", Shape::Number,
     "How many seed trays have room in the warmth, on a windowsill or under lamps?", "2", "2",
     "seed trays there is room for in the warmth"},
    {"frame", "M2", "shelter", "frame_m2", Shape::Number,
     "How many square metres of cold frame or unheated glass have you for young plants?", "1.5",
     "0", "square metres of cold frame or unheated glass"},
    {"nursery", "M2", "shelter", "nursery_m2", Shape::Number, "", "", "1",
     "square metres of open ground for seedlings"},
    {"vases", "NUMBER", "wish", "vases_per_week", Shape::Number,
     "How many vases do you want to fill each week?", "2", "1", "vases to fill each week"},
    {"stems", "NUMBER", "wish", "stems_per_vase", Shape::Number, "With how many stems each?", "10",
     "12", "stems in each vase"},
    {"from", "DAY", "wish", "from", Shape::Text, "From when on?", "20 June", "",
     "the first day on which you want flowers"},
    {"to", "DAY", "wish", "to", Shape::Text, "Until when?", "20 September", "", "the last"},
    {"colours", "WORDS", "wish", "colours", Shape::Words, "In which colours?", "white, pink", kAny,
     "with commas: \"white, pink\""},
    {"like", "CROPS", "wish", "like", Shape::Words,
     "Are there flowers you want among them? (trug crop lists all)", "sweet pea, zinnia", kNone,
     "flowers wanted among them, with commas"},
    {"dislike", "CROPS", "wish", "dislike", Shape::Words, "And some you do not want?", "gladiolus",
     kNone, "flowers not wanted, with commas"},
    {"safe", "", "wish", "safe", Shape::YesNo,
     "Must all of it be harmless, for cats, dogs or small children? (yes or no)", "yes", "no",
     "only what nobody knows to poison or irritate"},
    {"days", "DAYS", "work", "days", Shape::Words,
     "On which days of the week do you work in the garden?", "Sat and Sun", kAny,
     "of the week, for the work: \"Sat, Sun\""},
    {"remind", "WORD", "work", "remind", Shape::Text,
     "Which jobs shall ring? \"must\": those that spoil the year when they are missed; \"all\"; or "
     "\"none\".",
     "must, all or none", "must", "must, all or none"},
    {"title", "TEXT", "", "title", Shape::Text, "What shall your calendar be called?",
     "Doorstep flowers", "Our flowers", "the calendar's name"},
    {"garden", "UUID", "", "garden", Shape::Text, "", "", kAny,
     "the identity of the calendar's events; without it a new one"},
    {"year", "YEAR", "", "flowering_year", Shape::Number, "", "", kAny,
     "the year of the flowers; without it the next that can still be sown for"},
};

// Decimal point or comma.
std::optional<double> figure(std::string_view text) {
  std::string plain(trimmed(text));
  if (plain.find('.') == std::string::npos) std::ranges::replace(plain, ',', '.');
  double value = 0;
  const auto [end, error] = std::from_chars(plain.data(), plain.data() + plain.size(), value);
  if (error != std::errc{} || end != plain.data() + plain.size()) return std::nullopt;
  return value;
}

// "52.4", "52.4 N", "41.3 south".
std::optional<double> latitude(std::string_view answer) {
  std::string text = folded(answer);
  bool south = false;
  for (const std::string_view word : {"north", "south", "n", "s"}) {
    if (!text.ends_with(word)) continue;
    south = word.front() == 's';
    text.resize(text.size() - word.size());
    break;
  }
  const auto value = figure(trimmed(text, " \xC2\xB0"));
  return value && south && *value > 0 ? -*value : value;
}

std::string plain(double value) { return number(value, 6); }

std::vector<std::string> parts(std::string_view text, char between) {
  std::vector<std::string> list;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(between), text.size());
    const std::string_view part = trimmed(text.substr(0, end));
    if (!part.empty()) list.emplace_back(part);
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return list;
}

bool says_nothing(std::string_view answer) {
  const std::string word = folded(answer);
  return word.empty() || word == kAny || word == kNone;
}

// The plan's text so far, heading by heading, in the order in which the plan has them.
class Writer {
 public:
  explicit Writer(std::filesystem::path folder) : folder_(std::move(folder)) {}

  void say(const Question& question, const std::string& answer) {
    now_ = &question;
    if (question.usual == kAny || question.usual == kNone) {
      if (says_nothing(answer)) return;
    }
    switch (question.shape) {
      case Shape::Latitude:
        return say_latitude(answer);
      case Shape::Number:
        return say_number(answer);
      case Shape::Text:
        return line(fmt::format("{} = {}", question.key, show::toml_text(answer)));
      case Shape::Words:
        return say_words(answer);
      case Shape::YesNo:
        return say_yes_or_no(answer);
      case Shape::Temperatures:
        return say_temperatures(answer);
      case Shape::Beds:
        return say_beds(answer);
    }
  }

  Draft finish(int flowering_year, Date began) {
    Draft result;
    const auto add = [&](const std::string& text, std::string_view question) {
      result.text += text + "\n";
      result.questions.push_back(question);
    };
    if (!has("flowering_year")) add(fmt::format("flowering_year = {}", flowering_year), "");
    add(fmt::format("began = {}", iso(began)), "");
    std::string_view heading;
    for (const std::string_view of : {"", "place", "shelter", "wish", "work", "bed"}) {
      for (const Line& line : lines_) {
        if (line.question->heading != of) continue;
        if (of != heading && of != "bed") add(fmt::format("[{}]", of), "");
        heading = of;
        add(line.text, line.question->name);
      }
    }
    result.wrong = std::move(wrong_);
    return result;
  }

 private:
  struct Line {
    const Question* question = nullptr;
    std::string text;
  };

  void line(std::string text) { lines_.push_back({now_, std::move(text)}); }
  void refuse(std::string message) {
    wrong_.push_back(
        {now_->name, std::move(message), fmt::format("write it as {}", now_->example)});
  }
  bool has(std::string_view key) const {
    return std::ranges::any_of(lines_, [&](const Line& l) { return l.question->key == key; });
  }

  void say_number(const std::string& answer) {
    const auto value = figure(answer);
    if (!value) return refuse(fmt::format("'{}' is no number", answer));
    line(fmt::format("{} = {}", now_->key, plain(*value)));
  }

  void say_latitude(const std::string& answer) {
    const auto value = latitude(answer);
    if (!value) return refuse(fmt::format("'{}' is no latitude", answer));
    line(fmt::format("latitude = {}", plain(*value)));
  }

  void say_words(const std::string& answer) {
    std::vector<std::string> words;
    for (const std::string& part : parts(answer, ',')) {
      std::size_t from = 0;
      for (std::size_t at; (at = part.find(" and ", from)) != std::string::npos; from = at + 5) {
        words.emplace_back(trimmed(std::string_view(part).substr(from, at - from)));
      }
      words.emplace_back(trimmed(std::string_view(part).substr(from)));
    }
    if (now_->key == "colours") std::ranges::transform(words, words.begin(), folded);
    line(fmt::format("{} = {}", now_->key, show::toml_texts(words)));
  }

  void say_yes_or_no(const std::string& answer) {
    const std::string word = folded(answer);
    if (word == "yes" || word == "y") return line(fmt::format("{} = true", now_->key));
    if (word != "no" && word != "n") {
      wrong_.push_back({now_->name, fmt::format("'{}' is neither yes nor no", answer), ""});
    }
  }

  void say_temperatures(const std::string& answer) {
    if (answer.ends_with(".csv")) {
      std::filesystem::path file = answer;
      if (folder_.is_absolute()) file = std::filesystem::absolute(file);
      file = file.lexically_proximate(folder_);
      return line(fmt::format("weather = {}", show::toml_text(file.string())));
    }
    std::vector<std::string> figures;
    for (const std::string& part : parts(answer, ',')) {
      for (const std::string& word : parts(part, ' ')) {
        const auto value = figure(word);
        if (!value) return refuse(fmt::format("'{}' is no temperature", word));
        figures.push_back(plain(*value));
      }
    }
    if (figures.size() == 2) {
      line("year_mean_c = " + figures[0]);
      return line("warmest_month_c = " + figures[1]);
    }
    if (figures.size() != 12) {
      return refuse(fmt::format("these are {}; twelve or two are wanted",
                                counted(static_cast<int>(figures.size()), "figure")));
    }
    std::string list;
    for (const std::string& one : figures) list += (list.empty() ? "" : ", ") + one;
    line(fmt::format("mean_c = [{}]", list));
  }

  void say_beds(const std::string& answer) {
    const std::vector<std::string> beds = parts(answer, ',');
    if (beds.empty()) return refuse("there is no bed in it");
    for (std::size_t i = 0; i < beds.size(); ++i) {
      say_bed(beds[i], beds.size() == 1 ? "flower bed" : fmt::format("bed {}", i + 1));
    }
  }

  void say_bed(const std::string& text, std::string name) {
    std::string size = text;
    if (const std::size_t colon = text.find(':'); colon != std::string::npos) {
      name = trimmed(std::string_view(text).substr(0, colon));
      size = trimmed(std::string_view(text).substr(colon + 1));
    }
    const std::string_view by = size.find("\xC3\x97") != std::string::npos ? "\xC3\x97" : "x";
    const std::size_t at = size.find(by);
    if (at == std::string::npos) return refuse(fmt::format("'{}' is no length x width", text));
    std::string first = size.substr(0, at), second = size.substr(at + by.size());
    const auto unit_of_width = taken_unit(second), unit_of_length = taken_unit(first);
    const auto length = figure(first), width = figure(second);
    if (!length || !width) return refuse(fmt::format("'{}' is no length x width", text));
    line("[[bed]]");
    line("name = " + show::toml_text(name));
    line(fmt::format("length_{} = {}", unit_of_length.value_or(unit_of_width.value_or("m")),
                     plain(*length)));
    line(fmt::format("width_{} = {}", unit_of_width.value_or("m"), plain(*width)));
  }

  // "2 ft" loses its "ft".
  static std::optional<std::string> taken_unit(std::string& size) {
    size = trimmed(size);
    for (const std::string_view unit : {"cm", "ft", "in", "m"}) {
      if (!size.ends_with(unit)) continue;
      size = trimmed(std::string_view(size).substr(0, size.size() - unit.size()));
      return std::string(unit);
    }
    return std::nullopt;
  }

  std::filesystem::path folder_;
  const Question* now_ = nullptr;
  std::vector<Line> lines_;
  std::vector<WrongAnswer> wrong_;
};

}  // namespace

std::span<const Question> start_questions() { return kQuestions; }

const Question* find_question(std::string_view name) {
  const auto* found = std::ranges::find(kQuestions, name, &Question::name);
  return found == std::end(kQuestions) ? nullptr : found;
}

Draft draft(const StartAnswers& answers, int flowering_year, Date began,
            const std::string& folder) {
  Writer writer(folder);
  for (const Question& question : kQuestions) {
    const auto answer = answers.find(question.name);
    if (answer != answers.end()) writer.say(question, answer->second);
  }
  return writer.finish(flowering_year, began);
}

std::optional<double> latitude_in(const StartAnswers& answers) {
  const auto answer = answers.find("latitude");
  return answer == answers.end() ? std::nullopt : latitude(answer->second);
}

std::string record_named(const StartAnswers& answers) {
  const auto answer = answers.find("temperatures");
  return answer != answers.end() && answer->second.ends_with(".csv") ? answer->second : "";
}

}  // namespace trug::app
