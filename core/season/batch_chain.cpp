#include "season/batch_chain.h"

#include <algorithm>

namespace wheyfield::season {
namespace {

using calendar::Date;

// No step of any recipe is looked for further back than this.
constexpr int longest_dwell = 400;

BatchStep placed(std::size_t index, Date from, Date to, const Standing& stands) {
  const recipe::Dwell& days = stands.days;
  return {index,
          from,
          to,
          {from + days.early, from + days.likely, from + days.late},
          from + days.keeps,
          stands.cool,
          stands.bucket};
}

}  // namespace

std::optional<std::vector<BatchStep>> ChainTable::build(const Place& place, Milk milk,
                                                        Date fill_day) const {
  const recipe::Recipe& recipe = *problem_->recipe;
  const auto vessel_step = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
  const auto stands = [&](const recipe::Step& step, Date from) {
    return standing(step, place, milk, from, problem_->cool_below, problem_->readiness);
  };
  std::vector<BatchStep> chain(recipe.steps.size());
  Date end = fill_day;
  for (std::size_t k = vessel_step; k-- > 0;) {
    bool found = false;
    for (int days = 0; days <= longest_dwell && !found; ++days) {
      const Date from = end - days;
      const auto step = stands(recipe.steps[k], from);
      if (!step || days < step->days.late || days > step->days.keeps) continue;
      chain[k] = placed(k, from, end, *step);
      found = true;
    }
    if (!found) return std::nullopt;
    end = chain[k].from;
  }
  Date from = fill_day;
  for (std::size_t k = vessel_step; k < recipe.steps.size(); ++k) {
    const auto step = stands(recipe.steps[k], from);
    if (!step) return std::nullopt;
    Date to = from + step->days.late;
    if (k == vessel_step)
      if (const auto meeting = problem_->season->meetings.first_from(to);
          meeting && *meeting <= from + step->days.keeps)
        to = *meeting;
    chain[k] = placed(k, from, to, *step);
    from = to;
  }
  return chain;
}

const std::optional<std::vector<BatchStep>>& ChainTable::at(std::size_t place, Milk milk,
                                                            Date fill_day) {
  const Milk counts = problem_->recipe->has_forecast() ? milk : Milk::heated_cooled;
  const auto key = std::tuple{place, counts, fill_day.days()};
  const auto found = known_.find(key);
  if (found != known_.end()) return found->second;
  return known_.emplace(key, build(problem_->season->places[place], counts, fill_day))
      .first->second;
}

}  // namespace wheyfield::season
