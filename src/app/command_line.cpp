// SPDX-License-Identifier: MIT
#include "app/command_line.h"

#include <string>
#include <string_view>
#include <vector>

#include "app/command_options.h"
#include "app/option_values.h"
#include "app/start_questions.h"
#include "app/version.h"
#include "show/format.h"

namespace trug::app {
namespace {

constexpr std::string_view kAfterHelp =
    "Example:\n"
    "  trug check garden.toml\n"
    "  trug calendar garden.toml -o garden.ics\n"
    "\n"
    "trug help COMMAND tells what a command takes, trug help WORD what a word of the plan or of "
    "the\noutput means.\n";

void add_check(Line line) {
  CLI::App& app =
      command(line, "check", "does the plan hold? findings, worst first", "check garden.toml");
  plan_argument(app, line);
  form_options(app, line, show::kJsonOnly, "findings");
  app.add_flag("--bound", line.options.bound,
               "reckon how far the choice can be from the best there is (takes seconds)");
}

void add_jobs(Line line) {
  CLI::App& app = command(line, "jobs", "what must I do, and when",
                          "jobs garden.toml --from \"1 March\" --to \"31 March\"");
  plan_argument(app, line);
  day_option(app, "--from", line.days.from, "first day shown: today, Saturday, 5 May, 2027-05-14");
  CLI::Option* to = day_option(app, "--to", line.days.to, "last day shown");
  app.add_flag("--week", line.options.week, "seven days, from today or --from")->excludes(to);
  app.add_flag("--all", line.options.all, "the whole year, what lies before today too");
  app.add_option("--next", line.options.next, "the first so many from today or --from")
      ->type_name("N")
      ->check(CLI::PositiveNumber);
  app.add_option("--bed", line.options.bed, "only the jobs of that bed")->type_name("BED");
  app.add_option("--crop", line.options.crop, "only the jobs of that crop")->type_name("CROP");
  only_option(app, line);
  app.add_flag("--full", line.options.full, "with what each job says");
  app.add_flag("--hours", line.options.hours, "with how long each takes, and each week (memory)");
  app.add_flag("--cautions", line.options.cautions, "with what each caution says");
  form_options(app, line, show::kListFormats, "the jobs");
}

// Many gardens at once, a file for each.
void out_folder_option(CLI::App& app, Line line, CLI::Option* output) {
  app.add_option("--out-dir", line.options.out_folder,
                 "a folder for the calendars of many plans, garden.ics for garden.toml; the plan - "
                 "is then a list of plans on the standard input, a line each")
      ->type_name("DIR")
      ->excludes(output);
}

void per_option(CLI::App& app, Line line) {
  word_option(
      app, "--per", "EVENT",
      [line](const std::string& word) { line.options.per_day = word == "day"; },
      "job: an event for each job; day: one for each day with work, all its jobs in it; absent: as "
      "the file has it, else job");
}

void add_calendar(Line line) {
  CLI::App& app = command(line, "calendar", "write the jobs as an iCalendar file",
                          "calendar garden.toml -o garden.ics");
  app.add_option("plan", line.options.plans,
                 "the plan, a TOML file, with --out-dir any number; - is the standard input")
      ->type_name("")
      ->required();
  plan_options(app, line);
  CLI::Option* output = output_option(
      app, line,
      "the file, brought up to date if it is there; - is the standard output; absent: the "
      "plan's calendar");
  out_folder_option(app, line, output);
  word_option(
      app, "--for", "USE", [line](const std::string& word) { line.options.feed = word == "feed"; },
      "import: for a file people open; feed: for a file clients fetch again and again")
      ->default_str("import");
  per_option(app, line);
  word_option(
      app, "--split", "BY", [line](const std::string& word) { line.options.split = word; },
      "a file for each bed, person or kind of job, named after it");
  only_option(app, line);
  app.add_flag("--dry-run", line.options.dry_run, "say what would change, write nothing");
  app.add_flag("--lost", line.options.lost,
               "the earlier file is gone or damaged: number events above it");
  app.add_flag("--force", line.options.force, "replace a file that trug did not write");
  form_options(app, line, show::kJsonOnly, "what changed");
}

void add_weeks(Line line) {
  CLI::App& app = command(line, "weeks", "will every week have its vases", "weeks garden.toml");
  plan_argument(app, line);
  CLI::Option* years =
      app.add_flag("--years", line.options.by_years,
                   "how often: each week's chance over the years of the plan's weather record");
  app.add_option("--seed", line.options.draw_seed,
                 "with --years: draw losses and yields anew from the number N")
      ->type_name("N")
      ->capture_default_str()
      ->needs(years);
  form_options(app, line, show::kListFormats, "the weeks");
}

void add_ground(Line line) {
  CLI::App& app = command(line, "ground", "how much ground does my wish take", "ground wish.toml");
  plan_argument(app, line);
  form_options(app, line, show::kJsonOnly, "plants and ground");
}

void add_mend(Line line) {
  CLI::App& app = command(line, "mend", "what to add for the weeks that go short",
                          "mend garden.toml -o mended.toml");
  plan_argument(app, line);
  app.add_option("-o,--output", line.options.output,
                 "write the plan with all that is added; without the remarks of the old one")
      ->type_name("FILE");
  app.add_flag("--replant", line.options.replant,
               "also in the place of annuals of which nothing is begun");
  form_options(app, line, show::kJsonOnly, "what to add");
}

void add_order(Line line) {
  CLI::App& app = command(line, "order", "what must I buy, and by when", "order garden.toml");
  plan_argument(app, line);
  form_options(app, line, show::kListFormats, "the list");
}

void add_start(Line line) {
  CLI::App& app =
      command(line, "start", "a first plan: asks for it, or takes it by options", "start");
  for (const Question& question : start_questions()) {
    const std::string name = "--" + std::string(question.name);
    const std::string help(question.help);
    if (question.shape == Shape::YesNo) {
      app.add_flag_callback(
          name, [line, &question] { line.options.answers[std::string(question.name)] = "yes"; },
          help);
      continue;
    }
    CLI::Option* option = app.add_option_function<std::string>(
        name,
        [line, &question](const std::string& text) {
          line.options.answers[std::string(question.name)] = text;
        },
        help);
    option->type_name(std::string(question.value));
    if (!question.usual.empty()) option->default_str(std::string(question.usual));
  }
  app.add_option("--seed", line.options.seed, "make the garden's identity of TEXT, not by chance")
      ->type_name("TEXT")
      ->excludes(app.get_option("--garden"));
  output_option(app, line, "the plan; - is the standard output")->default_str("garden.toml");
  plan_options(app, line);
}

void add_why(Line line) {
  CLI::App& app = command(line, "why", "the reckoning behind one planting's dates",
                          "why garden.toml \"west bed\" zinnia");
  plan_argument(app, line);
  app.add_option("bed", line.options.bed, "the bed's name")->type_name("")->required();
  app.add_option("crop", line.options.crop, "the crop, or the planting's id")
      ->type_name("")
      ->required();
  form_options(app, line, show::kJsonOnly, "the reckoning");
}

void add_chart(Line line) {
  CLI::App& app = command(line, "chart", "each bed's year as a picture (SVG), a bed a page",
                          "chart garden.toml -o bed.svg");
  plan_argument(app, line);
  output_option(app, line, "the picture; - is the standard output")->required();
  word_option(
      app, "--paper", "PAPER",
      [line](const std::string& word) {
        line.options.paper = word == "a3" ? show::Paper::A3 : show::Paper::A4;
      },
      "a4, or a3: the same, larger")
      ->default_str("a4");
  app.add_flag("--force", line.options.force, "replace a file that trug did not write");
}

void add_crop(Line line) {
  CLI::App& app = command(line, "crop", "the crop sheets, or one of them with its sources",
                          "crop \"sweet william\"");
  app.add_option("name", line.options.crop, "the crop; without it, all are listed")->type_name("");
  app.add_option("--life", line.options.crops.life,
                 "only such: annual, biennial, perennial, bulb ... or as the list calls them")
      ->type_name("LIFE")
      ->check(parse_life);
  word_option(
      app, "--role", "ROLE",
      [line](const std::string& word) { line.options.crops.role = role_of(word); },
      "only what has that place in a vase");
  app.add_option("--petals", line.options.crops.petals, "only what there is in that colour")
      ->type_name("COLOUR");
  app.add_flag("--safe", line.options.crops.safe,
               "nothing known to poison or irritate; no such list is complete");
  auto* at = app.add_option("--at", line.options.crops.plan, "with --month: the plan of the place")
                 ->type_name("PLAN");
  auto* month = app.add_option_function<std::string>(
                       "--month",
                       [line](const std::string& text) {
                         line.options.crops.month = parse_month_option(text);
                       },
                       "only what can be cut in that month there, begun from today on")
                    ->type_name("MONTH")
                    ->needs(at);
  at->needs(month);
  day_option(app, "--today", line.days.today, "with --month: reckon as if today were DATE");
  crop_folders(app, line);
  app.add_option("--check", line.options.check_folder, "judge a folder of sheets")
      ->type_name("DIR");
  shown_options(app, line);
}

void record_columns(CLI::App& app, Line line) {
  app.add_option("--date", line.options.columns.date_column, "the heading of the days")
      ->type_name("COLUMN");
  app.add_option("--min", line.options.columns.min_column, "the heading of the minima")
      ->type_name("COLUMN");
  app.add_option("--max", line.options.columns.max_column, "the heading of the maxima")
      ->type_name("COLUMN");
  word_option(
      app, "--unit", "UNIT",
      [line](const std::string& word) { line.options.columns.unit = unit_of(word); },
      "of the temperatures: c, f or tenths (of a degree Celsius)");
}

void add_frost(Line line) {
  CLI::App& app = command(line, "frost", "frost dates and temperatures from a daily record (CSV)",
                          "frost daily.csv --place");
  app.add_option("record", line.options.record, "a table with a line for each day")
      ->type_name("")
      ->required();
  app.add_option("--threshold", line.options.thresholds,
                 "also for minima up to C degrees Celsius (may be repeated)")
      ->type_name("C")
      ->allow_extra_args(false)
      ->check(CLI::Range(-60.0, 30.0).description(""));
  app.add_option("--years", line.options.years, "the last N years; 0: all of them")
      ->type_name("N")
      ->default_str("30")
      ->check(CLI::Range(0, 1000).description(""));
  app.add_flag("--south", line.options.south, "the place lies south of the equator");
  form_options(app, line, show::kJsonOnly, "the figures");
  auto* place = app.add_flag("--place", line.options.place, "the [place] table for a plan")
                    ->excludes(app.get_option("--json"));
  app.add_option("--latitude", line.options.latitude, "with --place: of the place, south negative")
      ->type_name("DEGREES")
      ->needs(place)
      ->check(CLI::Range(-89.9, 89.9).description(""));
  record_columns(app, line);
  shown_options(app, line);
}

void feed_links(CLI::App& app, Line line, CLI::Option* url) {
  app.add_flag("--behind-proxy", line.options.behind_proxy,
               "all requests come from one address, that of a proxy")
      ->needs(url);
  auto* add =
      app.add_flag("--new-link", line.options.new_link, "make a secret link, show it and end");
  auto* revoke = app.add_option("--revoke", line.options.revoke, "withdraw that link and end")
                     ->type_name("LINK")
                     ->excludes(add);
  app.add_flag("--revoke-all", line.options.revoke_all, "withdraw every link and end")
      ->excludes(add)
      ->excludes(revoke);
  app.add_option("--qr", line.options.qr_file, "draw the new link as a QR code (SVG)")
      ->type_name("FILE");
  app.add_flag("--lost", line.options.lost,
               "the calendar it keeps is gone or damaged: number events above it");
  app.add_flag("--force", line.options.force, "with --qr: replace a file that trug did not write");
}

void add_feed(Line line) {
  CLI::App& app = command(line, "feed", "serve the calendar to the house, kept up to date",
                          "feed garden.toml --new-link --qr shed-door.svg");
  app.add_option("plans", line.options.plans, "the plans, TOML files, each with links of its own")
      ->type_name("")
      ->required();
  plan_options(app, line);
  per_option(app, line);
  app.add_option("--file", line.options.feed_file,
                 "the calendar it keeps (default: beside the plan, garden.feed.ics)")
      ->type_name("FILE");
  app.add_option_function<std::string>(
         "--listen",
         [line](const std::string& text) { line.options.listen = parse_listen_option(text); },
         "where to listen; beyond 127.0.0.1, others in the network can reach it")
      ->type_name("ADDRESS:PORT")
      ->default_str("127.0.0.1:8017");
  auto* url =
      app.add_option_function<std::string>(
             "--url",
             [line](const std::string& text) { line.options.base_url = parse_url_option(text); },
             "what people type to reach it, such as https://example.org/garden")
          ->type_name("URL");
  feed_links(app, line, url);
}

void add_help(Line line) {
  CLI::App& app =
      command(line, "help", "what a command takes, or what a word means", "help stretch");
  app.add_option("word", line.options.words,
                 "a command, a key of the plan, a job, a finding or another word of the output")
      ->type_name("");
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
  const Line line{app_, options_, days_};
  shown_options(app_, line);
  for (const auto add :
       {add_start, add_check, add_jobs, add_calendar, add_weeks, add_ground, add_mend, add_order,
        add_why, add_chart, add_crop, add_frost, add_feed, add_help}) {
    add(line);
  }
}

std::vector<const CLI::App*> CommandLine::commands() const {
  return app_.get_subcommands([](const CLI::App*) { return true; });
}

}  // namespace trug::app
