// How deep stand ten litres in this bucket? A tapered bucket by three inside measures, or any
// bucket by pours of one known bottle; and how wrong equal-depth marks are.
//
// Frustum, inside diameters d (bottom) and D (top), inside depth H:
//   V(h) = pi h / 12 (d2 + d x + x2), x = d + (D - d) h / H
// Pours: V = a h + b h2 through 0 by least squares over the marks; where that does not rise from 0
// to the last mark, straight lines between the marks. Check of both: docs/models/bucket.md.
#pragma once

#include <cstddef>
#include <utility>
#include <vector>

#include "outcome/result.h"
#include "quantity/quantity.h"

namespace wheyfield::dosing {

using quantity::Length;
using quantity::Volume;

class Frustum {
 public:
  // Errors: not-above-zero (/bottom, /top, /depth [cm]); bucket-wider-below when the bottom is
  // wider than the top, unless `wider_below` says that it is meant.
  static outcome::Result<Frustum> measured(Length bottom, Length top, Length depth,
                                           bool wider_below = false);

  Volume full() const { return volume(depth_); }
  Length full_depth() const { return depth_; }
  Volume volume(Length depth) const;  // precondition 0 <= depth <= full_depth()
  Length depth(Volume volume) const;  // precondition 0 <= volume <= full(); inverse of volume()

 private:
  Frustum(Length bottom, Length top, Length depth) : bottom_(bottom), top_(top), depth_(depth) {}
  Length bottom_, top_, depth_;
};

struct Pour {
  Volume total;  // poured so far
  Length depth;  // of the water, above the bottom
};

class PourScale {
 public:
  // Marks in the order of pouring. Errors: pours-few (fewer than three: two numbers are fitted and
  // the third shows the error), not-above-zero at /pours/<index>, pours-not-rising (a
  // depth not above the one before, named), pours-total (a total not above the one before: most
  // likely the single pour was written; {sum} is what was poured so far).
  static outcome::Result<PourScale> fitted(const std::vector<Pour>& pours);

  Volume full() const { return marks_.back().total; }  // the last mark, not the rim
  Length full_depth() const { return marks_.back().depth; }
  Volume volume(Length depth) const;  // precondition 0 <= depth <= full_depth()
  // Precondition 0 <= volume; up to full() by straight lines. With the quadratic the last mark
  // itself may lie a residual away.
  Length depth(Volume volume) const;
  bool quadratic() const { return quadratic_; }
  // Largest difference between the scale and a pour, as part of that pour's total. For straight
  // lines each inner mark against the line between its neighbours.
  double worst() const { return worst_; }
  std::size_t worst_pour() const { return worst_pour_; }  // index

 private:
  explicit PourScale(std::vector<Pour> marks) : marks_(std::move(marks)) {}
  void fit();
  void find_worst();
  std::vector<Pour> marks_;
  double a_ = 0.0, b_ = 0.0;  // [m2], [m]
  bool quadratic_ = false;
  double worst_ = 0.0;
  std::size_t worst_pour_ = 0;
};

// How many pours are worth it; fewer give pours-few-advised (notice). From the data: pours-advised.
outcome::Problems judge_pours(std::size_t pours, std::size_t advised);

// The depth at which `volume` stands. Errors: not-above-zero, volume-above-bucket (at
// /volume), volume-above-pours where the scale ends with the last pour ({full} L, {depth} cm).
template <class Scale>
outcome::Result<Length> depth_for(const Scale& scale, Volume volume);

struct DipMark {
  Volume volume;
  Length depth;
};
// A mark at every whole `step`, up to full. Errors: not-above-zero (/step), volume-above-bucket
// or volume-above-pours, dip-step-small (more than 200 marks).
template <class Scale>
outcome::Result<std::vector<DipMark>> dip_stick(const Scale& scale, Volume step);

struct EqualSlices {
  double bottom;  // share of the whole in the lowest of n slices of equal depth
  double top;
  double bottom_off;  // against 1/n
  double top_off;
};
// Of a bucket by pours up to its last mark. Precondition n >= 1.
template <class Scale>
EqualSlices equal_slices(const Scale& scale, int n);

struct EqualMarks {
  double parts;       // small part first: "1 mark + n marks" is really 1:parts
  double off;         // parts / n - 1
  double parts_last;  // small part on top of n marks: really 1:parts_last
  double off_last;    // parts_last / n - 1
  double reading;     // reading error as a share of the small mark
  bool use_bottle;    // |off| or reading above the tolerance: measure the small part by bottle
};
// "One mark of serum, n marks of water" in this bucket. From the data: depth-reading-error,
// equal-depth-tolerance. Errors: not-above-zero (/mark [cm], /parts), marks-above-bucket
// or marks-above-pours ({need} cm).
template <class Scale>
outcome::Result<EqualMarks> equal_depth_marks(const Scale& scale, Length mark, int n,
                                              Length reading_error, double tolerance);

}  // namespace wheyfield::dosing
