// A page for each meeting day: what is due, who brings what, litres for each farm, who was said to
// be absent, and the money for milk.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "season/plan.h"

namespace wheyfield::season {

struct Share {
  std::size_t farm = 0;
  std::int64_t serum_ml = 0;  // handed out
  std::int64_t short_ml = 0;
  std::vector<std::string> uses;  // events, without repeats
  bool absent = false;            // hand over at the next meeting
};

struct Bring {
  std::string item;  // milk
  double litres = 0.0;
  Money price;  // a litre
  Money cost;
  std::size_t batch = 0;
};

struct Meeting {
  calendar::Date date;
  std::vector<Share> shares;       // by farm
  std::vector<std::size_t> tasks;  // indices into SeasonPlan::tasks of that day
  std::vector<Bring> bring;
  std::vector<std::string> absent;  // farm codes
  Money milk_money;
};

// Every meeting from the first batch (or the first hand-out) to the last day with work.
std::vector<Meeting> meetings(const Season& season, const recipe::Recipe& recipe,
                              const SeasonPlan& plan);

}  // namespace wheyfield::season
