// SPDX-License-Identifier: MIT
// Pasting a remedy makes its finding go: one row for each kind that has something to paste.
#include <gtest/gtest.h>

#include <map>
#include <variant>

#include "ask/ask.h"
#include "show/finding_words.h"
#include "work/planned.h"

namespace trug::ask {
namespace {

struct Row {
  std::string name;
  std::string head;
  std::string beds;  // PASTE stands where the remedy goes
  std::string code;
  bool (*is_remedy)(const Change&) = nullptr;
  bool into_head = false;
  std::string at_first;  // stands there before
};

template <class Kind>
bool is(const Change& change) {
  return std::holds_alternative<Kind>(change);
}

std::string with(std::string text, const std::string& pasted) {
  const auto at = text.find("PASTE");
  return at == std::string::npos ? text : text.replace(at, 5, pasted);
}

std::vector<Row> rows() {
  const std::string bed =
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";
  return {
      {"too many plants", "", bed + "[[bed.stretch.crop]]\ncrop = \"dahlia\"\nPASTE\n",
       "too-many-plants", is<Plants>, false, "plants = 400"},
      {"ground taken, lift earlier", "",
       "[work]\ndays = [\"Wed\"]\n[wish]\nvases_per_week = 1\nstems_per_vase = 12\n"
       "from = \"1 May\"\nto = \"28 September\"\n" +
           bed +
           "[[bed.stretch.crop]]\ncrop = \"canterbury bells\"\nPASTE\n"
           "[[bed.stretch.crop]]\ncrop = \"china aster\"\n",
       "ground-taken", is<LiftOn>},
      {"more sowings than fit", "", bed + "[[bed.stretch.crop]]\ncrop = \"sunflower\"\nPASTE\n",
       "fewer-sowings", is<Sowings>, false, "successions = 20"},
      {"too far on before the winter", "",
       bed + "[[bed.stretch.crop]]\ncrop = \"euphorbia\"\nPASTE\n", "too-early", is<StartAfter>},
      {"a dear crop", "", bed + "PASTE\n", "costs-stems", is<LeaveOut>, false,
       "crops = [\"sunflower\", \"zinnia\"]"},
      {"too late this year", "began = 2027-02-01\nPASTE\n", bed + "crops = [\"honesty\"]\n",
       "too-late", is<Year>, true},
  };
}

TEST(Remedies, MakeTheirFindingGoWhenPasted) {
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    const Planned before = planned(with(row.head, ""), with(row.beds, row.at_first));
    const Finding* finding = before.finding(row.code);
    ASSERT_TRUE(finding);
    ASSERT_TRUE(finding->remedy && finding->remedy->change);
    EXPECT_TRUE(row.is_remedy(*finding->remedy->change));
    const auto toml = show::remedy_toml(before.plan, *finding);
    ASSERT_TRUE(toml);
    const Planned after = planned(with(row.head, row.into_head ? *toml : ""),
                                  with(row.beds, row.into_head ? "" : *toml));
    EXPECT_FALSE(after.finding(row.code)) << *toml;
  }
}

TEST(Remedies, LeavingOutADearCropIsSaidWithTheStretchesOtherCrops) {
  const Planned p =
      planned("",
              "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
              "length_m = 2.2\ncrops = [\"daffodil\", \"zinnia\"]\n");
  Finding finding = about_planting(p.plan, 0, CostsStems{});
  finding.remedy = Remedy{LeaveOut{0}};
  EXPECT_EQ(show::remedy_toml(p.plan, finding), "crops = [\"zinnia\"]\n");
}

// Sown in January the zinnia is no neighbour: the canterbury bells before it hold the ground.
TEST(Remedies, BlameNoCropThatIsLeftOutItself) {
  const Planned p = planned(
      "",
      "[work]\ndays = [\"Wed\"]\n[wish]\nvases_per_week = 1\nstems_per_vase = 12\n"
      "from = \"1 May\"\nto = \"28 September\"\n"
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n"
      "[[bed.stretch.crop]]\ncrop = \"canterbury bells\"\n"
      "[[bed.stretch.crop]]\ncrop = \"zinnia\"\nway = \"sown in place in spring\"\n"
      "start_on = 2027-01-05\n"
      "[[bed.stretch.crop]]\ncrop = \"china aster\"\n");
  ASSERT_TRUE(p.schedule.of(1).empty());
  const Finding* finding = p.finding("ground-taken");
  ASSERT_TRUE(finding && finding->remedy && finding->remedy->change);
  EXPECT_EQ(finding->planting, 2u);
  ASSERT_TRUE(is<LiftOn>(*finding->remedy->change));
  EXPECT_EQ(std::get<LiftOn>(*finding->remedy->change).planting, 0u);
}

// What a crop costs its stretch is a matter of the stretch: other beds' stems change nothing of it.
TEST(Costs, AreTheSameBesideOtherBeds) {
  const auto bed = [](const std::string& name, const std::string& crops) {
    return "[[bed]]\nname = \"" + name +
           "\"\nlength_m = 2.4\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\ncrops = [" + crops +
           "]\n";
  };
  const std::string wish =
      "[wish]\nvases_per_week = 2\nstems_per_vase = 12\nfrom = \"10 May\"\nto = \"10 October\"\n";
  const std::vector<std::string> beds = {
      bed("a", "\"sunflower\", \"zinnia\""), bed("b", "\"cornflower\", \"cosmos\""),
      bed("c", "\"sweet william\", \"statice\""), bed("d", "\"daffodil\", \"sunflower\"")};
  const auto costs = [](const Planned& p) {
    std::map<std::string, double> found;
    for (const Finding& finding : p.findings) {
      const auto* cost = std::get_if<CostsStems>(&finding.found);
      if (cost) found[p.plan.plantings[*finding.planting].name] = cost->stems;
    }
    return found;
  };
  std::map<std::string, double> alone;
  std::string all;
  for (const std::string& one : beds) {
    alone.merge(costs(planned("", wish + one)));
    all += one;
  }
  EXPECT_FALSE(alone.empty());
  EXPECT_EQ(costs(planned("", wish + all)), alone);
}

}  // namespace
}  // namespace trug::ask
