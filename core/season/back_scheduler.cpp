#include "season/back_scheduler.h"

#include <algorithm>

#include "season/batch_ledger.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

constexpr int most_trials = 400;  // of other batches for what stays short, in one plan
constexpr int most_orders = 2;    // in which vessels are filled, besides the latest
constexpr std::int64_t half_litre = 500;

bool better(const Candidate& a, const std::optional<Candidate>& b) {
  if (!b) return true;
  if (a.start() != b->start()) return a.start() > b->start();
  return a.most_ml > b->most_ml;
}

class Scheduling {
 public:
  // The first batch passes over the `pass_over` latest fill days that would do. `trials` counts on
  // from one scheduling of a problem to the next.
  Scheduling(const BatchProblem& problem, int pass_over, int& trials)
      : p_(problem),
        season_(*problem.season),
        ledger_(problem),
        pass_over_(pass_over),
        trials_(trials) {}

  BatchPlan run() {
    for (std::size_t g = 0; g < p_.demand.size(); ++g) serve(g);
    top_up();
    return ledger_.finished(!add_spares());
  }

  // False when there are not so many days to pass over before the order of batches repeats.
  bool passed_over_all() const { return pass_over_ == 0; }

 private:
  void serve(std::size_t g) {
    std::int64_t need = ledger_.draw(g, p_.demand[g].ml);
    need = enlarge(g, need);
    while (need > 0) {
      if (const auto candidate = latest_start(p_.demand[g])) {
        ledger_.brew(*candidate, std::min(candidate->most_ml, rounded_up(need)), false);
        need = ledger_.draw(g, need);
      } else if (const std::int64_t still = after_shift(g, need); still < need) {
        need = still;
      } else {
        break;
      }
    }
    ledger_.leave_short(g, need);
  }

  // Adds to planned batches that this demand can draw on, soonest to expire first. Gives what is
  // still needed.
  std::int64_t enlarge(std::size_t g, std::int64_t need) {
    for (const std::size_t lot : ledger_.usable(p_.demand[g])) {
      if (need == 0) break;
      if (!ledger_.brewed(lot)) continue;
      ledger_.add_to(lot, std::min(ledger_.headroom(lot), rounded_up(need)));
      need = ledger_.draw(g, need);
    }
    return need;
  }

  // When nothing made for this demand would keep until its last use, more of an earlier batch may
  // free a fresher one: tries larger and further batches, latest fill day first, sharing all stock
  // out anew, and keeps the first that leaves less short. Gives what this demand still needs.
  std::int64_t after_shift(std::size_t g, std::int64_t need) {
    ledger_.leave_short(g, need);
    const std::int64_t before = ledger_.short_up_to(g);
    if (before > need) return need;
    for (Date day = p_.demand[g].collect; day >= p_.first_start(); day = day - 1)
      if (larger_helps(g, day, need, before) || another_helps(g, day, need, before))
        return ledger_.short_ml(g);
    return need;
  }

  // Half a litre more in any batch that leaves less short when all stock is shared out anew.
  void top_up() {
    if (p_.demand.empty()) return;
    const std::size_t last = p_.demand.size() - 1;
    for (std::size_t lot = 0; lot < ledger_.lots(); ++lot) {
      const std::int64_t before = ledger_.short_up_to(last);
      if (before == 0) return;
      if (!ledger_.brewed(lot) || ledger_.headroom(lot) < half_litre) continue;
      const BatchLedger kept = ledger_;
      ledger_.add_to(lot, half_litre);
      if (ledger_.share_anew(last) < before)
        --lot;
      else
        ledger_ = kept;
    }
  }

  bool leaves_less(std::size_t g, std::int64_t before) {
    ++trials_;
    return ledger_.share_anew(g) < before;
  }

  bool larger_helps(std::size_t g, Date day, std::int64_t need, std::int64_t before) {
    for (std::size_t lot = 0; lot < ledger_.lots() && trials_ < most_trials; ++lot) {
      if (!ledger_.brewed(lot) || ledger_.fill_day(lot) != day) continue;
      const std::int64_t ml = std::min(ledger_.headroom(lot), rounded_up(need));
      if (ml == 0) continue;
      ledger_.add_to(lot, ml);
      if (leaves_less(g, before)) return true;
      ledger_.add_to(lot, -ml);
      ledger_.share_anew(g);
    }
    return false;
  }

  bool another_helps(std::size_t g, Date day, std::int64_t need, std::int64_t before) {
    for (std::size_t v = 0; v < season_.vessels.size() && trials_ < most_trials; ++v) {
      const auto c = ledger_.candidate(v, day);
      if (!c || c->ready() > p_.demand[g].collect) continue;
      ledger_.brew(*c, std::min(c->most_ml, rounded_up(need)), false);
      if (leaves_less(g, before)) return true;
      ledger_.take_back(*c);
      ledger_.share_anew(g);
    }
    return false;
  }

  std::optional<Candidate> latest_start(const Demand& demand) {
    std::optional<Candidate> best = latest_start(demand, demand.collect);
    if (!best) return best;
    // Filled while the latest one would still stand: anything earlier repeats an order of batches.
    const auto stands = static_cast<std::size_t>(std::max(0, p_.recipe->vessel_step()));
    const BatchStep& latest = (*best->chain)[stands];
    const Date repeats = latest.from - (latest.to - latest.from);
    for (; pass_over_ > 0; --pass_over_) {
      auto earlier = latest_start(demand, best->fill_day - 1);
      if (!earlier || earlier->fill_day <= repeats) break;
      best = earlier;
    }
    return best;
  }

  // Filled on `last` or before.
  std::optional<Candidate> latest_start(const Demand& demand, Date last) {
    std::optional<Candidate> best;
    for (Date day = last; day >= p_.first_start(); day = day - 1) {
      if (best && day < best->start()) break;
      for (std::size_t v = 0; v < season_.vessels.size(); ++v) {
        const auto c = ledger_.candidate(v, day);
        if (!c || c->ready() > demand.collect) continue;
        if (c->ready() + season_.serum_life_days < demand.last_use) continue;
        if (better(*c, best)) best = c;
      }
    }
    return best;
  }

  // A spare for each so many planned batches. False when one has no place.
  bool add_spares() {
    const std::size_t each = static_cast<std::size_t>(season_.batches_per_spare);
    if (each == 0) return true;
    bool all = true;
    const std::size_t planned = ledger_.lots();
    for (std::size_t first = p_.opening.size(); first < planned; first += each)
      all = brew_spare(first, std::min(planned, first + each)) && all;
    return all;
  }

  // As large as the largest of the lots first..end-1: the latest start that is ready by their first
  // hand-out, else the soonest after it that comes by their last.
  bool brew_spare(std::size_t first, std::size_t end) {
    std::int64_t largest = 0;
    for (std::size_t lot = first; lot < end; ++lot) largest = std::max(largest, ledger_.held(lot));
    std::vector<Date> handed_out;
    for (std::size_t g = 0; g < p_.demand.size(); ++g)
      for (const Draw& draw : ledger_.draws(g))
        if (draw.lot >= first && draw.lot < end) handed_out.push_back(p_.demand[g].collect);
    if (handed_out.empty()) return true;
    for (Date day = handed_out.front(); day <= handed_out.back(); day = day + 1)
      if (const auto c = latest_start({day, day, largest})) {
        ledger_.brew(*c, std::min(largest, c->most_ml), true);
        return true;
      }
    return false;
  }

  const BatchProblem& p_;
  const Season& season_;
  BatchLedger ledger_;
  int pass_over_;
  int& trials_;
};

}  // namespace

BatchPlan BackScheduler::plan(const BatchProblem& problem) const {
  int trials = 0;
  BatchPlan best = Scheduling(problem, 0, trials).run();
  for (int pass_over = 1; best.total_short() > 0 && pass_over <= most_orders; ++pass_over) {
    Scheduling another(problem, pass_over, trials);
    BatchPlan plan = another.run();
    if (!another.passed_over_all()) break;
    if (plan.total_short() < best.total_short()) best = std::move(plan);
  }
  return best;
}

}  // namespace wheyfield::season
