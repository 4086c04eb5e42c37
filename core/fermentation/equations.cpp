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
  Inner inner{};
  work({now[lag], now[ln_fast], now[ln_tolerant], now[lactic]}, now[temperature], now[lactose],
       inner);
  change = {(setting_.air.at(hours) + batch_.air_offset - now[temperature]) / tau_,
            inner[0],
            inner[1],
            inner[2],
            inner[3],
            -inner[3] / (4.0 * batch_.yield)};
}

double Equations::lactose_left(double lactic) const {
  return batch_.lactose - (lactic - batch_.lactic) / (4.0 * batch_.yield);
}

void Equations::work(const Inner& now, double celsius, double lactose, Inner& change) const {
  const auto& [lag, ln_fast, ln_tolerant, lactic] = now;
  const double ph = curve_.ph(lactic);
  const double undissociated = lactic * undissociated_share(ph, batch_.limits_pka);
  const double sugar = std::max(0.0, lactose);
  const double fed = sugar / (batch_.half + sugar);
  const double awake = 1.0 / (1.0 + std::exp(-lag));
  const double fast = std::exp(ln_fast);
  const double tolerant = std::exp(ln_tolerant);
  const double warm_fast = temperature_share(celsius, batch_.fast.temperature);
  const double warm_tolerant = temperature_share(celsius, batch_.tolerant.temperature);
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
  change = {
      batch_.speed * std::max(batch_.fast.rate * warm_fast, batch_.tolerant.rate * warm_tolerant),
      of_fast.growth, of_tolerant.growth, batch_.acid_speed * (of_fast.acid + of_tolerant.acid)};
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
