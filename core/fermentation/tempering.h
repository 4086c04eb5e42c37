// From what is believed beforehand to what readings say, step by step: each step raises the
// readings a little, draws members by their weights and is followed by moves (sequential Monte
// Carlo with tempered likelihoods, Neal 2001; Del Moral, Doucet and Jasra 2006; from memory).
// Needed where readings are so unlikely beforehand that hardly any member fits them: a late batch.
//
// `heights` are logarithms of likelihoods of members that all count alike; at least one.
#pragma once

#include <cstddef>
#include <vector>

namespace wheyfield::fermentation {

// Logarithm of the mean of exp(power height): what a step adds to the logarithm of the evidence.
double log_mean_of_power(const std::vector<double>& heights, double power);

// Share of the members that count with weights exp(power height), 1/n..1: (mean w)^2 / mean w^2.
double share_counting(const std::vector<double>& heights, double power);

// The highest power in (power, 1] to which the readings can be raised so that a share of `kept`,
// 0 < kept < 1, still counts; found by halving 40 times.
double next_power(const std::vector<double>& heights, double power, double kept);

// Places of as many members as there are, drawn by weights exp(power height): systematically, from
// `offset` in [0, 1) on. Rising.
std::vector<std::size_t> drawn_places(const std::vector<double>& heights, double power,
                                      double offset);

template <class T>
std::vector<T> taken(const std::vector<T>& from, const std::vector<std::size_t>& places) {
  std::vector<T> all;
  all.reserve(places.size());
  for (const std::size_t place : places) all.push_back(from[place]);
  return all;
}

}  // namespace wheyfield::fermentation
