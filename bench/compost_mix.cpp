// The cheapest and the nearest mix of so many ingredients within limits of C:N, water and volume.
// Prints microseconds of one mix and the growth when the ingredients double. Aim: 30 below 1 ms.
#include <cstdio>
#include <cstdlib>
#include <utility>

#include "compost/best_mix.h"
#include "embedded.h"
#include "stopwatch.h"

using namespace wheyfield;

namespace {

constexpr int rounds = 2000;

// The rows of the table that have a loose weight, again and again, each time a little dearer.
std::vector<compost::Offer> offers(const compost::IngredientTable& table, std::size_t count) {
  std::vector<compost::Offer> all;
  for (std::size_t i = 0; all.size() < count; ++i) {
    const compost::Ingredient& row = table.rows()[i % table.rows().size()];
    const double price = 1.0 + static_cast<double>(i * 7 % 13) + 0.01 * static_cast<double>(i);
    if (row.density) all.push_back({row.contents(58.0), 0.0, 120.0, price});
  }
  return all;
}

template <class Mix>
double microseconds(Mix mix, const std::vector<compost::Offer>& choice, const compost::Aim& aim) {
  double kilos = 0.0;
  const double taken = milliseconds([&] {
    for (int round = 0; round < rounds; ++round) kilos += mix(choice, aim).value().kg.front();
  });
  if (kilos < 0.0) std::abort();  // keeps the work from being left out
  return 1000.0 * taken / rounds;
}

}  // namespace

// A mix that cannot be had is a fault of this bench.
int main() {  // NOLINT(bugprone-exception-escape)
  const auto data = reference_data::ReferenceData::parse(embedded::data_json());
  const auto table = compost::IngredientTable::parse(*data);
  if (!table) return EXIT_FAILURE;
  std::printf("%11s %12s %8s %12s %8s\n", "ingredients", "cheapest us", "growth", "nearest us",
              "growth");
  std::pair<double, double> before{0.0, 0.0};
  for (const std::size_t count : {15, 30, 60}) {
    const auto choice = offers(*table, count);
    const std::pair<double, double> now{
        microseconds(compost::cheapest_mix, choice, {25.0, 30.0, 60.0, 1000.0}),
        microseconds(compost::nearest_mix, choice, {30.0, 30.0, 60.0, 1000.0})};
    const auto growth = [&](double a, double b) { return b > 0.0 ? a / b : 0.0; };
    std::printf("%11zu %12.1f %8.1f %12.1f %8.1f\n", count, now.first,
                growth(now.first, before.first), now.second, growth(now.second, before.second));
    before = now;
  }
  return EXIT_SUCCESS;
}
