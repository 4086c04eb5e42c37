// A plan that is changed: what people were told stays, as far as it can, and what is different is
// named.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "outcome/result.h"
#include "season/gather.h"

namespace wheyfield::season {

// A batch of the earlier plan.
struct ToldBatch {
  std::string name;    // "B3"
  std::string vessel;  // its name
  calendar::Date start;
  calendar::Date fill_day;  // the season vessel is filled
  calendar::Date ready;
  std::int64_t stored_ml = 0;
  bool failed = false;
};

// When the change is made, and until when work is announced.
struct ChangeDay {
  calendar::Date on;     // no new batch starts before it
  calendar::Date until;  // batches that start up to it are kept, but for failed ones
};

// Errors, at /was/batches/N: announced-vessel-gone (value: the vessel), announced-overfull,
// announced-clash (two in one vessel at once; details: other), announced-cannot-stand (its days do
// not fit the recipe any more).
// `keeps_days`: how long the recipe's product keeps.
outcome::Result<Announced> announced(const Season& season, const recipe::Recipe& recipe,
                                     int keeps_days, const PlanRules& rules,
                                     const std::vector<ToldBatch>& told, const ChangeDay& day);

struct Difference {
  enum class What { kept, resized, moved, dropped, failed, added };
  What what = What::kept;
  std::optional<std::size_t> before;  // index into the told batches
  std::optional<std::size_t> now;     // index into BatchPlan::batches
};

// Each told batch and each of the plan, spares too, once: those of the same vessel and start are
// kept or resized; of the others the first told that is no more is moved to the first that is new,
// and so on; what is left is dropped or added. By start.
std::vector<Difference> differences(const Season& season, const std::vector<ToldBatch>& told,
                                    const BatchPlan& plan);

}  // namespace wheyfield::season
