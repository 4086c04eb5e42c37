// How long a step stands that is begun on a day: by the taught windows, or forecast from the warmth
// of its place.
#pragma once

#include <optional>

#include "calendar/date.h"
#include "fermentation/readiness.h"
#include "recipe/recipe.h"
#include "season/season.h"

namespace wheyfield::season {

// What forecasts go by.
struct Readiness {
  fermentation::ReadinessTable table;
  int batches_recorded = 0;  // of the group's own
};

struct Standing {
  recipe::Dwell days;
  bool cool = false;  // the taught windows of a cool place
  // Mean of a forecast bucket over the days until `late` [C]; none: the taught windows.
  std::optional<double> bucket = std::nullopt;
};

// Mean of the days' means over `days` >= 1 days from `first` in a bucket, which follows the course
// of the air: min + 0.44 (max - min) each day, the mean of weather/diurnal.h's first curve [C].
double bucket_mean(const Place& place, calendar::Date first, int days);

// "raw", "heated": as recipes and data/readiness.toml call it.
const char* milk_word(Milk milk);

// Taught: the cool windows where the mean of the daily means over the warm likely dwell (at least
// one day) lies below `cool_below` [C], else the warm ones.
// Forecast: early, likely and late are the first whole days by which 10, 50 and 90 % of the batches
// are ready in a bucket that is as warm as the mean of those days; none below the published least
// before so many batches are recorded. The output stands well for as long after the late end as is
// taught, and no shorter than is taught.
// None: nine in ten batches are not ready within 25 days, the horizon of the table.
std::optional<Standing> standing(const recipe::Step& step, const Place& place, Milk milk,
                                 calendar::Date day, double cool_below, const Readiness& readiness);

// Notes what the forecasts of the recipe's steps rest on.
void note_forecasts(const recipe::Recipe& recipe, const Readiness& readiness,
                    reference_data::UsedSources& used);

}  // namespace wheyfield::season
