#include "season/back_scheduler.h"

#include <gtest/gtest.h>
#include <support/day.h>
#include <support/random_season.h>

#include <algorithm>
#include <numeric>
#include <random>

#include "season/batch_ledger.h"
#include "season/lot_planner.h"
#include "season/plan_check.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using wheyfield::testing::on;

// The most that lots can give to demands, by augmenting paths: no rule of sharing out is assumed.
class MostServed {
 public:
  MostServed(const std::vector<Lot>& lots, const std::vector<Demand>& demand)
      : lots_(lots),
        demand_(demand),
        given_(lots.size(), std::vector<std::int64_t>(demand.size())) {
    for (const Demand& d : demand) need_.push_back(d.ml);
  }

  std::int64_t ml() {
    std::int64_t served = 0;
    for (std::size_t lot = 0; lot < lots_.size(); ++lot)
      for (std::int64_t left = lots_[lot].ml; left > 0;) {
        seen_.assign(demand_.size(), false);
        const std::int64_t ml = give(lot, left);
        if (ml == 0) break;
        left -= ml;
        served += ml;
      }
    return served;
  }

 private:
  // Gives up to `ml` of a lot to one demand, moving on another lot that serves it.
  std::int64_t give(std::size_t lot, std::int64_t ml) {
    for (std::size_t d = 0; d < demand_.size(); ++d) {
      if (seen_[d] || lots_[lot].from > demand_[d].collect ||
          lots_[lot].use_by < demand_[d].last_use)
        continue;
      seen_[d] = true;
      std::int64_t moved = std::min(ml, need_[d]);
      need_[d] -= moved;
      for (std::size_t other = 0; other < lots_.size() && moved == 0; ++other) {
        if (given_[other][d] == 0) continue;
        moved = give(other, std::min(ml, given_[other][d]));
        given_[other][d] -= moved;
      }
      given_[lot][d] += moved;
      if (moved > 0) return moved;
    }
    return 0;
  }

  const std::vector<Lot>& lots_;
  const std::vector<Demand>& demand_;
  std::vector<std::vector<std::int64_t>> given_;
  std::vector<std::int64_t> need_;
  std::vector<bool> seen_;
};

// One or two vessels in a steady place, milk each Thursday: few enough batches to try every set of
// them. In every third season the first demand comes before any batch can be ready.
struct Tiny {
  Season season = wheyfield::testing::small_season();
  BatchProblem problem;

  explicit Tiny(std::uint64_t seed, Milk milk = Milk::raw) {
    std::mt19937_64 random(seed);
    const auto between = [&](int low, int high) {
      return low + static_cast<int>(random() % static_cast<std::uint64_t>(high - low + 1));
    };
    season.places[0] = wheyfield::testing::steady_place("lower", between(0, 1) ? 22.0 : 15.0, 5);
    season.serum_life_days = between(20, 60);
    season.milk[0].most = quantity::millilitres(between(20, 80) * 50);
    if (between(0, 1)) season.vessels.push_back(season.vessels[0]);
    for (Vessel& v : season.vessels) v.fill_line = quantity::litres(between(20, 50) / 10.0);
    for (Vessel& v : season.vessels) v.milk = milk;
    season.first_start = on(1, 1) + between(season.vessels.size() > 1 ? 25 : 0, 50);
    problem = wheyfield::testing::gathered(season).problem;
    problem.season = &season;
    for (int i = between(2, 5); i > 0; --i) {
      const Date collect = on(3, 4) + 7 * between(0, 8);
      problem.demand.push_back({collect, collect + between(2, 18), between(1, 12) * 250});
    }
    if (between(0, 2) == 0)
      problem.demand.push_back({season.first_start + 2, season.first_start + 4, 300});
    std::sort(problem.demand.begin(), problem.demand.end(), [](const Demand& a, const Demand& b) {
      return a.collect != b.collect ? a.collect < b.collect : a.last_use < b.last_use;
    });
  }

  std::int64_t due() const {
    return std::accumulate(problem.demand.begin(), problem.demand.end(), std::int64_t{0},
                           [](std::int64_t sum, const Demand& d) { return sum + d.ml; });
  }

  // The least that must stay short: every set of batches that the vessels can hold, each as large
  // as the milk and the fill line allow. 1.1 L stand in the vessel for 1 L of product, which takes
  // 1 L of milk (the recipe's ratios, written out).
  std::int64_t least_short() const {
    std::vector<Choice> choices;
    ChainTable chains(problem);
    const auto stands = static_cast<std::size_t>(problem.recipe->vessel_step());
    for (Date day = season.first_start; day <= problem.demand.back().collect; day = day + 1) {
      const auto& chain = chains.at(0, season.vessels[0].milk, day);
      if (!chain || chain->front().from < season.first_start || !season.meetings.meets(day))
        continue;
      const Date ready = chain->back().to;
      choices.push_back({day, (*chain)[stands].to, {ready, ready + season.serum_life_days, 0}});
    }
    std::vector<Lot> lots;
    std::vector<Date> free(season.vessels.size(), season.first_start);
    return due() - most_from(choices, 0, free, lots);
  }

 private:
  struct Choice {
    Date filled, emptied;
    Lot lot;
  };

  std::int64_t most_from(const std::vector<Choice>& choices, std::size_t next,
                         const std::vector<Date>& free, std::vector<Lot>& lots) const {
    if (next == choices.size()) return MostServed(lots, problem.demand).ml();
    const Choice& c = choices[next];
    const std::int64_t milk = quantity::whole_millilitres(season.milk[0].most);
    const Date next_fill = next + 1 < choices.size() ? choices[next + 1].filled : c.emptied;
    std::int64_t most = 0;
    for (unsigned used = 1u << free.size(); used-- > 0 && most < due();) {
      std::int64_t holds = 0;
      std::vector<Date> after = free;
      bool possible = true;
      for (std::size_t v = 0; v < free.size(); ++v) {
        if ((used >> v & 1u) == 0) {
          // Nothing is gained by leaving a vessel empty that would be empty again by the next milk.
          possible = possible && !(free[v] <= c.filled && c.emptied <= next_fill);
          continue;
        }
        possible = possible && free[v] <= c.filled;
        holds += quantity::whole_millilitres(season.vessels[v].fill_line) * 10 / 11;
        after[v] = c.emptied;
      }
      if (!possible) continue;
      lots.push_back({c.lot.from, c.lot.use_by, std::min(holds, milk)});
      most = std::max(most, most_from(choices, next + 1, after, lots));
      lots.pop_back();
    }
    return most;
  }
};

TEST(SeasonBackScheduler, NoMoreIsShortThanMustBeInTinySeasons) {
  int met = 0, lacking = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(300u); ++seed) {
    const Tiny tiny(seed);
    const std::int64_t unavoidable = tiny.least_short();
    const std::int64_t short_ml = BackScheduler().plan(tiny.problem).total_short();
    EXPECT_EQ(short_ml, unavoidable) << "seed " << seed;
    ++(unavoidable == 0 ? met : lacking);
  }
  EXPECT_GT(met, wheyfield::testing::cases(100));
  EXPECT_GT(lacking, wheyfield::testing::cases(100));
}

// Heated milk at 15 C is ready by forecast in 385 h and stands 17 days, where raw milk stands a
// week: counting back leaves more short than must be in four seasons of 300, the planner in none.
TEST(SeasonBackScheduler, InASlowVesselItMayLeaveMoreShortWhereThePlannerDoesNot) {
  int more = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(300u); ++seed) {
    const Tiny tiny(seed, Milk::heated_cooled);
    const std::int64_t unavoidable = tiny.least_short();
    const std::int64_t short_ml = BackScheduler().plan(tiny.problem).total_short();
    EXPECT_GE(short_ml, unavoidable) << "seed " << seed;
    EXPECT_EQ(LotPlanner().plan(tiny.problem).total_short(), unavoidable) << "seed " << seed;
    more += short_ml > unavoidable ? 1 : 0;
  }
  EXPECT_LE(more, 4);
}

// The plan with half a litre more in one batch, if fill line and milk allow it.
std::optional<BatchPlan> with_more(const BatchProblem& problem, const BatchPlan& plan,
                                   std::size_t batch) {
  BatchPlan larger = plan;
  larger.batches[batch].stored_ml += 500;
  if (!check_plan(problem, larger).empty()) return std::nullopt;
  return larger;
}

// Every demand in its order from what is ready and keeps, soonest to expire first.
std::int64_t short_when_shared_anew(const BatchProblem& problem, const BatchPlan& plan) {
  std::vector<Lot> lots = problem.opening;
  for (const Batch& made : plan.batches)
    if (!made.spare) lots.push_back({made.ready, made.use_by, made.stored_ml});
  std::stable_sort(lots.begin(), lots.end(),
                   [](const Lot& a, const Lot& b) { return a.use_by < b.use_by; });
  std::int64_t short_ml = 0;
  for (const Demand& d : problem.demand) {
    std::int64_t need = d.ml;
    for (Lot& lot : lots) {
      if (lot.from > d.collect || lot.use_by < d.last_use) continue;
      const std::int64_t ml = std::min(need, lot.ml);
      lot.ml -= ml;
      need -= ml;
    }
    short_ml += need;
  }
  return short_ml;
}

TEST(SeasonBackScheduler, NoBatchCouldSimplyBeLargerAndLeaveLessShort) {
  int tried = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(80u); ++seed) {
    const Season season = wheyfield::testing::random_season(seed);
    const GatheredDemand demand = wheyfield::testing::gathered(season);
    const BatchPlan plan = BackScheduler().plan(demand.problem);
    if (plan.total_short() == 0) continue;
    for (std::size_t b = 0; b < plan.batches.size(); ++b) {
      if (plan.batches[b].spare) continue;
      const auto larger = with_more(demand.problem, plan, b);
      if (!larger) continue;
      ++tried;
      ASSERT_GE(short_when_shared_anew(demand.problem, *larger), plan.total_short())
          << "seed " << seed << " batch " << b;
    }
  }
  EXPECT_GT(tried, wheyfield::testing::cases(100));
}

TEST(SeasonBackScheduler, EveryWantedSpareIsMadeOrCountedAsMissing) {
  int missing = 0, made = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(200u); ++seed) {
    const Season season = wheyfield::testing::random_season(seed);
    const BatchPlan plan = BackScheduler().plan(wheyfield::testing::gathered(season).problem);
    const auto spares = static_cast<int>(std::count_if(plan.batches.begin(), plan.batches.end(),
                                                       [](const Batch& b) { return b.spare; }));
    const int planned = static_cast<int>(plan.batches.size()) - spares;
    const int each = season.batches_per_spare;
    ASSERT_EQ(spares + plan.spares_missing, each == 0 ? 0 : (planned + each - 1) / each)
        << "seed " << seed;
    missing += plan.spares_missing;
    made += spares;
  }
  EXPECT_GT(missing, wheyfield::testing::cases(20));
  EXPECT_GT(made, wheyfield::testing::cases(20));
}

// High in the valley a bucket stands two weeks: filled on 4 and 18 February, 4 and 18 March it
// gives 16 L, which serves the practice season's cool variant; on 11 and 25 it does not.
TEST(SeasonBackScheduler, ABucketIsFilledInTheOtherWeeksWhenThatServesMore) {
  Season s = wheyfield::testing::small_season();
  s.places[0] = wheyfield::testing::steady_place("upper", 17.0, 5);
  s.first_start = on(1, 25);
  BatchProblem problem = wheyfield::testing::gathered(s).problem;
  problem.season = &s;
  problem.demand = {{on(3, 11), on(3, 15), 7600}, {on(4, 15), on(4, 25), 8000}};
  EXPECT_EQ(BackScheduler().plan(problem).total_short(), 0);
}

}  // namespace
}  // namespace wheyfield::season
