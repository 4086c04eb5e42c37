#include "dosing/land_area.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>

#include "dosing/measured.h"

namespace wheyfield::dosing {

using outcome::failure;
using outcome::Problems;
using outcome::Result;
using quantity::in_metres;
using quantity::metres;
using quantity::square_metres;

namespace {

struct Side {
  const char* field;
  Length length;
};
using Triangle = std::array<Side, 3>;

std::string said(const Side& side) {
  return std::string(side.field + 1) + " " + shown(in_metres(side.length)) + " m";
}

void by_length(Triangle& t) {
  std::stable_sort(t.begin(), t.end(),
                   [](const Side& a, const Side& b) { return a.length > b.length; });
}

Problems judge(Triangle t) {
  by_length(t);
  const Length rest = t[1].length + t[2].length;
  if (t[0].length < rest) return {};
  return {{"triangle-cannot-close",
           t[0].field,
           shown(in_metres(t[0].length)) + " m",
           {{"longest", said(t[0])},
            {"second", said(t[1])},
            {"third", said(t[2])},
            {"sum", shown(in_metres(rest))}}}};
}

// Heron's formula in Kahan's order, which keeps its digits for needle-shaped triangles.
Area heron(Triangle t) {
  by_length(t);
  const double a = in_metres(t[0].length), b = in_metres(t[1].length), c = in_metres(t[2].length);
  return square_metres(0.25 *
                       std::sqrt((a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c))));
}

}  // namespace

Result<Area> triangle_area(Length a, Length b, Length c) {
  Problems bad = not_above_zero({{"/a", in_metres(a)}, {"/b", in_metres(b)}, {"/c", in_metres(c)}});
  const Triangle triangle{{{"/a", a}, {"/b", b}, {"/c", c}}};
  if (bad.empty()) bad = judge(triangle);
  if (!bad.empty()) return failure(bad);
  return heron(triangle);
}

Result<TapedArea> taped_area(const FourSides& s) {
  Problems bad = not_above_zero({{"/ab", in_metres(s.ab)},
                                 {"/bc", in_metres(s.bc)},
                                 {"/cd", in_metres(s.cd)},
                                 {"/da", in_metres(s.da)},
                                 {"/ac", in_metres(s.ac)}});
  if (!bad.empty()) return failure(bad);
  const Triangle abc{{{"/ab", s.ab}, {"/bc", s.bc}, {"/ac", s.ac}}};
  const Triangle cda{{{"/cd", s.cd}, {"/da", s.da}, {"/ac", s.ac}}};
  outcome::append(bad, judge(abc));
  outcome::append(bad, judge(cda));
  if (!bad.empty()) return failure(bad);
  TapedArea taped{};
  taped.area = heron(abc) + heron(cda);
  taped.mean_sides = (s.ab + s.cd) * (s.bc + s.da) / 4.0;
  taped.over = taped.mean_sides / taped.area - 1.0;
  return taped;
}

namespace {

constexpr std::size_t most_corners = 500;  // every side is set against every other

// Twice the signed area of the triangle a, b, c.
double turn(Corner a, Corner b, Corner c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

int sign(double v) { return (v > 0.0) - (v < 0.0); }

bool same(Corner a, Corner b) { return a.x == b.x && a.y == b.y; }

// c, on the line through a and b, lies between them.
bool between(Corner a, Corner b, Corner c) {
  return std::min(a.x, b.x) <= c.x && c.x <= std::max(a.x, b.x) && std::min(a.y, b.y) <= c.y &&
         c.y <= std::max(a.y, b.y);
}

// Sides ab and cd cross or touch.
bool meet(Corner a, Corner b, Corner c, Corner d) {
  const int abc = sign(turn(a, b, c)), abd = sign(turn(a, b, d));
  const int cda = sign(turn(c, d, a)), cdb = sign(turn(c, d, b));
  if (abc * abd < 0 && cda * cdb < 0) return true;
  return (abc == 0 && between(a, b, c)) || (abd == 0 && between(a, b, d)) ||
         (cda == 0 && between(c, d, a)) || (cdb == 0 && between(c, d, b));
}

std::string side_name(std::size_t i, std::size_t n) {
  return std::to_string(i + 1) + "-" + std::to_string((i + 1) % n + 1);
}

Problems judge_corners(const std::vector<Corner>& p) {
  const std::size_t n = p.size();
  if (n < 3) return {{"corners-few", "/corners", std::to_string(n), {}}};
  if (n > most_corners)
    return {
        {"corners-many", "/corners", std::to_string(n), {{"limit", std::to_string(most_corners)}}}};
  Problems bad;
  for (std::size_t i = 0; i < n; ++i) {
    const std::string field = "/corners/" + std::to_string(i);
    if (!std::isfinite(p[i].x) || !std::isfinite(p[i].y)) {
      bad.push_back({"corner-unreadable", field, shown(p[i].x) + " " + shown(p[i].y), {}});
      continue;
    }
    std::size_t j = 0;
    while (!same(p[j], p[i])) ++j;
    if (j < i)
      bad.push_back({"corner-twice",
                     field,
                     std::to_string(i + 1),
                     {{"first", std::to_string(j + 1)}, {"second", std::to_string(i + 1)}}});
  }
  return bad;
}

// Names the first two sides that meet. Neighbours share a corner and are not set against each
// other: where one runs back over the other, its next side touches it.
std::optional<outcome::Problem> crossing(const std::vector<Corner>& p) {
  const std::size_t n = p.size();
  for (std::size_t i = 0; i + 2 < n; ++i)
    for (std::size_t j = i + 2; j < (i == 0 ? n - 1 : n); ++j)
      if (meet(p[i], p[i + 1], p[j], p[(j + 1) % n]))
        return outcome::Problem{"sides-cross",
                                "/corners",
                                side_name(i, n) + ", " + side_name(j, n),
                                {{"first", side_name(i, n)}, {"second", side_name(j, n)}}};
  return std::nullopt;
}

bool on_one_line(const std::vector<Corner>& p) {
  return std::all_of(p.begin(), p.end(), [&](Corner c) { return turn(p[0], p[1], c) == 0.0; });
}

// Shoelace about the first corner, so that far origins cost no digits.
double signed_area(const std::vector<Corner>& p) {
  double twice = 0.0;
  for (std::size_t i = 1; i + 1 < p.size(); ++i) twice += turn(p[0], p[i], p[i + 1]);
  return twice / 2.0;
}

}  // namespace

Result<Area> polygon_area(const std::vector<Corner>& corners) {
  if (const Problems bad = judge_corners(corners); !bad.empty()) return failure(bad);
  if (on_one_line(corners)) return failure({"area-zero", "/corners", "0", {}});
  if (const auto bad = crossing(corners)) return failure(*bad);
  return square_metres(std::fabs(signed_area(corners)));
}

Area area_error(const std::vector<Corner>& p, Length sigma) {
  const std::size_t n = p.size();
  double sum = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    const Corner before = p[(i + n - 1) % n], after = p[(i + 1) % n];
    const double dx = after.x - before.x, dy = after.y - before.y;
    sum += dx * dx + dy * dy;
  }
  return square_metres(in_metres(sigma) / 2.0 * std::sqrt(sum));
}

MetresPerDegree metres_per_degree(double latitude) {
  constexpr double degree = 3.14159265358979323846 / 180.0;
  constexpr double a = 6378137.0, f = 1.0 / 298.257223563, e2 = f * (2.0 - f);
  const double sine = std::sin(latitude * degree);
  const double w2 = 1.0 - e2 * sine * sine, across = a / std::sqrt(w2);
  return {across * (1.0 - e2) / w2 * degree, across * std::cos(latitude * degree) * degree};
}

namespace {

double wrapped(double longitude) {
  return longitude > 180.0 ? longitude - 360.0 : longitude < -180.0 ? longitude + 360.0 : longitude;
}

// The corners with longitudes counted on from the first, so that no field is cut at 180.
std::vector<GpsPoint> unwrapped(std::vector<GpsPoint> points) {
  for (GpsPoint& p : points)
    p.longitude = points[0].longitude + wrapped(p.longitude - points[0].longitude);
  return points;
}

Problems judge_gps(const std::vector<GpsPoint>& points) {
  if (points.size() < 3) return {{"corners-few", "/points", std::to_string(points.size()), {}}};
  Problems bad;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto [latitude, longitude] = points[i];
    if (!(std::fabs(latitude) <= 89.0 && std::fabs(longitude) <= 180.0))
      bad.push_back({"gps-out-of-range",
                     "/points/" + std::to_string(i),
                     shown(latitude) + " " + shown(longitude),
                     {}});
  }
  return bad;
}

Problems judge_span(const std::vector<GpsPoint>& points) {
  GpsPoint low = points[0], high = points[0];
  for (const auto& [latitude, longitude] : points) {
    low = {std::min(low.latitude, latitude), std::min(low.longitude, longitude)};
    high = {std::max(high.latitude, latitude), std::max(high.longitude, longitude)};
  }
  constexpr double widest = 0.1;  // [degree]: beyond it one scale for the whole field is too rough
  const double span = std::max(high.latitude - low.latitude, high.longitude - low.longitude);
  if (span <= widest) return {};
  return {{"gps-too-wide", "/points", shown(span), {{"limit", shown(widest)}}}};
}

}  // namespace

Length written_step(int decimals) {
  return metres(metres_per_degree(0.0).latitude * std::pow(10.0, -decimals));
}

Length written_error(int decimals) { return written_step(decimals) / std::sqrt(12.0); }

Result<GpsArea> gps_area(const std::vector<GpsPoint>& given, Length sigma, Area tape_below) {
  Problems bad = judge_gps(given);
  outcome::append(bad, not_above_zero({{"/sigma", in_metres(sigma)}}));
  if (!bad.empty()) return failure(bad);
  const std::vector<GpsPoint> points = unwrapped(given);
  if (bad = judge_span(points); !bad.empty()) return failure(bad);
  GpsArea gps{};
  for (const GpsPoint& p : points) {
    gps.mean.latitude += p.latitude / static_cast<double>(points.size());
    gps.mean.longitude += p.longitude / static_cast<double>(points.size());
  }
  gps.mean.longitude = wrapped(gps.mean.longitude);
  gps.used = metres_per_degree(gps.mean.latitude);
  std::vector<Corner> corners;
  for (const GpsPoint& p : points)
    corners.push_back({(p.longitude - points[0].longitude) * gps.used.longitude,
                       (p.latitude - points[0].latitude) * gps.used.latitude});
  const Result<Area> area = polygon_area(corners);
  if (!area) return failure(area.error());
  gps.area = *area;
  gps.error = area_error(corners, sigma);
  gps.part = gps.error / gps.area;
  gps.use_tape = gps.area < tape_below;
  return gps;
}

Result<Length> pace_length(Length taped, double paces) {
  const Problems bad = not_above_zero({{"/taped", in_metres(taped)}, {"/paces", paces}});
  if (!bad.empty()) return failure(bad);
  return taped / paces;
}

}  // namespace wheyfield::dosing
