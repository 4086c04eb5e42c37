// Seeded draws for property tests. The engine's raw output is fixed by the C++ standard; the
// standard distributions are not, so bounds are made here: the same cases on every machine.
#pragma once

#include <cstdint>
#include <random>
#include <string_view>

namespace wheyfield::testing {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool sanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
constexpr bool sanitized = true;
#else
constexpr bool sanitized = false;
#endif
#else
constexpr bool sanitized = false;
#endif

// How many of `all` drawn cases a property test goes through: all of them natively and in wasm,
// the first quarter under sanitizers, which take twenty times as long.
template <typename Count>
constexpr Count cases(Count all) {
  return sanitized ? all / 4 : all;
}

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
