// Prints data/readiness.toml: hours until 10, 50 and 90 % of the usual batches of the fermentation
// model are at or below pH 4.2 in a bucket kept at one temperature, milk raw and heated, with a
// tenth of rice rinse-water. 2,000 members of one seed, 11 L, looked at for 600 hours. Minutes.
#include <cstdio>
#include <cstdlib>
#include <optional>

#include "embedded.h"
#include "fermentation/ensemble.h"

using namespace wheyfield;

namespace {

constexpr double ready_ph = 4.2;
constexpr int coldest = 10, warmest = 36;  // [C]
constexpr double horizon = 600.0;          // [h]
constexpr double litres = 11.0;
constexpr std::uint64_t seed = 2027;

void print_hours(const char* name, const std::optional<double>& hours) {
  if (hours) std::printf(", %s = %.1f", name, *hours);
}

void print_rows(const fermentation::ParameterTable& table, const char* state,
                fermentation::Milk milk) {
  fermentation::Brew brew;
  brew.milk = milk;
  for (int celsius = coldest; celsius <= warmest; ++celsius) {
    const fermentation::Setting setting{fermentation::Air::constant(celsius),
                                        fermentation::vessel_hours(table.vessels(), litres),
                                        std::nullopt, horizon, brew};
    const fermentation::Ensemble batches(table, setting, seed);
    const fermentation::HourWindow hours = fermentation::hours_to(batches.usual(), ready_ph);
    std::printf("  { liquid = \"milk\", state = \"%s\", ph = %.1f, celsius = %d", state, ready_ph,
                celsius);
    print_hours("early", hours.early);
    print_hours("likely", hours.likely);
    print_hours("late", hours.late);
    std::printf(", kind = \"computed\", source = \"computed-here\", page = \"\", note = \"\" },\n");
  }
}

}  // namespace

// Only exhausted memory or a fault of ours can throw here.
int main() {  // NOLINT(bugprone-exception-escape)
  const auto data = reference_data::ReferenceData::parse(embedded::data_json());
  const auto table = fermentation::ParameterTable::parse(*data);
  if (!table) return EXIT_FAILURE;
  std::printf(
      "# When milk with a tenth of rice rinse-water is sour, by the fermentation model of\n"
      "# data/fermentation.toml. Written by bench/readiness_table.cpp, never by hand:\n"
      "# docs/models/fermentation.md says how. Hours until 10, 50 and 90 %% of 2,000 usual "
      "batches\n"
      "# (seed 2027, 11 L) are at `ph` or below in a bucket kept at `celsius`; an hour that is "
      "left\n"
      "# out was not reached in 600. The model holds for 12 to 35 C.\n"
      "readiness = [\n");
  print_rows(*table, "raw", fermentation::Milk::raw);
  print_rows(*table, "heated", fermentation::Milk::heated);
  std::printf("]\n");
  return EXIT_SUCCESS;
}
