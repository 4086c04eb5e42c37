// The row of units due as one session sees it, and the lots that it may make along it.
//
// A due that is told apart (Carried::late) is used longer than the session keeps, though later dues
// are not: a lot may pass it over and leave it to a session that is ready later. Each way to do so
// is a view of the row.
#pragma once

#include <algorithm>
#include <cstdint>
#include <vector>

#include "lot_sizing/label_steps.h"
#include "lot_sizing/sliding_minimum.h"

namespace wheyfield::lot_sizing {

// Units of one collecting day that are cheap to miss, with dearer ones before them.
struct CheapRun {
  Units from = 0, to = 0;  // positions of the view
  Units dear_before = 0;   // dear units of the view before it
};

struct RowView {
  Units begin = 0;          // position of the row before the first unit
  std::vector<Units> unit;  // of the row, in order
  Units last_start = 0;     // from where the row may be left, and where lots may end: positions of
  Units first_end = 0;      // the view
  Label passed;             // dues left to later lots
  // Sums up to each position of the view: of the waiting allowance, of all that a unit costs, and
  // of the same when the cheap are passed over.
  std::vector<Cost> waiting, running, passing;
  std::vector<Cost> missing;  // and when all are given up
  std::vector<Units> dear;    // units of the view that are dearer to miss than the cheapest
  std::vector<CheapRun> runs;

  Units size() const { return static_cast<Units>(unit.size()); }
  std::size_t position(Units v) const {  // of the row
    return static_cast<std::size_t>(v == 0 ? begin : unit[static_cast<std::size_t>(v) - 1] + 1);
  }
  // Where a lot comes from that begins at `v`: units after a due passed over may be given up first.
  std::size_t start(Units v) const { return position(std::min(v, last_start)); }
  Cost start_value(const std::vector<Cost>& value, Units v) const {
    return v <= last_start ? value[position(v)]
                           : value[position(last_start)] + missing[static_cast<std::size_t>(v)] -
                                 missing[static_cast<std::size_t>(last_start)];
  }
};

std::vector<RowView> views_of(const LabelSteps& row, const LabelStep& step);

// One lot after the state before, of `most` units in the view and `beside` them that serve dues
// passed over by earlier lots at `extra`.
struct LotRange {
  Units least = 1, most = 0;
  bool smallest = true;  // lots below `least` are made at `least`
  Units beside = 0;
  Cost extra = 0;
};

// Calls offer(from, to, value, made) for the cheapest lots: positions of the row, what the row up
// to `to` then costs, and what is made.
class LotSlide {
 public:
  template <class Offer>
  void run(const RowView& view, const LotRange& lot, Cost per_unit, const std::vector<Cost>& value,
           const Offer& offer) {
    slide(view, lot, value, offer);
    if (lot.least > 1 && lot.smallest && lot.beside == 0)
      slide_small(view, lot, per_unit, value, offer);
    for (const CheapRun& run : view.runs) pass_over(run, view, lot, value, offer);
  }
  std::int64_t work() const { return work_; }

 private:
  template <class Offer>
  void slide(const RowView& view, const LotRange& lot, const std::vector<Cost>& value,
             const Offer& offer) {
    const Units least = lot.beside > 0 ? 0 : lot.least;
    window_.reset(view.unit.size() + 1);
    work_ += view.size();
    for (Units e = least; e <= view.size(); ++e) {
      const Units v = e - least;
      window_.push(v, view.start_value(value, v) - view.running[static_cast<std::size_t>(v)]);
      window_.drop_before(e - lot.most);
      if (e < view.first_end) continue;
      const Units made = std::max(lot.least, e - window_.position() + lot.beside);
      offer(view.start(window_.position()), view.position(e),
            window_.key() + view.running[static_cast<std::size_t>(e)] + lot.extra, made);
    }
  }

  // Lots smaller than the least are made at the least; the rest is over.
  template <class Offer>
  void slide_small(const RowView& view, const LotRange& lot, Cost per_unit,
                   const std::vector<Cost>& value, const Offer& offer) {
    window_.reset(view.unit.size() + 1);
    for (Units e = 1; e <= view.size(); ++e) {
      const Units v = e - 1;
      window_.push(v, view.start_value(value, v) - view.waiting[static_cast<std::size_t>(v)]);
      window_.drop_before(e - lot.least + 1);
      if (e < view.first_end) continue;
      offer(view.start(window_.position()), view.position(e),
            window_.key() + view.waiting[static_cast<std::size_t>(e)] + lot.extra +
                per_unit * lot.least,
            lot.least);
    }
  }

  // Lots that serve dear units from position p on and pass over the cheap ones, up to some within
  // `run`, then serve all:
  //
  //   V(p') = V(p) - A(p) + A(x) - F(x) + F(p'),  x where they begin to serve all
  //
  // A the running sum where the cheap are passed over. Of the dear units before the run t is the
  // first that is served, at least; so much of the run is passed over that the lot holds the rest.
  template <class Offer>
  void pass_over(const CheapRun& run, const RowView& view, const LotRange& lot,
                 const std::vector<Cost>& value, const Offer& offer) {
    const auto begin = static_cast<std::size_t>(run.from);
    const Units count = run.to - run.from;
    const Units first = std::max<Units>(0, run.dear_before - lot.most + 1);
    if (first >= run.dear_before) return;
    find_starts(view, first, run.dear_before, value);
    // What it costs more to pass over one of the run than to serve it.
    const Cost more = view.passing[begin + 1] - view.running[begin + 1] - view.passing[begin] +
                      view.running[begin];
    const Cost same = view.passing[begin] - view.running[begin] + lot.extra;
    const Units last = std::min(view.size(), run.to + lot.most - 1);
    work_ += last - run.to + run.dear_before - first;
    window_.reset(static_cast<std::size_t>(lot.most));
    // With e units after the run's first, of them j passed over: t = base + e - j.
    const Units base = run.dear_before - lot.most;
    Units pushed = base + 1;
    for (Units e = count + 1; run.from + e <= last; ++e) {
      for (; pushed <= std::min(base + e, run.dear_before - 1); ++pushed)
        window_.push(pushed, start(pushed, first).value - more * pushed);
      window_.drop_before(base + e - count);
      if (window_.empty()) return;
      if (run.from + e < view.first_end) continue;
      const Units t = window_.position();
      const Units unit = start(t, first).unit;
      const Units served = run.dear_before - unit + t - base;
      offer(view.start(view.dear[static_cast<std::size_t>(unit)]), view.position(run.from + e),
            window_.key() + more * (base + e) + same +
                view.running[static_cast<std::size_t>(run.from + e)],
            std::max(lot.least, served + lot.beside));
    }
  }

  // From each dear unit first .. end-1 on: where it is cheapest to start, there or later.
  void find_starts(const RowView& view, Units first, Units end, const std::vector<Cost>& value) {
    starts_.resize(static_cast<std::size_t>(end - first));
    Start best;
    for (Units t = end; t-- > first;) {
      const Units v = view.dear[static_cast<std::size_t>(t)];
      const Cost from = view.start_value(value, v) - view.passing[static_cast<std::size_t>(v)];
      if (from <= best.value) best = {from, t};
      starts_[static_cast<std::size_t>(t - first)] = best;
    }
  }

  struct Start {
    Cost value = 2 * never;
    Units unit = 0;  // of the dear ones
  };
  const Start& start(Units t, Units first) const {
    return starts_[static_cast<std::size_t>(std::max(t, first) - first)];
  }

  SlidingMinimum window_;
  std::vector<Start> starts_;
  std::int64_t work_ = 0;
};

}  // namespace wheyfield::lot_sizing
