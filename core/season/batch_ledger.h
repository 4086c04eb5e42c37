// What a plan under way has made, drawn and used up: its batches, lots, milk and vessels.
//
// Knows the limits (milk of the day, fill line, vessel in use, first start) and sharing out; what
// to make when is the planner's choice.
#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "season/batch_chain.h"
#include "season/batch_plan.h"

namespace wheyfield::season {

// A batch that could be made: its vessel is free and there is milk on the day it is filled.
struct Candidate {
  std::size_t vessel;
  calendar::Date fill_day;
  const std::vector<BatchStep>* chain;
  std::int64_t most_ml;  // product that vessel and milk allow, >= least_working_ml, > 0
  calendar::Date ready() const { return chain->back().to; }
  calendar::Date start() const { return chain->front().from; }
};

// Products are planned in half litres, where vessel and milk hold so much.
std::int64_t rounded_up(std::int64_t ml);

class BatchLedger {
 public:
  // `chains` are the problem's, and outlive the ledger.
  BatchLedger(const BatchProblem& problem, ChainTable& chains);

  // None when the vessel is in use, too little milk is left for a batch that works, hands are
  // lacking, or it would start before the first start.
  std::optional<Candidate> candidate(std::size_t vessel, calendar::Date fill_day);

  // Filled on `last` or before, ready for the demand and keeping until its last use: the one that
  // starts last, of those the largest, then the vessel named first.
  std::optional<Candidate> latest_start(const Demand& demand, calendar::Date last);

  // At least what works.
  void brew(const Candidate& candidate, std::int64_t ml);
  void take_back(const Candidate& candidate);  // the batch brewed last
  void hold(const Batch& batch);               // of another plan, as it stands there

  // Lots: the opening ones, then one for each batch in the order brewed.
  std::size_t lots() const { return lots_.size(); }
  bool brewed(std::size_t lot) const { return lots_[lot].batch >= 0; }
  calendar::Date fill_day(std::size_t lot) const;  // of a brewed lot
  std::int64_t held(std::size_t lot) const { return lots_[lot].lot.ml; }
  std::int64_t headroom(std::size_t lot) const;  // how much more a brewed lot can hold [mL], >= 0
  void add_to(std::size_t lot, std::int64_t ml);
  // Fills a brewed lot's batch on another day. False, and nothing done, when its vessel is in use
  // then, milk or hands are lacking, or it would start before the first start. Draws are not looked
  // at.
  bool refill(std::size_t lot, calendar::Date fill_day);
  // Since when the vessel of a brewed lot has stood empty before it; the first start at the
  // earliest.
  calendar::Date empty_since(std::size_t lot) const;
  // Takes out what nothing is drawn from, batches and half litres.
  void trim();

  // The lots ready for a demand that keep until its last use, soonest to expire first.
  std::vector<std::size_t> usable(const Demand& demand) const;
  // Takes from them; gives what is still needed.
  std::int64_t draw(std::size_t demand, std::int64_t need);
  void leave_short(std::size_t demand, std::int64_t ml) { plan_.short_ml[demand] = ml; }
  const std::vector<Draw>& draws(std::size_t demand) const { return plan_.draws[demand]; }
  std::int64_t short_ml(std::size_t demand) const { return plan_.short_ml[demand]; }

  // The demands 0..last draw again, in their order. Gives the sum of what they lack.
  std::int64_t share_anew(std::size_t last);
  std::int64_t short_up_to(std::size_t last) const;

  // Batches in order of their start; draws renumbered to follow. Leaves the ledger empty.
  BatchPlan finished();

 private:
  struct OpenLot {
    Lot lot;
    std::int64_t left;
    int batch;  // index into made_, or -1 for opening
  };

  void add_lot(const Lot& lot, int batch);
  void place_by_use_by(std::size_t lot);
  bool serves(std::size_t lot, const Demand& demand) const;
  std::int64_t milk_left(calendar::Date day) const;
  // Apart from `but`, which may be null.
  bool vessel_free(std::size_t vessel, const BatchStep& stands, const Batch* but) const;
  // `but`: days of work that count no more.
  bool hands_free(const std::map<int, double>& hours, const std::map<int, double>& but) const;
  void count_hours(const std::vector<BatchStep>& steps, double sign);
  Batch& batch_of(std::size_t lot) { return made_[static_cast<std::size_t>(lots_[lot].batch)]; }
  const Batch& batch_of(std::size_t lot) const {
    return made_[static_cast<std::size_t>(lots_[lot].batch)];
  }

  const BatchProblem* p_;
  ChainTable* chains_;
  double milk_share_;
  std::size_t vessel_step_;
  std::vector<std::int64_t> capacity_;
  std::vector<OpenLot> lots_;
  std::vector<std::size_t> by_use_by_;  // lots, soonest to expire first
  std::vector<Batch> made_;
  std::int64_t least_ml_;
  std::map<int, std::int64_t> milk_used_;  // by day, in product [mL]
  std::map<int, double> hours_used_;       // by day; counted when there is a limit
  BatchPlan plan_;
};

}  // namespace wheyfield::season
