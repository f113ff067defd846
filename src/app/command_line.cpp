// SPDX-License-Identifier: MIT
#include "app/command_line.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>
#include <utility>

#include "app/command_facts.h"
#include "app/version.h"
#include "base/text.h"
#include "feed/site.h"

namespace trug::app {
namespace {

constexpr std::string_view kAfterHelp =
    "Example:\n"
    "  trug check garden.toml\n"
    "  trug calendar garden.toml -o garden.ics\n"
    "\n"
    "trug help COMMAND tells what a command takes, trug help WORD what a word of the plan or of "
    "the\n"
    "output means.\n";

// An option whose value is one of a few words: those of `value_words(value)`.
CLI::Option* word_option(CLI::App& app, const std::string& name, const std::string& value,
                         std::function<void(const std::string&)> take, const std::string& help) {
  return app
      .add_option_function<std::string>(
          name,
          [name, value, take = std::move(take)](const std::string& text) {
            const std::vector<std::string> words = value_words(value);
            if (std::ranges::find(words, text) == words.end()) {
              const std::string first = name.substr(0, name.find(','));
              throw CLI::ValidationError(first,
                                         fmt::format("'{}' must be {}", text, listed(words, "or")));
            }
            take(text);
          },
          help)
      ->type_name(value);
}

void day_option(CLI::App& app, const std::string& name, std::optional<std::string>& target,
                const std::string& help) {
  app.add_option_function<std::string>(
         name, [&target](const std::string& text) { target = text; }, help)
      ->type_name("DATE");
}

feed::Address parse_listen_option(const std::string& text) {
  const auto address = feed::parse_address(text);
  if (!address) {
    throw CLI::ValidationError(
        "--listen",
        fmt::format("'{}' is no address with a port; write it as 192.168.1.20:8017", text));
  }
  return *address;
}

std::string parse_url_option(const std::string& text) {
  if (!feed::is_base_url(text)) {
    throw CLI::ValidationError("--url",
                               fmt::format("'{}' must be like https://example.org/garden", text));
  }
  return text;
}

// The kinds of job a word stands for: "sow" itself; "order" and "cut" for all that have it as a
// part of their word; "harden" for the only one that begins so. Empty: none, or no telling which.
std::vector<work::JobKind> kinds_of(const std::string& text) {
  if (const auto kind = work::parse_job_kind(text)) return {*kind};
  std::vector<work::JobKind> parts, beginnings;
  for (const work::JobTrait& kind : work::kTraits) {
    const std::string word(kind.word);
    if (("-" + word + "-").find("-" + text + "-") != std::string::npos) parts.push_back(kind.kind);
    if (word.starts_with(text)) beginnings.push_back(kind.kind);
  }
  if (!parts.empty()) return parts;
  return beginnings.size() == 1 ? beginnings : std::vector<work::JobKind>{};
}

std::vector<work::JobKind> parse_kinds_option(const std::string& text) {
  const std::vector<work::JobKind> kinds = kinds_of(text);
  if (!kinds.empty()) return kinds;
  const std::vector<std::string> known = value_words("KIND");
  const std::string near = nearest(text, known);
  throw CLI::ValidationError(
      "--only", near.empty()
                    ? fmt::format("'{}' is no kind of job; there are {}", text, listed(known))
                    : fmt::format("'{}' is no kind of job; did you mean '{}'?", text, near));
}

read::DegreeUnit unit_of(const std::string& word) {
  if (word == "c") return read::DegreeUnit::Celsius;
  return word == "f" ? read::DegreeUnit::Fahrenheit : read::DegreeUnit::TenthsCelsius;
}

// What the help calls an option: CLI11 keeps its names without their dashes.
OptionFacts facts_of(const CLI::Option& option) {
  OptionFacts facts;
  if (option.get_positional()) {
    facts.name = option.get_name(true);
  } else {
    facts.name = "--" + option.get_lnames().front();
    if (!option.get_snames().empty()) facts.short_name = "-" + option.get_snames().front();
    if (option.get_expected_max() > 0) facts.value = option.get_type_name();
  }
  facts.help = option.get_description();
  facts.usual = option.get_default_str();
  facts.required = option.get_required();
  facts.repeats = option.get_expected_max() > 1;
  return facts;
}

CommandFacts facts_of(const CLI::App& app) {
  CommandFacts facts{app.get_name(), app.get_description(), {}, {}, {}};
  const std::string footer = app.get_footer();
  const std::size_t example = footer.find("  trug ");
  if (example != std::string::npos) {
    facts.example = footer.substr(example + 2, footer.find('\n', example) - example - 2);
  }
  for (const CLI::Option* option : app.get_options()) {
    (option->get_positional() ? facts.arguments : facts.options).push_back(facts_of(*option));
  }
  return facts;
}

}  // namespace

CommandLine::CommandLine()
    : app_("trug reckons the year's jobs of a cut-flower bed and writes them as a calendar.",
           "trug") {
  app_.set_version_flag("-V,--version", std::string("trug ") + kVersion, "the version");
  app_.require_subcommand(0, 1);
  const auto formatter = app_.get_formatter();
  formatter->column_width(30);
  formatter->label("Positionals", "Given");
  formatter->label("REQUIRED", "");
  formatter->label("SUBCOMMAND", "COMMAND");
  formatter->label("Excludes", "not with");
  formatter->label("Needs", "only with");
  app_.set_help_flag("-h,--help", "this help");
  app_.footer(std::string(kAfterHelp));
  shown_options(app_);
  check();
  jobs();
  calendar();
  why();
  chart();
  crop();
  frost();
  feed();
  help();
}

std::vector<const CLI::App*> CommandLine::commands() const {
  return app_.get_subcommands([](const CLI::App*) { return true; });
}

CLI::App& CommandLine::command(const std::string& name, const std::string& help,
                               const std::string& example) {
  CLI::App& result = *app_.add_subcommand(name, help)->group("Commands");
  result.footer("Example:\n  trug " + example + "\n");
  return result;
}

// Before the command or after it.
void CommandLine::shown_options(CLI::App& app) {
  word_option(
      app, "--color,--colour", "WHEN",
      [this](const std::string& word) {
        options_.colour = word == "auto" ? std::nullopt : std::optional(word == "always");
      },
      "colour on the terminal: auto, always or never");
  app.add_flag("--plain", options_.plain, "no colour");
  app.add_flag("-v,--verbose", options_.verbose, "tell which files were read");
}

void CommandLine::crop_folders(CLI::App& app) {
  app.add_option("--crops", options_.crop_folders, "a folder of crop sheets to add or replace")
      ->type_name("DIR");
}

// What every command that reckons a plan takes.
void CommandLine::plan_argument(CLI::App& app) {
  app.add_option_function<std::string>(
         "plan", [this](const std::string& path) { options_.plans = {path}; },
         "the plan, a TOML file; - is the standard input")
      ->type_name("")
      ->required();
  plan_options(app);
}

void CommandLine::plan_options(CLI::App& app) {
  day_option(app, "--today", days_.today, "reckon as if today were DATE");
  crop_folders(app);
  app.add_flag("--strict", options_.strict, "exit 1 where there are findings");
  shown_options(app);
}

void CommandLine::only_option(CLI::App& app) {
  app.add_option_function<std::vector<std::string>>(
         "--only",
         [this](const std::vector<std::string>& texts) {
           for (const std::string& text : texts) {
             const std::vector<work::JobKind> kinds = parse_kinds_option(text);
             options_.only.insert(options_.only.end(), kinds.begin(), kinds.end());
           }
         },
         "only such jobs: sow, order, first-cut ... (several with commas)")
      ->type_name("KIND")
      ->delimiter(',');
}

void CommandLine::output_option(CLI::App& app, const std::string& help) {
  app.add_option("-o,--output", options_.output, help)->type_name("FILE")->required();
}

void CommandLine::check() {
  CLI::App& app =
      command("check", "does the plan hold? findings, worst first", "check garden.toml");
  plan_argument(app);
  app.add_flag("--json", options_.json, "findings as JSON");
}

void CommandLine::jobs() {
  CLI::App& app = command("jobs", "what must I do, and when",
                          "jobs garden.toml --from \"1 March\" --to \"31 March\"");
  plan_argument(app);
  day_option(app, "--from", days_.from, "first day shown: today, Saturday, 5 May, 2027-05-14");
  day_option(app, "--to", days_.to, "last day shown");
  only_option(app);
  app.add_flag("--full", options_.full, "with what each job says");
  auto* json = app.add_flag("--json", options_.json, "jobs and plantings as JSON");
  app.add_flag("--csv", options_.csv, "jobs as comma-separated values")->excludes(json);
}

void CommandLine::calendar() {
  CLI::App& app = command("calendar", "write the jobs as an iCalendar file",
                          "calendar garden.toml -o garden.ics");
  plan_argument(app);
  output_option(app, "the file, brought up to date if it is there; - is the standard output");
  word_option(
      app, "--for", "USE", [this](const std::string& word) { options_.feed = word == "feed"; },
      "import: for a file people open; feed: for a file clients fetch again and again")
      ->default_str("import");
  word_option(
      app, "--split", "BY", [this](const std::string& word) { options_.split = word; },
      "a file for each bed, person or kind of job, named after it");
  only_option(app);
  app.add_flag("--dry-run", options_.dry_run, "say what would change, write nothing");
  app.add_flag("--lost", options_.lost,
               "the earlier file is gone or damaged: number events above it");
  app.add_flag("--force", options_.force, "replace a file that trug did not write");
  app.add_flag("--json", options_.json, "what changed as JSON");
}

void CommandLine::why() {
  CLI::App& app = command("why", "the reckoning behind one planting's dates",
                          "why garden.toml \"west bed\" zinnia");
  plan_argument(app);
  app.add_option("bed", options_.bed, "the bed's name")->type_name("")->required();
  app.add_option("crop", options_.crop, "the crop, or the planting's id")
      ->type_name("")
      ->required();
  app.add_flag("--json", options_.json, "the reckoning as JSON");
}

void CommandLine::chart() {
  CLI::App& app =
      command("chart", "the bed and the year as a picture (SVG)", "chart garden.toml -o bed.svg");
  plan_argument(app);
  output_option(app, "the picture; - is the standard output");
  app.add_flag("--force", options_.force, "replace a file that trug did not write");
}

void CommandLine::crop() {
  CLI::App& app =
      command("crop", "the crop sheets, or one of them with its sources", "crop \"sweet william\"");
  app.add_option("name", options_.crop, "the crop; without it, all are listed")->type_name("");
  crop_folders(app);
  app.add_option("--check", options_.check_folder, "judge a folder of sheets")->type_name("DIR");
  shown_options(app);
}

void CommandLine::frost() {
  CLI::App& app = command("frost", "frost dates and temperatures from a daily record (CSV)",
                          "frost daily.csv --place");
  app.add_option("record", options_.record, "a table with a line for each day")
      ->type_name("")
      ->required();
  app.add_option("--threshold", options_.thresholds,
                 "also for minima up to C degrees Celsius (may be repeated)")
      ->type_name("C")
      ->allow_extra_args(false)
      ->check(CLI::Range(-60.0, 30.0).description(""));
  app.add_option("--years", options_.years, "the last N years; 0: all of them")
      ->type_name("N")
      ->default_str("30")
      ->check(CLI::Range(0, 1000).description(""));
  app.add_flag("--south", options_.south, "the place lies south of the equator");
  auto* json = app.add_flag("--json", options_.json, "the figures as JSON");
  auto* place =
      app.add_flag("--place", options_.place, "the [place] table for a plan")->excludes(json);
  app.add_option("--latitude", options_.latitude, "with --place: of the place, south negative")
      ->type_name("DEGREES")
      ->needs(place)
      ->check(CLI::Range(-89.9, 89.9).description(""));
  record_columns(app);
  shown_options(app);
}

void CommandLine::record_columns(CLI::App& app) {
  app.add_option("--date", options_.columns.date_column, "the heading of the days")
      ->type_name("COLUMN");
  app.add_option("--min", options_.columns.min_column, "the heading of the minima")
      ->type_name("COLUMN");
  app.add_option("--max", options_.columns.max_column, "the heading of the maxima")
      ->type_name("COLUMN");
  word_option(
      app, "--unit", "UNIT",
      [this](const std::string& word) { options_.columns.unit = unit_of(word); },
      "of the temperatures: c, f or tenths (of a degree Celsius)");
}

void CommandLine::feed() {
  CLI::App& app = command("feed", "serve the calendar to the house, kept up to date",
                          "feed garden.toml --new-link --qr shed-door.svg");
  app.add_option("plans", options_.plans, "the plans, TOML files, each with links of its own")
      ->type_name("")
      ->required();
  plan_options(app);
  app.add_option("--file", options_.feed_file,
                 "the calendar it keeps (default: beside the plan, garden.feed.ics)")
      ->type_name("FILE");
  app.add_option_function<std::string>(
         "--listen",
         [this](const std::string& text) { options_.listen = parse_listen_option(text); },
         "where to listen; beyond 127.0.0.1, others in the network can reach it")
      ->type_name("ADDRESS:PORT")
      ->default_str("127.0.0.1:8017");
  auto* url =
      app.add_option_function<std::string>(
             "--url",
             [this](const std::string& text) { options_.base_url = parse_url_option(text); },
             "what people type to reach it, such as https://example.org/garden")
          ->type_name("URL");
  feed_links(app, url);
}

void CommandLine::feed_links(CLI::App& app, CLI::Option* url) {
  app.add_flag("--behind-proxy", options_.behind_proxy,
               "all requests come from one address, that of a proxy")
      ->needs(url);
  auto* add = app.add_flag("--new-link", options_.new_link, "make a secret link, show it and end");
  auto* revoke = app.add_option("--revoke", options_.revoke, "withdraw that link and end")
                     ->type_name("LINK")
                     ->excludes(add);
  app.add_flag("--revoke-all", options_.revoke_all, "withdraw every link and end")
      ->excludes(add)
      ->excludes(revoke);
  app.add_option("--qr", options_.qr_file, "draw the new link as a QR code (SVG)")
      ->type_name("FILE");
  app.add_flag("--lost", options_.lost,
               "the calendar it keeps is gone or damaged: number events above it");
  app.add_flag("--force", options_.force, "with --qr: replace a file that trug did not write");
}

void CommandLine::help() {
  CLI::App& app = command("help", "what a command takes, or what a word means", "help stretch");
  app.add_option("word", options_.words,
                 "a command, a key of the plan, a job, a finding or another word of the output")
      ->type_name("");
}

std::vector<CommandFacts> command_facts() {
  const CommandLine line;
  std::vector<CommandFacts> facts{facts_of(line.app())};
  facts.front().name.clear();
  for (const CLI::App* command : line.commands()) facts.push_back(facts_of(*command));
  return facts;
}

std::vector<std::string> value_words(std::string_view value) {
  if (value == "USE") return {"import", "feed"};
  if (value == "BY") return {"bed", "person", "kind"};
  if (value == "UNIT") return {"c", "f", "tenths"};
  if (value == "WHEN") return {"auto", "always", "never"};
  std::vector<std::string> words;
  if (value != "KIND") return words;
  for (const work::JobTrait& kind : work::kTraits) words.emplace_back(kind.word);
  std::ranges::sort(words);
  return words;
}

}  // namespace trug::app
