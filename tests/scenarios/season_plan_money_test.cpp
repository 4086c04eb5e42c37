// What the season costs, and which litres the price is spread over.
// Values of the practice season are assumptions made for practice; common practice has no source.
#include <cmath>

#include <gtest/gtest.h>

#include "support/plan_scenario.h"

namespace wheyfield {
namespace {

using testing::Json;
using testing::page;
using testing::practice;

using SeasonPlanMoney = testing::PlanScenario;

TEST_F(SeasonPlanMoney, TheShoppingListIsInLocalPacksAndAddsUp) {
  const Json plan = facade.plan(practice());
  double total = 0.0;
  for (const Json& line : plan["shopping"]["lines"]) {
    double bought = line["in_hand"], cost = 0.0;
    for (const Json& pack : line["packs"]) {
      bought += pack["size"].get<double>() * pack["count"].get<double>();
      cost += pack["price"].get<double>() * pack["count"].get<double>();
    }
    EXPECT_GE(bought + 1e-9, line["need"].get<double>()) << line["item"];
    EXPECT_DOUBLE_EQ(cost, line["cost"]) << line["item"];
    total += cost;
  }
  EXPECT_DOUBLE_EQ(total, plan["shopping"]["total"]);
}

// A quarter of what is made is spare or over: what a litre costs that reaches a field comes first.
TEST_F(SeasonPlanMoney, TheSummaryPricesALitreHandedOutBeforeALitreMade) {
  const Json plan = facade.plan(practice(), true);
  const Json& cost = plan["cost"];
  const double paid =
      cost["bought"].get<double>() + cost["milk"].get<double>() + cost["labour"].get<double>();
  const double out = paid / cost["litres_handed_out"].get<double>();
  const double made = paid / cost["litres_made"].get<double>();
  EXPECT_NEAR(cost["per_litre_handed_out"].get<double>(), out, 0.001);
  EXPECT_NEAR(cost["per_litre_made"].get<double>(), made, 0.001);
  EXPECT_GT(out, 1.2 * made);
  const std::string said = std::to_string(std::lround(out)) + " c for each litre handed out (" +
                           std::to_string(std::lround(made)) + " c for each litre made";
  EXPECT_NE(page(plan, "summary")->dump().find(said), std::string::npos) << said;
}

// The litre leaves the carried water out and the acre counts it: both pages say so.
TEST_F(SeasonPlanMoney, TheWaterThatALitreLeavesOutIsNamed) {
  const Json plan = facade.plan(practice(), true);
  const auto whole = [&](const char* part) {
    return facade.plan(practice())["cost"][part].get<double>();
  };
  EXPECT_NEAR(whole("total"), whole("bought") + whole("milk") + whole("labour") + whole("water"),
              1e-6);
  ASSERT_GT(whole("water"), 1000.0);
  const std::string water =
      std::to_string(std::lround(whole("water")));  // "4803", shown as "4,803"
  const std::string shown =
      water.substr(0, water.size() - 3) + "," + water.substr(water.size() - 3);
  const std::string summary = page(plan, "summary")->dump();
  EXPECT_NE(summary.find(shown + " c of it for carrying water"), std::string::npos) << summary;
  EXPECT_NE(summary.find("Without that water it is"), std::string::npos);
  const std::string cost = page(plan, "cost")->dump();
  EXPECT_NE(cost.find("handed out, carried water not counted"), std::string::npos) << cost;
  EXPECT_NE(cost.find("an acre-season, carried water counted"), std::string::npos) << cost;
}

TEST_F(SeasonPlanMoney, LitresHandedOutAndKeptForSeedAddUpToWhatIsDrawnFromTheBatches) {
  const Json plan = facade.plan(practice(), true);
  double drawn = 0.0, kept = 0.0;
  for (const Json& batch : plan["batches"]) drawn += batch["drawn_ml"].get<double>() / 1000.0;
  for (const Json& use : plan["uses"])
    if (use["hand_out"] == "by-seed")
      for (const Json& from : use["from"]) kept += from["ml"].get<double>() / 1000.0;
  ASSERT_GT(kept, 0.5);
  const Json& cost = plan["cost"];
  EXPECT_NEAR(cost["litres_kept"].get<double>(), kept, 1e-9);
  EXPECT_NEAR(cost["litres_handed_out"].get<double>() + kept, drawn, 1e-9);
  for (const char* id : {"summary", "batches"})
    EXPECT_NE(page(plan, id)->dump().find("or kept for seed"), std::string::npos) << id;
  EXPECT_NE(page(plan, "cost")->dump().find("L more are kept for seed"), std::string::npos);
}

}  // namespace
}  // namespace wheyfield
