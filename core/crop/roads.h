// By which road is a planting dated? Tries them in the order given in crop/forecast.h and follows
// the first that leads to first fruit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "crop/course.h"
#include "crop/use_windows.h"

namespace wheyfield::crop {

enum class Road { own_count, degree_days, calendar, event };
// "own-count", "degree-days", "calendar", "event".
std::string_view road_word(Road road);

struct RoadTaken {
  Course course;
  Road road = Road::calendar;
  // Why this road: own-count, thermal-row, no-thermal-row, no-temperatures, other-start,
  // temperatures-end, too-cool, event; its sentence is forecast.why.<code>.
  std::string why;
  outcome::Problems notes = {};  // temperatures-end (notice), too-cool (question, {limit})
};

// What is known apart from the planting. Row and sums are those of its crop, null when there are
// none; sums only with temperatures.
struct Ground {
  const CropTable& table;
  const reference_data::ReferenceData& data;
  const ThermalRow* row = nullptr;
  const ThermalSums* sums = nullptr;
  std::optional<weather::Origin> temperatures;
};

// `seen.planted` is not looked at; what was seen must be in order. Errors: own-count-out-of-range,
// harvest-length-missing, crop-without-row, crop-has-like-row, crop-waits-for-event; with them why
// warmth did not date it. Rows used are noted in `used`.
outcome::Result<RoadTaken> take_road(const Ground& ground, const Planting& planting,
                                     const Seen& seen, std::optional<int> own_days_to_fourth,
                                     reference_data::UsedSources& used);

}  // namespace wheyfield::crop
