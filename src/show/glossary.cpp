// SPDX-License-Identifier: MIT
#include "show/glossary.h"

#include <algorithm>

#include "base/text.h"
#include "work/job_kinds.h"

namespace trug::show {
namespace {

using enum WordKind;

// clang-format off
constexpr GlossaryEntry kGlossary[] = {
    {"place", Heading, "[place]: where the garden lies, its frosts and its temperatures."},
    {"wish", Heading, "[wish]: the vases you want, from when to when. Without it nothing is short."},
    {"shelter", Heading, "[shelter]: what stands under cover: warmth, frames, a nursery bed. Without it a windowsill of two trays, no frame and no tunnel; with it only what is written."},
    {"work", Heading, "[work]: on which days you garden, and what you want to be told."},
    {"bed", Heading, "[[bed]]: a bed with its size. Each bed is one of a list."},
    {"stretch", Heading, "[[bed.stretch]]: a piece of a bed's length, over its full width. Stretches lie end to end from the bed's start; the crops of one stretch follow each other."},
    {"crop", Heading, "[[bed.stretch.crop]]: the long form of a crop in a stretch, with its wishes and pins. 'crop' in it names the sheet."},
    {"elsewhere", Heading, "[[elsewhere]]: plants that give stems but stand outside the beds."},
    {"have", Heading, "[[have]]: seed, bulbs or plants in hand, so that they are not ordered."},
    {"happened", Heading, "[[happened]]: what was done, and when: the plan goes on from there."},

    {"flowering_year", Key, "The year in which the flowers are cut; what is sown in the autumn before belongs to it. South of the equator it runs from July to June and is named by its end."},
    {"title", Key, "The plan's name, shown above its jobs and as the calendar's name."},
    {"garden", Key, "The identity by which a calendar knows the jobs again. 'trug calendar' prints a fresh one to paste; keep it for good."},
    {"began", Key, "The day on which the plan began: nothing is asked of you before it."},
    {"calendar", Key, "The calendar file of this plan, which remembers what was chosen."},
    {"latitude", Key, "Degrees north of the equator, south negative: from it come the lengths of the days."},
    {"last_frost", Key, "The last frost of spring, \"14 May\"; what it means is said by frost_meaning."},
    {"first_frost", Key, "The first frost of autumn, \"9 October\"; what it means is said by frost_meaning."},
    {"frost_meaning", Key, "\"garden\": the average date of the frost that marks tender plants. \"air\": the average date of 0 degC in a weather screen. \"safe\": nine years in ten are free of frost after it (in autumn: before it). They lie up to four weeks apart."},
    {"mean", Key, "Twelve monthly mean temperatures, January to December."},
    {"mean_max", Key, "Twelve monthly means of the daily maxima; with mean_min."},
    {"mean_min", Key, "Twelve monthly means of the daily minima; with mean_max."},
    {"year_mean", Key, "The mean temperature of the year; with warmest_month it stands for the twelve months."},
    {"warmest_month", Key, "The mean temperature of the warmest month; with year_mean."},
    {"weather", Key, "A daily record (CSV) beside the plan: its means, its spread, and the days that have happened."},
    {"heated", Key, "The temperature where seedlings are raised in warmth."},
    {"heated_trays", Key, "How many trays stand in warmth."},
    {"frame_m2", Key, "The ground under a cold frame or an unheated greenhouse."},
    {"nursery_m2", Key, "The ground of a nursery bed outdoors."},
    {"coldest", Key, "The usual coldest night of a winter: what does not survive it is refused or wants fleece. Without it winter losses are not judged."},
    {"snow", Key, "true or false: whether snow lies over the beds in the cold of winter, which keeps 6 degC of it off. Without it snow is taken to lie where the coldest month averages -3 degC or less."},
    {"risk", Key, "The share of years in which you accept a frost on tender plants; 0.2 is one year in five."},
    {"days_late", Key, "By how many days flowers come later here than they are reckoned; negative: sooner. check tells it from three recorded first cuts on."},
    {"stems_times", Key, "How many times the stems of the sheets your plants give; check tells it from three counted starts on."},
    {"vases_per_week", Key, "How many vases you want in a week."},
    {"stems_per_vase", Key, "How many stems a vase takes."},
    {"from", Key, "The first day of the wish, \"10 May\"."},
    {"to", Key, "The last day of the wish, \"10 October\"."},
    {"colours", Key, "The colours wished for; under a crop those of its variety."},
    {"mixed", Key, "false: bunches of one kind will do; else no kind makes up more than half a vase."},
    {"days", Key, "The days of the week on which you sow and plant, [\"Sat\", \"Sun\"]; other jobs move to them inside their windows. Without it any day will do."},
    {"remind_days_before", Key, "How many days before its job a reminder rings; 1 is the evening before."},
    {"remind_at", Key, "The time of a reminder, 18:00:00."},
    {"remind", Key, "Which jobs ring: \"must\" those that spoil the year when they are missed, \"all\", or \"none\"."},
    {"care", Key, "true: the small jobs too (water in, look for slugs, dead-head ...)."},
    {"days_between_crops", Key, "Days to clear and feed the ground between two crops of a stretch."},
    {"name", Key, "The bed's name, as jobs show it."},
    {"id", Key, "A lasting name: of a bed whose name may change, or of a planting where a crop stands twice in a bed."},
    {"length", Key, "Of a bed or a stretch, along the bed."},
    {"width", Key, "Of a bed, across it."},
    {"cover", Key, "What covers a bed: \"none\", \"fleece\" or \"tunnel\"."},
    {"like", Key, "Crops you would like to grow: `trug ground` tells how much ground the wish takes with them."},
    {"dislike", Key, "Crops that `trug ground`, `mend` and `check` are not to propose."},
    {"safe", Key, "true: only crops are proposed of which nobody knows that they poison or irritate people or pets. No such list is complete."},
    {"since", Key, "The year in which a plant that stands there was planted. Without it, it is planted like anything else."},
    {"person", Key, "Who does the jobs of a bed or a crop; 'trug calendar --split person' makes a calendar for each."},
    {"crops", Key, "The crops of a stretch in their order, [\"tulip\", \"cosmos\"]: the short form of [[bed.stretch.crop]]."},
    {"variety", Key, "The variety, as it is to be ordered and told."},
    {"group", Key, "A group of varieties that the sheet knows, such as early or late. Without it trug chooses."},
    {"plants", Key, "How many plants. Without it the ground is filled at the sheet's spacing."},
    {"spacing", Key, "The distance from plant to plant. Without it that of the sheet."},
    {"keep", Key, "true: bulbs, corms or tubers stay in the ground after flowering."},
    {"pods", Key, "true: the crop stays until its pods are ripe; false: it is grown for its flowers alone. Without it as its sheet says: honesty stays."},
    {"pinch", Key, "true or false: whether its tips are pinched out, where the sheet leaves it to you or you know better."},
    {"successions", Key, "How many sowings, one after the other, so that the cutting goes on; 'all season' for as many as are useful."},
    {"leave", Key, "The share of the stems that you do not cut, 0 to 0.9: left to flower in the bed."},
    {"gap_weeks", Key, "Weeks between the first cuts of two sowings. Without it that of the sheet."},
    {"way", Key, "One of the sheet's ways to raise the crop, pinned. 'trug crop NAME' lists them."},
    {"start_on", Key, "A pin: the day it is sown, or planted where it is not sown."},
    {"plant_on", Key, "A pin: the day it goes into its place in the bed."},
    {"lift_on", Key, "A pin: the day it leaves the ground."},
    {"not_before", Key, "A pin: nothing of it is done earlier."},
    {"what", Key, "Under [[have]] \"seed\", \"bulbs\" or \"plants\"; under [[happened]] what was done: \"sown\", \"planted\", \"planted-out\", \"pinched\", \"first-cut\", \"cut\", \"lifted\", \"failed\" or \"not-done\"."},
    {"number", Key, "How many are in hand."},
    {"planting", Key, "Of which planting, by its name: \"west bed/zinnia\"."},
    {"on", Key, "The day it was done."},
    {"stems", Key, "How many stems were cut that day."},
    {"note", Key, "Words of your own, printed with the event."},
    {"job", Key, "Of what was not done: the job's word, \"prick-out\"; without it, what comes next of sowing, planting and planting out."},
    {"succession", Key, "Of which sowing, where there are several: 1 is the first."},

    {"cannot-grow", Finding, "No way of the crop's sheet keeps the rules here this year."},
    {"ground-taken", Finding, "The crop grows here, but does not fit between its neighbours on this stretch, or could go in only so late that hardly any stem of it falls in the wish."},
    {"too-late", Finding, "It should have begun before the plan's first day: the day it began, else today."},
    {"not-in-cut", Finding, "The weather that was measured delays it: it would leave the ground before its first cut."},
    {"short-weeks", Finding, "Weeks of the wish that go without all their vases."},
    {"late-start", Finding, "It begins outside the usual time, because the ground or the frost gave no earlier day, or by a pin; worth less."},
    {"held-back", Finding, "It waits for the crop before it on its ground, and so gives under three quarters of the stems that it would give on free ground."},
    {"one-group", Finding, "Its varieties come in groups, such as early and late, and all of it is of one, though others would be cut in weeks that go short: group asks for one."},
    {"heat-pause", Finding, "Heat leaves nothing of it to cut for three weeks or more, and it keeps its ground for what comes after."},
    {"fewer-sowings", Finding, "Fewer sowings of a succession are useful here than were asked for: as many are planned."},
    {"too-early", Finding, "It would be far on towards its flower before the winter, and frost may take the buds."},
    {"small-rosette", Finding, "A biennial that has too few leaves before the winter and gives half its stems."},
    {"against-rule", Finding, "It stands or is pinned where winter, heat or a short season are against it: it keeps its place."},
    {"against-begun", Finding, "The plan says otherwise of what has begun: its word is taken."},
    {"short-stems", Finding, "The winter gives it less cold than it needs: its stems are short and fewer."},
    {"sown", Term, "In [[happened]]: seed was sown, or tubers and corms potted up."},
    {"planted", Term, "In [[happened]]: bulbs, corms, tubers, bought plants or bare roots were put into their place; where the calendar has them potted up first and set out later, whichever day is nearer."},
    {"planted-out", Term, "In [[happened]]: plants that were raised here were set out into the bed."},
    {"own-clock", Finding, "What three records or more tell of this garden: its first cuts come later or sooner, its plants give more or fewer stems than reckoned."},
    {"out-of-wish", Finding, "Less than a tenth of what is cut of this crop falls in the weeks of the wish."},
    {"one-year", Finding, "A perennial that does not live through a summer as hot as yours: it is grown for one year."},
    {"winter-losses", Finding, "The usual coldest night kills more of it than of any planting: cover it, and have plants to spare."},
    {"needs-cold", Finding, "Bulbs want a cold winter that this place does not give: keep them in a refrigerator first."},
    {"cold-soil", Finding, "Pinned to a day on which the soil is likely too cold for its seed."},
    {"maxima-guessed", Finding, "Heat ends or pauses crops by days' maxima that are guessed from the means, since the plan gives none."},
    {"season-over", Finding, "Nothing of the plan can still be begun, or the weeks of its wish are past: the next season has the next flowering_year."},
    {"hardly-frost", Finding, "Frost hardly comes here, so windows that count from frosts mean little."},
    {"short-season", Finding, "Few weeks here are free of frost."},
    {"costs-stems", Finding, "Keeping this crop costs its stretch more than a fifth of the stems it could give, and the weeks are worth more without it."},
    {"too-many-plants", Finding, "More plants than the ground holds at their spacing."},
    {"few-stems", Finding, "Too few plants to give one vase their share."},
    {"above-wish", Finding, "One crop alone gives more than three times the stems that the weeks want in which it is cut."},
    {"too-narrow", Finding, "A side of its ground is much shorter than the room one plant wants."},
    {"unused-bed", Finding, "Length of a bed that belongs to no stretch."},
    {"bare-ground", Finding, "A stretch on which nothing stands for more than six weeks of summer, or four after its last crop."},
    {"off-colour", Finding, "None of the wish's colours."},
    {"unknown-colours", Finding, "The wish names colours, and these crops are sold as mixes: colours = [...] with the crop says what you buy."},
    {"begins-anew", Finding, "The plan does not say on which day it began, so each day it begins again with what can still be begun: began says it."},
    {"memory-unreadable", Finding, "The calendar that the plan names is not its own or cannot be read: what it told is not known."},
    {"failed", Finding, "What was begun came to nothing; the crop stays in the plan and is begun again where that can be."},
    {"recorded-otherwise", Finding, "A pin says another day than [[happened]]: what happened counts."},
    {"not-done", Finding, "It was recorded as not done, and its time is over."},
    {"taken-as-done", Finding, "Jobs that lie before today and of which the plan records nothing: [[happened]] says what became of them."},
    {"overfull", Finding, "More is raised at once than the trays, the frame or the nursery bed hold: 40 modules or 15 pots a tray, 11 trays a square metre of frame, 40 plants a square metre of nursery bed."},
    {"shelter-assumed", Finding, "The plan does not say what there is to raise plants in: [shelter] does."},
    {"not-settled", Finding, "The search was stopped while the stretches were still changing: another choice may be better."},

    {"plan", Term, "The TOML file that says what you have and want: place, wish, days, beds and crops."},
    {"sheet", Term, "The data of one crop: ways, windows, spacing, heat, cautions and their sources. 'trug crop NAME' shows it."},
    {"planting", Term, "One crop in one stretch for one flowering year, written bed/crop."},
    {"way", Term, "One of a sheet's ways to raise the crop: sown outdoors in autumn, raised in warmth, bulbs planted ..."},
    {"window", Term, "The days between which a job is still right; the one shown is the best of them."},
    {"still right", Term, "The job's window: from the first to the last day on which it is still right."},
    {"broken", Term, "The worst rank of a finding: the plan cannot do this."},
    {"short", Term, "The middle rank of a finding: it can be done, but the wish goes short, or a planting by its late start."},
    {"mild", Term, "The least rank of a finding: worth knowing."},
    {"finding", Term, "What does not fit, or what you should know, with the line of the plan and a remedy. 'trug check' lists them, worst first."},
    {"remedy", Term, "What would clear a finding; under 'paste' stand the lines for the plan."},
    {"caution", Term, "What is poisonous, irritant or invasive about a crop, told where you buy, handle or cut it. Marked ! in lists. No such list is complete."},
    {"pin", Term, "A word of the plan that fixes a way or a day: way, start_on, plant_on, lift_on, not_before. It beats windows and working days, never rules."},
    {"succession", Term, "Sowings of one crop one after the other, numbered 1, 2, 3."},
    {"must", Term, "A job that spoils the year when its day is missed; it carries the one reminder."},
    {"due", Term, "The state of a job that lies ahead."},
    {"assumed", Term, "The state of a job whose day is past: it counts as done."},
    {"recorded", Term, "The state of a job that the plan says was done."},
    {"heated", Term, "Raised in warmth (in warmth): at heated_c, on a windowsill or a heated bench."},
    {"frame", Term, "Raised in an unheated cold frame or greenhouse."},
    {"nursery", Term, "Raised in a nursery bed outdoors, to be moved in its time."},
    {"vase", Term, "A week has its vases when as many stems find a place in them as the wish asks for: of no kind more than half, and no more than three fillers to a main flower."},
    {"stem", Term, "What is cut: one flowering shoot, long enough for a vase."},
    {"garden frost", Term, "The frost that marks tender plants: about +2 degC in a weather screen."},
    {"degree-day", Term, "Warmth as plants count it: one degree above their base for one day."},
    {"not proved best", Term, "Each stretch was chosen again and again for the weeks that the others leave short; of all that was weighed this is the best, which is no proof for the whole plan."},
    {"usual time", Term, "When growers of the trade sow or plant it, told by the sheet in weeks from the frosts."},
    {"new", Term, "A calendar event that the earlier file did not hold."},
    {"moved", Term, "An event that keeps its identity and has another day; why stands in brackets."},
    {"reworded", Term, "An event on its old day that says something else."},
    {"cancelled", Term, "An event whose job is gone: it stays in the file as cancelled, so that calendars take it away."},
    {"past", Term, "An event whose day is over: it stays as it was; the plan would now set it later."},
    {"taken as done", Term, "What lies before today counts as done."},
};
// clang-format on

constexpr std::string_view kLengthKeys[] = {"length", "width"};
constexpr std::string_view kTemperatureKeys[] = {
    "mean", "mean_max", "mean_min", "year_mean", "warmest_month", "heated", "coldest"};

bool is_among(std::span<const std::string_view> words, std::string_view word) {
  return std::ranges::find(words, word) != words.end();
}

// "[[bed.stretch]]", "Length_m" and "prick out" as they are compared: "stretch", "length m",
// "prick out".
std::string compared(std::string_view word) {
  const std::size_t dot = word.rfind('.');
  if (word.starts_with('[') && dot != std::string_view::npos) word.remove_prefix(dot + 1);
  std::string result;
  for (const char c : folded(word)) {
    if (c == '[' || c == ']') continue;
    result += c == '-' || c == '_' ? ' ' : c;
  }
  return result;
}

// Without the unit at its end: "length" of "length m".
std::string without_unit(std::string word) {
  for (const std::string_view ending : {" m", " cm", " ft", " in", " c", " f"}) {
    if (word.ends_with(ending)) return word.substr(0, word.size() - ending.size());
  }
  return word;
}

// The jobs' own table has their words.
std::vector<GlossaryEntry> with_jobs() {
  std::vector<GlossaryEntry> all(std::begin(kGlossary), std::end(kGlossary));
  std::vector<GlossaryEntry> jobs;
  for (const work::JobTrait& job : work::kTraits) jobs.push_back({job.word, Job, job.help});
  const auto later =
      std::ranges::find_if(all, [](const GlossaryEntry& entry) { return entry.kind > Job; });
  all.insert(later, jobs.begin(), jobs.end());
  return all;
}

}  // namespace

std::span<const GlossaryEntry> glossary() {
  static const std::vector<GlossaryEntry> kAll = with_jobs();
  return kAll;
}

std::vector<GlossaryEntry> find_words(std::string_view word) {
  // "bed.stretch" is the stretch of a bed.
  std::string wanted = compared(word);
  wanted.erase(0, wanted.rfind('.') + 1);
  const std::string key = without_unit(wanted);
  std::vector<GlossaryEntry> found;
  for (const GlossaryEntry& entry : glossary()) {
    const std::string own = compared(entry.word);
    const bool has_unit = entry.kind == Key && with_units(entry.word) != entry.word;
    if (own == wanted || (has_unit && own == key)) found.push_back(entry);
  }
  return found;
}

std::string nearest_word(std::string_view word) {
  std::vector<std::string> words;
  for (const GlossaryEntry& entry : glossary()) words.push_back(compared(entry.word));
  return nearest(compared(word), words);
}

std::string with_units(std::string_view key) {
  const std::string name(key);
  if (is_among(kLengthKeys, key))
    return name + "_m, " + name + "_cm, " + name + "_ft or " + name + "_in";
  if (is_among(kTemperatureKeys, key)) return name + "_c or " + name + "_f";
  return key == "spacing" ? "spacing_cm or spacing_in" : name;
}

}  // namespace trug::show
