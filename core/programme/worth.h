// What a choice of weekdays costs: litres left short count before money, as in a group's own plan,
// and of two choices that cost the same the one that moves fewer groups is better.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

namespace wheyfield::programme {

// Compared part by part in this order; sums and differences go part by part, so that the shortest
// path over such costs is exact without weighing litres against money.
struct Worth {
  std::int64_t short_ml = 0;     // of what is measured [mL]
  std::int64_t guess_ml = 0;     // kept short for seed that nobody weighed [mL]
  std::int64_t thousandths = 0;  // money
  std::int64_t moved = 0;        // groups that meet on another day than now

  std::array<std::int64_t, 4> parts() const { return {short_ml, guess_ml, thousandths, moved}; }
  Worth& operator+=(const Worth& b) {
    short_ml += b.short_ml;
    guess_ml += b.guess_ml;
    thousandths += b.thousandths;
    moved += b.moved;
    return *this;
  }
  friend Worth operator+(Worth a, const Worth& b) { return a += b; }
  friend Worth operator-(const Worth& a, const Worth& b) {
    return {a.short_ml - b.short_ml, a.guess_ml - b.guess_ml, a.thousandths - b.thousandths,
            a.moved - b.moved};
  }
  friend bool operator<(const Worth& a, const Worth& b) { return a.parts() < b.parts(); }
  friend bool operator==(const Worth& a, const Worth& b) { return a.parts() == b.parts(); }
};

}  // namespace wheyfield::programme
