// What the notes say of meetings: who came, who does what, who taught whom, which farms nobody has
// visited.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "group/persons.h"

namespace wheyfield::group {

// Who stayed away: a person by the code, or the farm when nobody is known to hold it.
struct Away {
  std::string member;  // "" = a farm that no member holds
  std::string farm;    // "" = the member has none
};

// Is there a meeting on that day? As somebody noted of the day (`meeting`), else by the group's
// weekday (`meetings`).
bool is_meeting_day(const journal::Facts& facts, calendar::Date day);

// The first meeting day from `day` on; nothing when none is known within a year.
std::optional<calendar::Date> next_meeting(const journal::Facts& facts, calendar::Date day);

// The last day before `day` of which somebody noted a meeting (unless held = no), or who came.
std::optional<calendar::Date> last_meeting(const journal::Facts& facts, calendar::Date day);

// Who was noted as not coming (`attendance`) on that day, and the farms that said so before
// (`absence`) of whose people nobody was noted as having come.
std::vector<Away> away_on(const journal::Facts& facts, const Persons& persons, calendar::Date day);

// Persons who are there on `day` and whose last two notes of attendance before it both say no.
std::vector<std::string> absent_twice(const journal::Facts& facts, const Persons& persons,
                                      calendar::Date day);

struct Duty {
  std::string duty;
  std::string member;
  std::string from;   // ISO
  std::string until;  // "" = until somebody else takes it
};

// Of each duty the one that began last, up to `day`, and is not over; by name.
std::vector<Duty> duties_on(const journal::Facts& facts, calendar::Date day);

// Neighbours taught, by person: counts only. `unread` = notes without a number.
struct Taught {
  std::map<std::string, std::int64_t> people;
  std::int64_t all = 0;
  std::vector<const journal::Event*> unread;
};
Taught taught(const journal::Facts& facts, const Persons& persons, calendar::Date up_to);

// Farms of which no visit up to `day` is noted and whose people have not all left, in code order.
std::vector<std::string> visits_due(const journal::Facts& facts, const Persons& persons,
                                    calendar::Date day);

}  // namespace wheyfield::group
