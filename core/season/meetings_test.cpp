#include "season/meetings.h"

#include <gtest/gtest.h>
#include <support/day.h>
#include <support/random_season.h>

#include <algorithm>
#include <map>
#include <utility>

#include "recipe/scale.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using wheyfield::testing::field;
using wheyfield::testing::on;
using wheyfield::testing::planned;
using wheyfield::testing::season_of;
using wheyfield::testing::serum_recipe;

struct Met {
  Season season;
  SeasonPlan plan;
  std::vector<Meeting> all;
  const Meeting& at(Date day) const {
    return *std::find_if(all.begin(), all.end(), [&](const Meeting& m) { return m.date == day; });
  }
};

Met met(Season season, const SeasonPlan& plan) {
  Met m{std::move(season), plan, {}};
  m.all = meetings(m.season, serum_recipe(), m.plan, dosing::harvest_rule(testing::bundle()));
  return m;
}

Met met(const Season& season) { return met(season, planned(season)); }

Met met_at_random(std::uint64_t seed) {
  return met(wheyfield::testing::random_season(seed), wheyfield::testing::random_plan(seed));
}

// An acre of dressed maize: 200 mL a use. Land preparation falls 14 to 7 days before sowing.
Season one_acre(Date sown) {
  Season s = season_of({field("maize", 1, sown, 125, crop::Seed::dressed)});
  return s;
}

TEST(SeasonMeetings, AnAbsentFarmIsKeptForWhenTheNextMeetingIsInTime) {
  // Sown Monday 5 April: likely day 25 March (no meeting), so collected on the 18th; the window
  // ends on 29 March and the next meeting is on 1 April.
  Season s = one_acre(on(4, 5));
  s.absences.push_back({"1", on(3, 18)});
  const Met late = met(s);
  const Share& sent = late.at(on(3, 18)).shares.at(0);
  EXPECT_TRUE(sent.absent);
  ASSERT_TRUE(sent.send_by.has_value());
  EXPECT_EQ(sent.send_by->iso(), "2027-03-29");

  // Sown a fortnight later: collected on 8 April, window until the 12th, next meeting the 15th.
  // With a window as long as the seedling's, the next meeting is in time.
  const Met plan = met(one_acre(on(4, 5)));
  for (const Meeting& m : plan.all)
    for (const Share& share : m.shares) {
      if (share.uses != std::vector<std::string>{"flowering"}) continue;
      Season away = one_acre(on(4, 5));
      away.absences.push_back({"1", m.date});
      const Met kept = met(away);
      EXPECT_TRUE(kept.at(m.date).shares.at(0).absent);
      EXPECT_FALSE(kept.at(m.date).shares.at(0).send_by.has_value());
      return;
    }
  FAIL() << "no flowering use was collected";
}

TEST(SeasonMeetings, WhoeverIsThereHasNothingToSend) {
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(60u); ++seed)
    for (const Meeting& m : met_at_random(seed).all)
      for (const Share& share : m.shares)
        ASSERT_TRUE(share.absent || !share.send_by) << "seed " << seed;
}

TEST(SeasonMeetings, MilkComesFromTheGroupAndMolassesFromTheTrainer) {
  const Met m = met(one_acre(on(4, 5)));
  const Batch& batch = m.plan.batches.batches.at(0);
  const double litres = static_cast<double>(batch.stored_ml) / 1000.0;
  const Meeting& milk = m.at(on(3, 11));
  ASSERT_EQ(milk.bring.size(), 1u);
  EXPECT_EQ(milk.bring[0].item, "milk");
  EXPECT_DOUBLE_EQ(milk.bring[0].amount, litres);  // a litre of milk to a litre of stored serum
  EXPECT_NEAR(milk.milk_money.amount(), 50 * litres, 1e-9);
  const Meeting& mix = m.at(on(3, 18));
  const auto molasses = std::find_if(mix.bring.begin(), mix.bring.end(),
                                     [](const Bring& b) { return b.item == "molasses"; });
  ASSERT_NE(molasses, mix.bring.end());
  EXPECT_NEAR(molasses->amount, litres / 2, 1e-9);
  EXPECT_EQ(molasses->cost.thousandths(), 0);
}

TEST(SeasonMeetings, EveryMillilitreHandedOutStandsOnOnePage) {
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(60u); ++seed) {
    const Met m = met_at_random(seed);
    std::int64_t shared = 0, drawn = 0;
    for (const Meeting& meeting : m.all)
      for (const Share& share : meeting.shares) {
        shared += share.serum_ml;
        for (const SeedShare& seed : share.by_seed) shared += seed.kept_ml;
      }
    for (const PlannedUse& use : m.plan.uses)
      if (use.due.collect_on)
        for (const Draw& draw : use.draws) drawn += draw.ml;
    ASSERT_EQ(shared, drawn) << "seed " << seed;
  }
}

// Whether or not the group meets on the day of the step.
TEST(SeasonMeetings, AllThatABatchTakesStandsOnTheLastMeetingUpToItsStep) {
  int later = 0;
  for (std::uint64_t seed = 1; seed <= wheyfield::testing::cases(60u); ++seed) {
    const Met m = met_at_random(seed);
    std::map<std::pair<std::size_t, std::string>, double> brought;
    for (const Meeting& meeting : m.all)
      for (const Bring& bring : meeting.bring) {
        brought[{bring.batch, bring.item}] += bring.amount;
        ASSERT_EQ(m.season.meetings.last_up_to(bring.on)->iso(), meeting.date.iso());
        later += bring.on != meeting.date;
      }
    const std::vector<Batch>& batches = m.plan.batches.batches;
    for (std::size_t i = 0; i < batches.size(); ++i) {
      const recipe::Scaled scaled =
          recipe::scale(serum_recipe(), static_cast<double>(batches[i].stored_ml) / 1000.0);
      for (const recipe::Material& material : serum_recipe().materials) {
        if (!material.bought) continue;
        const double taken = scaled.taken(material.id);
        ASSERT_NEAR((brought[{i, material.id}]), taken, 1e-9)
            << "seed " << seed << ", " << batches[i].name << ", " << material.id;
      }
    }
  }
  EXPECT_GT(later, wheyfield::testing::cases(10));
}

}  // namespace
}  // namespace wheyfield::season
