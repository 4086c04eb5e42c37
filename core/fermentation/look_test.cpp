#include "fermentation/look.h"

#include <gtest/gtest.h>

namespace wheyfield::fermentation {
namespace {

Look strip(double hours, double ph) {
  Look look;
  look.hours = hours;
  look.ph = ph;
  return look;
}

TEST(FermentationLook, OfTwoPeopleTheHigherPhCounts) {
  for (const bool higher_first : {true, false}) {
    const Look a = strip(18, higher_first ? 4.5 : 4.0);
    const Look b = strip(18, higher_first ? 4.0 : 4.5);
    const auto visits = one_for_each_visit({a, b});
    ASSERT_EQ(visits.size(), 1u);
    EXPECT_EQ(visits[0].ph, 4.5);
  }
}

TEST(FermentationLook, TheScaleGoesWithThePhThatCounts) {
  Look meter = strip(18, 4.3);
  meter.scale = Scale::meter;
  EXPECT_EQ(one_for_each_visit({strip(18, 4.0), meter})[0].scale, Scale::meter);
  EXPECT_EQ(one_for_each_visit({strip(18, 4.5), meter})[0].scale, Scale::half_strip);
}

TEST(FermentationLook, SetAndClearOnlyWhereNobodyDenies) {
  Look yes, no, silent;
  yes.set = yes.clear_liquid = true;
  no.set = no.clear_liquid = false;
  EXPECT_EQ(one_for_each_visit({yes, no})[0].set, false);
  EXPECT_EQ(one_for_each_visit({no, yes})[0].set, false);
  EXPECT_EQ(one_for_each_visit({silent, yes})[0].set, true);
  EXPECT_EQ(one_for_each_visit({yes, silent})[0].clear_liquid, true);
  EXPECT_FALSE(one_for_each_visit({silent, silent})[0].set);
}

TEST(FermentationLook, TheGraverSignCounts) {
  Look mould, clean;
  mould.surface = "coloured-mould";
  mould.smell = "clean-sour";
  clean.surface = "clear";
  clean.smell = "putrid";
  for (const auto& both : {std::vector{mould, clean}, std::vector{clean, mould}}) {
    const Look visit = one_for_each_visit(both)[0];
    EXPECT_EQ(visit.surface, "coloured-mould");
    EXPECT_EQ(visit.smell, "putrid");
  }
}

TEST(FermentationLook, VisitsAtOtherHoursStayApart) {
  const auto visits = one_for_each_visit({strip(6, 6.0), strip(18, 5.0), strip(18, 5.5)});
  ASSERT_EQ(visits.size(), 2u);
  EXPECT_EQ(visits[0].ph, 6.0);
  EXPECT_EQ(visits[1].ph, 5.5);
}

TEST(FermentationLook, WhatTheModelCanUse) {
  Look look = strip(18, 4.5);
  look.scale = Scale::third_strip;
  look.set = false;
  look.celsius = 21.0;
  look.smell = "sweet";
  const auto readings = readings_of({look});
  ASSERT_EQ(readings.size(), 3u);
  EXPECT_EQ(readings[0].kind, Reading::Kind::strip);
  EXPECT_EQ(readings[0].step, 0.3);
  EXPECT_EQ(readings[1].kind, Reading::Kind::set);
  EXPECT_EQ(readings[1].value, 0.0);
  EXPECT_EQ(readings[2].value, 21.0);
  look.scale = Scale::meter;
  EXPECT_EQ(readings_of({look})[0].kind, Reading::Kind::meter);
  EXPECT_TRUE(readings_of({Look()}).empty());
}

}  // namespace
}  // namespace wheyfield::fermentation
