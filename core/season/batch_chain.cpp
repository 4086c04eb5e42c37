#include "season/batch_chain.h"

#include <algorithm>

namespace wheyfield::season {
namespace {

using calendar::Date;

// No step of any recipe is looked for further back than this.
constexpr int longest_dwell = 400;

BatchStep placed(std::size_t index, Date from, Date to, const recipe::Dwell& dwell, bool cool) {
  return {index,
          from,
          to,
          {from + dwell.early, from + dwell.likely, from + dwell.late},
          from + dwell.keeps,
          cool};
}

}  // namespace

std::optional<std::vector<BatchStep>> ChainTable::build(const Place& place, Date fill_day) const {
  const recipe::Recipe& recipe = *problem_->recipe;
  const auto vessel_step = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
  std::vector<BatchStep> chain(recipe.steps.size());
  Date end = fill_day;
  for (std::size_t k = vessel_step; k-- > 0;) {
    const recipe::Step& step = recipe.steps[k];
    bool found = false;
    for (int days = 0; days <= longest_dwell && !found; ++days) {
      const Date from = end - days;
      const recipe::Dwell& dwell = dwell_at(step, place, from, problem_->cool_below);
      if (days < dwell.late || days > dwell.keeps) continue;
      chain[k] = placed(k, from, end, dwell, &dwell == &step.cool);
      found = true;
    }
    if (!found) return std::nullopt;
    end = chain[k].from;
  }
  Date from = fill_day;
  for (std::size_t k = vessel_step; k < recipe.steps.size(); ++k) {
    const recipe::Step& step = recipe.steps[k];
    const recipe::Dwell& dwell = dwell_at(step, place, from, problem_->cool_below);
    Date to = from + dwell.late;
    if (k == vessel_step)
      if (const auto meeting = problem_->season->meetings.first_from(to);
          meeting && *meeting <= from + dwell.keeps)
        to = *meeting;
    chain[k] = placed(k, from, to, dwell, &dwell == &step.cool);
    from = to;
  }
  return chain;
}

const std::optional<std::vector<BatchStep>>& ChainTable::at(std::size_t place, Date fill_day) {
  const auto key = std::pair{place, fill_day.days()};
  const auto found = known_.find(key);
  if (found != known_.end()) return found->second;
  return known_.emplace(key, build(problem_->season->places[place], fill_day)).first->second;
}

}  // namespace wheyfield::season
