#include "season/plan_check.h"

#include <algorithm>
#include <map>
#include <optional>
#include <string>

namespace wheyfield::season {
namespace {

using calendar::Date;

std::size_t vessel_step(const BatchProblem& problem) {
  return static_cast<std::size_t>(std::max(0, problem.recipe->vessel_step()));
}

constexpr int most_days = 25;  // looked at for a forecast

std::string under(std::size_t preparation, const std::string& field) {
  return preparation == 0 ? field : "/preparations/" + std::to_string(preparation - 1) + field;
}

class Judge {
 public:
  Judge(const BatchProblem& problem, const BatchPlan& plan) : p_(problem), plan_(plan) {}

  outcome::Problems verdict() {
    for (std::size_t i = 0; i < plan_.batches.size(); ++i) batch(i);
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
    if (b.use_by - b.ready != p_.keeps_days.value_or(p_.season->serum_life_days))
      add("plan-life-wrong", field, b.use_by.iso());
    if (b.stored_ml <= 0 || b.stored_ml > fill_limit(b.vessel))
      add("plan-vessel-overfull", field, std::to_string(b.stored_ml));
    const recipe::Step& stands = p_.recipe->steps[vessel_step(p_)];
    if (p_.season->vessels[b.vessel].kind != stands.kind) add("plan-vessel-kind", field);
    if (stands.most_fill && static_cast<double>(b.stored_ml) / 1000.0 * poured_per_litre() >
                                stands.most_fill->value + 1e-6)
      add("plan-vessel-overfull", field, std::to_string(b.stored_ml));
    if (stands.least_fill && static_cast<double>(b.stored_ml) / 1000.0 * poured_per_litre() <
                                 stands.least_fill->value - 1e-6)
      add("plan-vessel-underfull", field, std::to_string(b.stored_ml));
  }

  // Volume of everything poured into the vessel for one litre of product, from the recipe's ratios.
  double poured_per_litre() const {
    const recipe::Scaled one = recipe::scale(*p_.recipe, 1.0);
    double poured = 0.0;
    for (const recipe::ScaledFlow& flow : one.steps[vessel_step(p_)].takes)
      if (p_.recipe->material(flow.material)->unit == "L") poured += flow.amount;
    return poured;
  }

  std::int64_t fill_limit(std::size_t vessel) const {
    const double line = quantity::in_litres(p_.season->vessels[vessel].fill_line);
    return static_cast<std::int64_t>(line / poured_per_litre() * 1000.0 + 1e-6);
  }

  void step(const Batch& b, std::size_t k, const std::string& field) {
    const BatchStep& s = b.steps[k];
    const std::string at = field + "/steps/" + std::to_string(k);
    if (s.step != k || s.to < s.from) add("plan-steps-broken", at);
    if (k > 0 && s.from != b.steps[k - 1].to) add("plan-steps-broken", at);
    const recipe::Dwell dwell = dwell_of(p_.recipe->steps[k], b, s, at);
    if (s.to - s.from < dwell.late) add("plan-dwell-short", at, s.to.iso());
    if (s.to - s.from > dwell.keeps) add("plan-dwell-long", at, s.to.iso());
    if (s.ready.early != s.from + dwell.early || s.ready.likely != s.from + dwell.likely ||
        s.ready.late != s.from + dwell.late)
      add("plan-window-wrong", at);
    if (p_.recipe->steps[k].vessel == recipe::VesselNeed::season) group_day(s, dwell, at);
  }

  recipe::Dwell dwell_of(const recipe::Step& step, const Batch& b, const BatchStep& s,
                         const std::string& at) {
    const Vessel& vessel = p_.season->vessels[b.vessel];
    const Place& place = p_.season->places[vessel.place];
    const double air = place.temperature.mean_over(s.from, std::max(1, step.warm.likely));
    const recipe::Dwell& taught = air < p_.cool_below - 1e-9 ? step.cool : step.warm;
    if (!step.forecast) return taught;
    recipe::Dwell dwell = taught;
    const auto first = [&](std::optional<double> fermentation::HourWindow::*mark, int as_planned) {
      const std::optional<int> day = first_ready(step, vessel, place, s.from, mark);
      if (!day) add("plan-never-ready", at, s.from.iso());
      return day.value_or(as_planned);
    };
    dwell.early = first(&fermentation::HourWindow::early, s.ready.early - s.from);
    dwell.likely = first(&fermentation::HourWindow::likely, s.ready.likely - s.from);
    dwell.late = first(&fermentation::HourWindow::late, s.ready.late - s.from);
    // As much longer than the late end as is taught, counted from the later of the two.
    dwell.keeps = taught.keeps + std::max(0, dwell.late - taught.late);
    return dwell;
  }

  // The first day, not before the least, by which the mark of a bucket as warm as the days up to
  // then has passed.
  std::optional<int> first_ready(const recipe::Step& step, const Vessel& vessel, const Place& place,
                                 Date from,
                                 std::optional<double> fermentation::HourWindow::*mark) const {
    const fermentation::ReadinessCurve* curve = p_.readiness.table.curve(
        step.sours, vessel.milk == Milk::raw ? "raw" : "heated", step.forecast->ready_ph.value);
    if (curve == nullptr) return std::nullopt;
    const bool own = p_.readiness.batches_recorded >= step.forecast->least_until_batches.value;
    for (int days = 1; days <= most_days; ++days) {
      const auto hours = curve->at(bucket_mean(place, from, days), mark);
      if (hours && *hours <= 24.0 * days * place.pace + 1e-6)
        return own ? days : std::max(days, static_cast<int>(step.forecast->published_least.value));
    }
    return std::nullopt;
  }

  // The vessel is emptied at a meeting whenever one falls between its late end and its last day.
  void group_day(const BatchStep& stands, const recipe::Dwell& dwell, const std::string& at) {
    if (p_.season->meetings.meets(stands.to)) return;
    for (Date day = stands.from + dwell.late; day <= stands.from + dwell.keeps; day = day + 1)
      if (p_.season->meetings.meets(day)) return add("plan-group-day", at, stands.to.iso());
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

// What all preparations share: vessels, the milk of a day and the hours of work.
class SharedJudge {
 public:
  SharedJudge(const std::vector<BatchProblem>& problems, const std::vector<BatchPlan>& plans)
      : season_(*problems.front().season) {
    for (std::size_t r = 0; r < problems.size(); ++r)
      for (std::size_t i = 0; i < plans[r].batches.size(); ++i) {
        const Batch& b = plans[r].batches[i];
        if (b.vessel < season_.vessels.size() && b.steps.size() == problems[r].recipe->steps.size())
          all_.push_back({&problems[r], &b, under(r, "/batches/" + std::to_string(i))});
      }
  }

  outcome::Problems verdict() {
    vessels();
    milk();
    hands();
    return std::move(problems_);
  }

 private:
  struct One {
    const BatchProblem* problem;
    const Batch* batch;
    std::string field;
    const BatchStep& stands() const { return batch->steps[vessel_step(*problem)]; }
  };
  // `only_announced`: nothing of it can be changed any more.
  struct Day {
    double amount = 0.0;
    bool only_announced = true;
  };

  void vessels() {
    for (std::size_t i = 0; i < all_.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const BatchStep& x = all_[i].stands();
        const BatchStep& y = all_[j].stands();
        if (all_[i].batch->vessel == all_[j].batch->vessel && x.from < y.to && y.from < x.to)
          problems_.push_back({"plan-vessel-busy", all_[i].field, x.from.iso(), {}});
      }
  }

  void milk() {
    std::map<int, Day> poured;
    for (const One& one : all_) {
      const double share = recipe::scale(*one.problem->recipe, 1.0).taken("milk");
      Day& day = poured[one.stands().from.days()];
      day.amount += static_cast<double>(one.batch->stored_ml) * share;
      day.only_announced = day.only_announced && one.batch->announced;
    }
    for (const auto& [day, of] : poured) {
      const Date date = Date::from_days(day);
      const MilkRule* rule = season_.milk_on(date);
      const double most = rule ? quantity::in_millilitres(rule->most) : 0.0;
      // The milk of what is announced is promised, whatever can be had now.
      if (!of.only_announced && of.amount > most + 1e-6)
        problems_.push_back({"plan-milk-over", "/milk", date.iso(), {}});
    }
  }

  void hands() {
    if (!season_.hands) return;
    std::map<int, Day> work;
    for (const One& one : all_)
      for (const auto& [on, hours] : work_days(*one.problem->recipe, one.batch->steps)) {
        work[on].amount += hours;
        work[on].only_announced = work[on].only_announced && one.batch->announced;
      }
    for (const auto& [on, of] : work) {
      const Date date = Date::from_days(on);
      const double most =
          season_.meetings.meets(date) ? season_.hands->meeting_day : season_.hands->other_day;
      if (!of.only_announced && of.amount > most + 1e-6)
        problems_.push_back({"plan-hands-over", "/labour", date.iso(), {}});
    }
  }

  const Season& season_;
  std::vector<One> all_;
  outcome::Problems problems_;
};

}  // namespace

outcome::Problems check_plan(const BatchProblem& problem, const BatchPlan& plan) {
  return check_plans({problem}, {plan});
}

outcome::Problems check_plans(const std::vector<BatchProblem>& problems,
                              const std::vector<BatchPlan>& plans) {
  outcome::Problems found;
  for (std::size_t r = 0; r < problems.size(); ++r)
    for (outcome::Problem& problem : Judge(problems[r], plans[r]).verdict()) {
      problem.field = under(r, problem.field);
      found.push_back(std::move(problem));
    }
  outcome::append(found, SharedJudge(problems, plans).verdict());
  return found;
}

}  // namespace wheyfield::season
