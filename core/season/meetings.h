// A page for each meeting day: what is due, who brings what, litres for each farm, who was said to
// be absent, and the money for milk.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "dosing/harvest.h"
#include "season/plan.h"

namespace wheyfield::season {

// Serum for soaking seed that is weighed at the hand-out.
struct SeedShare {
  std::size_t field = 0;
  Volume per_kg;             // of seed
  std::int64_t kept_ml = 0;  // by the usual mix, an assumption: most of it will be over
};

// When to pick what is eaten raw, after this meeting's serum went on its leaves.
struct PickFrom {
  std::size_t field = 0;
  calendar::Date day;
};

struct Share {
  std::size_t farm = 0;
  std::int64_t serum_ml = 0;  // handed out, without what is handed out by seed
  std::int64_t short_ml = 0;
  std::vector<std::string> uses;  // events, without repeats
  std::vector<SeedShare> by_seed;
  std::vector<PickFrom> picking;
  bool absent = false;
  // Only when absent: the last day of the use that ends first, when that is before the next
  // meeting. Then the serum must be sent with a neighbour; else it is kept for that meeting.
  std::optional<calendar::Date> send_by;
};

// An input that a batch takes on the day of the meeting or before the next one: milk comes from the
// group, with its price; what is bought from the trainer's shopping; what is weighed and not bought
// (manure, straw, tips) from the farms.
struct Bring {
  std::string item;
  double amount = 0.0;
  std::string unit;
  Money price;  // a litre of milk
  Money cost;
  std::size_t batch = 0;
  std::optional<std::size_t> preparation;  // as of Task
  bool own = false;                        // from the farms, not bought
  calendar::Date on;                       // the day on which it is needed
};

struct Meeting {
  calendar::Date date;
  std::vector<Share> shares;       // by farm
  std::vector<std::size_t> tasks;  // indices into SeasonPlan::tasks of that day
  std::vector<Bring> bring;
  std::vector<std::string> absent;  // farm codes
  Money milk_money;
};

// Every meeting from the one at which the first batch is supplied (or the first hand-out) to the
// last day with work.
std::vector<Meeting> meetings(const Season& season, const recipe::Recipe& recipe,
                              const SeasonPlan& plan, const dosing::HarvestRule& harvest);

}  // namespace wheyfield::season
