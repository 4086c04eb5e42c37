// A programme officer with some groups and two trainers, through the one door of the core.
#include <gtest/gtest.h>

#include <limits>
#include <map>
#include <set>
#include <tuple>

#include "support/facade.h"
#include "support/invented_group.h"

namespace wheyfield::testing {
namespace {

class Programme : public ::testing::Test {
 protected:
  static Json two_trainers() {
    return {{"programme", {{"name", "valley"}}},
            {"trainers",
             {{{"name", "T1"}, {"days", {"Monday", "Thursday"}}},
              {{"name", "T2"}, {"days", {"Wednesday"}}, {"visits_a_day", 1}}}}};
  }
  static Json lorry() {
    return {{"trip", "900"}, {"holds", 3}, {"can", "5 L"}, {"day", "Tuesday"}};
  }
  static std::string name(int number) { return "g" + std::to_string(number); }
  static Json names(int groups) {
    Json list = Json::array();
    for (int n = 1; n <= groups; ++n) list.push_back(name(n));
    return list;
  }
  static Json season(int number) {
    return invented_group(practice(), static_cast<std::uint64_t>(number));
  }

  Json check(const Json& programme, int groups = 4) {
    return facade.ask("programme.check", {{"programme", programme}, {"groups", names(groups)}});
  }
  Json plans(int number, const Json& days = {"monday", "wednesday", "thursday"}) {
    return facade.ask("programme.group",
                      {{"group", name(number)}, {"season", season(number)}, {"days", days}});
  }
  Json all_plans(int groups) {
    Json list = Json::array();
    for (int n = 1; n <= groups; ++n) list.push_back(plans(n)["group"]);
    return list;
  }
  Json assign(const Json& programme, const Json& groups, bool pages = false) {
    return facade.ask("programme.assign",
                      {{"programme", programme}, {"groups", groups}, {"pages", pages}});
  }

  Facade facade;
};

TEST_F(Programme, TrainersSayOnWhichDaysGroupsAreToBePlanned) {
  const Json answer = check(two_trainers());
  EXPECT_EQ(answer["days"], Json({"monday", "wednesday", "thursday"}));
  EXPECT_EQ(answer["visits"], 5);  // twice two, as nothing else is said, and one
  EXPECT_TRUE(answer["problems"].empty());
}

TEST_F(Programme, AGroupOnItsOwnDayCostsWhatItsSeasonPlanCosts) {
  for (const int number : {1, 2, 3}) {
    const Json group = plans(number)["group"];
    const Json plan = facade.plan(season(number));
    std::set<std::string> days;
    for (const Json& day : group["days"]) {
      days.insert(day["day"].get<std::string>());
      if (day["day"] != group["now"]) continue;
      EXPECT_EQ(day["cost"], plan["plan"]["cost"]);
      EXPECT_EQ(day["bound"], plan["plan"]["bound"]);
      EXPECT_EQ(day["batches"], plan["batches"].size());
      std::int64_t short_ml = 0;
      for (const Json& use : plan["uses"]) short_ml += use["short_ml"].get<std::int64_t>();
      EXPECT_EQ(day["short_ml"].get<std::int64_t>() + day["guess_ml"].get<std::int64_t>(),
                short_ml);
      for (const Json& need : day["needs"])
        for (const Json& line : plan["shopping"]["lines"])
          if (line["item"] == need["item"]) {
            EXPECT_NEAR(need["amount"].get<double>(), line["need"].get<double>(), 1e-6);
          }
    }
    EXPECT_EQ(days.count(group["now"].get<std::string>()), 1u);
    EXPECT_GE(days.size(), 3u);
  }
}

TEST_F(Programme, AGroupOnAnotherDayCostsWhatItsFileWithThatDayCosts) {
  Json moved = season(2);
  moved["meetings"]["day"] = "Wednesday";
  const Json plan = facade.plan(moved);
  const Json group = plans(2)["group"];
  for (const Json& day : group["days"])
    if (day["day"] == "wednesday") {
      EXPECT_EQ(day["cost"], plan["plan"]["cost"]);
    }
}

// Groups whose plan by counting back misses units of 100 mL although it lacks no millilitre, which
// once made it look cheaper than the best plan, and unproven.
TEST_F(Programme, APlanByCountingBackThatFitsNoUnitsIsNotTakenForCheaper) {
  const std::vector<std::pair<int, const char*>> on{{41, "wednesday"}, {787, "monday"}};
  for (const auto& [number, weekday] : on) {
    Json moved = season(number);
    moved["meetings"]["day"] = weekday;
    const Json plan = facade.plan(moved)["plan"];
    EXPECT_EQ(plan["method"], "dynamic-programme") << number;
    EXPECT_EQ(plan["least_short"], true) << number;
    EXPECT_EQ(plan["gap"], 0.0) << number;
    EXPECT_LT(plan["cost"].get<double>(), plan["baseline_cost"].get<double>()) << number;
  }
}

TEST_F(Programme, EveryGroupGetsAVisitAndTheTotalsAreTheirSums) {
  const Json answer = assign(two_trainers(), all_plans(5));
  ASSERT_TRUE(answer.contains("groups")) << answer.dump(2);
  std::map<std::string, int> visits;
  double now = 0.0, proposed = 0.0;
  int moved = 0;
  for (const Json& group : answer["groups"]) {
    ++visits[group["trainer"].get<std::string>() + group["proposed"].get<std::string>()];
    now += group["worth_now"]["cost"].get<double>();
    proposed += group["worth"]["cost"].get<double>();
    moved += group["now"] == group["proposed"] ? 0 : 1;
  }
  EXPECT_EQ(visits,
            (std::map<std::string, int>{{"T1monday", 2}, {"T1thursday", 2}, {"T2wednesday", 1}}));
  EXPECT_NEAR(answer["totals"]["now"]["cost"].get<double>(), now, 1e-6);
  EXPECT_NEAR(answer["totals"]["proposed"]["cost"].get<double>(), proposed, 1e-6);
  EXPECT_EQ(answer["totals"]["moved"], moved);
  EXPECT_EQ(answer["proof"]["plans"].get<std::size_t>() >= 15u, true);
}

// By trying every way to give five groups five visits.
TEST_F(Programme, NoOtherSharingOutIsBetter) {
  const Json groups = all_plans(5);
  const Json answer = assign(two_trainers(), groups);
  using Worth = std::tuple<std::int64_t, std::int64_t, double>;
  const auto worth = [&](const Json& group, const std::string& on) -> Worth {
    for (const Json& day : group["days"])
      if (day["day"] == on) return {day["short_ml"], day["guess_ml"], day["cost"]};
    return {1, 1, 1e18};
  };
  const auto best = [&](const auto& self, std::size_t g, int mon, int wed, int thu) -> Worth {
    if (g == groups.size()) return {0, 0, 0.0};
    Worth least{std::numeric_limits<std::int64_t>::max(), 0, 0.0};
    const auto take = [&](const char* day, int m, int w, int t) {
      if (m < 0 || w < 0 || t < 0) return;
      const auto [a, b, c] = worth(groups[g], day);
      const auto [x, y, z] = self(self, g + 1, m, w, t);
      least = std::min(least, Worth{a + x, b + y, c + z});
    };
    take("monday", mon - 1, wed, thu);
    take("wednesday", mon, wed - 1, thu);
    take("thursday", mon, wed, thu - 1);
    return least;
  };
  const auto [short_ml, guess_ml, cost] = best(best, 0, 2, 1, 2);
  const Json& proposed = answer["totals"]["proposed"];
  EXPECT_EQ(proposed["short_ml"], short_ml);
  EXPECT_EQ(proposed["guess_ml"], guess_ml);
  EXPECT_NEAR(proposed["cost"].get<double>(), cost, 1e-6);
}

TEST_F(Programme, AFixedGroupStaysAndAMoveMustBeWorthIt) {
  Json programme = two_trainers();
  const Json groups = all_plans(3);
  programme["fixed"] = {{{"group", "g1"}, {"day", "Wednesday"}}};
  const Json fixed = assign(programme, groups)["groups"];
  EXPECT_EQ(fixed[0]["proposed"], "wednesday");
  EXPECT_EQ(fixed[0]["fixed"], true);
  Json stays = two_trainers();
  stays["programme"]["worth_moving"] = "1000000";
  Json dry = groups;  // so that only money is left to decide
  for (Json& group : dry)
    for (Json& day : group["days"]) day["short_ml"] = day["guess_ml"] = 0;
  const Json kept = assign(stays, dry)["groups"];
  for (const Json& group : kept)
    if (group["now"] != "tuesday" && group["now"] != "friday") {
      EXPECT_EQ(group["now"], group["proposed"]);
    }
}

TEST_F(Programme, TheLorryBringsEveryCanInTimeOrSaysWhichItCannot) {
  Json programme = two_trainers();
  programme["lorry"] = lorry();
  const Json groups = all_plans(3);
  const Json early = assign(programme, groups)["lorry"];
  std::size_t brought = 0;
  for (const Json& trip : early["trips"]) {
    EXPECT_LE(trip["cans"].get<int>(), 3);
    for (const Json& group : trip["groups"]) {
      brought += group["cans"].get<std::size_t>();
      EXPECT_LE(trip["on"].get<std::string>(), group["needed"].get<std::string>());
    }
  }
  EXPECT_EQ(brought, early["cans"].get<std::size_t>());
  EXPECT_TRUE(early["not_brought"].empty());
  EXPECT_EQ(early["trips_cost"].get<double>(), 900.0 * static_cast<double>(early["trips"].size()));
  std::int64_t ml = 0;
  const Json whole = assign(programme, groups);
  for (const Json& week : whole["molasses"]) ml += week["ml"].get<std::int64_t>();
  for (const Json& need : whole["needs"])
    if (need["item"] == "molasses") {
      EXPECT_NEAR(static_cast<double>(ml) / 1000.0, need["amount"].get<double>(), 0.1);
    }

  programme["lorry"]["from"] = "2027-04-06";
  const Json late = assign(programme, groups);
  EXPECT_FALSE(late["lorry"]["not_brought"].empty());
  EXPECT_EQ(problem(late, "lorry-too-late")["severity"], "question");
}

// A host without a solver, as the phone is, says so; what another host handed over is counted.
TEST_F(Programme, WhatTheSolverDidIsCountedAndAHostWithoutOneRefuses) {
  Json body = {{"group", name(1)}, {"season", season(1)}, {"days", {"monday"}}};
  const Json usual = facade.ask("programme.group", body);
  body["method"] = "dynamic-programme";
  EXPECT_EQ(facade.ask("programme.group", body)["group"], usual["group"]);
  body["method"] = "exact";
  EXPECT_EQ(problem(facade.ask("programme.group", body), "plan-method-not-here")["field"],
            "/method");

  Json groups = all_plans(2);
  EXPECT_FALSE(assign(two_trainers(), groups)["proof"].contains("solver"));
  groups[0]["with_solver"] = groups[1]["with_solver"] = true;
  Json& better = groups[0]["days"][0];
  better["handed_over"] = {{"gap", 0.02}, {"least_short", true}, {"better", true}};
  better["gap"] = 0.0005;
  Json& as_it_was = groups[1]["days"][1];
  as_it_was["handed_over"] = {{"gap", 0.02}, {"least_short", true}, {"better", false}};
  as_it_was["gap"] = 0.02;
  const Json answer = assign(two_trainers(), groups, true);
  EXPECT_EQ(answer["proof"]["solver"],
            (Json{{"handed_over", 2}, {"better", 1}, {"within_0_1_percent", 1}}));
  EXPECT_NE(answer["pages"].dump().find("went to the exact solver (2 plans)"), std::string::npos);
}

TEST_F(Programme, PagesAreThoseThatAreKnownBefore) {
  Json programme = two_trainers();
  programme["lorry"] = lorry();
  const Json answer = assign(programme, all_plans(3), true);
  std::vector<std::string> ids;
  for (const Json& page : answer["pages"]) {
    ids.push_back(page["id"]);
    EXPECT_EQ(page.dump().find("[programme."), std::string::npos) << page.dump(2);  // no sentence
  }
  EXPECT_EQ(ids, (std::vector<std::string>{"summary", "weekdays", "costs", "visits", "needs",
                                           "molasses"}));
}

TEST_F(Programme, MistakesAreNamedWithTheirCure) {
  const auto code = [](const Json& answer) {
    return answer["problems"].empty() ? "" : answer["problems"][0]["code"].get<std::string>();
  };
  const auto with = [&](auto change) {
    Json programme = two_trainers();
    programme["lorry"] = lorry();
    change(programme);
    return check(programme);
  };
  EXPECT_EQ(code(with([](Json&) {})), "");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"] = Json::array(); })),
            "programme-without-trainers");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"][0]["days"] = Json::array(); })),
            "trainer-without-days");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"][0]["days"] = {"Mondy"}; })), "weekday-unknown");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"][1]["name"] = "T1"; })), "trainer-twice");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"][1]["visits_a_day"] = 0; })), "programme-zero");
  EXPECT_EQ(code(with([](Json& p) { p["trainers"][1]["visits_a_day"] = 1.5; })), "not-a-count");
  EXPECT_EQ(code(with([](Json& p) { p["lorry"]["trip"] = "0"; })), "programme-zero");
  EXPECT_EQ(code(with([](Json& p) { p["lorry"]["holds"] = 0; })), "programme-zero");
  EXPECT_EQ(code(with([](Json& p) { p["lorry"]["can"] = "0 L"; })), "not-above-zero");
  EXPECT_EQ(code(with([](Json& p) { p["lorry"].erase("day"); })), "lorry-without-days");
  EXPECT_EQ(code(with([](Json& p) {
              p["lorry"]["from"] = "2027-05-01";
              p["lorry"]["until"] = "2027-04-01";
            })),
            "lorry-dates-order");
  EXPECT_EQ(code(with([](Json& p) { p["lorry"]["capacity"] = 3; })), "key-unknown");
  const Json unknown = with([](Json& p) { p["fixed"] = {{{"group", "g11"}, {"day", "Monday"}}}; });
  EXPECT_EQ(code(unknown), "fixed-group-unknown");
  EXPECT_NE(unknown["problems"][0]["cure"].get<std::string>().find("g1"), std::string::npos);
  const Json idle = with([](Json& p) { p["fixed"] = {{{"group", "g1"}, {"day", "Friday"}}}; });
  EXPECT_EQ(code(idle), "fixed-day-without-trainer");
  EXPECT_EQ(idle["problems"][0]["field"], "/programme/fixed/0/day");
  EXPECT_NE(idle["problems"][0]["expected"].get<std::string>().find("Monday"), std::string::npos);
  EXPECT_EQ(code(with([](Json& p) {
              p["fixed"] = {{{"group", "g1"}, {"day", "Wednesday"}},
                            {{"group", "g2"}, {"day", "Wednesday"}}};
            })),
            "fixed-day-full");
  const Json many = check(two_trainers(), 8);
  EXPECT_EQ(code(many), "visits-too-few");
  EXPECT_NE(many["problems"][0]["expected"].get<std::string>().find("3 too many"),
            std::string::npos);
  EXPECT_EQ(code(check(two_trainers(), 0)), "programme-without-groups");
}

TEST_F(Programme, WhatOnlyThePlansShowIsSaidThen) {
  const Json groups = all_plans(2);
  Json programme = two_trainers();
  programme["lorry"] = lorry();
  programme["lorry"]["on"] = {"2026-03-02"};
  const Json outside = assign(programme, groups);
  EXPECT_EQ(problem(outside, "lorry-day-outside")["value"], "2026-03-02");
  EXPECT_TRUE(outside.contains("groups"));
  Json other = groups;
  other[1]["currency"] = "d";
  EXPECT_EQ(assign(two_trainers(), other)["problems"][0]["code"], "group-currency");
  Json broken = groups;
  broken[0]["days"][0]["cost"] = "1.234";
  EXPECT_EQ(assign(two_trainers(), broken)["problems"][0]["code"], "wrong-shape");
  Json without = groups;
  without[0]["days"] = Json::array();
  EXPECT_EQ(assign(two_trainers(), without)["problems"][0]["code"], "group-day-missing");
  EXPECT_EQ(assign(two_trainers(), Json::array())["problems"][0]["code"],
            "programme-without-groups");
  Json season_of_two = season(2);
  season_of_two["farms"][0]["place"] = "nowhere";
  const Json refused = facade.ask(
      "programme.group", {{"group", "g2"}, {"season", season_of_two}, {"days", {"monday"}}});
  EXPECT_FALSE(refused.contains("group"));
  EXPECT_EQ(refused["problems"][0]["code"], "place-unknown");
}

}  // namespace
}  // namespace wheyfield::testing
