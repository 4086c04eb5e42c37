// The best of several ingredients: agrees with the formula for one, keeps its limits, and never
// gets dearer by having more to choose from.
#include "compost/best_mix.h"

#include <gtest/gtest.h>

#include <support/draw.h>

namespace wheyfield::compost {
namespace {

const Contents cattle{2.4, 45.6, 81.0, 865.0};
const Contents spread_cattle{2.4, 45.6, 65.0, 865.0};
const Contents straw{0.7, 56.0, 12.0, 135.0};
const Contents cobs{0.6, 58.0, 15.0, 330.0};
const Aim thirty{30.0, 30.0, 60.0};

Offer fixed(const Contents& what, double kg) { return {what, kg, kg, 0.0}; }

std::vector<Part> parts_of(const std::vector<Offer>& offers, const BestMix& mix) {
  std::vector<Part> parts;
  for (std::size_t i = 0; i < offers.size(); ++i) parts.push_back({offers[i].what, mix.kg[i]});
  return parts;
}

TEST(BestMix, OneIngredientIsWhatTheFormulaSays) {
  const std::vector<Offer> offers{fixed(cattle, 100.0), {straw, 0.0, {}, 0.0}};
  const auto mix = nearest_mix(offers, thirty);
  ASSERT_TRUE(mix.has_value());
  EXPECT_NEAR(mix->kg[1], 16.286, 5e-4);
}

TEST(BestMix, WhatThereIsNotEnoughOfIsUsedUp) {
  const std::vector<Offer> offers{fixed(cattle, 100.0), {straw, 0.0, 10.0, 0.0}};
  const auto mix = nearest_mix(offers, thirty);
  EXPECT_NEAR(mix->kg[1], 10.0, 1e-6);
  EXPECT_FALSE(cheapest_mix(offers, thirty).has_value());
}

TEST(BestMix, TheCheaperBrownIsTakenWithinTheLimits) {
  const std::vector<Offer> offers{
      fixed(spread_cattle, 100.0), {straw, 0.0, {}, 3.0}, {cobs, 0.0, {}, 1.0}};
  const auto mix = cheapest_mix(offers, {25.0, 30.0, 60.0});
  ASSERT_TRUE(mix.has_value());
  EXPECT_NEAR(mix->kg[1], 0.0, 1e-6);
  const Blend blended = blend(parts_of(offers, *mix));
  EXPECT_NEAR(*blended.ratio(), 25.0, 1e-6);
  EXPECT_NEAR(mix->cost, mix->kg[2], 1e-9);
  EXPECT_LE(blended.moisture(), 60.0 + 1e-6);
}

TEST(BestMix, AHeapOfAThousandLitresIsFilled) {
  const std::vector<Offer> offers{{spread_cattle, 0.0, {}, 1.0}, {straw, 0.0, {}, 2.0}};
  const auto mix = cheapest_mix(offers, {25.0, 30.0, 60.0, 1000.0});
  ASSERT_TRUE(mix.has_value());
  EXPECT_GE(*loose_litres(parts_of(offers, *mix)), 1000.0 - 1e-6);
  EXPECT_FALSE(nearest_mix({{straw, 0.0, 10.0, 0.0}}, {25.0, 30.0, 60.0, 1000.0}).has_value());
}

struct Drawn {
  std::vector<Offer> offers;
  Aim aim;
};

Drawn drawn(testing::Draw& draw) {
  Drawn drawn;
  const auto contents = [&](double low, double high) {
    const double nitrogen = draw.real(0.2, 4.0);
    const double carbon = std::min(58.0, nitrogen * draw.real(low, high));
    return Contents{nitrogen, carbon, draw.real(5.0, 85.0), draw.real(50.0, 900.0)};
  };
  for (int i = 0; i < draw.between(2, 8); ++i) {
    Offer offer{
        i % 2 == 0 ? contents(6.0, 28.0) : contents(32.0, 200.0), 0.0, {}, draw.real(0.1, 20.0)};
    if (draw.below(3) == 0) offer.at_most = draw.real(10.0, 500.0);
    if (draw.below(5) == 0) offer.at_least = draw.real(0.0, 10.0);
    drawn.offers.push_back(offer);
  }
  drawn.aim = {25.0, 30.0, 65.0, draw.real(100.0, 1500.0)};
  return drawn;
}

TEST(BestMix, TheCheapestKeepsEveryLimit) {
  testing::Draw draw(8);
  int found = 0;
  for (int round = 0; round < testing::cases(400); ++round) {
    const Drawn d = drawn(draw);
    const auto mix = cheapest_mix(d.offers, d.aim);
    if (!mix) continue;
    ++found;
    const std::vector<Part> parts = parts_of(d.offers, *mix);
    const Blend blended = blend(parts);
    ASSERT_GE(*blended.ratio(), d.aim.ratio_low - 1e-5);
    ASSERT_LE(*blended.ratio(), d.aim.ratio_high + 1e-5);
    ASSERT_LE(blended.moisture(), d.aim.moisture_high + 1e-5);
    ASSERT_GE(*loose_litres(parts), d.aim.litres - 1e-4);
    for (std::size_t i = 0; i < parts.size(); ++i) {
      ASSERT_GE(parts[i].kg, d.offers[i].at_least - 1e-6);
      ASSERT_LE(parts[i].kg, d.offers[i].at_most.value_or(1e12) + 1e-6);
    }
  }
  EXPECT_GT(found, testing::cases(150));
}

TEST(BestMix, OneMoreToChooseFromNeverCostsMore) {
  testing::Draw draw(9);
  for (int round = 0; round < testing::cases(200); ++round) {
    Drawn d = drawn(draw);
    const auto before = cheapest_mix(d.offers, d.aim);
    Offer other = drawn(draw).offers.front();
    other.at_least = 0.0;
    other.price /= 4.0;
    d.offers.push_back(other);
    const auto after = cheapest_mix(d.offers, d.aim);
    if (!before) continue;
    ASSERT_TRUE(after.has_value()) << round;
    ASSERT_LE(after->cost, before->cost * (1.0 + 1e-6) + 1e-6) << round;
  }
}

// Where some mix keeps all limits, the nearest one oversteps none.
TEST(BestMix, TheNearestKeepsTheRatioWhereAnyMixDoes) {
  testing::Draw draw(10);
  for (int round = 0; round < testing::cases(200); ++round) {
    const Drawn d = drawn(draw);
    if (!cheapest_mix(d.offers, d.aim)) continue;
    const auto mix = nearest_mix(d.offers, d.aim);
    ASSERT_TRUE(mix.has_value());
    const Blend blended = blend(parts_of(d.offers, *mix));
    ASSERT_GE(*blended.ratio(), d.aim.ratio_low - 1e-4);
    ASSERT_LE(*blended.ratio(), d.aim.ratio_high + 1e-4);
    ASSERT_LE(blended.moisture(), d.aim.moisture_high + 1e-4);
  }
}

}  // namespace
}  // namespace wheyfield::compost
