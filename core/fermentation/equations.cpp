#include "fermentation/equations.h"

#include <algorithm>
#include <cmath>

namespace wheyfield::fermentation {
namespace {

constexpr double counted = 1e-9;  // a and b hold for so many cells

// What acid and sugar leave of the work of one population.
struct Work {
  double growth;  // mu [1/h]
  double acid;    // [mmol/L/h]
};

}  // namespace

Equations::Equations(const BatchModel& batch, const Setting& setting)
    : batch_(batch),
      setting_(setting),
      curve_(batch.buffer),
      tau_(setting.vessel_hours * batch.vessel_pace) {}

void Equations::operator()(const State& now, State& change, double hours) const {
  const double ph = curve_.ph(now[lactic]);
  const double undissociated = now[lactic] * undissociated_share(ph, batch_.limits_pka);
  const double sugar = std::max(0.0, now[lactose]);
  const double fed = sugar / (batch_.half + sugar);
  const double awake = 1.0 / (1.0 + std::exp(-now[lag]));
  const double fast = std::exp(now[ln_fast]);
  const double tolerant = std::exp(now[ln_tolerant]);
  const double warm_fast = temperature_share(now[temperature], batch_.fast.temperature);
  const double warm_tolerant = temperature_share(now[temperature], batch_.tolerant.temperature);
  const auto work = [&](const Population& kind, double warm, double cells, double brake) {
    const double growth = batch_.speed * kind.rate * warm * ph_share(ph, kind.ph) *
                          acid_share(undissociated, kind.growth_limit) * awake * brake * fed;
    const double standing = kind.b * warm * acid_share(undissociated, kind.acid_limit) * fed;
    return Work{growth, (kind.a * growth + standing) * cells * counted};
  };
  const Work of_fast =
      work(batch_.fast, warm_fast, fast, 1.0 - (fast + tolerant) / batch_.fast.most);
  const Work of_tolerant =
      work(batch_.tolerant, warm_tolerant, tolerant, 1.0 - tolerant / batch_.tolerant.most);
  change[temperature] = (setting_.air.at(hours) + batch_.air_offset - now[temperature]) / tau_;
  change[lag] =
      batch_.speed * std::max(batch_.fast.rate * warm_fast, batch_.tolerant.rate * warm_tolerant);
  change[ln_fast] = of_fast.growth;
  change[ln_tolerant] = of_tolerant.growth;
  change[lactic] = batch_.acid_speed * (of_fast.acid + of_tolerant.acid);
  change[lactose] = -change[lactic] / (4.0 * batch_.yield);
}

State Equations::begin() const {
  State state{};
  state[temperature] = setting_.start_celsius.value_or(setting_.air.at(0.0) + batch_.air_offset);
  state[lag] = -std::log(std::expm1(batch_.lag_work));
  state[ln_fast] = std::log(batch_.fast.start);
  state[ln_tolerant] = std::log(batch_.tolerant.start);
  state[lactic] = batch_.lactic;
  state[lactose] = batch_.lactose;
  return state;
}

Moment Equations::seen(const State& state, double hours) const {
  return {hours,          state[temperature],       curve_.ph(state[lactic]),    state[lactic],
          state[lactose], std::exp(state[ln_fast]), std::exp(state[ln_tolerant])};
}

}  // namespace wheyfield::fermentation
