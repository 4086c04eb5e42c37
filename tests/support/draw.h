// Seeded draws for property tests. The engine's raw output is fixed by the C++ standard; the
// standard distributions are not, so bounds are made here: the same cases on every machine.
#pragma once

#include <cstdint>
#include <random>
#include <string_view>

namespace wheyfield::testing {

class Draw {
 public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  // 0 .. n-1, n > 0.
  std::uint64_t below(std::uint64_t n) { return engine_() % n; }
  int between(int low, int high) {
    return low + static_cast<int>(below(static_cast<std::uint64_t>(high - low) + 1));
  }
  // low <= value < high.
  double real(double low, double high) {
    return low + (high - low) * (static_cast<double>(engine_() >> 11) / 9007199254740992.0);
  }
  char letter(std::string_view of) { return of[below(of.size())]; }

 private:
  std::mt19937_64 engine_;
};

}  // namespace wheyfield::testing
