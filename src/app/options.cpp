// SPDX-License-Identifier: MIT
#include "app/options.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <memory>

#include "app/environment.h"
#include "app/version.h"
#include "base/text.h"
#include "feed/site.h"

namespace trug::app {
namespace {

constexpr std::string_view kAfterHelp =
    "Example:\n"
    "  trug check garden.toml\n"
    "  trug calendar garden.toml -o garden.ics\n";

Date parse_date_option(const std::string& option, const std::string& text) {
  const auto date = parse_iso(text);
  if (!date) {
    throw CLI::ValidationError(option,
                               fmt::format("'{}' is no date; write it as 2027-05-14", text));
  }
  return *date;
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

std::vector<std::string> kind_words() {
  std::vector<std::string> words;
  for (const work::JobKind kind : work::all_job_kinds()) words.emplace_back(to_string(kind));
  return words;
}

work::JobKind parse_kind_option(const std::string& text) {
  if (const auto kind = work::parse_job_kind(text)) return *kind;
  const std::string near = nearest(text, kind_words());
  throw CLI::ValidationError(
      "--only",
      near.empty() ? fmt::format("'{}' is no kind of job; there are {}", text, listed(kind_words()))
                   : fmt::format("'{}' is no kind of job; did you mean '{}'?", text, near));
}

read::DegreeUnit parse_unit_option(const std::string& text) {
  if (text == "c") return read::DegreeUnit::Celsius;
  if (text == "f") return read::DegreeUnit::Fahrenheit;
  if (text == "tenths") return read::DegreeUnit::TenthsCelsius;
  throw CLI::ValidationError("--unit", fmt::format("'{}' must be c, f or tenths", text));
}

void date_option(CLI::App& app, const std::string& name, std::optional<Date>& target,
                 const std::string& help) {
  app.add_option_function<std::string>(
         name, [&target, name](const std::string& text) { target = parse_date_option(name, text); },
         help)
      ->type_name("DATE");
}

// The command line, built once for each run.
class CommandLine {
 public:
  CommandLine()
      : app_("trug reckons the year's jobs of a cut-flower bed and writes them as a calendar.",
             "trug") {
    app_.set_version_flag("--version", std::string("trug ") + kVersion, "the version");
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
    check();
    jobs();
    calendar();
    why();
    chart();
    crop();
    frost();
    feed();
  }

  CLI::App& app() { return app_; }
  const CLI::App& app() const { return app_; }
  Options& options() { return options_; }

  std::vector<std::string> command_names() const {
    std::vector<std::string> names;
    for (const CLI::App* command : app_.get_subcommands([](const CLI::App*) { return true; })) {
      names.push_back(command->get_name());
    }
    return names;
  }

 private:
  CLI::App& command(const std::string& name, const std::string& help, const std::string& example) {
    CLI::App& result = *app_.add_subcommand(name, help)->group("Commands");
    result.footer("Example:\n  trug " + example + "\n");
    result.add_flag("--plain", options_.plain, "no colour");
    result.add_flag("-v,--verbose", options_.verbose, "tell which files were read");
    return result;
  }

  void crop_folders(CLI::App& app) {
    app.add_option("--crops", options_.crop_folders, "a folder of crop sheets to add or replace")
        ->type_name("DIR");
  }

  // What every command that reckons a plan takes.
  void plan_argument(CLI::App& app) {
    app.add_option_function<std::string>(
           "plan", [this](const std::string& path) { options_.plans = {path}; },
           "the plan, a TOML file")
        ->type_name("")
        ->required();
    plan_options(app);
  }

  void plan_options(CLI::App& app) {
    date_option(app, "--today", options_.today, "reckon as if today were DATE");
    crop_folders(app);
    app.add_flag("--strict", options_.strict, "exit 1 where there are findings");
  }

  void check() {
    CLI::App& app =
        command("check", "does the plan hold? findings, worst first", "check garden.toml");
    plan_argument(app);
    app.add_flag("--json", options_.json, "findings as JSON");
  }

  void jobs() {
    CLI::App& app = command("jobs", "what must I do, and when",
                            "jobs garden.toml --from 2027-03-01 --to 2027-03-31");
    plan_argument(app);
    date_option(app, "--from", options_.from, "first day shown");
    date_option(app, "--to", options_.to, "last day shown");
    app.add_option_function<std::vector<std::string>>(
           "--only",
           [this](const std::vector<std::string>& texts) {
             for (const std::string& text : texts) options_.only.push_back(parse_kind_option(text));
           },
           "only this kind of job: sow, plant-out, first-cut ... (may be repeated)")
        ->type_name("KIND");
    app.add_flag("--full", options_.full, "with what each job says");
    auto* json = app.add_flag("--json", options_.json, "jobs and plantings as JSON");
    app.add_flag("--csv", options_.csv, "jobs as comma-separated values")->excludes(json);
  }

  void calendar() {
    CLI::App& app = command("calendar", "write the jobs as an iCalendar file",
                            "calendar garden.toml -o garden.ics");
    plan_argument(app);
    app.add_option("-o,--output", options_.output,
                   "the file; an earlier one of the same garden is brought up to date")
        ->type_name("FILE")
        ->required();
    app.add_option_function<std::string>(
           "--for",
           [this](const std::string& text) {
             if (text != "import" && text != "feed") {
               throw CLI::ValidationError("--for",
                                          fmt::format("'{}' must be import or feed", text));
             }
             options_.feed = text == "feed";
           },
           "import: for a file people open; feed: for a file clients fetch again and again")
        ->type_name("USE")
        ->default_str("import");
    app.add_option_function<std::string>(
           "--split",
           [this](const std::string& text) {
             if (text != "bed" && text != "person" && text != "kind") {
               throw CLI::ValidationError("--split",
                                          fmt::format("'{}' must be bed, person or kind", text));
             }
             options_.split = text;
           },
           "a file for each bed, person or kind of job, named after it")
        ->type_name("BY");
    app.add_option_function<std::vector<std::string>>(
           "--only",
           [this](const std::vector<std::string>& texts) {
             for (const std::string& text : texts) options_.only.push_back(parse_kind_option(text));
           },
           "only this kind of job (may be repeated)")
        ->type_name("KIND");
    app.add_flag("--dry-run", options_.dry_run, "say what would change, write nothing");
    app.add_flag("--lost", options_.lost, "the earlier file is gone: number events above it");
    app.add_flag("--force", options_.force, "replace a file that trug did not write");
    app.add_flag("--json", options_.json, "what changed as JSON");
  }

  void why() {
    CLI::App& app = command("why", "the reckoning behind one planting's dates",
                            "why garden.toml \"west bed\" zinnia");
    plan_argument(app);
    app.add_option("bed", options_.bed, "the bed's name")->type_name("")->required();
    app.add_option("crop", options_.crop, "the crop, or the planting's id")
        ->type_name("")
        ->required();
    app.add_flag("--json", options_.json, "the reckoning as JSON");
  }

  void chart() {
    CLI::App& app =
        command("chart", "the bed and the year as a picture (SVG)", "chart garden.toml -o bed.svg");
    plan_argument(app);
    app.add_option("-o,--output", options_.output, "the picture")->type_name("FILE")->required();
    app.add_flag("--force", options_.force, "replace a file that trug did not write");
  }

  void crop() {
    CLI::App& app = command("crop", "the crop sheets, or one of them with its sources",
                            "crop \"sweet william\"");
    app.add_option("name", options_.crop, "the crop; without it, all are listed")->type_name("");
    crop_folders(app);
    app.add_option("--check", options_.check_folder, "judge a folder of sheets")->type_name("DIR");
  }

  void frost() {
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
  }

  void record_columns(CLI::App& app) {
    app.add_option("--date", options_.columns.date_column, "the heading of the days")
        ->type_name("COLUMN");
    app.add_option("--min", options_.columns.min_column, "the heading of the minima")
        ->type_name("COLUMN");
    app.add_option("--max", options_.columns.max_column, "the heading of the maxima")
        ->type_name("COLUMN");
    app.add_option_function<std::string>(
           "--unit",
           [this](const std::string& text) { options_.columns.unit = parse_unit_option(text); },
           "of the temperatures: c, f or tenths (of a degree Celsius)")
        ->type_name("UNIT");
  }

  void feed() {
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
    app.add_flag("--behind-proxy", options_.behind_proxy,
                 "all requests come from one address, that of a proxy")
        ->needs(url);
    auto* add =
        app.add_flag("--new-link", options_.new_link, "make a secret link, show it and end");
    auto* revoke = app.add_option("--revoke", options_.revoke, "withdraw that link and end")
                       ->type_name("LINK")
                       ->excludes(add);
    app.add_flag("--revoke-all", options_.revoke_all, "withdraw every link and end")
        ->excludes(add)
        ->excludes(revoke);
    app.add_option("--qr", options_.qr_file, "draw the new link as a QR code (SVG)")
        ->type_name("FILE");
    app.add_flag("--force", options_.force, "with --qr: replace a file that trug did not write");
  }

  CLI::App app_;
  Options options_;
};

// CLI11 words most errors well; its names for options carry a colon we do not want twice.
ParsedOptions usage(const CommandLine& line, const std::string& message, std::ostream& err) {
  const auto used = line.app().get_subcommands();
  err << "error: " << message << "\n  hint: trug "
      << (used.empty() ? "--help lists the commands"
                       : used.front()->get_name() + " --help tells what it takes")
      << "\n";
  return {std::nullopt, kBadInput};
}

ParsedOptions unknown_words(CommandLine& line, std::ostream& err) {
  const std::vector<std::string> words = line.app().remaining(true);
  const std::string word = words.empty() ? "" : words.front();
  const bool top = line.app().get_subcommands().empty();
  if (top && !word.starts_with("-")) {
    const std::string near = nearest(word, line.command_names());
    return usage(line,
                 near.empty()
                     ? fmt::format("there is no command '{}'", word)
                     : fmt::format("there is no command '{}'; did you mean '{}'?", word, near),
                 err);
  }
  std::vector<std::string> known;
  CLI::App* used = top ? &line.app() : line.app().get_subcommands().front();
  for (const CLI::Option* option : used->get_options()) {
    for (const std::string& name : option->get_lnames()) known.push_back("--" + name);
  }
  const std::string near = nearest(word, known);
  return usage(line,
               near.empty()
                   ? fmt::format("'{}' is not understood here", word)
                   : fmt::format("there is no option '{}'; did you mean '{}'?", word, near),
               err);
}

}  // namespace

ParsedOptions parse_options(const std::vector<std::string>& arguments, std::ostream& out,
                            std::ostream& err) {
  CommandLine line;
  if (arguments.empty()) {
    err << line.app().help();
    return {std::nullopt, kBadInput};
  }
  if (arguments.size() == 1 && arguments[0] == "help") {
    out << line.app().help();
    return {std::nullopt, kDone};
  }
  try {
    // CLI11 takes the words last first.
    line.app().parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::CallForHelp&) {
    out << line.app().help();  // of the command that was named, where one was
    return {std::nullopt, kDone};
  } catch (const CLI::CallForVersion&) {
    out << "trug " << kVersion << "\n";
    return {std::nullopt, kDone};
  } catch (const CLI::ExtrasError&) {
    return unknown_words(line, err);
  } catch (const CLI::ParseError& error) {
    return usage(line, error.what(), err);
  }
  const auto used = line.app().get_subcommands();
  if (used.empty()) return usage(line, "no command was given", err);
  line.options().command = used.front()->get_name();
  return {line.options(), kDone};
}

std::vector<std::string> all_option_names() {
  CommandLine line;
  std::vector<std::string> names;
  for (const CLI::App* command : line.app().get_subcommands([](CLI::App*) { return true; })) {
    names.push_back(command->get_name());
    for (const CLI::Option* option : command->get_options()) {
      for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
    }
  }
  return names;
}

}  // namespace trug::app
