#include "dosing/bucket.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "dosing/measured.h"

namespace wheyfield::dosing {

using outcome::failure;
using outcome::Problem;
using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::in_metres;

namespace {

constexpr double pi = 3.14159265358979323846;
constexpr double most_marks = 200.0;

double in_cm(Length v) { return in_metres(v) * 100.0; }

}  // namespace

Result<Frustum> Frustum::measured(Length bottom, Length top, Length depth, bool wider_below) {
  const Problems bad =
      not_above_zero({{"/bottom", in_cm(bottom)}, {"/top", in_cm(top)}, {"/depth", in_cm(depth)}});
  if (!bad.empty()) return failure(bad);
  if (bottom > top && !wider_below)
    return failure({"bucket-wider-below",
                    "/bottom",
                    shown(in_cm(bottom)) + " cm",
                    {{"bottom", shown(in_cm(bottom))}, {"top", shown(in_cm(top))}}});
  return Frustum(bottom, top, depth);
}

Volume Frustum::volume(Length depth) const {
  const Length x = bottom_ + (top_ - bottom_) * (depth / depth_);
  return depth * (bottom_ * bottom_ + bottom_ * x + x * x) * (pi / 12.0);
}

// x3 = d3 + 12 k V / pi with the taper k = (D - d) / H; then h = (12 V / pi) / (d2 + d x + x2),
// which holds for a straight pail (k = 0) too.
Length Frustum::depth(Volume volume) const {
  const double d = in_metres(bottom_), taper = (top_ - bottom_) / depth_;
  const double twelfth = 12.0 * volume.si() / pi;
  const double x = std::cbrt(d * d * d + taper * twelfth);
  return quantity::metres(twelfth / (d * d + d * x + x * x));
}

Result<PourScale> PourScale::fitted(const std::vector<Pour>& pours) {
  constexpr std::size_t least = 3;
  if (pours.size() < least)
    return failure({"pours-few", "/pours", std::to_string(pours.size()), {}});
  Problems bad;
  Pour before{};
  Volume so_far;
  for (std::size_t i = 0; i < pours.size(); before = pours[i++]) {
    const std::string field = "/pours/" + std::to_string(i);
    Problems zero =
        not_above_zero({{"/total", in_litres(pours[i].total)}, {"/depth", in_cm(pours[i].depth)}});
    so_far = pours[i].total > so_far ? pours[i].total : so_far + pours[i].total;
    if (zero.empty() && !(pours[i].total > before.total))
      bad.push_back({"pours-total",
                     field,
                     shown(in_litres(pours[i].total)) + " L",
                     {{"pour", std::to_string(i + 1)}, {"sum", shown(in_litres(so_far))}}});
    else if (zero.empty() && !(pours[i].depth > before.depth))
      bad.push_back({"pours-not-rising",
                     field,
                     shown(in_cm(pours[i].depth)) + " cm",
                     {{"pour", std::to_string(i + 1)},
                      {"before", shown(in_cm(before.depth))},
                      {"depth", shown(in_cm(pours[i].depth))}}});
    outcome::append(bad, outcome::under(field, std::move(zero)));
  }
  if (!bad.empty()) return failure(bad);
  PourScale scale(pours);
  scale.fit();
  scale.find_worst();
  return scale;
}

// Normal equations of V = a h + b h2, with h as part of the last mark. The slope is linear in h, so
// it is positive between when it is at both ends.
void PourScale::fit() {
  const double last = in_metres(full_depth());
  double h2 = 0, h3 = 0, h4 = 0, vh = 0, vh2 = 0;
  for (const Pour& pour : marks_) {
    const double h = in_metres(pour.depth) / last, v = pour.total.si();
    h2 += h * h;
    h3 += h * h * h;
    h4 += h * h * h * h;
    vh += v * h;
    vh2 += v * h * h;
  }
  const double determinant = h2 * h4 - h3 * h3;
  const double a = (vh * h4 - vh2 * h3) / determinant;
  const double b = (vh2 * h2 - vh * h3) / determinant;
  quadratic_ = a > 0.0 && a + 2.0 * b > 0.0;
  a_ = a / last;
  b_ = b / (last * last);
}

namespace {

// The mark at or above `key`, and the one below it (0, 0 below the first).
template <class Key>
std::pair<Pour, Pour> around(const std::vector<Pour>& marks, Key key) {
  std::size_t i = 0;
  while (i + 1 < marks.size() && key(marks[i])) ++i;
  return {i == 0 ? Pour{} : marks[i - 1], marks[i]};
}

Volume on_line(Pour low, Pour high, Length depth) {
  return low.total + (high.total - low.total) * ((depth - low.depth) / (high.depth - low.depth));
}

}  // namespace

Volume PourScale::volume(Length depth) const {
  const double h = in_metres(depth);
  if (quadratic_) return Volume::from_si(h * (a_ + b_ * h));
  const auto [low, high] = around(marks_, [&](const Pour& p) { return p.depth < depth; });
  return on_line(low, high, depth);
}

Length PourScale::depth(Volume volume) const {
  const double v = volume.si();
  if (quadratic_)
    return quantity::metres(2.0 * v / (a_ + std::sqrt(std::max(0.0, a_ * a_ + 4.0 * b_ * v))));
  const auto [low, high] = around(marks_, [&](const Pour& p) { return p.total < volume; });
  return low.depth + (high.depth - low.depth) * ((volume - low.total) / (high.total - low.total));
}

void PourScale::find_worst() {
  for (std::size_t i = 0; i + (quadratic_ ? 0 : 1) < marks_.size(); ++i) {
    const Pour& mark = marks_[i];
    const Volume said = quadratic_
                            ? volume(mark.depth)
                            : on_line(i == 0 ? Pour{} : marks_[i - 1], marks_[i + 1], mark.depth);
    const double off = std::fabs(said / mark.total - 1.0);
    if (off > worst_) worst_ = off, worst_pour_ = i;
  }
}

Problems judge_pours(std::size_t pours, std::size_t advised) {
  if (pours >= advised) return {};
  return {{"pours-few-advised",
           "/pours",
           std::to_string(pours),
           {{"advised", std::to_string(advised)}},
           outcome::Severity::notice}};
}

namespace {

// A bucket ends at its brim, a scale by pours where she stopped pouring.
const char* end_of(const Frustum&) { return "bucket"; }
const char* end_of(const PourScale&) { return "pours"; }

template <class Scale>
Problem above(const Scale& scale, const std::string& what, const char* field, std::string value) {
  return {what + "-above-" + end_of(scale),
          field,
          std::move(value),
          {{"full", shown(quantity::rounded(in_litres(scale.full()), 2))},
           {"depth", shown(quantity::rounded(in_cm(scale.full_depth()), 2))}}};
}

}  // namespace

template <class Scale>
Result<Length> depth_for(const Scale& scale, Volume volume) {
  const Problems bad = not_above_zero({{"/volume", in_litres(volume)}});
  if (!bad.empty()) return failure(bad);
  // A rounding error above the brim is the brim.
  if (volume / scale.full() > 1.0 + 1e-12)
    return failure(above(scale, "volume", "/volume", shown(in_litres(volume)) + " L"));
  return scale.depth(volume);
}

template <class Scale>
Result<std::vector<DipMark>> dip_stick(const Scale& scale, Volume step) {
  const Problems bad = not_above_zero({{"/step", in_litres(step)}});
  if (!bad.empty()) return failure(bad);
  const double marks = std::floor(scale.full() / step + 1e-9);
  const std::string value = shown(in_litres(step)) + " L";
  if (marks < 1.0) return failure(above(scale, "volume", "/step", value));
  if (marks > most_marks)
    return failure({"dip-step-small", "/step", value, {{"limit", shown(most_marks)}}});
  std::vector<DipMark> stick;
  for (int i = 1; i <= static_cast<int>(marks); ++i)
    stick.push_back({step * static_cast<double>(i), scale.depth(step * static_cast<double>(i))});
  return stick;
}

template Result<Length> depth_for(const Frustum&, Volume);
template Result<Length> depth_for(const PourScale&, Volume);
template Result<std::vector<DipMark>> dip_stick(const Frustum&, Volume);
template Result<std::vector<DipMark>> dip_stick(const PourScale&, Volume);

template <class Scale>
EqualSlices equal_slices(const Scale& scale, int n) {
  const Length slice = scale.full_depth() / static_cast<double>(n);
  const Volume full = scale.volume(scale.full_depth());
  const double bottom = scale.volume(slice) / full;
  const double top = 1.0 - scale.volume(scale.full_depth() - slice) / full;
  return {bottom, top, bottom * n - 1.0, top * n - 1.0};
}

template <class Scale>
Result<EqualMarks> equal_depth_marks(const Scale& scale, Length mark, int n, Length reading_error,
                                     double tolerance) {
  const Problems bad = not_above_zero({{"/mark", in_cm(mark)}, {"/parts", static_cast<double>(n)}});
  if (!bad.empty()) return failure(bad);
  const Length both = mark * (n + 1.0);
  if (both / scale.full_depth() > 1.0 + 1e-12) {
    Problem problem = above(scale, "marks", "/mark", shown(in_cm(mark)) + " cm");
    problem.details["need"] = shown(in_cm(both));
    return failure(problem);
  }
  const Volume all = scale.volume(both), first = scale.volume(mark);
  const Volume below = scale.volume(mark * static_cast<double>(n));
  EqualMarks marks{};
  marks.parts = (all - first) / first;
  marks.off = marks.parts / n - 1.0;
  marks.parts_last = below / (all - below);
  marks.off_last = marks.parts_last / n - 1.0;
  marks.reading = reading_error / mark;
  marks.use_bottle = std::max(std::fabs(marks.off), marks.reading) > tolerance;
  return marks;
}

template EqualSlices equal_slices(const Frustum&, int);
template EqualSlices equal_slices(const PourScale&, int);
template Result<EqualMarks> equal_depth_marks(const Frustum&, Length, int, Length, double);
template Result<EqualMarks> equal_depth_marks(const PourScale&, Length, int, Length, double);

}  // namespace wheyfield::dosing
