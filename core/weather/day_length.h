// Hours of daylight, for land races that wait for short days. FAO-56 eq. 24, 25, 34:
//   d  = 0.409 sin(2 pi J / 365 - 1.39)     declination of the sun [rad], J = day of the year
//   ws = acos(-tan(latitude) tan(d))        sunset hour angle [rad]
//   N  = 24 ws / pi                         [h]
// Within 10 degrees of the equator N moves by less than an hour and a quarter in a year.
#pragma once

#include "calendar/date.h"

namespace wheyfield::weather {

// 1 January is 1.
int day_of_year(calendar::Date day);

// `latitude` in degrees, north positive, -90 < latitude < 90; beyond the polar circles it gives 0
// or 24 when the sun does not rise or set. `day` 1..366.
double day_length(double latitude, int day);

}  // namespace wheyfield::weather
