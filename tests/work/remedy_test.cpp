// SPDX-License-Identifier: MIT
// Pasting a remedy makes its finding go: one row for each kind that has something to paste.
#include "ground/remedy.h"

#include <gtest/gtest.h>

#include "work/planned.h"

namespace trug::ground {
namespace {

struct Row {
  std::string name;
  std::string head;
  std::string beds;  // PASTE stands where the remedy goes
  FindingCode code{};
  Remedy::Kind remedy{};
  bool into_head = false;
  std::string at_first;  // stands there before
};

std::string with(std::string text, const std::string& pasted) {
  const auto at = text.find("PASTE");
  return at == std::string::npos ? text : text.replace(at, 5, pasted);
}

std::vector<Row> rows() {
  const std::string bed =
      "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\nlength_m = 2.2\n";
  return {
      {"too many plants", "", bed + "[[bed.stretch.crop]]\ncrop = \"dahlia\"\nPASTE\n",
       FindingCode::TooManyPlants, Remedy::Kind::FewerPlants, false, "plants = 400"},
      {"ground taken, lift earlier", "",
       "[work]\ndays = [\"Wed\"]\n[wish]\nvases_per_week = 1\nstems_per_vase = 12\n"
       "from = \"1 May\"\nto = \"28 September\"\n" +
           bed +
           "[[bed.stretch.crop]]\ncrop = \"canterbury bells\"\nPASTE\n"
           "[[bed.stretch.crop]]\ncrop = \"china aster\"\n",
       FindingCode::GroundTaken, Remedy::Kind::LiftEarlier},
      {"too far on before the winter", "",
       bed + "[[bed.stretch.crop]]\ncrop = \"euphorbia\"\nPASTE\n", FindingCode::TooEarly,
       Remedy::Kind::StartLater},
      {"a dear crop", "", bed + "PASTE\n", FindingCode::CostsStems, Remedy::Kind::LeaveOut, false,
       "crops = [\"sunflower\", \"zinnia\"]"},
      {"too late this year", "began = 2027-02-01\nPASTE\n",
       bed + "crops = [\"honesty\"]\n",
       FindingCode::TooLate, Remedy::Kind::NextYear, true},
  };
}

TEST(Remedies, MakeTheirFindingGoWhenPasted) {
  for (const Row& row : rows()) {
    SCOPED_TRACE(row.name);
    const Planned before = planned(with(row.head, ""), with(row.beds, row.at_first));
    const Finding* finding = before.finding(row.code);
    ASSERT_TRUE(finding);
    ASSERT_TRUE(finding->remedy);
    EXPECT_EQ(finding->remedy->kind, row.remedy);
    ASSERT_TRUE(finding->remedy->toml);
    const std::string& toml = *finding->remedy->toml;
    const Planned after = planned(with(row.head, row.into_head ? toml : ""),
                                  with(row.beds, row.into_head ? "" : toml));
    EXPECT_FALSE(after.finding(row.code)) << toml;
  }
}

TEST(Remedies, LeavingOutADearCropIsSaidWithTheStretchesOtherCrops) {
  const Planned p = planned("",
                            "[[bed]]\nname = \"b\"\nlength_m = 4.6\nwidth_m = 0.9\n[[bed.stretch]]\n"
                            "length_m = 2.2\ncrops = [\"daffodil\", \"zinnia\"]\n");
  const Remedy remedy = leave_out(p.plan, 0, 0);
  EXPECT_EQ(remedy.toml, "crops = [\"zinnia\"]\n");
}

}  // namespace
}  // namespace trug::ground
