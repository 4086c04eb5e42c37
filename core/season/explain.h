// Why a season falls short, in two proofs: what no plan can avoid, and what cures it.
//
// What cannot be avoided is a lower bound (least_short_ml): of the season as it is, of what is
// handed out up to a day, and with one limit lifted altogether, which proves that this limit alone
// is not what binds. A cure is a change of the season for which a plan was made that leaves nothing
// short. Nothing is said that rests on neither.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "lot_sizing/product_program.h"
#include "season/gather.h"

namespace wheyfield::season {

// One thing that is done otherwise.
struct SeasonChange {
  enum class What {
    hand_out_later,  // what is short, up to `days` later, never after its last day of use
    start_earlier,   // the first start, by `days`
    more_milk,       // `percent` more on each day that has milk
    one_more_vessel  // like `vessel`, beside it
  };
  What what = What::start_earlier;
  int days = 0;
  int percent = 0;
  std::size_t vessel = 0;  // index into Season::vessels
};

struct Cure {
  std::vector<SeasonChange> changes;  // one, or two together
  std::int64_t short_ml = 0;          // that is left
  // Of the plan with the change, without the price of a vessel that nobody priced.
  std::optional<Money> cost;
};

// With one limit lifted altogether: milk, vessels, how long serum keeps, or hours of work.
struct Lifted {
  std::string limit;  // "milk", "vessel", "life", "hands"
  std::int64_t at_least_ml = 0;
};

struct ShortDay {
  calendar::Date collect;
  std::int64_t short_ml = 0;             // of the plan
  std::int64_t by_then_at_least_ml = 0;  // no plan leaves less short of all that is due up to it
};

struct Explanation {
  std::int64_t short_ml = 0;                     // of the plan
  std::int64_t at_least_ml = 0;                  // no plan leaves less short
  std::vector<ShortDay> days;                    // on which the plan falls short
  std::optional<calendar::Date> earliest_ready;  // no batch at all is ready before it
  std::vector<Lifted> lifted;                    // those that leave something short
  std::vector<Cure> cures;  // at most three, cheapest first; of what leaves nothing short, else
                            // what leaves least, one of it
};

// `search_days`: how far before the first start is looked; `bounds`: what each bound may take.
// Nothing short: an empty explanation.
Explanation explain(const DueSeason& due, const BatchPlanner& planner, int search_days,
                    const lot_sizing::Effort& bounds = {14, 160, 24, 25, 5000000, 15000000});

// The season with the change; hand_out_later changes only the demand.
Season changed(const Season& season, const SeasonChange& change);

}  // namespace wheyfield::season
