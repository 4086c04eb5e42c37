#include "season/plan_check.h"

#include <gtest/gtest.h>
#include <support/random_season.h>

#include <set>

#include "season/back_scheduler.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using wheyfield::testing::gathered;
using wheyfield::testing::random_season;

std::string told(const outcome::Problems& problems) {
  std::string text;
  for (const outcome::Problem& p : problems) text += p.code + " " + p.field + " " + p.value + "\n";
  return text;
}

struct Population {
  int empty = 0, short_of_serum = 0, met_in_full = 0, batches = 0, spares = 0, cool = 0, warm = 0;
  int from_stock = 0, from_batch = 0, shared_vessels = 0;

  void count(const BatchProblem& problem, const BatchPlan& plan) {
    empty += problem.demand.empty() ? 1 : 0;
    if (!problem.demand.empty()) ++(plan.total_short() > 0 ? short_of_serum : met_in_full);
    std::set<std::size_t> vessels;
    for (const Batch& batch : plan.batches) {
      ++batches;
      spares += batch.spare ? 1 : 0;
      for (const BatchStep& step : batch.steps)
        if (step.step == 2) ++(step.cool ? cool : warm);
      if (!vessels.insert(batch.vessel).second) ++shared_vessels;
    }
    for (const auto& draws : plan.draws)
      for (const Draw& draw : draws)
        ++(draw.lot < problem.opening.size() ? from_stock : from_batch);
  }
};

TEST(SeasonPlanCheck, AcceptsThePlannerOnAThousandRandomSeasons) {
  Population seen;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(1000u); ++seed) {
    const Season season = random_season(seed);
    const GatheredDemand demand = gathered(season);
    const BatchPlan plan = BackScheduler().plan(demand.problem);
    const outcome::Problems problems = check_plan(demand.problem, plan);
    ASSERT_TRUE(problems.empty()) << "seed " << seed << "\n" << told(problems);
    seen.count(demand.problem, plan);
  }
  EXPECT_GT(seen.empty, wheyfield::testing::cases(10));
  EXPECT_GT(seen.short_of_serum, wheyfield::testing::cases(200));
  EXPECT_GT(seen.met_in_full, wheyfield::testing::cases(100));
  EXPECT_GT(seen.batches, wheyfield::testing::cases(3000));
  EXPECT_GT(seen.spares, wheyfield::testing::cases(500));
  EXPECT_GT(seen.cool, wheyfield::testing::cases(1000));
  EXPECT_GT(seen.warm, wheyfield::testing::cases(1000));
  EXPECT_GT(seen.from_stock, wheyfield::testing::cases(500));
  EXPECT_GT(seen.from_batch, wheyfield::testing::cases(3000));
  EXPECT_GT(seen.shared_vessels, wheyfield::testing::cases(1000));
}

// A sound plan with stock in hand, two planned batches in one vessel and a spare.
class SeasonPlanCheckCorruption : public ::testing::Test {
 protected:
  SeasonPlanCheckCorruption() {
    season_ = wheyfield::testing::small_season();
    season_.serum_life_days = 20;
    season_.batches_per_spare = 6;
    season_.stock.push_back({"serum", 0.3, "L", Date::from_civil(2027, 2, 10)});
    season_.farms.push_back(wheyfield::testing::farm(
        "1", 100, {wheyfield::testing::field("maize", 5, Date::from_civil(2027, 3, 8), 125)}));
    demand_ = gathered(season_);
    plan_ = BackScheduler().plan(demand_.problem);
  }

  void SetUp() override {
    ASSERT_EQ(told(check_plan(demand_.problem, plan_)), "");
    ASSERT_EQ(demand_.problem.opening.size(), 1u);
    ASSERT_FALSE(demand_.problem.demand.empty());
    for (std::size_t i = 0; i < plan_.batches.size(); ++i)
      (plan_.batches[i].spare ? spares_ : planned_).push_back(i);
    ASSERT_GE(planned_.size(), 2u);
    ASSERT_GE(spares_.size(), 1u);
    ASSERT_FALSE(last_draws().empty());
  }

  Batch& first() { return plan_.batches[planned_.front()]; }
  Batch& last() { return plan_.batches[planned_.back()]; }
  std::vector<Draw>& last_draws() { return plan_.draws.back(); }
  std::size_t lot_of(std::size_t batch) { return demand_.problem.opening.size() + batch; }
  BatchStep& vessel_step(Batch& batch) { return batch.steps[2]; }

  // The codes of the problems found, without repeats, in order of the alphabet.
  std::string codes() {
    std::set<std::string> all;
    for (const outcome::Problem& p : check_plan(demand_.problem, plan_)) all.insert(p.code);
    std::string text;
    for (const std::string& code : all) text += (text.empty() ? "" : " ") + code;
    return text;
  }

  static void move(Batch& batch, int days) {
    for (BatchStep& s : batch.steps) {
      s.from = s.from + days;
      s.to = s.to + days;
      s.ready = {s.ready.early + days, s.ready.likely + days, s.ready.late + days};
      s.stands_until = s.stands_until + days;
    }
    batch.ready = batch.ready + days;
    batch.use_by = batch.use_by + days;
  }

  Season season_;
  GatheredDemand demand_;
  BatchPlan plan_;
  std::vector<std::size_t> planned_, spares_;
};

TEST_F(SeasonPlanCheckCorruption, ABatchBegunBeforeTheFirstStartIsRefused) {
  season_.first_start = first().start() + 1;
  EXPECT_EQ(codes(), "plan-starts-too-early");
}

TEST_F(SeasonPlanCheckCorruption, AMissingStepIsRefused) {
  first().steps.erase(first().steps.begin());
  EXPECT_EQ(codes(), "plan-steps-broken");
}

TEST_F(SeasonPlanCheckCorruption, AGapBetweenStepsIsRefused) {
  BatchStep& soak = first().steps[0];
  soak.from = soak.from - 1;
  soak.to = soak.to - 1;
  soak.ready = {soak.ready.early - 1, soak.ready.likely - 1, soak.ready.late - 1};
  EXPECT_EQ(codes(), "plan-steps-broken");
}

TEST_F(SeasonPlanCheckCorruption, StepsInAnotherOrderAreRefused) {
  std::swap(first().steps[3].step, first().steps[4].step);
  EXPECT_EQ(codes(), "plan-steps-broken");
}

TEST_F(SeasonPlanCheckCorruption, RinseWaterPouredOffBeforeItsLateEndIsRefused) {
  BatchStep& soak = first().steps[0];
  BatchStep& stand = first().steps[1];
  soak.from = soak.from + 1;
  soak.to = soak.to + 1;
  soak.ready = {soak.ready.early + 1, soak.ready.likely + 1, soak.ready.late + 1};
  stand.from = stand.from + 1;
  stand.ready = {stand.ready.early + 1, stand.ready.likely + 1, stand.ready.late + 1};
  EXPECT_EQ(codes(), "plan-dwell-short");
}

TEST_F(SeasonPlanCheckCorruption, AnOvernightSoakOfTwoNightsIsRefused) {
  BatchStep& soak = first().steps[0];
  soak.from = soak.from - 1;
  soak.ready = {soak.ready.early - 1, soak.ready.likely - 1, soak.ready.late - 1};
  EXPECT_EQ(codes(), "plan-dwell-long");
}

TEST_F(SeasonPlanCheckCorruption, AWindowNarrowedToItsLikelyDayIsRefused) {
  BatchStep& stand = first().steps[1];
  stand.ready.early = stand.ready.likely;
  EXPECT_EQ(codes(), "plan-window-wrong");
}

// Milk poured on a Thursday is ready by the Thursday after; Friday would do, but nobody meets then.
TEST_F(SeasonPlanCheckCorruption, StrainingTheDayAfterTheMeetingIsRefused) {
  BatchStep& stands = vessel_step(last());
  ASSERT_EQ(stands.to.weekday(), calendar::Weekday::thursday);
  stands.to = stands.to + 1;
  for (std::size_t k = 3; k < last().steps.size(); ++k) {
    BatchStep& s = last().steps[k];
    s.from = s.from + 1;
    s.to = s.to + 1;
    s.ready = {s.ready.early + 1, s.ready.likely + 1, s.ready.late + 1};
  }
  last().ready = last().ready + 1;
  last().use_by = last().use_by + 1;
  EXPECT_NE(codes().find("plan-group-day"), std::string::npos) << codes();
}

TEST_F(SeasonPlanCheckCorruption, AVesselThatNobodyHasIsRefused) {
  first().vessel = season_.vessels.size();
  EXPECT_EQ(codes(), "plan-vessel-unknown");
}

TEST_F(SeasonPlanCheckCorruption, MilkAboveTheFillLineIsRefused) {
  season_.milk[0].most = quantity::litres(100);
  first().stored_ml = 12273;  // 13.5 L hold 13.5 / 1.1 = 12.2727 L of milk and its rinse-water
  EXPECT_EQ(codes(), "plan-vessel-overfull");
  first().stored_ml = 12272;
  EXPECT_EQ(codes(), "");
}

TEST_F(SeasonPlanCheckCorruption, TwoBatchesInOneVesselAreRefused) {
  season_.milk[0].meeting_days_only = false;
  season_.milk[0].most = quantity::litres(40);
  move(first(), vessel_step(last()).from - vessel_step(first()).from);
  plan_.draws.assign(plan_.draws.size(), {});
  plan_.short_ml.clear();
  for (const Demand& demand : demand_.problem.demand) plan_.short_ml.push_back(demand.ml);
  EXPECT_EQ(codes(), "plan-vessel-busy");
}

// The small season lies at 22 C, where by forecast nine in ten batches of heated milk are ready in
// 96 h, four days; at 0.6 of that speed in 160 h, seven.
TEST_F(SeasonPlanCheckCorruption, AForecastOfAnotherSpeedIsRefused) {
  for (Place& place : season_.places) place.pace = 0.6;
  EXPECT_EQ(codes(), "plan-window-wrong");
}

TEST_F(SeasonPlanCheckCorruption, LessThanThePublishedDaysIsRefusedUntilBatchesAreRecorded) {
  for (Place& place : season_.places) place.pace = 2.0;
  demand_.problem.readiness.batches_recorded = 3;
  plan_ = BackScheduler().plan(demand_.problem);
  ASSERT_EQ(codes(), "");
  demand_.problem.readiness.batches_recorded = 2;
  EXPECT_EQ(codes(), "plan-window-wrong");
}

TEST_F(SeasonPlanCheckCorruption, MilkThatIsNeverSourIsRefused) {
  season_.places[0] = wheyfield::testing::steady_place("lower", 8.0, 5);
  EXPECT_NE(codes().find("plan-never-ready"), std::string::npos) << codes();
}

TEST_F(SeasonPlanCheckCorruption, MilkOnADayWithoutMilkIsRefused) {
  season_.meetings.none_on.push_back(vessel_step(first()).from);
  EXPECT_EQ(codes(), "plan-milk-over");
}

TEST_F(SeasonPlanCheckCorruption, AThimbleMoreMilkThanCanBeHadIsRefused) {
  season_.milk[0].most =
      quantity::millilitres(static_cast<double>(plan_.batches[planned_.front()].stored_ml));
  for (Batch& batch : plan_.batches) batch.stored_ml = first().stored_ml;
  EXPECT_EQ(codes(), "");
  first().stored_ml += 1;
  EXPECT_EQ(codes(), "plan-milk-over");
}

TEST_F(SeasonPlanCheckCorruption, SerumSaidReadyADayEarlyIsRefused) {
  first().ready = first().ready - 1;
  first().use_by = first().use_by - 1;
  EXPECT_EQ(codes(), "plan-ready-wrong");
}

TEST_F(SeasonPlanCheckCorruption, ALongerLifeThanTheGroupEnteredIsRefused) {
  first().use_by = first().use_by + 1;
  EXPECT_EQ(codes(), "plan-life-wrong");
}

TEST_F(SeasonPlanCheckCorruption, MoreDrawnThanMadeIsRefused) {
  std::int64_t drawn = 0;
  for (const auto& draws : plan_.draws)
    for (const Draw& draw : draws)
      if (draw.lot == lot_of(planned_.back())) drawn += draw.ml;
  ASSERT_GT(drawn, 1);
  last().stored_ml = drawn - 1;
  EXPECT_EQ(codes(), "plan-lot-overdrawn");
}

TEST_F(SeasonPlanCheckCorruption, ALotThatIsNotThereIsRefused) {
  last_draws().front().lot = lot_of(plan_.batches.size());
  EXPECT_EQ(codes(), "plan-lot-overdrawn");
}

TEST_F(SeasonPlanCheckCorruption, SerumHandedOutBeforeItIsReadyIsRefused) {
  plan_.draws.front() = {{lot_of(planned_.back()), 1}};
  plan_.short_ml.front() = demand_.problem.demand.front().ml - 1;
  EXPECT_EQ(codes().find("plan-draw-early"), 0u) << codes();
}

TEST_F(SeasonPlanCheckCorruption, SerumUsedPastItsDayIsRefused) {
  last_draws() = {{0, 1}};
  plan_.short_ml.back() = demand_.problem.demand.back().ml - 1;
  for (std::size_t g = 0; g + 1 < plan_.draws.size(); ++g)
    for (Draw& draw : plan_.draws[g]) {
      if (draw.lot != 0) continue;
      draw.ml -= 1;
      plan_.short_ml[g] += 1;
      break;
    }
  EXPECT_EQ(codes(), "plan-draw-expired");
}

TEST_F(SeasonPlanCheckCorruption, SerumThatExpiresBetweenHandOutAndLastUseIsRefused) {
  const Batch& batch = plan_.batches.at(last_draws().front().lot - 1);
  demand_.problem.demand.back().last_use = batch.use_by;
  EXPECT_EQ(codes(), "");
  demand_.problem.demand.back().last_use = batch.use_by + 1;
  EXPECT_EQ(codes(), "plan-draw-expired");
}

TEST_F(SeasonPlanCheckCorruption, ANegativeDrawIsRefused) {
  Draw& draw = last_draws().front();
  const Draw back{draw.lot, -1};
  draw.ml += 1;
  last_draws().push_back(back);
  EXPECT_EQ(codes(), "plan-draw-negative");
}

TEST_F(SeasonPlanCheckCorruption, ANegativeShortageIsRefused) {
  plan_.short_ml.back() = -1;
  plan_.draws.back().front().ml += 1;
  last().stored_ml = 4000;
  EXPECT_EQ(codes(), "plan-draw-negative");
}

TEST_F(SeasonPlanCheckCorruption, SerumDrawnFromASpareIsRefused) {
  plan_.batches[planned_.back()].spare = true;
  EXPECT_EQ(codes(), "plan-draw-from-spare");
}

TEST_F(SeasonPlanCheckCorruption, AForgottenMillilitreIsRefused) {
  last_draws().front().ml -= 1;
  EXPECT_EQ(codes(), "plan-demand-unbalanced");
}

TEST_F(SeasonPlanCheckCorruption, AHandOutWithoutItsDrawsIsRefused) {
  plan_.draws.pop_back();
  EXPECT_EQ(codes(), "plan-demand-unbalanced");
}

}  // namespace
}  // namespace wheyfield::season
