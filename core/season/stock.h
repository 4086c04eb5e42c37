// Stored serum over time: what comes in, what is handed out, what passes its use-by day.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "season/plan.h"

namespace wheyfield::season {

struct StockChange {
  calendar::Date date;
  std::string what;  // in-hand, ready, spare-ready, hand-out, kept-for-seed, past-use-by
  std::string lot;   // batch name, "" for hand-outs and stock in hand
  std::int64_t change_ml = 0;
  std::int64_t balance_ml = 0;  // after the change, never below 0
};

// By date; on one day what comes in stands before what goes out.
std::vector<StockChange> stock_changes(const Season& season, const SeasonPlan& plan);

// The day on which most stands in cans: serum and every preparation that is stored in them.
struct StockPeak {
  calendar::Date date;
  std::int64_t ml = 0;
};
// `changes` are those of the serum.
StockPeak stock_peak(const Season& season, const recipe::Recipe& recipe, const SeasonPlan& plan,
                     const std::vector<StockChange>& changes);

}  // namespace wheyfield::season
