// The batch as the product integrates it (Dormand-Prince, chosen steps) against CVODE of SUNDIALS:
// the product's own equations, and the same written down a second time here, with the pH found by
// halving instead of from the table.
#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "fermentation/equations.h"
#include "fermentation/priors.h"
#include "support/bundle.h"
#include "support/cvode.h"

namespace wheyfield::fermentation {
namespace {

using testing::Multistep;

constexpr double tight = 1e-10;

const ParameterTable& rows() {
  static const auto parsed = testing::value_or_abort(ParameterTable::parse(testing::bundle()));
  return parsed;
}

struct Case {
  std::string name;
  Setting setting;
};

std::vector<Case> cases() {
  const auto first = calendar::Date::from_civil(2027, 3, 1);
  const weather::DailySeries days{first,
                                  {12, 14, 9, 11, 16, 13, 8, 12, 15, 14, 10},
                                  {24, 29, 19, 27, 31, 22, 20, 28, 26, 30, 23}};
  std::vector<Case> cases;
  for (const int celsius : {12, 15, 20, 25, 30, 35})
    cases.push_back({"constant " + std::to_string(celsius), {Air::constant(celsius), 6.1}});
  cases.push_back({"14 to 28", {Air::daily(14, 28, 8), 6.1}});
  cases.push_back({"8 to 22, small vessel", {Air::daily(8, 22, 18), 2.4}});
  cases.push_back({"eleven days", {Air::series(days, first, 7.5), 4.3}});
  cases.push_back({"cold milk in warm air", {Air::constant(28), 6.1, 10.0}});
  Setting serum{Air::daily(14, 28, 8), 6.1};
  serum.brew.starter = Starter::serum;
  cases.push_back({"serum of before", serum});
  Setting rinse{Air::daily(16, 30, 8), 2.4};
  rinse.brew.liquid = Liquid::rinse_water;
  cases.push_back({"rinse-water", rinse});
  return cases;
}

TEST(FermentationCvode, OurChosenStepsAgreeAtEveryHour) {
  for (const Case& each : cases()) {
    for (const double off : {0.0, 1.5}) {
      Deviates z{};
      z.fill(off);
      const BatchModel batch = batch_of(rows(), z, each.setting.brew);
      const Equations equations(batch, each.setting);
      testing::Cvode<places, Equations> cvode(equations, equations.begin(), Multistep::adams, tight,
                                              tight);
      cvode.longest_step(1.0);
      const auto moments = course(batch, each.setting);
      double worst = 0.0;
      for (std::size_t hour = 1; hour <= 240; ++hour) {
        const auto at = static_cast<double>(hour);
        const Moment theirs = equations.seen(cvode.at(at), at);
        const Moment& ours = moments[2 * hour];
        worst = std::max(worst, std::fabs(ours.ph - theirs.ph));
        ASSERT_NEAR(ours.ph, theirs.ph, 1e-4) << each.name << ", " << off << " off, hour " << hour;
        ASSERT_NEAR(ours.celsius, theirs.celsius, 1e-3) << each.name << " hour " << hour;
      }
      std::printf("[  cvode   ] %s, %.1f off: %.1e\n", each.name.c_str(), off, worst);
    }
  }
}

// The equations of docs/models/fermentation.md, from the paper and not from the program: laws of
// growth in other words, pH by halving.
class SecondWriting {
 public:
  SecondWriting(const BatchModel& batch, const Setting& setting)
      : batch_(batch), setting_(setting) {}

  double ph(double lactic) const {
    double sour = 2.0, sweet = batch_.buffer.ph0;
    for (int i = 0; i < 60; ++i) {
      const double middle = (sour + sweet) / 2;
      (taken_up(middle) > lactic ? sour : sweet) = middle;
    }
    return (sour + sweet) / 2;
  }

  void operator()(const std::array<double, 6>& now, std::array<double, 6>& change,
                  double hours) const {
    const auto [t, ln_q, ln_f, ln_t, p, s] = now;
    const double ph_now = ph(p);
    const double hl = p / (1 + std::pow(10, ph_now - batch_.limits_pka));
    const double q = std::exp(ln_q), nf = std::exp(ln_f), nt = std::exp(ln_t);
    const double food = s / (batch_.half + s);
    const double rate_f = batch_.fast.rate * rosso(t, batch_.fast.temperature);
    const double rate_t = batch_.tolerant.rate * rosso(t, batch_.tolerant.temperature);
    const auto grown = [&](const Population& kind, double rate, double brake) {
      return batch_.speed * rate * rosso(ph_now, kind.ph) *
             std::fmax(0, 1 - hl / kind.growth_limit) * (q / (1 + q)) * brake * food;
    };
    const double mu_f = grown(batch_.fast, rate_f, 1 - (nf + nt) / batch_.fast.most);
    const double mu_t = grown(batch_.tolerant, rate_t, 1 - nt / batch_.tolerant.most);
    const auto soured = [&](const Population& kind, double rate, double mu, double cells) {
      const double standing = kind.b * rate / kind.rate * std::fmax(0, 1 - hl / kind.acid_limit);
      return (kind.a * mu + standing * food) * cells / 1e9;
    };
    change[0] = (setting_.air.at(hours) + batch_.air_offset - t) /
                (setting_.vessel_hours * batch_.vessel_pace);
    change[1] = batch_.speed * std::fmax(rate_f, rate_t);
    change[2] = mu_f;
    change[3] = mu_t;
    change[4] = batch_.acid_speed *
                (soured(batch_.fast, rate_f, mu_f, nf) + soured(batch_.tolerant, rate_t, mu_t, nt));
    change[5] = -change[4] / (4 * batch_.yield);
  }

 private:
  double taken_up(double ph) const {
    const MilkBuffer& milk = batch_.buffer;
    double charge = 0;
    for (const AcidGroup& group : milk.groups)
      charge += group.amount * (1 / (1 + std::pow(10, group.pk - milk.ph0)) -
                                1 / (1 + std::pow(10, group.pk - ph)));
    const double strong =
        milk.strength * charge + 1000 * (std::pow(10, -ph) - std::pow(10, -milk.ph0));
    return strong * (1 + std::pow(10, milk.lactic_pka - ph));
  }
  static double rosso(double t, const CardinalTemperatures& c) {
    if (t <= c.min || t >= c.max) return 0;
    const double top = (t - c.max) * std::pow(t - c.min, 2);
    return top / (c.opt - c.min) /
           ((c.opt - c.min) * (t - c.opt) - (c.opt - c.max) * (c.opt + c.min - 2 * t));
  }
  static double rosso(double ph, const CardinalPh& c) {
    if (ph <= c.lowest || ph >= c.highest) return 0;
    const double top = (ph - c.lowest) * (ph - c.highest);
    return top / (top - std::pow(ph - c.opt, 2));
  }

  const BatchModel& batch_;
  const Setting& setting_;
};

TEST(FermentationCvode, TheEquationsWrittenTwiceAgreeAtEveryHour) {
  for (const Case& each : cases()) {
    const BatchModel batch = batch_of(rows(), {}, each.setting.brew);
    const SecondWriting second(batch, each.setting);
    const double air = each.setting.air.at(0) + batch.air_offset;
    const std::array<double, 6> begin{each.setting.start_celsius.value_or(air),
                                      -std::log(std::exp(batch.lag_work) - 1),
                                      std::log(batch.fast.start),
                                      std::log(batch.tolerant.start),
                                      batch.lactic,
                                      batch.lactose};
    testing::Cvode<6, SecondWriting> cvode(second, begin, Multistep::bdf, 1e-8, 1e-8);
    cvode.longest_step(1.0);
    const auto moments = course(batch, each.setting);
    double worst = 0.0;
    for (std::size_t hour = 1; hour <= 240; ++hour) {
      const auto at = static_cast<double>(hour);
      const double theirs = second.ph(cvode.at(at)[4]);
      const double ours = moments[2 * hour].ph;
      worst = std::max(worst, std::fabs(ours - theirs));
      ASSERT_NEAR(ours, theirs, 1e-4) << each.name << " hour " << hour;
    }
    std::printf("[  cvode   ] written twice, %s: %.1e\n", each.name.c_str(), worst);
  }
}

}  // namespace
}  // namespace wheyfield::fermentation
