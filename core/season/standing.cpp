#include "season/standing.h"

#include <algorithm>
#include <array>

namespace wheyfield::season {
namespace {

using calendar::Date;
using fermentation::HourWindow;
using fermentation::ReadinessCurve;

constexpr double mean_share = 0.44;   // of a day's range
constexpr double slack_hours = 1e-6;  // the same days on every machine
constexpr int longest_forecast = 25;  // [days], as far as the table looks

constexpr std::array in_turn{&HourWindow::early, &HourWindow::likely, &HourWindow::late};

double day_mean(const weather::DailySeries& series, Date day) {
  const auto last = static_cast<int>(series.min.size()) - 1;
  const auto i = static_cast<std::size_t>(std::clamp(day - series.first_day, 0, last));
  return series.min[i] + mean_share * (series.max[i] - series.min[i]);
}

// The first days that suffice for each mark, and how warm the bucket is until the last of them.
struct Marks {
  std::array<int, 3> days{};
  double celsius = 0.0;
};

std::optional<Marks> marks(const ReadinessCurve& curve, const Place& place, Date day) {
  Marks found;
  double sum = 0.0, hours_by_now = 0.0;
  std::size_t mark = 0;
  for (int days = 1; days <= longest_forecast; ++days) {
    sum += day_mean(place.temperature, day + (days - 1));
    hours_by_now += 24.0;
    found.celsius = sum / days;
    for (; mark < in_turn.size(); ++mark) {
      const auto hours = curve.at(found.celsius, in_turn[mark]);
      if (!hours || *hours / place.pace > hours_by_now + slack_hours) break;
      found.days[mark] = days;
    }
    if (mark == in_turn.size()) return found;
  }
  return std::nullopt;
}

}  // namespace

double bucket_mean(const Place& place, Date first, int days) {
  double sum = 0.0;
  for (int day = 0; day < days; ++day) sum += day_mean(place.temperature, first + day);
  return sum / days;
}

const char* milk_word(Milk milk) { return milk == Milk::raw ? "raw" : "heated"; }

std::optional<Standing> standing(const recipe::Step& step, const Place& place, Milk milk, Date day,
                                 double cool_below, const Readiness& readiness) {
  const double air = place.temperature.mean_over(day, std::max(1, step.warm.likely));
  const bool cool = air < cool_below - 1e-9;
  const recipe::Dwell& taught = cool ? step.cool : step.warm;
  if (!step.forecast) return Standing{taught, cool};
  const recipe::Forecast& forecast = *step.forecast;
  const ReadinessCurve* curve =
      readiness.table.curve(step.sours, milk_word(milk), forecast.ready_ph.value);
  if (!curve) return std::nullopt;
  const auto found = marks(*curve, place, day);
  if (!found) return std::nullopt;
  const bool floor_holds = readiness.batches_recorded < forecast.least_until_batches.value;
  const int least = floor_holds ? static_cast<int>(forecast.published_least.value) : 0;
  recipe::Dwell days = taught;
  days.early = std::max(least, found->days[0]);
  days.likely = std::max(least, found->days[1]);
  days.late = std::max(least, found->days[2]);
  days.keeps = std::max(days.late, taught.late) + taught.keeps - taught.late;
  return Standing{days, cool, found->celsius};
}

void note_forecasts(const recipe::Recipe& recipe, const Readiness& readiness,
                    reference_data::UsedSources& used) {
  for (const recipe::Step& step : recipe.steps)
    if (step.forecast) readiness.table.note(step.sours, used);
}

}  // namespace wheyfield::season
