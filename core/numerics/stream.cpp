#include "numerics/stream.h"

namespace wheyfield::numerics {
namespace {

std::uint64_t rotated(std::uint64_t x, int left) { return (x << left) | (x >> (64 - left)); }

std::uint64_t mixed(std::uint64_t x) { return split_mix(x); }

}  // namespace

std::uint64_t split_mix(std::uint64_t& state) {
  state += 0x9e3779b97f4a7c15u;
  std::uint64_t z = state;
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
  return z ^ (z >> 31);
}

Stream::Stream(std::uint64_t seed, std::uint64_t number, std::uint64_t part) : state_{} {
  std::uint64_t filling = mixed(mixed(seed) + number) + part;
  filling = mixed(filling);
  for (std::uint64_t& word : state_) word = split_mix(filling);
}

std::uint64_t Stream::next() {
  const std::uint64_t drawn = rotated(state_[1] * 5, 7) * 9;
  const std::uint64_t shifted = state_[1] << 17;
  state_[2] ^= state_[0];
  state_[3] ^= state_[1];
  state_[1] ^= state_[2];
  state_[0] ^= state_[3];
  state_[2] ^= shifted;
  state_[3] = rotated(state_[3], 45);
  return drawn;
}

std::uint32_t Stream::below(std::uint32_t n) {
  const auto product = [&] { return (next() >> 32) * n; };
  std::uint64_t drawn = product();
  if (static_cast<std::uint32_t>(drawn) < n) {
    const std::uint32_t unfair = (0u - n) % n;
    while (static_cast<std::uint32_t>(drawn) < unfair) drawn = product();
  }
  return static_cast<std::uint32_t>(drawn >> 32);
}

}  // namespace wheyfield::numerics
