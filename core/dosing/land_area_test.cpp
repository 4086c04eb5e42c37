#include "dosing/land_area.h"

#include <algorithm>
#include <cmath>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/draw.h>

namespace wheyfield::dosing {
namespace {

using quantity::hectares;
using quantity::in_acres;
using quantity::in_square_metres;
using quantity::metres;
using testing::value;

double m2(const outcome::Result<Area>& area) { return in_square_metres(area.value()); }
Area tape_below() { return hectares(value("tape-below")); }

// Source: computed, Heron's classic triangles: 13-14-15 holds 84, 30-40-50 holds 600, 5-5-6 holds
// 12.
TEST(DosingLand, HeronsTriangles) {
  EXPECT_NEAR(m2(triangle_area(metres(13), metres(14), metres(15))), 84, 1e-9);
  EXPECT_NEAR(m2(triangle_area(metres(50), metres(30), metres(40))), 600, 1e-9);
  EXPECT_NEAR(m2(triangle_area(metres(5), metres(6), metres(5))), 12, 1e-9);
}

TEST(DosingLand, ATriangleThatCannotCloseIsRefusedAndItsSidesNamed) {
  const auto open = triangle_area(metres(10), metres(31), metres(20));
  ASSERT_FALSE(open);
  EXPECT_EQ(open.error()[0].code, "triangle-cannot-close");
  EXPECT_EQ(open.error()[0].field, "/b");
  EXPECT_EQ(open.error()[0].details.at("longest"), "b 31 m");
  EXPECT_EQ(open.error()[0].details.at("sum"), "30");
  EXPECT_FALSE(triangle_area(metres(10), metres(30), metres(20)));
  const auto field = taped_area({metres(30), metres(40), metres(30), metres(40), metres(80)});
  ASSERT_FALSE(field);
  EXPECT_EQ(field.error().size(), 2u);
  EXPECT_EQ(field.error()[1].details.at("second"), "da 40 m");
}

// Source: computed: shoelace of two printed polygons; 50 x 100 ft is 464.5152 m2, 100 x 100 ft
// 929.0304 m2.
TEST(DosingLand, ShoelacePolygons) {
  EXPECT_NEAR(m2(polygon_area({{3, 4}, {5, 11}, {12, 8}, {9, 5}, {5, 6}})), 30, 1e-12);
  EXPECT_NEAR(m2(polygon_area({{0, 0}, {40, 0}, {45, 30}, {5, 35}})), 1312.5, 1e-9);
  const double ft = 0.3048;
  EXPECT_NEAR(m2(polygon_area({{0, 0}, {50 * ft, 0}, {50 * ft, 100 * ft}, {0, 100 * ft}})),
              464.5152, 1e-9);
  EXPECT_NEAR(m2(polygon_area({{0, 0}, {100 * ft, 0}, {100 * ft, 100 * ft}, {0, 100 * ft}})),
              929.0304, 1e-9);
}

// Source: computed, WGS-84, printed to 1 mm.
TEST(DosingLand, MetresPerDegree) {
  const struct {
    double at, latitude, longitude;
  } rows[] = {
      {-1.2921, 110574.840, 111291.375}, {0, 110574.276, 111319.491}, {9, 110601.453, 109957.970}};
  for (const auto& row : rows) {
    EXPECT_NEAR(metres_per_degree(row.at).latitude, row.latitude, 0.00051);
    EXPECT_NEAR(metres_per_degree(row.at).longitude, row.longitude, 0.00051);
  }
}

const std::vector<GpsPoint> near_nairobi = {
    {-1.2921, 36.8219}, {-1.2921, 36.82226}, {-1.29183, 36.8223}, {-1.2918, 36.8219}};

// Source: computed: 1336.434 m2, 0.33024 acre; a sphere of 6371008.8 m would say 1342.427.
TEST(DosingLand, AGpsPolygonNearNairobi) {
  const auto gps = gps_area(near_nairobi, metres(3), tape_below());
  ASSERT_TRUE(gps);
  EXPECT_NEAR(in_square_metres(gps->area), 1336.434, 0.00051);
  EXPECT_NEAR(in_acres(gps->area), 0.33024, 0.0000051);
  const double degree = 6371008.8 * 3.14159265358979 / 180;
  const double sphere = degree * degree * std::cos(1.2921 * 3.14159265358979 / 180) /
                        (gps->used.latitude * gps->used.longitude);
  EXPECT_NEAR(in_square_metres(gps->area) * sphere, 1342.427, 0.002);
  EXPECT_FALSE(gps->use_tape);
}

std::vector<Corner> square(double side) { return {{0, 0}, {side, 0}, {side, side}, {0, side}}; }

// Source: computed: sqrt(2) sigma / side: 21 % on 20 m, 13 % on 32 m with 3 m noise; 7 % on 20 m
// with 1 m. On 63.6 m (an acre) the handbook prints 6.8 %; to first order it is 3 sqrt(2) / 63.6
// = 6.67 %, so 6.8 looks like a slip for 6.7. A pace error of 3 % is 6 % of the area.
TEST(DosingLand, GpsNoiseAndPacesOnSmallPlots) {
  const struct {
    double side, sigma, part, tolerance;
  } rows[] = {
      {20, 3, .21, .0051}, {32, 3, .13, .0051}, {63.6, 3, .0667, .0005}, {20, 1, .07, .0051}};
  for (const auto& row : rows)
    EXPECT_NEAR(
        in_square_metres(area_error(square(row.side), metres(row.sigma))) / (row.side * row.side),
        row.part, row.tolerance)
        << row.side;
  EXPECT_NEAR(paced_area_error(value("pace-error")), 0.06, 0.0051);
  EXPECT_NEAR(quantity::in_metres(pace_length(metres(50), 64).value()), 0.78125, 1e-12);
}

// The same error by the road of shaking every corner many times.
TEST(DosingLand, PropagatedNoiseIsThatOfShakenCorners) {
  testing::Draw draw(91);
  const std::vector<Corner> field = {{0, 0}, {40, 0}, {45, 30}, {5, 35}};
  const double sigma = 1, half_width = sigma * std::sqrt(3.0);  // uniform of that deviation
  double squares = 0;
  constexpr int shakes = 20000;
  for (int i = 0; i < shakes; ++i) {
    std::vector<Corner> shaken = field;
    for (Corner& c : shaken) {
      c.x += draw.real(-half_width, half_width);
      c.y += draw.real(-half_width, half_width);
    }
    squares += std::pow(m2(polygon_area(shaken)) - 1312.5, 2);
  }
  const double told = in_square_metres(area_error(field, metres(sigma)));
  EXPECT_NEAR(std::sqrt(squares / shakes) / told, 1, 0.02);  // 4 x the sampling error, 0.5 %
}

// Fiji lies on both sides of 180: the same square, moved there, is as large.
TEST(DosingLand, AFieldAcrossTheDateLineIsNotCut) {
  const auto at = [](double west, double east) {
    return gps_area({{-16, west}, {-16, east}, {-15.9995, east}, {-15.9995, west}}, metres(3),
                    tape_below())
        .value();
  };
  const GpsArea across = at(179.9997, -179.9998);
  EXPECT_NEAR(in_square_metres(across.area), in_square_metres(at(20.0, 20.0005).area), 1e-3);
  EXPECT_NEAR(across.mean.longitude, 179.99995, 1e-9);
}

// A degree of the meridian at the equator is 110574.276 m; two decimals are steps of 1.1 km, four
// of 11 m; rounding to a step has the standard deviation step / sqrt(12).
TEST(DosingLand, DecimalsOfADegreeAreStepsOnTheGround) {
  EXPECT_NEAR(quantity::in_metres(written_step(2)), 1105.74276, 1e-4);
  EXPECT_NEAR(quantity::in_metres(written_step(4)), 11.0574276, 1e-6);
  EXPECT_NEAR(quantity::in_metres(written_error(4)), 3.19200, 1e-4);
}

TEST(DosingLand, SmallPlotsAskForATape) {
  const auto at = [](double side_degrees) {
    return gps_area({{-1, 36},
                     {-1, 36 + side_degrees},
                     {-1 + side_degrees, 36 + side_degrees},
                     {-1 + side_degrees, 36}},
                    metres(value("gps-sigma")), tape_below())
        .value();
  };
  EXPECT_TRUE(at(31 / 111000.0).use_tape);
  EXPECT_FALSE(at(33 / 111000.0).use_tape);
  EXPECT_NEAR(at(20 / 111000.0).part, 0.21, 0.0051);
}

TEST(DosingLand, CrossingSidesAreRefusedByName) {
  const auto bow = polygon_area({{0, 0}, {10, 10}, {10, 0}, {0, 10}});
  ASSERT_FALSE(bow);
  EXPECT_EQ(bow.error()[0].code, "sides-cross");
  EXPECT_EQ(bow.error()[0].details.at("first"), "1-2");
  EXPECT_EQ(bow.error()[0].details.at("second"), "3-4");
  const std::vector<std::vector<Corner>> bad = {
      {{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}},        // a corner on another side
      {{0, 0}, {5, 0}, {5, 5}, {10, 5}, {10, 0}},          // back over the first side
      {{0, 0}, {10, 0}, {4, 0}, {4, 10}},                  // runs back over itself
      {{2, 0}, {10, 0}, {10, 10}, {0, 0}, {1, 0}, {0, 5}}  // crosses far from the start
  };
  for (const auto& corners : bad) EXPECT_EQ(polygon_area(corners).error()[0].code, "sides-cross");
}

TEST(DosingLand, CornersThatMakeNoFieldAreRefused) {
  EXPECT_EQ(polygon_area({{0, 0}, {1, 1}}).error()[0].code, "corners-few");
  EXPECT_EQ(polygon_area({{0, 0}, {5, 5}, {9, 9}, {2, 2}}).error()[0].code, "area-zero");
  EXPECT_EQ(polygon_area({{0, 0}, {5, 0}, {5, 5}, {0, 0}}).error()[0].code, "corner-twice");
  EXPECT_EQ(polygon_area({{0, 0}, {std::nan(""), 0}, {5, 5}}).error()[0].field, "/corners/1");
  EXPECT_EQ(polygon_area(std::vector<Corner>(501)).error()[0].code, "corners-many");
  const auto code = [](std::vector<GpsPoint> points) {
    return gps_area(points, metres(3), tape_below()).error()[0].code;
  };
  EXPECT_EQ(code({{-1, 36}, {-1, 36.001}}), "corners-few");
  EXPECT_EQ(code({{-1, 36}, {-1, 181}, {91, 36}}), "gps-out-of-range");
  EXPECT_EQ(code({{-1.2921, 36.8}, {-1.2921, 36.801}, {1.2918, 36.8}}), "gps-too-wide");
  EXPECT_EQ(code({{-1, 36}, {-1.001, 36.001}, {-1, 36.001}, {-1.001, 36}}), "sides-cross");
  for (double v : {0.0, -2.0, std::nan("")}) {
    EXPECT_EQ(triangle_area(metres(v), metres(v), metres(v)).error().size(), 3u);
    EXPECT_EQ(taped_area({metres(v), metres(v), metres(v), metres(v), metres(v)}).error().size(),
              5u);
    EXPECT_EQ(gps_area(near_nairobi, metres(v), tape_below()).error()[0].field, "/sigma");
    EXPECT_EQ(pace_length(metres(v), v).error().size(), 2u);
  }
}

// A convex quadrilateral by tape, by corners, turned, shifted, mirrored, begun elsewhere: one area,
// and the mean of opposite sides never below it.
TEST(DosingLand, TheAreaDoesNotDependOnHowTheFieldIsLookedAt) {
  testing::Draw draw(1312);
  for (int i = 0; i < 2000; ++i) {
    std::vector<Corner> p;
    for (int quarter = 0; quarter < 4; ++quarter) {
      const double angle = 1.5707963267948966 * (quarter + draw.real(0, 0.6)), r = 50;
      p.push_back({r * std::cos(angle), r * std::sin(angle)});
    }
    const double area = m2(polygon_area(p));
    const auto side = [&](std::size_t a, std::size_t b) {
      return metres(std::hypot(p[a].x - p[b].x, p[a].y - p[b].y));
    };
    const auto taped = taped_area({side(0, 1), side(1, 2), side(2, 3), side(3, 0), side(0, 2)});
    ASSERT_TRUE(taped);
    ASSERT_NEAR(in_square_metres(taped->area), area, 1e-8 * area);
    ASSERT_GE(taped->over, -1e-12);
    const double turn = draw.real(0, 6.28), dx = draw.real(-500, 500), scale = draw.real(0.5, 3);
    std::vector<Corner> moved;
    for (const Corner& c : p)
      moved.push_back({scale * (c.x * std::cos(turn) - c.y * std::sin(turn)) + dx,
                       scale * (c.x * std::sin(turn) + c.y * std::cos(turn)) - dx});
    std::rotate(moved.begin(), moved.begin() + draw.between(0, 3), moved.end());
    if (draw.below(2) == 0) std::reverse(moved.begin(), moved.end());
    ASSERT_NEAR(m2(polygon_area(moved)), scale * scale * area, 1e-8 * area);
    ASSERT_NEAR(area_error(moved, metres(1)) / area_error(p, metres(1)), scale, 1e-9);
  }
}

TEST(DosingLand, MeanOfOppositeSidesIsRightForARectangleAndTooMuchForASlantedField) {
  const auto rectangle = taped_area({metres(30), metres(40), metres(30), metres(40), metres(50)});
  EXPECT_NEAR(in_square_metres(rectangle->area), 1200, 1e-9);
  EXPECT_NEAR(rectangle->over, 0, 1e-12);
  const auto slanted = taped_area({metres(30), metres(40), metres(30), metres(40), metres(66)});
  EXPECT_NEAR(in_square_metres(slanted->mean_sides), 1200, 1e-9);
  EXPECT_GT(slanted->over, 0.5);
}

}  // namespace
}  // namespace wheyfield::dosing
