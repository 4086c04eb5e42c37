#include "season/tasks.h"

#include <gtest/gtest.h>
#include <support/day.h>
#include <support/random_season.h>

#include <algorithm>
#include <set>

namespace wheyfield::season {
namespace {

using calendar::Date;
using wheyfield::testing::field;
using wheyfield::testing::on;
using wheyfield::testing::planned;
using wheyfield::testing::season_of;
using wheyfield::testing::serum_recipe;

// An acre of maize sown on 5 April: land preparation is collected on Thursday 25 March's meeting,
// or, as nobody meets then, on 18 March.
Season one_acre(crop::Seed seed = crop::Seed::dressed) {
  Season s = season_of({field("maize", 1, on(4, 5), 125, seed)});
  return s;
}

const Task* find(const SeasonPlan& plan, const std::string& id) {
  const auto found = std::find_if(plan.tasks.begin(), plan.tasks.end(),
                                  [&](const Task& task) { return task.id == id; });
  return found == plan.tasks.end() ? nullptr : &*found;
}

TEST(SeasonTasks, TheBatchOfAnAcreIsDatedByHand) {
  const SeasonPlan plan = planned(one_acre());
  ASSERT_EQ(plan.batches.batches.at(0).ready.iso(), "2027-03-18");
  // Back from Thursday 18 March: milk on the 11th, rinse-water stands from the 5th, soak on the
  // 4th.
  EXPECT_EQ(find(plan, "market")->date.iso(), "2027-03-02");  // the Tuesday before
  EXPECT_EQ(find(plan, "stand-tap-water")->date.iso(), "2027-03-03");
  EXPECT_EQ(find(plan, "start-soak")->date.iso(), "2027-03-04");
  EXPECT_EQ(find(plan, "milk-call")->date.iso(), "2027-03-10");
  EXPECT_EQ(find(plan, "strain-measure")->date.iso(), "2027-03-18");
  EXPECT_EQ(find(plan, "strain-measure")->who, recipe::Who::group);
  EXPECT_EQ(find(plan, "agree-helpers"), nullptr);
}

// Milk that comes only on Friday 19 March is ready by forecast in 96 h at 22 C, on the 23rd, and
// stands well until the 28th: the meeting of the 25th falls out and that of 1 April is too late.
TEST(SeasonTasks, GroupWorkOnADayWithoutMeetingGoesToHelpersAgreedOnBefore) {
  Season s = one_acre();
  s.milk[0].meeting_days_only = false;
  s.milk[0].from = on(3, 19);
  s.milk[0].until = on(3, 19);
  s.farms[0].fields[0].planting.set_out = on(4, 19);
  const SeasonPlan plan = planned(s);
  ASSERT_EQ(plan.batches.batches.size(), 1u);
  const Task* strain = find(plan, "strain-measure");
  ASSERT_NE(strain, nullptr);
  EXPECT_EQ(strain->date.iso(), "2027-03-23");
  EXPECT_EQ(strain->who, recipe::Who::helpers);
  const Task* agree = find(plan, "agree-helpers");
  ASSERT_NE(agree, nullptr);
  EXPECT_EQ(agree->date.iso(), "2027-03-18");
  EXPECT_EQ(std::get<Date>(agree->values.at("day").held()).iso(), "2027-03-23");
}

TEST(SeasonTasks, NothingIsAskedOfTheWholeGroupOnADayWithoutMeeting) {
  int helped = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(60u); ++seed) {
    const Season s = wheyfield::testing::random_season(seed);
    const SeasonPlan& plan = wheyfield::testing::random_plan(seed);
    for (const Task& task : plan.tasks) {
      if (!task.batch) continue;
      ASSERT_TRUE(task.who != recipe::Who::group || s.meetings.meets(task.date))
          << "seed " << seed << ' ' << task.id << ' ' << task.date.iso();
      helped += task.who == recipe::Who::helpers ? 1 : 0;
    }
  }
  EXPECT_GT(helped, wheyfield::testing::cases(50));
}

// Two crops are in flower over the same days, most likely on different ones.
TEST(SeasonTasks, FieldsOfOneWindowButAnotherLikelyDayHaveALineOfTheirOwn) {
  Season s = one_acre();
  s.farms[0].fields.push_back(field("bean", 2, on(4, 5), 90, crop::Seed::dressed));
  SeasonPlan plan = planned(s);
  for (PlannedUse& use : plan.uses) {
    if (use.due.use.id != "flowering") continue;
    use.due.collect_on = on(6, 3);
    use.due.use.window = {on(6, 3), use.due.field == 0 ? on(6, 5) : on(6, 8), on(6, 12)};
  }
  std::vector<std::pair<std::string, std::string>> lines;
  for (const Task& task : tasks(s, serum_recipe(), plan))
    if (task.id == "use" && std::get<std::string>(task.values.at("use").held()) == "flowering")
      lines.emplace_back(std::get<Date>(task.values.at("likely").held()).iso(),
                         std::get<std::string>(task.values.at("crops").held()));
  EXPECT_EQ(lines, (std::vector<std::pair<std::string, std::string>>{{"2027-06-05", "maize"},
                                                                     {"2027-06-08", "bean"}}));
}

TEST(SeasonTasks, SoakingSeedCarriesTheCautionAgainstDressedSeed) {
  const auto soaks = [](const SeasonPlan& plan) {
    std::vector<Task> found;
    for (const Task& task : plan.tasks)
      if (const auto use = task.values.find("use"); use != task.values.end())
        if (std::get<std::string>(use->second.held()) == "seed-soak") found.push_back(task);
    return found;
  };
  EXPECT_TRUE(soaks(planned(one_acre(crop::Seed::dressed))).empty());
  const std::vector<Task> own = soaks(planned(one_acre(crop::Seed::own)));
  ASSERT_EQ(own.size(), 1u);
  EXPECT_EQ(own[0].cautions.front(), "dressed-seed-never");
  EXPECT_EQ(own[0].id, "soak-by-seed");
  Season weighed = one_acre(crop::Seed::own);
  weighed.farms[0].fields[0].seed_mass = quantity::kilograms(10);
  EXPECT_EQ(soaks(planned(weighed)).at(0).id, "soak-weighed");
}

// 2 mL a kilogram: what is handed out is not known until the seed is weighed.
TEST(SeasonTasks, SerumForSeedThatNobodyWeighedIsHandedOutApart) {
  const auto litres = [](const SeasonPlan& plan, const char* id) {
    double sum = 0.0;
    for (const Task& task : plan.tasks)
      if (task.id == id) sum += std::get<words::Decimal>(task.values.at("litres").held()).value;
    return sum;
  };
  Season s = one_acre(crop::Seed::own);
  EXPECT_NEAR(litres(planned(s), "hand-out"), 0.8, 1e-9);  // four uses of 200 mL
  EXPECT_NEAR(litres(planned(s), "hand-out-by-seed"), 0.2, 1e-9);
  s.farms[0].fields[0].seed_mass = quantity::kilograms(10);
  EXPECT_NEAR(litres(planned(s), "hand-out"), 0.82, 1e-9);
  EXPECT_EQ(find(planned(s), "hand-out-by-seed"), nullptr);
}

TEST(SeasonTasks, TasksAreInOrderOfTheirDaysAndEachStepOfEachBatchHasItsWork) {
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(40u); ++seed) {
    const SeasonPlan& plan = wheyfield::testing::random_plan(seed);
    ASSERT_TRUE(std::is_sorted(plan.tasks.begin(), plan.tasks.end(),
                               [](const Task& a, const Task& b) { return a.date < b.date; }));
    std::multiset<std::size_t> strained;
    for (const Task& task : plan.tasks)
      if (task.id == "strain-measure") strained.insert(*task.batch);
    ASSERT_EQ(strained.size(), plan.batches.batches.size()) << "seed " << seed;
    for (std::size_t b = 0; b < plan.batches.batches.size(); ++b)
      ASSERT_EQ(strained.count(b), 1u) << "seed " << seed << " batch " << b;
  }
}

}  // namespace
}  // namespace wheyfield::season
