// Seeded streams of whole numbers: the same numbers on every machine, in any order of asking.
//
// xoshiro256** (Blackman and Vigna, "Scrambled linear pseudorandom number generators", ACM
// Transactions on Mathematical Software 47(4), 2021), its state filled by SplitMix64 (Steele, Lea
// and Flood, OOPSLA 2014) as its authors advise. For simulation, never for secrets.
#pragma once

#include <array>
#include <cstdint>

namespace wheyfield::numerics {

class Stream {
 public:
  using State = std::array<std::uint64_t, 4>;

  // Precondition: not all zero.
  explicit Stream(const State& state) : state_(state) {}
  // Part `part` of stream `number` of `seed`. Each has its own stream, whatever else was drawn:
  // work may be shared out over threads by number.
  Stream(std::uint64_t seed, std::uint64_t number, std::uint64_t part = 0);

  std::uint64_t next();  // all 64 bits
  // 0 .. n-1, n > 0, each equally likely: by multiplication, what would favour some is drawn again
  // (Lemire, "Fast random integer generation in an interval", ACM TOMACS 29(1), 2019).
  std::uint32_t below(std::uint32_t n);

 private:
  State state_;
};

// One step of SplitMix64: moves `state` on and gives its number.
std::uint64_t split_mix(std::uint64_t& state);

}  // namespace wheyfield::numerics
