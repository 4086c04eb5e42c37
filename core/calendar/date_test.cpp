#include "calendar/date.h"

#include <gtest/gtest.h>

#include "calendar/meeting_days.h"

namespace wheyfield::calendar {
namespace {

// ISO 8601 examples: 1 January 1970 was a Thursday; 4 March 2027 is a Thursday (PRACTICE season).
TEST(CalendarDate, WeekdaysFollowIso8601) {
  EXPECT_EQ(Date::from_days(0).weekday(), Weekday::thursday);
  EXPECT_EQ(Date::from_civil(2027, 3, 4).weekday(), Weekday::thursday);
  EXPECT_EQ(Date::from_civil(2026, 11, 25).weekday(), Weekday::wednesday);
}

TEST(CalendarDate, EveryDayOfFourHundredYearsReadsBackAsWritten) {
  int month_day = 0;
  for (Date d = Date::from_civil(1900, 1, 1); d < Date::from_civil(2199, 12, 31); d = d + 1) {
    const auto back = parse_date(d.iso());
    ASSERT_TRUE(back) << d.iso();
    ASSERT_EQ(back->days(), d.days());
    const Date next = d + 1;
    month_day = next.day() == 1 ? 1 : month_day;
    ASSERT_TRUE(next.day() == 1 || next.day() == d.day() + 1) << d.iso();
  }
  EXPECT_EQ(month_day, 1);
}

TEST(CalendarDate, The29thOfFebruaryIsRefusedOutsideLeapYears) {
  const auto bad = parse_date("2027-02-29");
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error()[0].code, "date-impossible");
  EXPECT_EQ(bad.error()[0].details.at("last"), "2027-02-28");
  EXPECT_TRUE(parse_date("2028-02-29"));
}

TEST(CalendarDate, UnreadableDatesAreRefused) {
  for (const char* text : {"", "4 March", "2027-3-4", "2027-13-01", "04-03-2027", "2027-03-0x"})
    EXPECT_FALSE(parse_date(text)) << text;
  EXPECT_EQ(parse_date("1802-01-01").error()[0].code, "date-out-of-range");
}

TEST(CalendarMeetingDays, AHolidayMovesTheHandOutToTheMeetingBefore) {
  const MeetingDays days{Weekday::thursday, {Date::from_civil(2027, 3, 25)}};
  EXPECT_EQ(days.last_up_to(Date::from_civil(2027, 3, 29))->iso(), "2027-03-18");
  EXPECT_EQ(days.first_from(Date::from_civil(2027, 3, 19))->iso(), "2027-04-01");
  EXPECT_EQ(days.last_up_to(Date::from_civil(2027, 4, 1))->iso(), "2027-04-01");
  EXPECT_EQ(last_before(Weekday::tuesday, Date::from_civil(2027, 3, 9)).iso(), "2027-03-02");
}

TEST(CalendarWeekday, NamesAreReadInAnyCase) {
  EXPECT_EQ(parse_weekday("Thursday"), Weekday::thursday);
  EXPECT_EQ(parse_weekday("TUESDAY"), Weekday::tuesday);
  EXPECT_FALSE(parse_weekday("Thorsday"));
}

}  // namespace
}  // namespace wheyfield::calendar
