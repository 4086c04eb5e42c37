#include "season/explain.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

#include "season/lots.h"

namespace wheyfield::season {
namespace {

using calendar::Date;
using What = SeasonChange::What;

constexpr std::size_t most_cures = 3;
constexpr int later_days[] = {1, 2, 3, 5, 7};
constexpr int milk_percents[] = {25, 50, 100};

Demand later(Demand demand, int days) {
  demand.collect = std::max(demand.collect, std::min(demand.collect + days, demand.last_use));
  return demand;
}

class Explaining {
 public:
  Explaining(const DueSeason& due, const BatchPlanner& planner, int search_days,
             const lot_sizing::Effort& bounds)
      : planner_(planner),
        due_(due),
        turn_(better_turn(due, planner, 0)),
        search_days_(search_days),
        bounds_(bounds) {}

  Explanation run() {
    explanation_.short_ml = turn_.plan.total_short();
    if (explanation_.short_ml == 0) return std::move(explanation_);
    explanation_.at_least_ml = least_short_ml(problem(), bounds_);
    explanation_.earliest_ready = earliest_ready(problem());
    short_days();
    lift_limits();
    look_for_cures();
    return std::move(explanation_);
  }

 private:
  const BatchProblem& problem() const { return turn_.gathered->problem; }

  void short_days() {
    std::map<int, std::int64_t> days;
    for (std::size_t d = 0; d < problem().demand.size(); ++d)
      if (turn_.plan.short_ml[d] > 0)
        days[problem().demand[d].collect.days()] += turn_.plan.short_ml[d];
    for (const auto& [day, ml] : days) {
      BatchProblem up_to = problem();
      up_to.demand.erase(
          std::remove_if(up_to.demand.begin(), up_to.demand.end(),
                         [day = day](const Demand& d) { return d.collect.days() > day; }),
          up_to.demand.end());
      explanation_.days.push_back({Date::from_days(day), ml, least_short_ml(up_to, bounds_)});
    }
  }

  void lift_limits() {
    const auto lift = [&](const char* limit, bool BatchProblem::*lifted) {
      BatchProblem easier = problem();
      easier.*lifted = true;
      if (const std::int64_t ml = least_short_ml(easier, bounds_); ml > 0)
        explanation_.lifted.push_back({limit, ml});
    };
    lift("milk", &BatchProblem::milk_without_limit);
    lift("vessel", &BatchProblem::vessels_without_limit);
    lift("life", &BatchProblem::life_without_limit);
    if (problem().season->hands) lift("hands", &BatchProblem::hands_without_limit);
    // What stays short with a limit lifted stays short with it, whichever bound was found.
    for (const Lifted& lifted : explanation_.lifted)
      explanation_.at_least_ml = std::max(explanation_.at_least_ml, lifted.at_least_ml);
  }

  Cure tried(std::vector<SeasonChange> changes) const {
    std::vector<BatchProblem> problems = together(due_, *turn_.gathered);
    BatchProblem& easier = problems.front();
    Season season = *easier.season;
    for (const SeasonChange& change : changes) {
      season = changed(season, change);
      if (change.what != What::hand_out_later) continue;
      for (std::size_t d = 0; d < easier.demand.size(); ++d)
        if (turn_.plan.short_ml[d] > 0) easier.demand[d] = later(easier.demand[d], change.days);
    }
    for (BatchProblem& problem : problems) problem.season = &season;
    const BatchPlan plan = std::move(planner_.plan_together(problems).front());
    Cure cure{std::move(changes), plan.total_short(), std::nullopt};
    if (plan.certificate) cure.cost = plan.certificate->cost;
    return cure;
  }

  void keep(Cure cure) {
    if (cure.short_ml == 0)
      cures_.push_back(std::move(cure));
    else if (cure.short_ml < explanation_.short_ml && (!best_ || cure.short_ml < best_->short_ml))
      best_ = std::move(cure);
  }

  // The least of a change that grows: what cures with less of it cures with more.
  template <class Changes>
  void least_that_cures(const Changes& changes) {
    for (const SeasonChange& change : changes) {
      Cure cure = tried({change});
      const bool cured = cure.short_ml == 0;
      keep(std::move(cure));
      if (cured) return;
    }
  }

  void hand_out_later() {
    std::vector<SeasonChange> changes;
    for (const int days : later_days) changes.push_back({What::hand_out_later, days});
    least_that_cures(changes);
  }

  void start_earlier() {
    const auto by = [&](int days) { return tried({{What::start_earlier, days}}); };
    Cure cure = by(search_days_);
    if (cure.short_ml > 0) return keep(std::move(cure));
    int too_few = 0;
    for (int days = search_days_; days - too_few > 1;) {
      const int middle = too_few + (days - too_few) / 2;
      Cure less = by(middle);
      if (less.short_ml > 0) {
        too_few = middle;
        continue;
      }
      days = middle;
      cure = std::move(less);
    }
    keep(std::move(cure));
  }

  void more_milk() {
    std::vector<SeasonChange> changes;
    for (const int percent : milk_percents) changes.push_back({What::more_milk, 0, percent});
    least_that_cures(changes);
  }

  // One of each size and milk at each place.
  std::vector<SeasonChange> vessels() const {
    std::map<std::tuple<std::size_t, Milk, std::int64_t>, std::size_t> sizes;
    const auto& all = problem().season->vessels;
    for (std::size_t v = 0; v < all.size(); ++v)
      if (const std::int64_t ml = vessel_capacity_ml(*problem().recipe, all[v]); ml > 0)
        sizes.try_emplace({all[v].place, all[v].milk, ml}, v);
    std::vector<SeasonChange> changes;
    for (const auto& [size, v] : sizes) changes.push_back({What::one_more_vessel, 0, 0, v});
    return changes;
  }

  bool may_help(const char* limit) const {
    return std::none_of(
        explanation_.lifted.begin(), explanation_.lifted.end(), [&](const Lifted& lifted) {
          return lifted.limit == limit && lifted.at_least_ml >= explanation_.short_ml;
        });
  }

  void look_for_cures() {
    hand_out_later();
    start_earlier();
    if (may_help("milk")) more_milk();
    if (may_help("vessel"))
      for (const SeasonChange& vessel : vessels()) keep(tried({vessel}));
    if (cures_.empty()) two_together();
    std::stable_sort(cures_.begin(), cures_.end(),
                     [](const Cure& a, const Cure& b) { return price(a) < price(b); });
    if (cures_.empty() && best_) cures_.push_back(std::move(*best_));
    if (cures_.size() > most_cures) cures_.resize(most_cures);
    explanation_.cures = std::move(cures_);
  }

  // Vessels that nobody priced come after what is known.
  static std::pair<bool, std::int64_t> price(const Cure& cure) {
    const bool unpriced = std::any_of(
        cure.changes.begin(), cure.changes.end(),
        [](const SeasonChange& change) { return change.what == What::one_more_vessel; });
    return {unpriced, cure.cost ? cure.cost->thousandths() : 0};
  }

  void two_together() {
    const SeasonChange earlier{What::start_earlier, search_days_};
    const SeasonChange milk{What::more_milk, 0, 100};
    keep(tried({earlier, milk}));
    for (const SeasonChange& vessel : vessels()) {
      keep(tried({earlier, vessel}));
      keep(tried({milk, vessel}));
    }
  }

  const BatchPlanner& planner_;
  const DueSeason& due_;
  Turn turn_;
  int search_days_;
  lot_sizing::Effort bounds_;
  Explanation explanation_;
  std::vector<Cure> cures_;
  std::optional<Cure> best_;  // of what leaves something short
};

}  // namespace

Season changed(const Season& season, const SeasonChange& change) {
  Season other = season;
  switch (change.what) {
    case What::start_earlier:
      other.first_start = season.first_start - change.days;
      break;
    case What::more_milk:
      for (MilkRule& rule : other.milk) rule.most = rule.most * (1.0 + change.percent / 100.0);
      break;
    case What::one_more_vessel:
      other.vessels.push_back(season.vessels[change.vessel]);
      other.vessels.back().name += "+";
      break;
    case What::hand_out_later:
      break;
  }
  return other;
}

Explanation explain(const DueSeason& due, const BatchPlanner& planner, int search_days,
                    const lot_sizing::Effort& bounds) {
  return Explaining(due, planner, search_days, bounds).run();
}

}  // namespace wheyfield::season
