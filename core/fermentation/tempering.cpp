#include "fermentation/tempering.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::fermentation {
namespace {

constexpr int halvings = 40;

}  // namespace

double log_mean_of_power(const std::vector<double>& heights, double power) {
  const double highest = *std::max_element(heights.begin(), heights.end());
  double sum = 0.0;
  for (const double height : heights) sum += std::exp(power * (height - highest));
  return power * highest + std::log(sum / static_cast<double>(heights.size()));
}

double share_counting(const std::vector<double>& heights, double power) {
  return std::exp(2.0 * log_mean_of_power(heights, power) -
                  log_mean_of_power(heights, 2.0 * power));
}

double next_power(const std::vector<double>& heights, double power, double kept) {
  if (share_counting(heights, 1.0 - power) >= kept) return 1.0;
  double low = power, high = 1.0;
  for (int i = 0; i < halvings; ++i) {
    const double middle = 0.5 * (low + high);
    (share_counting(heights, middle - power) >= kept ? low : high) = middle;
  }
  return high;
}

std::vector<std::size_t> drawn_places(const std::vector<double>& heights, double power,
                                      double offset) {
  const double all = log_mean_of_power(heights, power);
  std::vector<std::size_t> places;
  double sum = 0.0;
  for (std::size_t i = 0; i < heights.size(); ++i) {
    sum += std::exp(power * heights[i] - all);
    while (places.size() < heights.size() && static_cast<double>(places.size()) + offset < sum)
      places.push_back(i);
  }
  places.resize(heights.size(), heights.size() - 1);
  return places;
}

}  // namespace wheyfield::fermentation
