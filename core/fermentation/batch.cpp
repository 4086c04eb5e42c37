#include "fermentation/batch.h"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include <boost/numeric/odeint/algebra/array_algebra.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta_dopri5.hpp>

#include "fermentation/equations.h"
#include "fermentation/warmth.h"

namespace wheyfield::fermentation {
namespace {

namespace odeint = boost::numeric::odeint;

using Stepper = odeint::runge_kutta_dopri5<Inner, double, Inner, double, odeint::array_algebra,
                                           odeint::default_operations>;

// Steps [h]: powers of two, so that machines whose last digits differ take the same.
constexpr double first_step = 0.5;
constexpr double shortest_step = 1.0 / 32.0;
constexpr double longest_step = 16.0;
constexpr double double_below = 1.0 / 40.0;  // a doubled step makes 32 times the error
constexpr double scale_ph = 4.2;             // acid counts as pH by the milk's take-up down to here

// A batch on its way: step by step, with all that lies between them.
class March {
 public:
  March(const BatchModel& batch, const Setting& setting, double tolerance)
      : equations_(batch, setting),
        warmth_(setting.air, equations_.begin()[temperature], batch.air_offset, equations_.tau(),
                setting.horizon + longest_step),
        tolerance_(tolerance),
        acid_tolerance_(tolerance * equations_.curve().acid_per_ph(scale_ph)) {
    const State begin = equations_.begin();
    now_ = {begin[lag], begin[ln_fast], begin[ln_tolerant], begin[lactic]};
    rate(now_, change_, 0.0);
    lactic_ = begin[lactic];
  }

  // Its inner state at `hours`, which never fall.
  Inner at(double hours) {
    while (hours_ < hours) advance();
    Inner state = now_;
    if (hours < hours_)
      stepper_.calc_state(hours, state, before_, change_before_, hours_before_, now_, change_,
                          hours_);
    // Acid is only made: what the curve between two steps may waver by is no change.
    state[3] = lactic_ = std::max(lactic_, state[3]);
    return state;
  }
  double celsius(double hours) const { return warmth_.at(hours); }
  const Equations& equations() const { return equations_; }
  int calls() const { return calls_; }

 private:
  void rate(const Inner& now, Inner& change, double hours) {
    ++calls_;
    equations_.work(now, warmth_.at(hours), equations_.lactose_left(now[3]), change);
  }

  // In tolerances.
  double size_of(const Inner& error) const {
    const double ln = std::max({std::fabs(error[0]), std::fabs(error[1]), std::fabs(error[2])});
    return std::max(ln / tolerance_, std::fabs(error[3]) / acid_tolerance_);
  }

  void advance() {
    const auto system = [this](const Inner& now, Inner& change, double hours) {
      rate(now, change, hours);
    };
    Inner next{}, change_next{}, error{};
    double size = 0.0;
    for (;;) {
      stepper_.do_step(system, now_, change_, hours_, next, change_next, step_, error);
      size = size_of(error);
      if (size <= 1.0 || step_ <= shortest_step) break;
      step_ *= 0.5;
    }
    before_ = now_;
    change_before_ = change_;
    hours_before_ = hours_;
    now_ = next;
    change_ = change_next;
    hours_ += step_;
    if (size < double_below) step_ = std::min(longest_step, 2.0 * step_);
  }

  Equations equations_;
  Warmth warmth_;
  double tolerance_;
  double acid_tolerance_;
  Stepper stepper_;
  Inner now_{}, change_{}, before_{}, change_before_{};
  double hours_ = 0.0, hours_before_ = 0.0;
  double step_ = first_step;
  double lactic_ = 0.0;
  int calls_ = 0;
};

}  // namespace

std::vector<Moment> course(const BatchModel& batch, const Setting& setting, double every,
                           double tolerance) {
  March march(batch, setting, tolerance);
  const Equations& equations = march.equations();
  const int last = static_cast<int>(setting.horizon / every);
  std::vector<Moment> moments;
  moments.reserve(static_cast<std::size_t>(last) + 1);
  for (int i = 0; i <= last; ++i) {
    const double hours = i * every;
    const Inner at = march.at(hours);
    moments.push_back(equations.seen(
        {march.celsius(hours), at[0], at[1], at[2], at[3], equations.lactose_left(at[3])}, hours));
  }
  return moments;
}

HourlyCourse hourly_course(const BatchModel& batch, const Setting& setting) {
  March march(batch, setting, usual_tolerance);
  const AcidCurve& curve = march.equations().curve();
  const auto hours = static_cast<std::size_t>(setting.horizon) + 1;
  HourlyCourse hourly{std::vector<double>(hours), std::vector<double>(hours)};
  for (std::size_t hour = 0; hour < hours; ++hour) {
    const auto at = static_cast<double>(hour);
    hourly.ph[hour] = curve.ph(march.at(at)[3]);
    hourly.celsius[hour] = march.celsius(at);
  }
  return hourly;
}

int calls_of(const BatchModel& batch, const Setting& setting) {
  March march(batch, setting, usual_tolerance);
  march.at(setting.horizon);
  return march.calls();
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
