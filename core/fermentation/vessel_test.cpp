#include "fermentation/vessel.h"

#include <gtest/gtest.h>

namespace wheyfield::fermentation {
namespace {

// Computed from the heat balance of a bucket 0.28 m wide, typically (data/fermentation.toml).
const std::vector<VesselRow> rows{{2, 2.4}, {5, 4.3}, {11, 6.1}, {20, 7.2}};

// The lumped vessel in closed form: 1 / sqrt(1 + (pi/2)^2) and atan(pi/2) / (pi/12).
TEST(FermentationVessel, SixHoursKeep54HundredthsOfADailyWaveAndDelayItBy383Hours) {
  EXPECT_NEAR(wave_kept(6.0), 0.537, 0.0005);
  EXPECT_NEAR(wave_delay(6.0), 3.83, 0.005);
}

TEST(FermentationVessel, EachRowGivesItsOwnHours) {
  for (const VesselRow& row : rows)
    EXPECT_NEAR(vessel_hours(rows, row.litres), row.hours, 1e-12) << row.litres;
}

TEST(FermentationVessel, MoreLitresFollowMoreSlowlyAlsoBeyondTheRows) {
  double before = 0.0;
  for (const double litres : {0.5, 1.0, 2.0, 3.0, 5.0, 8.0, 11.0, 15.0, 20.0, 60.0}) {
    const double hours = vessel_hours(rows, litres);
    EXPECT_GT(hours, before) << litres;
    before = hours;
  }
  EXPECT_LT(vessel_hours(rows, 60.0), 11.0);
}

}  // namespace
}  // namespace wheyfield::fermentation
