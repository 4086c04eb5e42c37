// When is this field due, and how do we know? The windows of its uses by the best road there is.
//
// Roads, in this order:
//   own_count    her own count of days to the fourth event of her variety: +/- 10 %
//   degree_days  the crop has a thermal row, was started the way the row counts from, and the
//                temperatures reach from planting to first fruit. Edges: 0.9 and 1.1 of the sums,
//                in a year warmer and colder by the spread of the temperatures
//   calendar     the stage row nearest to the variety's length, scaled
//                (crop/use_windows.h): +/- 10 %
//   event        a crop without any row is dated by what is seen (coffee: the blossom)
// What she saw shifts and narrows the windows (crop/course.h); a sighting whose pace is beyond
// pace-limit is set aside, as if not seen, and asked about. Windows, never one day, but for the
// evening-before soak, which is a rule and no forecast; it is due for undressed seed only. When the
// nursery's day is not known it is taken about four weeks before planting out.
//
// Limits: no rule knows day length, drought or disease. One degree at 18 C moves maize by 7 to 10
// days.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "crop/roads.h"
#include "crop/use_windows.h"
#include "weather/daily_series.h"

namespace wheyfield::crop {

struct FieldAsk {
  // `crop` may be a rowless one (CropTable::find_any); `harvest_after` 0 = not known; `nursery` may
  // be left out.
  Planting planting;
  Seen seen;
  std::optional<int> own_days_to_fourth;  // 1 .. 700
};

struct Forecast {
  std::vector<Use> uses;                    // in order of time
  std::optional<calendar::Window> harvest;  // none when no row says
  Road road = Road::calendar;
  std::string why;                              // of RoadTaken
  std::optional<weather::Origin> temperatures;  // of the series, on the road of degree-days
  double pace = 1.0;                            // k of crop/course.h, as it was used
  outcome::Problems notes;                      // questions and notices; the forecast stands
};

// Keeps the temperatures of one place ready for any number of its fields: O(log days) a field.
class Forecaster {
 public:
  // `temperatures` may be null. The table and the data must outlive the forecaster.
  Forecaster(const CropTable& table, const reference_data::ReferenceData& data,
             const weather::DailySeries* temperatures);

  // Errors: observation-before-planting, observation-out-of-order ("/seen/<event>", {limit});
  // own-count-out-of-range; harvest-length-missing (calendar road with no length);
  // crop-without-row, crop-has-like-row ({like}, {share}, {days}) and crop-waits-for-event, which
  // say how to go on by hand.
  // Notes: too-cool (question), temperatures-end, observation-far-off and observation-unbelievable
  // (questions), thermal-other-variety, nursery-day-assumed, emergence-not-used,
  // sighting-only-shifts, and the crop's own, such as waits-for-short-days, and its row's, such as
  // european-row. Rows used are noted in `used`.
  outcome::Result<Forecast> forecast(const FieldAsk& ask, reference_data::UsedSources& used) const;

 private:
  const CropTable& table_;
  const reference_data::ReferenceData& data_;
  std::optional<weather::Origin> temperatures_;
  std::vector<ThermalSums> sums_;  // one for each row of table_.thermal(), none without a series
};

}  // namespace wheyfield::crop
