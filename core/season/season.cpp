#include "season/season.h"

namespace wheyfield::season {

Area Season::area() const {
  Area sum;
  for (const Farm& farm : farms)
    for (const Field& field : farm.fields) sum += field.area;
  return sum;
}

std::size_t Season::fields() const {
  std::size_t count = 0;
  for (const Farm& farm : farms) count += farm.fields.size();
  return count;
}

const MilkRule* Season::milk_on(calendar::Date day) const {
  for (const MilkRule& rule : milk) {
    if (rule.from && day < *rule.from) continue;
    if (rule.until && day > *rule.until) continue;
    if (rule.meeting_days_only && !meetings.meets(day)) continue;
    if (rule.weekday && day.weekday() != *rule.weekday) continue;
    return &rule;
  }
  return nullptr;
}

}  // namespace wheyfield::season
