// The smallest value within a window that moves to the right over an array.
#pragma once

#include <cstddef>
#include <vector>

#include "lot_sizing/problem.h"

namespace wheyfield::lot_sizing {

// Push positions in rising order, drop those before the window, read the smallest: O(1) each on
// average. Among equals the first pushed is kept.
class SlidingMinimum {
 public:
  // Room for `count` pushes, and empty.
  void reset(std::size_t count) {
    if (ring_.size() < count) ring_.resize(count);
    head_ = tail_ = 0;
  }
  void push(Units position, Cost key) {
    while (tail_ > head_ && ring_[tail_ - 1].key > key) --tail_;
    ring_[tail_++] = {position, key};
  }
  void drop_before(Units position) {
    while (head_ < tail_ && ring_[head_].position < position) ++head_;
  }
  bool empty() const { return head_ == tail_; }
  Units position() const { return ring_[head_].position; }
  Cost key() const { return ring_[head_].key; }

 private:
  struct Entry {
    Units position;
    Cost key;
  };
  std::vector<Entry> ring_;
  std::size_t head_ = 0, tail_ = 0;
};

}  // namespace wheyfield::lot_sizing
