#include "season/change.h"

#include <algorithm>
#include <utility>

#include "season/batch_chain.h"

namespace wheyfield::season {
namespace {

using outcome::Problems;
using Differs = Difference::What;

std::optional<std::size_t> vessel_named(const Season& season, const std::string& name) {
  for (std::size_t v = 0; v < season.vessels.size(); ++v)
    if (season.vessels[v].name == name) return v;
  return std::nullopt;
}

class Announcing {
 public:
  Announcing(const Season& season, const recipe::Recipe& recipe, const PlanRules& rules,
             int keeps_days, const ChangeDay& day)
      : season_(season), recipe_(recipe), keeps_days_(keeps_days), day_(day), chains_(problem_) {
    problem_.recipe = &recipe;
    problem_.season = &season;
    problem_.cool_below = rules.cool_below;
    problem_.readiness = rules.readiness;
    announced_.change_cost = season.labour_day.times(rules.change_hours / season.labour_hours);
    announced_.no_new_before = day.on;
  }

  outcome::Result<Announced> run(const std::vector<ToldBatch>& told) {
    for (const ToldBatch& batch : told) announced_.names.push_back(batch.name);
    for (std::size_t i = 0; i < told.size(); ++i)
      if (!told[i].failed) batch(told[i], "/was/batches/" + std::to_string(i));
    if (!problems_.empty()) return outcome::failure(std::move(problems_));
    return std::move(announced_);
  }

 private:
  void add(const char* code, const std::string& field, const std::string& value,
           const ToldBatch& told, const std::string& other = "") {
    problems_.push_back({code, field, value, {{"batch", told.name}, {"other", other}}});
  }

  void batch(const ToldBatch& told, const std::string& field) {
    const auto vessel = vessel_named(season_, told.vessel);
    const bool fixed = told.start <= day_.until;
    if (!vessel) {
      if (fixed) add("announced-vessel-gone", field + "/vessel", told.vessel, told);
      return;
    }
    if (!fixed)
      return announced_.told.push_back({told.name, *vessel, told.fill_day, told.stored_ml});
    const auto& chain =
        chains_.at(season_.vessels[*vessel].place, season_.vessels[*vessel].milk, told.fill_day);
    if (!chain) return add("announced-cannot-stand", field + "/start", told.start.iso(), told);
    if (told.stored_ml > vessel_capacity_ml(recipe_, season_.vessels[*vessel]))
      add("announced-overfull", field + "/stored_ml", std::to_string(told.stored_ml), told);
    Batch kept{*vessel, told.stored_ml, *chain, chain->back().to, chain->back().to + keeps_days_,
               false,   told.name,      true};
    const auto stands = static_cast<std::size_t>(std::max(0, recipe_.vessel_step()));
    for (std::size_t other = 0; other < announced_.batches.size(); ++other) {
      const Batch& b = announced_.batches[other];
      if (b.vessel == *vessel && b.steps[stands].from < kept.steps[stands].to &&
          kept.steps[stands].from < b.steps[stands].to)
        add("announced-clash", field + "/vessel", told.vessel, told,
            announced_.batches[other].name);
    }
    announced_.batches.push_back(std::move(kept));
  }

  const Season& season_;
  const recipe::Recipe& recipe_;
  int keeps_days_;
  ChangeDay day_;
  BatchProblem problem_;
  ChainTable chains_;
  Announced announced_;
  Problems problems_;
};

}  // namespace

outcome::Result<Announced> announced(const Season& season, const recipe::Recipe& recipe,
                                     int keeps_days, const PlanRules& rules,
                                     const std::vector<ToldBatch>& told, const ChangeDay& day) {
  return Announcing(season, recipe, rules, keeps_days, day).run(told);
}

std::vector<Difference> differences(const Season& season, const std::vector<ToldBatch>& told,
                                    const BatchPlan& plan) {
  std::vector<Difference> all;
  std::vector<bool> found(plan.batches.size(), false);
  std::vector<std::size_t> gone, fresh;
  for (std::size_t i = 0; i < told.size(); ++i) {
    if (told[i].failed) {
      all.push_back({Differs::failed, i, std::nullopt});
      continue;
    }
    std::optional<std::size_t> same;
    for (std::size_t j = 0; j < plan.batches.size() && !same; ++j)
      if (!found[j] && plan.batches[j].start() == told[i].start &&
          season.vessels[plan.batches[j].vessel].name == told[i].vessel)
        same = j;
    if (!same) {
      gone.push_back(i);
      continue;
    }
    found[*same] = true;
    const Batch& now = plan.batches[*same];
    const bool alike = now.stored_ml == told[i].stored_ml && now.ready == told[i].ready;
    all.push_back({alike ? Differs::kept : Differs::resized, i, *same});
  }
  for (std::size_t j = 0; j < found.size(); ++j)
    if (!found[j]) fresh.push_back(j);
  for (std::size_t k = 0; k < std::max(gone.size(), fresh.size()); ++k)
    all.push_back({k >= gone.size()    ? Differs::added
                   : k >= fresh.size() ? Differs::dropped
                                       : Differs::moved,
                   k < gone.size() ? std::optional(gone[k]) : std::nullopt,
                   k < fresh.size() ? std::optional(fresh[k]) : std::nullopt});
  const auto start = [&](const Difference& d) {
    return d.before ? told[*d.before].start : plan.batches[*d.now].start();
  };
  std::stable_sort(all.begin(), all.end(),
                   [&](const auto& a, const auto& b) { return start(a) < start(b); });
  return all;
}

}  // namespace wheyfield::season
