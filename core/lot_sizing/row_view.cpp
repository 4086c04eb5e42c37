#include "lot_sizing/row_view.h"

#include <algorithm>

namespace wheyfield::lot_sizing {
namespace {

class Viewing {
 public:
  Viewing(const LabelSteps& row, const LabelStep& step) : row_(row), step_(step) {
    for (std::size_t d = 0; d < row.due().size(); ++d)
      if (row.first_unit()[d] >= step.low && row.first_unit()[d + 1] <= step.high &&
          row.left_to_later(d, step))
        late_.push_back(d);
  }

  // Between two dues told apart, and over one or more of them.
  std::vector<RowView> run() {
    for (std::size_t i = 0; i <= late_.size(); ++i) view(i, i);
    for (std::size_t i = 0; i < late_.size(); ++i)
      for (std::size_t j = i + 1; j <= late_.size(); ++j) view(i, j);
    return std::move(views_);
  }

 private:
  Units first(std::size_t i) const { return row_.first_unit()[late_[i]]; }
  Units end(std::size_t i) const { return row_.first_unit()[late_[i] + 1]; }

  // Passes over i .. j-1 of them.
  void view(std::size_t i, std::size_t j) {
    RowView view;
    view.begin = i == 0 ? step_.low : end(i - 1);
    const Units until = j == late_.size() ? step_.high : first(j);
    std::size_t d = row_.due_at(view.begin);
    std::size_t over = i;
    for (Units u = view.begin; u < until;) {
      if (over < j && u == first(over)) {
        if (over == i) view.last_start = view.size();
        view.first_end = view.size() + 1;
        view.passed.push_back({row_.late_key(late_[over]), 1});
        u = end(over++);
        continue;
      }
      while (row_.first_unit()[d + 1] <= u) ++d;
      const Units to = std::min(until, row_.first_unit()[d + 1]);
      for (; u < to; ++u) view.unit.push_back(u);
    }
    if (view.unit.empty() || view.first_end > view.size()) return;
    if (i == j) view.last_start = view.size();
    std::sort(view.passed.begin(), view.passed.end(),
              [](const Cell& a, const Cell& b) { return a.key < b.key; });
    sum_up(view);
    find_runs(view);
    views_.push_back(std::move(view));
  }

  void sum_up(RowView& view) const {
    view.waiting.assign(1, 0);
    view.running.assign(1, 0);
    view.passing.assign(1, 0);
    view.missing.assign(1, 0);
    std::size_t d = row_.due_at(view.begin);
    for (const Units u : view.unit) {
      while (row_.first_unit()[d + 1] <= u) ++d;
      const Cost miss = row_.due()[d].miss;
      const Cost one = row_.due()[d].last_use > step_.use_by ? miss : row_.waiting(d, step_);
      view.waiting.push_back(view.waiting.back() + one);
      view.running.push_back(view.running.back() + one + step_.per_unit);
      view.missing.push_back(view.missing.back() + miss);
      view.passing.push_back(view.passing.back() +
                             (miss == row_.cheapest() ? miss : one + step_.per_unit));
    }
  }

  // Cheap units of one collecting day in a row make one run, for they wait alike; of different last
  // use only as long as the session keeps for both.
  void find_runs(RowView& view) const {
    std::size_t d = row_.due_at(view.begin);
    std::size_t before = row_.due().size();
    for (Units v = 0; v < view.size(); ++v) {
      while (row_.first_unit()[d + 1] <= view.unit[static_cast<std::size_t>(v)]) ++d;
      const Due& due = row_.due()[d];
      if (due.miss != row_.cheapest()) {
        view.dear.push_back(v);
        before = row_.due().size();
        continue;
      }
      const bool on = before < row_.due().size() && row_.due()[before].collect == due.collect &&
                      (row_.due()[before].last_use > step_.use_by) == (due.last_use > step_.use_by);
      before = d;
      if (on)
        view.runs.back().to = v + 1;
      else
        view.runs.push_back({v, v + 1, static_cast<Units>(view.dear.size())});
    }
    view.runs.erase(std::remove_if(view.runs.begin(), view.runs.end(),
                                   [](const CheapRun& run) { return run.dear_before == 0; }),
                    view.runs.end());
  }

  const LabelSteps& row_;
  const LabelStep& step_;
  std::vector<std::size_t> late_;  // dues that the session does not keep for
  std::vector<RowView> views_;
};

}  // namespace

std::vector<RowView> views_of(const LabelSteps& row, const LabelStep& step) {
  return Viewing(row, step).run();
}

}  // namespace wheyfield::lot_sizing
