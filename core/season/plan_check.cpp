#include "season/plan_check.h"

#include <algorithm>
#include <map>
#include <optional>
#include <set>
#include <string>

namespace wheyfield::season {
namespace {

using calendar::Date;

class Judge {
 public:
  Judge(const BatchProblem& problem, const BatchPlan& plan) : p_(problem), plan_(plan) {}

  outcome::Problems verdict() {
    for (std::size_t i = 0; i < plan_.batches.size(); ++i) batch(i);
    milk();
    draws();
    return std::move(problems_);
  }

 private:
  void add(const char* code, const std::string& field, const std::string& value = "") {
    problems_.push_back({code, field, value, {}});
  }

  void batch(std::size_t i) {
    const Batch& b = plan_.batches[i];
    const std::string field = "/batches/" + std::to_string(i);
    if (b.vessel >= p_.season->vessels.size()) return add("plan-vessel-unknown", field);
    if (b.steps.size() != p_.recipe->steps.size()) return add("plan-steps-broken", field);
    for (std::size_t k = 0; k < b.steps.size(); ++k) step(b, k, field);
    const std::optional<Date>& no_new = p_.announced.no_new_before;
    if (!b.announced && (b.start() < p_.season->first_start || (no_new && b.start() < *no_new)))
      add("plan-starts-too-early", field, b.steps.front().from.iso());
    if (b.ready != b.steps.back().to) add("plan-ready-wrong", field, b.ready.iso());
    if (b.use_by - b.ready != p_.season->serum_life_days)
      add("plan-life-wrong", field, b.use_by.iso());
    if (b.stored_ml <= 0 || b.stored_ml > fill_limit(b.vessel))
      add("plan-vessel-overfull", field, std::to_string(b.stored_ml));
    for (std::size_t j = 0; j < i; ++j) overlap(b, plan_.batches[j], field);
  }

  // Volume of everything poured into the vessel for one litre of product, from the recipe's ratios.
  std::int64_t fill_limit(std::size_t vessel) const {
    const recipe::Scaled one = recipe::scale(*p_.recipe, 1.0);
    double poured = 0.0;
    for (const recipe::ScaledFlow& flow :
         one.steps[static_cast<std::size_t>(p_.recipe->vessel_step())].takes)
      if (p_.recipe->material(flow.material)->unit == "L") poured += flow.amount;
    const double line = quantity::in_litres(p_.season->vessels[vessel].fill_line);
    return static_cast<std::int64_t>(line / poured * 1000.0 + 1e-6);
  }

  void step(const Batch& b, std::size_t k, const std::string& field) {
    const BatchStep& s = b.steps[k];
    const std::string at = field + "/steps/" + std::to_string(k);
    if (s.step != k || s.to < s.from) add("plan-steps-broken", at);
    if (k > 0 && s.from != b.steps[k - 1].to) add("plan-steps-broken", at);
    const Place& place = p_.season->places[p_.season->vessels[b.vessel].place];
    const recipe::Dwell& dwell = dwell_at(p_.recipe->steps[k], place, s.from, p_.cool_below);
    if (s.to - s.from < dwell.late) add("plan-dwell-short", at, s.to.iso());
    if (s.to - s.from > dwell.keeps) add("plan-dwell-long", at, s.to.iso());
    if (s.ready.early != s.from + dwell.early || s.ready.likely != s.from + dwell.likely ||
        s.ready.late != s.from + dwell.late)
      add("plan-window-wrong", at);
    if (p_.recipe->steps[k].vessel == recipe::VesselNeed::season) group_day(s, dwell, at);
  }

  // The vessel is emptied at a meeting whenever one falls between its late end and its last day.
  void group_day(const BatchStep& stands, const recipe::Dwell& dwell, const std::string& at) {
    if (p_.season->meetings.meets(stands.to)) return;
    for (Date day = stands.from + dwell.late; day <= stands.from + dwell.keeps; day = day + 1)
      if (p_.season->meetings.meets(day)) return add("plan-group-day", at, stands.to.iso());
  }

  void overlap(const Batch& a, const Batch& b, const std::string& field) {
    const auto stands = static_cast<std::size_t>(p_.recipe->vessel_step());
    if (a.vessel != b.vessel || b.steps.size() <= stands) return;
    const BatchStep& x = a.steps[stands];
    const BatchStep& y = b.steps[stands];
    if (x.from < y.to && y.from < x.to) add("plan-vessel-busy", field, x.from.iso());
  }

  void milk() {
    std::map<int, std::int64_t> poured;
    std::set<int> only_announced;
    const auto stands = static_cast<std::size_t>(p_.recipe->vessel_step());
    for (const Batch& b : plan_.batches)
      if (b.steps.size() > stands) poured[b.steps[stands].from.days()] += b.stored_ml;
    for (const auto& [day, ml] : poured) only_announced.insert(day);
    for (const Batch& b : plan_.batches)
      if (!b.announced && b.steps.size() > stands)
        only_announced.erase(b.steps[stands].from.days());
    const double share = recipe::scale(*p_.recipe, 1.0).taken("milk");
    for (const auto& [day, ml] : poured) {
      const Date date = Date::from_days(day);
      const MilkRule* rule = p_.season->milk_on(date);
      const double most = rule ? quantity::in_millilitres(rule->most) : 0.0;
      // The milk of what is announced is promised, whatever can be had now.
      if (only_announced.count(day) != 0) continue;
      if (share > 0.0 && static_cast<double>(ml) * share > most + 1e-6)
        add("plan-milk-over", "/milk", date.iso());
    }
  }

  Lot lot(std::size_t index) const {
    if (index < p_.opening.size()) return p_.opening[index];
    const Batch& b = plan_.batches[index - p_.opening.size()];
    return {b.ready, b.use_by, b.stored_ml};
  }

  void draws() {
    const std::size_t lots = p_.opening.size() + plan_.batches.size();
    std::vector<std::int64_t> drawn(lots, 0);
    if (plan_.draws.size() != p_.demand.size() || plan_.short_ml.size() != p_.demand.size())
      return add("plan-demand-unbalanced", "/draws");
    for (std::size_t g = 0; g < p_.demand.size(); ++g) {
      const std::string field = "/draws/" + std::to_string(g);
      std::int64_t sum = plan_.short_ml[g];
      if (plan_.short_ml[g] < 0) add("plan-draw-negative", field);
      for (const Draw& draw : plan_.draws[g]) {
        if (draw.lot >= lots) return add("plan-lot-overdrawn", field);
        sum += draw.ml;
        drawn[draw.lot] += draw.ml;
        one_draw(draw, p_.demand[g], field);
      }
      if (sum != p_.demand[g].ml) add("plan-demand-unbalanced", field, std::to_string(sum));
    }
    for (std::size_t i = 0; i < lots; ++i)
      if (drawn[i] > lot(i).ml) add("plan-lot-overdrawn", "/lots/" + std::to_string(i));
  }

  void one_draw(const Draw& draw, const Demand& demand, const std::string& field) {
    const Lot from = lot(draw.lot);
    if (draw.ml <= 0) add("plan-draw-negative", field);
    if (from.from > demand.collect) add("plan-draw-early", field, from.from.iso());
    if (from.use_by < demand.last_use) add("plan-draw-expired", field, from.use_by.iso());
    if (draw.lot >= p_.opening.size() && plan_.batches[draw.lot - p_.opening.size()].spare)
      add("plan-draw-from-spare", field);
  }

  const BatchProblem& p_;
  const BatchPlan& plan_;
  outcome::Problems problems_;
};

}  // namespace

outcome::Problems check_plan(const BatchProblem& problem, const BatchPlan& plan) {
  return Judge(problem, plan).verdict();
}

}  // namespace wheyfield::season
