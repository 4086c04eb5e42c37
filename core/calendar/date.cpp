#include "calendar/date.h"

#include <array>
#include <cctype>
#include <chrono>

namespace wheyfield::calendar {
namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

year_month_day civil(int days) { return sys_days(std::chrono::days(days)); }

constexpr std::array<std::string_view, 7> weekday_names{
    "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday"};

std::optional<int> digits(std::string_view text) {
  int value = 0;
  for (char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    value = value * 10 + (c - '0');
  }
  return value;
}

}  // namespace

Date Date::from_civil(int year, int month, int day) {
  const year_month_day date{std::chrono::year(year),
                            std::chrono::month(static_cast<unsigned>(month)),
                            std::chrono::day(static_cast<unsigned>(day))};
  return Date(static_cast<int>(sys_days(date).time_since_epoch().count()));
}

int Date::year() const { return static_cast<int>(civil(days_).year()); }
int Date::month() const { return static_cast<int>(static_cast<unsigned>(civil(days_).month())); }
int Date::day() const { return static_cast<int>(static_cast<unsigned>(civil(days_).day())); }

Weekday Date::weekday() const {
  const std::chrono::weekday day{sys_days(std::chrono::days(days_))};
  return static_cast<Weekday>(day.iso_encoding());
}

std::string Date::iso() const {
  const year_month_day date = civil(days_);
  const int year = static_cast<int>(date.year());
  std::string text = "0000-00-00";
  const auto put = [&](std::size_t first, std::size_t count, unsigned number) {
    for (std::size_t i = first + count; i > first; --i, number /= 10)
      text[i - 1] = static_cast<char>('0' + number % 10);
  };
  put(0, 4, static_cast<unsigned>(year));
  put(5, 2, static_cast<unsigned>(date.month()));
  put(8, 2, static_cast<unsigned>(date.day()));
  return text;
}

outcome::Result<Date> parse_date(std::string_view text) {
  const auto bad = [&](const char* code, std::map<std::string, std::string> details) {
    return outcome::failure({code, "", std::string(text), std::move(details)});
  };
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return bad("date-unreadable", {});
  const auto year = digits(text.substr(0, 4));
  const auto month = digits(text.substr(5, 2));
  const auto day = digits(text.substr(8, 2));
  if (!year || !month || !day || *month < 1 || *month > 12 || *day < 1 || *day > 31)
    return bad("date-unreadable", {});
  if (*year < 1900 || *year > 2199) return bad("date-out-of-range", {});
  const std::chrono::year_month_day_last last{
      std::chrono::year(*year),
      std::chrono::month_day_last(std::chrono::month(static_cast<unsigned>(*month)))};
  if (*day > static_cast<int>(static_cast<unsigned>(last.day())))
    return bad(
        "date-impossible",
        {{"last",
          Date::from_days(static_cast<int>(sys_days(last).time_since_epoch().count())).iso()}});
  return Date::from_civil(*year, *month, *day);
}

std::optional<Weekday> parse_weekday(std::string_view text) {
  std::string lower;
  for (char c : text) lower += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  for (std::size_t i = 0; i < weekday_names.size(); ++i)
    if (weekday_names[i] == lower) return static_cast<Weekday>(i + 1);
  return std::nullopt;
}

std::string_view weekday_key(Weekday weekday) {
  return weekday_names[static_cast<std::size_t>(weekday) - 1];
}

}  // namespace wheyfield::calendar
