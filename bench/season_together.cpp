// How long a group's preparations take to plan together, and how that grows with the farms.
// Invented groups of 15 to 120 farms over 182 days: serum for their fields, juice and compost on a
// few days, eight buckets and a heap's place; and 24 farms with fruit juice and manure tea as well.
// Processor milliseconds of one thread, from the fields to the plan, without reading a file; the
// gap of each plan.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <string>
#include <vector>

#include "season/gather.h"
#include "season/lot_planner.h"
#include "season/plan_check.h"
#include "support/beside.h"

using namespace wheyfield;

namespace {

constexpr int groups = 40;

double processor_ms() {
  return 1000.0 * static_cast<double>(std::clock()) / static_cast<double>(CLOCKS_PER_SEC);
}

season::Vessel bucket(const std::string& name, std::size_t place, double litres) {
  return {name, "1", place, quantity::litres(litres), quantity::litres(litres * 0.66)};
}

season::Season invented(int farms, int recipes, std::uint64_t seed) {
  testing::Draw draw(seed * 104729 + 3);
  season::Season s = testing::small_season();
  s.to = s.from + 182;
  s.first_start = s.from;
  s.places = {testing::steady_place("lower", 23.0, 5), testing::steady_place("upper", 18.0, 12)};
  s.milk.front().most = quantity::litres(draw.between(10, 25) * farms / 30.0);
  s.vessels.clear();
  for (int i = 0; i < 4; ++i) s.vessels.push_back(bucket("A" + std::to_string(i), i % 2, 20));
  for (int i = 0; i < 3; ++i) s.vessels.push_back(bucket("B" + std::to_string(i), i % 2, 10));
  s.vessels.push_back(bucket("drum", 0, 100));
  s = testing::with_beside(std::move(s), seed * 3 + 1);
  if (recipes == 5) s = testing::with_two_more(std::move(s), seed);
  const char* crops[] = {"maize", "bean", "kale", "tomato", "cabbage"};
  for (int f = 1; f <= farms; ++f) {
    season::Farm farm = testing::farm(std::to_string(f), draw.between(80, 160), {});
    farm.place = draw.below(2);
    for (int i = draw.between(1, 3); i > 0; --i)
      farm.fields.push_back(testing::field(crops[draw.below(5)], draw.between(2, 16) / 8.0,
                                           s.from + draw.between(40, 75), draw.between(90, 125)));
    s.farms.push_back(std::move(farm));
  }
  return s;
}

struct Measured {
  double ms = 0.0;
  double gap = 0.0;
  bool short_of_something = false;
};

Measured measure(const season::Season& s) {
  const season::PlanRules rules = season::PlanRules::of(testing::bundle());
  reference_data::UsedSources used;
  const double start = processor_ms();
  const season::DueSeason due = testing::value_or_abort(season::due_season(
      s, testing::serum_recipe(), testing::crops(), testing::bundle(), rules, used));
  const season::Turn turn = season::better_turn(due, season::LotPlanner(), 0);
  Measured one{processor_ms() - start, turn.plan.certificate->gap, turn.plan.total_short() > 0};
  std::vector<season::BatchPlan> plans{turn.plan};
  plans.insert(plans.end(), turn.others.begin(), turn.others.end());
  if (!season::check_plans(season::together(due, *turn.gathered), plans).empty()) std::exit(1);
  for (std::size_t r = 1; r < plans.size(); ++r)
    one.short_of_something = one.short_of_something || plans[r].total_short() > 0;
  return one;
}

double at(const std::vector<double>& sorted, double share) {
  return sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size() - 1) + 0.5)];
}

}  // namespace

// Only exhausted memory or a fault of ours can throw here.
int main() {  // NOLINT(bugprone-exception-escape)
  std::printf("%6s %8s %10s %8s %8s %8s %8s %10s %10s %8s\n", "farms", "recipes", "median ms",
              "growth", "95 % ms", "most ms", "short", "best", "in 0.1 %", "gap most");
  double before = 0.0;
  for (const auto& [farms, recipes] : {std::pair{15, 3}, {30, 3}, {60, 3}, {120, 3}, {24, 5}}) {
    if (recipes == 5) before = 0.0;
    std::vector<double> ms, gaps;
    int lacking = 0;
    for (int seed = 1; seed <= groups; ++seed) {
      const Measured one = measure(invented(farms, recipes, static_cast<std::uint64_t>(seed)));
      ms.push_back(one.ms);
      gaps.push_back(one.gap);
      lacking += one.short_of_something ? 1 : 0;
    }
    std::sort(ms.begin(), ms.end());
    const auto within = [&](double gap) {
      return std::count_if(gaps.begin(), gaps.end(), [&](double g) { return g <= gap; });
    };
    const double median = at(ms, 0.5);
    std::printf("%6d %8d %10.1f %8.2f %8.1f %8.1f %8d %10ld %10ld %7.2f%%\n", farms, recipes,
                median, before > 0.0 ? median / before : 0.0, at(ms, 0.95), ms.back(), lacking,
                static_cast<long>(within(0.0)), static_cast<long>(within(0.001)),
                100.0 * *std::max_element(gaps.begin(), gaps.end()));
    before = median;
  }
  return 0;
}
