#include "season/back_scheduler.h"

#include <algorithm>

#include "season/batch_ledger.h"
#include "season/spares.h"

namespace wheyfield::season {
namespace {

using calendar::Date;

constexpr int most_trials = 400;  // of other batches for what stays short, in one plan
constexpr int most_orders = 2;    // in which vessels are filled, besides the latest
constexpr std::int64_t half_litre = 500;

class Scheduling {
 public:
  // The first batch passes over the `pass_over` latest fill days that would do. `trials` counts on
  // from one scheduling of a problem to the next.
  Scheduling(const BatchProblem& problem, ChainTable& chains, int pass_over, int& trials)
      : p_(problem),
        season_(*problem.season),
        ledger_(problem, chains),
        pass_over_(pass_over),
        trials_(trials) {}

  BatchPlan run() {
    for (std::size_t g = 0; g < p_.demand.size(); ++g) serve(g);
    if (!p_.demand.empty() && ledger_.short_up_to(last()) > 0) rescue();
    ledger_.trim();
    return ledger_.finished();
  }

  // False when there are not so many days to pass over before the order of batches repeats.
  bool passed_over_all() const { return pass_over_ == 0; }

 private:
  std::size_t last() const { return p_.demand.size() - 1; }

  void serve(std::size_t g) {
    std::int64_t need = ledger_.draw(g, p_.demand[g].ml);
    need = enlarge(g, need);
    while (need > 0) {
      const auto candidate = latest_start(p_.demand[g]);
      if (!candidate) break;
      ledger_.brew(*candidate, std::min(candidate->most_ml, rounded_up(need)));
      need = ledger_.draw(g, need);
    }
    ledger_.leave_short(g, need);
    while (ledger_.short_ml(g) > 0 && shifted(g, g)) continue;
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

  // More of an earlier batch may free a fresher one: tries larger and further batches, latest fill
  // day first, sharing out anew to the demands up to `to`, and keeps the first that leaves less
  // short. False when none does.
  bool shifted(std::size_t g, std::size_t to) {
    const std::int64_t before = ledger_.short_up_to(to);
    const std::int64_t need = ledger_.short_ml(g);
    std::optional<BatchLedger> kept;
    for (Date day = p_.demand[g].collect; day >= p_.first_start(); day = day - 1)
      if (larger_helps(to, day, need, before, kept) ||
          another_helps(g, to, day, need, before, kept))
        return true;
    if (kept) ledger_ = *kept;
    return false;
  }

  // Of the whole plan: other batches, then all batches as early as they keep, which brings the idle
  // days of a vessel together, and other batches again; then half litres.
  void rescue() {
    shift_all();
    if (ledger_.short_up_to(last()) > 0) {
      const BatchLedger kept = ledger_;
      const std::int64_t before = ledger_.short_up_to(last());
      brought_forward();
      shift_all();
      if (ledger_.short_up_to(last()) >= before) ledger_ = kept;
    }
    top_up();
  }

  void shift_all() {
    for (std::size_t g = 0; g < p_.demand.size(); ++g)
      while (ledger_.short_ml(g) > 0 && shifted(g, last())) continue;
  }

  void brought_forward() {
    std::int64_t before = ledger_.short_up_to(last());
    std::vector<std::size_t> lots;
    for (std::size_t lot = 0; lot < ledger_.lots(); ++lot)
      if (ledger_.brewed(lot)) lots.push_back(lot);
    std::stable_sort(lots.begin(), lots.end(), [&](std::size_t a, std::size_t b) {
      return ledger_.fill_day(a) < ledger_.fill_day(b);
    });
    for (const std::size_t lot : lots) {
      const Date latest = ledger_.fill_day(lot);
      for (Date day = ledger_.empty_since(lot); day < latest && trials_ < most_trials;
           day = day + 1) {
        if (!ledger_.refill(lot, day)) continue;
        if (!leaves_more(before)) break;
        ledger_.refill(lot, latest);
      }
    }
    ledger_.share_anew(last());
  }

  // Half a litre more in any batch that leaves less short when all stock is shared out anew.
  void top_up() {
    std::int64_t short_ml = ledger_.short_up_to(last());
    if (short_ml == 0) return;
    const BatchLedger kept = ledger_;
    if (ledger_.share_anew(last()) > short_ml) return void(ledger_ = kept);
    short_ml = ledger_.short_up_to(last());
    for (std::size_t lot = 0; lot < ledger_.lots() && short_ml > 0; ++lot)
      while (ledger_.brewed(lot) && ledger_.headroom(lot) > 0) {
        const std::int64_t ml = std::min(half_litre, ledger_.headroom(lot));
        ledger_.add_to(lot, ml);
        const std::int64_t now = ledger_.share_anew(last());
        if (now >= short_ml) {
          ledger_.add_to(lot, -ml);
          ledger_.share_anew(last());
          break;
        }
        short_ml = now;
      }
  }

  bool leaves_less(std::size_t to, std::int64_t before) {
    ++trials_;
    return ledger_.share_anew(to) < before;
  }

  bool leaves_more(std::int64_t before) {
    ++trials_;
    return ledger_.share_anew(last()) > before;
  }

  bool larger_helps(std::size_t to, Date day, std::int64_t need, std::int64_t before,
                    std::optional<BatchLedger>& kept) {
    for (std::size_t lot = 0; lot < ledger_.lots() && trials_ < most_trials; ++lot) {
      if (!ledger_.brewed(lot) || ledger_.fill_day(lot) != day) continue;
      const std::int64_t ml = std::min(ledger_.headroom(lot), rounded_up(need));
      if (ml == 0) continue;
      if (!kept) kept = ledger_;
      ledger_.add_to(lot, ml);
      if (leaves_less(to, before)) return true;
      ledger_.add_to(lot, -ml);
    }
    return false;
  }

  bool another_helps(std::size_t g, std::size_t to, Date day, std::int64_t need,
                     std::int64_t before, std::optional<BatchLedger>& kept) {
    for (std::size_t v = 0; v < season_.vessels.size() && trials_ < most_trials; ++v) {
      const auto c = ledger_.candidate(v, day);
      if (!c || c->ready() > p_.demand[g].collect) continue;
      if (!kept) kept = ledger_;
      ledger_.brew(*c, std::min(c->most_ml, rounded_up(need)));
      if (leaves_less(to, before)) return true;
      ledger_.take_back(*c);
    }
    return false;
  }

  std::optional<Candidate> latest_start(const Demand& demand) {
    std::optional<Candidate> best = ledger_.latest_start(demand, demand.collect);
    if (!best) return best;
    // Filled while the latest one would still stand: anything earlier repeats an order of batches.
    const auto stands = static_cast<std::size_t>(std::max(0, p_.recipe->vessel_step()));
    const BatchStep& latest = (*best->chain)[stands];
    const Date repeats = latest.from - (latest.to - latest.from);
    for (; pass_over_ > 0; --pass_over_) {
      auto earlier = ledger_.latest_start(demand, best->fill_day - 1);
      if (!earlier || earlier->fill_day <= repeats) break;
      best = earlier;
    }
    return best;
  }

  const BatchProblem& p_;
  const Season& season_;
  BatchLedger ledger_;
  int pass_over_;
  int& trials_;
};

}  // namespace

BatchPlan back_scheduled(const BatchProblem& problem, ChainTable& chains) {
  int trials = 0;
  BatchPlan best = Scheduling(problem, chains, 0, trials).run();
  for (int pass_over = 1; best.total_short() > 0 && pass_over <= most_orders; ++pass_over) {
    Scheduling another(problem, chains, pass_over, trials);
    BatchPlan plan = another.run();
    if (!another.passed_over_all()) break;
    if (plan.total_short() < best.total_short()) best = std::move(plan);
  }
  return best;
}

BatchPlan BackScheduler::plan(const BatchProblem& problem) const {
  ChainTable chains(problem);
  BatchPlan plan = back_scheduled(problem, chains);
  add_spares(problem, chains, plan);
  return plan;
}

}  // namespace wheyfield::season
