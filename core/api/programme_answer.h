// The plan of a programme, dressed as pages to read.
#pragma once

#include <string>
#include <vector>

#include "api/session.h"
#include "programme/programme.h"
#include "sheet/page.h"

namespace wheyfield::api {

// Everything that was worked out for one programme.
struct WorkedProgramme {
  const Session& session;
  programme::Programme programme;
  std::vector<programme::GroupPlans> groups;
  programme::ProgrammePlan plan;
  std::vector<std::string> not_planned;  // groups whose files could not be planned

  const programme::DayPlan& proposed(std::size_t group) const {
    return *groups[group].on(plan.groups[group].day);
  }
  const programme::DayPlan& now(std::size_t group) const {
    return *groups[group].on(groups[group].now);
  }
  const words::Catalogue& words() const { return session.words; }
};

// Litres needed in the weeks of the proposed plans.
struct WeekNeed {
  calendar::Date monday;
  std::int64_t ml = 0;
};
std::vector<WeekNeed> molasses_weeks(const WorkedProgramme& worked);

// A load of one trip, or what no trip brings, group by group.
struct GroupCans {
  std::size_t group = 0;
  std::size_t cans = 0;
  calendar::Date needed;  // the first of them
};
std::vector<GroupCans> cans_by_group(const WorkedProgramme& worked,
                                     const std::vector<std::size_t>& cans);

// Of all groups with their proposed days, in the order of the first.
std::vector<programme::GroupNeed> summed_needs(const WorkedProgramme& worked);

// summary, weekdays, costs, visits, needs, molasses.
std::vector<sheet::Page> programme_pages(const WorkedProgramme& worked);

}  // namespace wheyfield::api
