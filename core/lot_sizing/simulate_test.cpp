#include "lot_sizing/simulate.h"

#include <gtest/gtest.h>
#include <support/draw.h>

#include <cmath>

#include "lot_sizing/limits.h"
#include "lot_sizing/serve.h"

namespace wheyfield::lot_sizing {
namespace {

constexpr std::int64_t played = 20'000;
constexpr Chances one_in_ten{100'000, {million, 0, 0, 0}};
constexpr Chances usual{100'000, {700'000, 150'000, 100'000, 50'000}};

// 4 standard errors of a share seen in `played` seasons.
double four_errors(double share) {
  return 4.0 * std::sqrt(share * (1.0 - share) / static_cast<double>(played));
}

Session session(int start, int ready, Units most, int resource = 0) {
  Session s;
  s.start = start;
  s.ready = ready;
  s.use_by = ready + 100;
  s.setups = {{{{resource, start, ready, 1}}, 1, most, 10}};
  return s;
}

// One product, one vessel of which there are `vessels`, a session of `lead` days from every day.
// Lot 0 of the plan is ready on day 10.
Problem from_every_day(int lead, int vessels, int days) {
  Problem problem;
  problem.days = days;
  problem.resources = {{"bucket", std::vector<int>(static_cast<std::size_t>(days), vessels)}};
  problem.products.emplace_back();
  for (int start = 10 - lead; start + lead < days; ++start)
    problem.products[0].sessions.push_back(session(start, start + lead, 50));
  return problem;
}

Plan holding(std::initializer_list<std::size_t> sessions, Units units = 10) {
  Plan plan;
  for (const std::size_t s : sessions) plan.held.push_back({0, s, 0, units});
  return plan;
}

// A single lot ready on day 10, `slack` days before its due; a re-brew takes `lead` days and starts
// the day after: so R = lead + 1.
Tally single_lot(int slack, int lead, const Chances& chances, std::uint64_t seed = 1) {
  Problem problem = from_every_day(lead, 1, 90);
  problem.products[0].due = {{10 + slack, 10 + slack, 10, 1}};
  return Seasons(problem, holding({0}), {chances}).run(seed, 0, played);
}

TEST(Simulate, ASingleLotWithoutSlackIsOnTimeWithOneLessP) {
  EXPECT_NEAR(share_in_full(single_lot(0, 6, one_in_ten), 0, 0), 0.9, four_errors(0.9));
}

TEST(Simulate, TwoIndependentChancesAreOnTimeWithOneLessPSquared) {
  EXPECT_NEAR(share_in_full(single_lot(6, 6, one_in_ten), 0, 0), 0.9, four_errors(0.9));
  EXPECT_NEAR(share_in_full(single_lot(7, 6, one_in_ten), 0, 0), 0.99, four_errors(0.99));
  EXPECT_NEAR(share_in_full(single_lot(14, 6, one_in_ten), 0, 0), 0.999, four_errors(0.999));
}

TEST(Simulate, WithDelaysOnlyALotIsOnTimeWithTheChanceThatItsDelayIsNoLongerThanItsSlack) {
  const double no_longer[] = {0.7, 0.85, 0.95};
  const Chances late_only{0, usual.late};
  for (int slack = 0; slack < 3; ++slack)
    EXPECT_NEAR(share_in_full(single_lot(slack, 6, late_only), 0, 0), no_longer[slack],
                four_errors(no_longer[slack]));
  EXPECT_EQ(share_in_full(single_lot(3, 6, late_only), 0, 0), 1.0);
}

TEST(Simulate, TheMissedShareOfASingleLotIsTheChanceOfTheAllowance) {
  const std::vector<std::int64_t> missed = chance_missed(usual, 7, 25);
  for (int slack = 0; slack <= 25; ++slack) {
    const double chance = static_cast<double>(missed[static_cast<std::size_t>(slack)]) / 1e9;
    EXPECT_NEAR(1.0 - share_on_time(single_lot(slack, 6, usual), 0), chance, four_errors(chance))
        << "slack " << slack;
  }
}

TEST(Simulate, AllOfKIndependentLotsAreOnTimeWithOneLessPToTheK) {
  Problem problem = from_every_day(6, 9, 90);
  Plan plan;
  for (std::size_t k = 0; k < 5; ++k) {
    const int day = 10 + static_cast<int>(k);
    problem.products[0].due.push_back({day, day, 10, 1});
    plan.held.push_back({0, k, 0, 10});
  }
  const Tally tally = Seasons(problem, plan, {one_in_ten}).run(3, 0, played);
  const double all = std::pow(0.9, 5);
  EXPECT_NEAR(share_all_on_time(tally, 0), all, four_errors(all));
  EXPECT_EQ(share_all_on_time(tally), share_all_on_time(tally, 0));
}

// Two lots of 10, ready on days 10 and 18, for dues of 10 on days 10 and 20; each fails in half of
// the seasons. There is time for one re-brew of the first (day 17) and none of the second.
TEST(Simulate, WhoWaitsLongestIsServedFirst) {
  Problem problem = from_every_day(6, 9, 24);
  problem.products[0].due = {{10, 23, 10, 1}, {20, 23, 10, 1}};
  const Chances half{500'000, {million, 0, 0, 0}};
  const Tally tally = Seasons(problem, holding({0, 8}), {half}).run(4, 0, played);
  EXPECT_NEAR(share_in_full(tally, 0, 0), 0.5, four_errors(0.5));
  // The lot of day 18 is well (1/2) and does not go to the first due (3/4), as it does when that
  // lot and its re-brew fail.
  EXPECT_NEAR(share_in_full(tally, 0, 1), 0.375, four_errors(0.375));
  // The first is missed when its lot, the re-brew and the lot of day 18 all fail.
  EXPECT_NEAR(static_cast<double>(tally.products[0].due[0].missed) / 10 / played, 0.125,
              four_errors(0.125));
  EXPECT_EQ(tally.products[0].due[0].on_time + tally.products[0].due[0].late +
                tally.products[0].due[0].missed,
            10 * played);
}

TEST(Simulate, ALateLotServesWhoCanWaitAndIsMissedByWhoCannot) {
  Problem problem = from_every_day(6, 1, 90);
  problem.products[0].due = {{10, 10, 4, 1}, {10, 12, 6, 1}};
  const Chances two_days_late{0, {0, 0, million, 0}};
  const Tally tally = Seasons(problem, holding({0}), {two_days_late}).run(1, 0, 100);
  EXPECT_EQ(tally.products[0].due[0].missed, 400);
  EXPECT_EQ(tally.products[0].due[1].late, 600);
  EXPECT_EQ(mean_missed(tally, 0), 4.0);
  EXPECT_EQ(mean_on_time(tally, 0), 0.0);
  EXPECT_EQ(share_all_on_time(tally), 0.0);
}

TEST(Simulate, WithoutAVesselOrASupplyNothingIsBrewedAgain) {
  const Chances always{million, {million, 0, 0, 0}};
  Problem problem = from_every_day(6, 1, 40);
  problem.products[0].due = {{39, 39, 10, 1}};
  EXPECT_GT(Seasons(problem, holding({0}), {always}).run(1, 0, 1).products[0].rebrewed, 0);
  Problem no_vessel = problem;
  for (int day = 10; day < 40; ++day)
    no_vessel.resources[0].capacity[static_cast<std::size_t>(day)] = 0;
  EXPECT_EQ(Seasons(no_vessel, holding({0}), {always}).run(1, 0, 1).products[0].rebrewed, 0);
  Problem supplied = problem;
  supplied.supplies = {35};  // the planned lot and one re-brew of 10, one of 5 units
  for (Session& s : supplied.products[0].sessions) {
    s.supply = 0;
    s.supply_per_unit = 1;
  }
  const Seasons seasons(supplied, holding({0}), {always});
  std::vector<Units> brewed;
  for (const Attempt& a : seasons.attempts(1, 0)) brewed.push_back(a.held.units);
  EXPECT_EQ(brewed, (std::vector<Units>{10, 10, 10, 5}));
}

TEST(Simulate, NothingIsBrewedThatWouldBeReadyAfterTheLastUse) {
  Problem problem = from_every_day(6, 1, 90);
  problem.products[0].due = {{10, 30, 10, 1}};
  const Seasons seasons(problem, holding({0}), {{million, {million, 0, 0, 0}}});
  std::vector<int> ready;
  for (const Attempt& a : seasons.attempts(1, 0)) ready.push_back(a.ready);
  EXPECT_EQ(ready, (std::vector<int>{10, 17, 24}));
}

TEST(Simulate, WhatDoesNotKeepUntilTheLastUseIsNotHandedOut) {
  Problem problem = from_every_day(6, 9, 90);
  for (Session& s : problem.products[0].sessions) s.use_by = s.ready + 2;
  problem.products[0].sessions[8].use_by = 30;
  problem.products[0].due = {{10, 12, 10, 1}, {19, 21, 10, 1}};
  Plan plan = holding({0, 8});
  plan.held[0].units = 20;  // ten over, good until day 12, or 19 when brewed again
  const Chances half{500'000, {million, 0, 0, 0}};
  const Tally tally = Seasons(problem, plan, {half}).run(1, 0, played);
  EXPECT_NEAR(share_in_full(tally, 0, 1), 0.5, four_errors(0.5));
}

TEST(Simulate, ALateLotKeepsItsDaysOfLife) {
  Problem problem = from_every_day(6, 9, 90);
  for (Session& s : problem.products[0].sessions) s.use_by = s.ready + 5;
  problem.products[0].due = {{12, 13, 10, 1}, {16, 17, 10, 1}};
  Plan plan = holding({0, 5});  // ready on day 15, in fact on day 17
  plan.held[0].units = 20;      // in fact good until day 17
  const Chances two_days_late{0, {0, 0, million, 0}};
  EXPECT_EQ(share_all_on_time(Seasons(problem, plan, {two_days_late}).run(1, 0, 1)), 1.0);
}

TEST(Simulate, TheReBrewIsTheSessionReadyEarliestInTheSetupThatHoldsMost) {
  Problem problem = from_every_day(6, 1, 60);
  std::vector<Session>& sessions = problem.products[0].sessions;
  problem.products[0].due = {{50, 50, 10, 1}};
  problem.resources.push_back({"drum", std::vector<int>(60, 1)});
  sessions.push_back(session(11, 14, 6, 1));
  sessions.back().setups.push_back({{{1, 11, 14, 1}}, 1, 8, 5});
  sessions.back().setups.push_back({{{1, 11, 14, 1}}, 1, 7, 1});
  sessions.push_back(session(10, 13, 50, 1));  // begins on the day of the failure: too early
  const Seasons seasons(problem, holding({0}), {{million, {million, 0, 0, 0}}});
  const std::vector<Attempt> attempts = seasons.attempts(1, 0);
  ASSERT_GT(attempts.size(), 1u);
  EXPECT_EQ(attempts[1].ready, 14);
  EXPECT_EQ(attempts[1].held.setup, 1u);
  EXPECT_EQ(attempts[1].held.units, 8);
}

// Random problems of two products that share two vessels and one supply.
struct RandomCase {
  Problem problem;
  Plan plan;

  explicit RandomCase(std::uint64_t seed) {
    testing::Draw draw(seed);
    problem.days = 80;
    for (int k = 0; k < 2; ++k)
      problem.resources.push_back({"r", std::vector<int>(80, draw.between(1, 3))});
    problem.supplies = {draw.between(100, 400)};
    for (std::size_t r = 0; r < 2; ++r) {
      problem.products.emplace_back();
      Product& product = problem.products.back();
      for (int d = 0; d < 6; ++d) {
        const int collect = draw.between(12, 70);
        product.due.push_back({collect, collect + draw.between(0, 6), draw.between(0, 12), 100});
      }
      if (draw.below(2) == 0) product.stock.push_back({0, 90, draw.between(1, 10)});
      for (int start = 0; start < 60; start += draw.between(1, 3)) {
        const int lead = draw.between(4, 9);
        product.sessions.push_back(session(start, start + lead, draw.between(5, 20), 0));
        Session& s = product.sessions.back();
        s.use_by = start + lead + 60;
        s.setups.push_back({{{1, start, start + lead, 1}}, 2, draw.between(5, 25), 7});
        if (draw.below(2) == 0) {
          s.supply = 0;
          s.supply_per_unit = draw.between(1, 3);
        }
      }
      hold_some(draw, r);
    }
  }

  void hold_some(testing::Draw& draw, std::size_t r) {
    const std::vector<Session>& sessions = problem.products[r].sessions;
    for (std::size_t s = 0; s < sessions.size(); ++s) {
      if (draw.below(5) != 0) continue;
      const std::size_t setup = draw.below(2);
      const Setup& in = sessions[s].setups[setup];
      plan.held.push_back({r, s, setup, draw.between(in.least, in.most)});
      if (!broken_limits(problem, plan).empty()) plan.held.pop_back();
    }
  }
};

bool equal(const Tally& a, const Tally& b) {
  bool same = a.seasons == b.seasons && a.all_on_time == b.all_on_time &&
              a.products.size() == b.products.size();
  for (std::size_t r = 0; same && r < a.products.size(); ++r) {
    const ProductTally &x = a.products[r], &y = b.products[r];
    same = x.all_on_time == y.all_on_time && x.units_on_time == y.units_on_time &&
           x.failed == y.failed && x.rebrewed == y.rebrewed && x.due.size() == y.due.size();
    for (std::size_t d = 0; same && d < x.due.size(); ++d)
      same = x.due[d].in_full == y.due[d].in_full && x.due[d].on_time == y.due[d].on_time &&
             x.due[d].late == y.due[d].late && x.due[d].missed == y.due[d].missed;
  }
  return same;
}

TEST(Simulate, WithoutFailuresAndDelaysEachDueGetsWhatThePlanServesOnRandomPlans) {
  int short_dues = 0;
  for (std::uint64_t seed = 1; seed <= testing::cases(200u); ++seed) {
    const RandomCase c(seed);
    const Tally tally = Seasons(c.problem, c.plan, {Chances{}, Chances{}}).run(1, 0, 3);
    for (std::size_t r = 0; r < 2; ++r) {
      const std::vector<Due>& due = c.problem.products[r].due;
      const Served served = serve(c.problem.products[r], lots_of(c.problem, c.plan, r));
      for (std::size_t d = 0; d < due.size(); ++d) {
        const Units short_units = served.short_units[d];
        short_dues += short_units > 0 ? 1 : 0;
        const DueTally& of = tally.products[r].due[d];
        EXPECT_EQ(of.on_time, 3 * (due[d].units - short_units)) << "seed " << seed;
        EXPECT_EQ(of.missed, 3 * short_units) << "seed " << seed;
        EXPECT_EQ(of.in_full, short_units == 0 ? 3 : 0) << "seed " << seed;
      }
    }
  }
  EXPECT_GT(short_dues, 50);
}

TEST(Simulate, ReBrewsKeepEveryLimitBesideThePlanAndBeginAfterTheFailureOnRandomPlans) {
  int rebrews = 0;
  for (std::uint64_t seed = 1; seed <= testing::cases(100u); ++seed) {
    const RandomCase c(seed);
    const Chances often{400'000, usual.late};
    const Seasons seasons(c.problem, c.plan, {often, often});
    for (std::int64_t season = 0; season < 5; ++season) {
      Plan with = c.plan;
      std::vector<int> found(c.plan.held.size(), 0);  // last failure of each chain
      const std::vector<Attempt> attempts = seasons.attempts(seed, season);
      for (std::size_t i = 0; i < attempts.size(); ++i) {
        const Attempt& a = attempts[i];
        if (i >= c.plan.held.size()) {
          with.held.push_back(a.held);
          EXPECT_GT(c.problem.products[a.held.product].sessions[a.held.session].start,
                    found[a.chain]);
          ++rebrews;
        }
        found[a.chain] = a.ready;
      }
      EXPECT_TRUE(broken_limits(c.problem, with).empty()) << "seed " << seed;
    }
  }
  EXPECT_GT(rebrews, 200);
}

TEST(Simulate, PartsInAnyOrderAddUpToTheWholeAndTheSameSeedGivesTheSame) {
  const RandomCase c(7);
  const Seasons seasons(c.problem, c.plan, {usual, usual});
  const Tally whole = seasons.run(5, 0, 1000);
  Tally parts = seasons.run(5, 600, 400);
  parts.add(seasons.run(5, 0, 1));
  parts.add(seasons.run(5, 1, 599));
  EXPECT_TRUE(equal(parts, whole));
  EXPECT_TRUE(equal(seasons.run(5, 0, 1000), whole));
  EXPECT_FALSE(equal(seasons.run(6, 0, 1000), whole));
}

// The same luck in every season: the lots come on the same days, the dues later and later.
TEST(Simulate, MoreSlackNeverLowersWhatIsOnTimeOnRandomPlans) {
  for (std::uint64_t seed = 1; seed <= testing::cases(60u); ++seed) {
    RandomCase c(seed);
    // The last due stays, so that the same re-brews are decided; it asks for nothing.
    for (Product& product : c.problem.products) {
      for (Due& due : product.due) due.last_use = due.collect;
      product.stock.clear();
      for (Session& s : product.sessions) s.use_by = 1000 + s.ready;
      product.due.push_back({79, 90, 0, 1});
    }
    std::int64_t before[2] = {0, 0};
    for (int more = 0; more <= 12; more += 3) {
      Problem later = c.problem;
      for (std::size_t r = 0; r < 2; ++r) {
        // The lots that the plan serves, none short: what each due gets without slack.
        const Served served = serve(c.problem.products[r], lots_of(c.problem, c.plan, r));
        for (std::size_t d = 0; d + 1 < later.products[r].due.size(); ++d) {
          Due& due = later.products[r].due[d];
          due.units -= served.short_units[d];
          due.collect += more;
          due.last_use += more;
        }
      }
      const Tally tally = Seasons(later, c.plan, {usual, usual}).run(9, 0, 50);
      for (std::size_t r = 0; r < 2; ++r) {
        const auto on_time = static_cast<std::int64_t>(std::llround(50 * mean_on_time(tally, r)));
        EXPECT_GE(on_time, before[r]) << "seed " << seed << " more " << more;
        before[r] = on_time;
      }
    }
  }
}

TEST(Simulate, TheWorstTwentiethIsTheMeanOfTheWorstSeasons) {
  Tally tally;
  tally.seasons = 41;  // the worst three
  tally.products.resize(1);
  tally.products[0].due = {{0, 41 * 10 - 10 - 10 - 4, 0, 24}};
  tally.products[0].units_on_time = {{0, 2}, {6, 1}, {10, 38}};
  EXPECT_DOUBLE_EQ(share_on_time_worst(tally, 0), 6.0 / 30.0);
}

}  // namespace
}  // namespace wheyfield::lot_sizing
