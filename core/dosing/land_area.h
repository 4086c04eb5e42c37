// How big is this field? By tape (sides and one diagonal), by corners in metres, by GPS, by paces.
//
// Triangles by Heron's formula, polygons by the shoelace formula. Every length must be a finite
// number above 0, else not-above-zero names it.
#pragma once

#include <vector>

#include "outcome/result.h"
#include "quantity/quantity.h"

namespace wheyfield::dosing {

using quantity::Area;
using quantity::Length;

// Fields /a, /b, /c [m]. Errors: triangle-cannot-close (the longest side is not shorter than the
// other two together; names them).
outcome::Result<Area> triangle_area(Length a, Length b, Length c);

struct FourSides {
  Length ab, bc, cd, da;
  Length ac;  // the diagonal, from corner A to corner C
};
struct TapedArea {
  Area area;        // triangles ABC + CDA
  Area mean_sides;  // (AB + CD) / 2 x (BC + DA) / 2, as often done; never below `area`
  double over;      // mean_sides / area - 1
};
// B and D must lie on opposite sides of the diagonal (take the inner diagonal of a dented field).
// Fields /ab, /bc, /cd, /da, /ac [m]. Errors as triangle_area, both triangles judged.
outcome::Result<TapedArea> taped_area(const FourSides& sides);

// A corner in local metres, any origin; x and y at right angles.
struct Corner {
  double x;
  double y;
};

// Corners in walking order, either way round; the last joins the first. Errors: corners-few (under
// 3), corners-many (over 500), corner-unreadable (not finite), corner-twice (two corners on one
// spot), sides-cross (two named sides meet), area-zero (all corners on one line).
outcome::Result<Area> polygon_area(const std::vector<Corner>& corners);

// Standard error of the area of `corners` when each coordinate of each corner is off by `sigma` on
// its own: dA = 1/2 sum (y[i+1] - y[i-1]) dx[i] - (x[i+1] - x[i-1]) dy[i], so
//   rms = sigma / 2 sqrt(sum |p[i+1] - p[i-1]|2); on a square sqrt(2) sigma / side of the area.
Area area_error(const std::vector<Corner>& corners, Length sigma);

struct GpsPoint {
  double latitude;   // [degree], north positive
  double longitude;  // [degree], east positive
};
struct MetresPerDegree {
  double latitude;
  double longitude;
};
// On the WGS-84 ellipsoid, a = 6378137 m, 1/f = 298.257223563 (NIMA TR8350.2): the radii of
// curvature along the meridian and across it. Valid below 89 degrees of latitude.
MetresPerDegree metres_per_degree(double latitude);

struct GpsArea {
  Area area;
  Area error;            // area_error at `sigma`
  double part;           // error / area
  bool use_tape;         // area below the row tape-below
  MetresPerDegree used;  // at the mean latitude
  GpsPoint mean;         // of the corners, longitude within -180 to 180
};
// Standard deviation of a coordinate written with so many decimals of a degree: the step, in metres
// along the meridian at the equator, by sqrt(12).
Length written_error(int decimals);
Length written_step(int decimals);
// Longitudes may lie on both sides of 180. Errors: gps-out-of-range (latitude beyond 89, longitude
// beyond 180, at /points/<index>), gps-too-wide (over 0.1 degree across, about 11 km: one point is
// mistyped), those of polygon_area. From the data: gps-sigma, tape-below.
outcome::Result<GpsArea> gps_area(const std::vector<GpsPoint>& points, Length sigma,
                                  Area tape_below);

// Length of one pace from a taped stretch. Fields /taped, /paces.
outcome::Result<Length> pace_length(Length taped, double paces);
// Relative error of an area whose two sides were paced with the same relative error: (1 + e)2 - 1.
constexpr double paced_area_error(double pace_error) { return pace_error * (2.0 + pace_error); }

}  // namespace wheyfield::dosing
