#include "fermentation/batch.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <functional>

#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta4.hpp>

namespace wheyfield::fermentation {
namespace {

namespace odeint = boost::numeric::odeint;

enum Place : std::size_t { temperature, lag, ln_fast, ln_tolerant, lactic, lactose, places };
using State = std::array<double, places>;
using Stepper = odeint::runge_kutta4<State, double, State, double, odeint::array_algebra,
                                     odeint::default_operations>;

constexpr double counted = 1e-9;  // a and b hold for so many cells

// What acid and sugar leave of the work of one population.
struct Work {
  double growth;  // mu [1/h]
  double acid;    // [mmol/L/h]
};

class Change {
 public:
  Change(const BatchModel& batch, const Setting& setting, const AcidCurve& curve)
      : batch_(batch),
        setting_(setting),
        curve_(curve),
        tau_(setting.vessel_hours * batch.vessel_pace) {}

  void operator()(const State& now, State& change, double hours) const {
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

 private:
  const BatchModel& batch_;
  const Setting& setting_;
  const AcidCurve& curve_;
  double tau_;
};

State begin(const BatchModel& batch, const Setting& setting) {
  State state{};
  state[temperature] = setting.start_celsius.value_or(setting.air.at(0.0) + batch.air_offset);
  state[lag] = -std::log(std::expm1(batch.lag_work));
  state[ln_fast] = std::log(batch.fast.start);
  state[ln_tolerant] = std::log(batch.tolerant.start);
  state[lactic] = batch.lactic;
  state[lactose] = batch.lactose;
  return state;
}

Moment seen(const State& state, double hours, const AcidCurve& curve) {
  return {hours,          state[temperature],       curve.ph(state[lactic]),     state[lactic],
          state[lactose], std::exp(state[ln_fast]), std::exp(state[ln_tolerant])};
}

}  // namespace

std::vector<Moment> course(const BatchModel& batch, const Setting& setting, double step) {
  const AcidCurve curve(batch.buffer);
  const Change change(batch, setting, curve);
  const int steps = static_cast<int>(setting.horizon / step);
  Stepper stepper;
  State state = begin(batch, setting);
  std::vector<Moment> moments;
  moments.reserve(static_cast<std::size_t>(steps) + 1);
  moments.push_back(seen(state, 0.0, curve));
  for (int i = 0; i < steps; ++i) {
    stepper.do_step(std::cref(change), state, i * step, step);
    moments.push_back(seen(state, (i + 1) * step, curve));
  }
  return moments;
}

std::optional<double> hours_to(const std::vector<Moment>& moments, double ph) {
  const auto below = std::find_if(moments.begin(), moments.end(),
                                  [&](const Moment& moment) { return moment.ph <= ph; });
  if (below == moments.end()) return std::nullopt;
  if (below == moments.begin()) return 0.0;
  const Moment& before = *(below - 1);
  return before.hours + (below->hours - before.hours) * (before.ph - ph) / (before.ph - below->ph);
}

}  // namespace wheyfield::fermentation
