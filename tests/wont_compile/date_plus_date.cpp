// expect: no match for 'operator+'
#include "calendar/date.h"

using wheyfield::calendar::Date;

#ifdef WONT_COMPILE
const auto sum = Date::from_days(1) + Date::from_days(2);
#else
const int between = Date::from_days(1) - Date::from_days(2);
#endif
