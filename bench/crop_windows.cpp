// How long the windows of many fields take over a year of daily temperatures, and how that grows.
// Prints milliseconds of one run and the growth when the fields grow tenfold: 10 is linear.
#include <cmath>
#include <cstdio>
#include <vector>

#include "crop/forecast.h"
#include "embedded.h"
#include "stopwatch.h"

using namespace wheyfield;

namespace {

template <class T>
T must(outcome::Result<T> result) {
  if (!result) std::abort();
  return std::move(*result);
}

// A year of days between 12 and 28 C, and 150 days to come.
weather::DailySeries year_of_days(calendar::Date first) {
  weather::DailySeries series{first, {}, {}, weather::Origin::readings, 0.5};
  for (int day = 0; day < 365 + 150; ++day) {
    const double mean = 20.0 + 3.0 * std::sin(day / 58.0);
    series.min.push_back(mean - 5.0);
    series.max.push_back(mean + 5.0);
  }
  return series;
}

std::vector<crop::FieldAsk> fields_of(int count, const crop::CropTable& crops,
                                      calendar::Date first) {
  const auto& all = crops.crops();
  std::vector<crop::FieldAsk> asks(static_cast<std::size_t>(count));
  for (std::size_t i = 0; i < asks.size(); ++i) {
    crop::Planting& planting = asks[i].planting;
    planting.crop = &all[i % all.size()];
    planting.set_out = first + static_cast<int>(i % 365);
    planting.harvest_after = planting.crop->stages.front().sum();
    if (i % 4 == 0) asks[i].seen.emerged = planting.set_out + 8;
    if (i % 8 == 0) asks[i].seen.fourth = planting.set_out + 70;
  }
  return asks;
}

}  // namespace

int main() {
  const auto data = must(reference_data::ReferenceData::parse(embedded::data_json()));
  const auto crops = must(crop::CropTable::parse(data));
  const auto first = calendar::Date::from_civil(2027, 1, 1);
  const weather::DailySeries series = year_of_days(first);
  std::printf("%9s %10s %8s %14s %10s\n", "fields", "ms", "growth", "by degree-days", "windows");
  double before = 0.0;
  for (int count : {1000, 10000, 100000}) {
    const auto asks = fields_of(count, crops, first);
    reference_data::UsedSources used;
    long warm = 0, windows = 0;
    const double taken = milliseconds([&] {
      const crop::Forecaster forecaster(crops, data, &series);
      for (const crop::FieldAsk& ask : asks) {
        const auto forecast = must(forecaster.forecast(ask, used));
        warm += forecast.road == crop::Road::degree_days;
        windows += static_cast<long>(forecast.uses.size());
      }
    });
    std::printf("%9d %10.1f %8.1f %14ld %10ld\n", count, taken, before > 0.0 ? taken / before : 0.0,
                warm, windows);
    before = taken;
  }
}
