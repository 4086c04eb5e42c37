#include "fermentation/batch.h"

#include <algorithm>
#include <cstddef>
#include <functional>

#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta4.hpp>

#include "fermentation/equations.h"

namespace wheyfield::fermentation {
namespace {

namespace odeint = boost::numeric::odeint;

using Stepper = odeint::runge_kutta4<State, double, State, double, odeint::array_algebra,
                                     odeint::default_operations>;

}  // namespace

std::vector<Moment> course(const BatchModel& batch, const Setting& setting, double step) {
  const Equations equations(batch, setting);
  const int steps = static_cast<int>(setting.horizon / step);
  Stepper stepper;
  State state = equations.begin();
  std::vector<Moment> moments;
  moments.reserve(static_cast<std::size_t>(steps) + 1);
  moments.push_back(equations.seen(state, 0.0));
  for (int i = 0; i < steps; ++i) {
    stepper.do_step(std::cref(equations), state, i * step, step);
    moments.push_back(equations.seen(state, (i + 1) * step));
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
