// Seasons of chance: processor time of 20,000 simulated seasons of one plan (limit 100 ms), with
// one vessel of each kind and with six.
#include <cstdio>
#include <ctime>

#include "lot_sizing/simulate.h"

using namespace wheyfield::lot_sizing;

namespace {

// 180 days, 30 collecting days, 300 sessions of twelve days in one of six setups, ten lots held.
Problem problem_with(int vessels) {
  Problem problem;
  problem.days = 180;
  problem.resources = {{"bucket", std::vector<int>(180, vessels)},
                       {"drum", std::vector<int>(180, vessels)}};
  problem.supplies = {20'000};
  problem.products.emplace_back();
  Product& product = problem.products[0];
  for (int i = 0; i < 30; ++i) product.due.push_back({25 + 5 * i, 30 + 5 * i, 33, 6000});
  for (int i = 0; i < 300; ++i) {
    Session session;
    session.start = i / 2;
    session.ready = session.start + 12 + i % 2;
    session.use_by = session.ready + 180;
    session.supply = 0;
    session.supply_per_unit = 1;
    for (int k = 0; k < 6; ++k)
      session.setups.push_back({{{k % 2, session.start, session.start + 5, 1 + k / 4},
                                 {(k + 1) % 2, session.start + 5, session.ready, 1}},
                                10,
                                100 + 20 * k,
                                1000});
    product.sessions.push_back(session);
  }
  return problem;
}

}  // namespace

int main() {
  constexpr std::int64_t seasons = 20'000;
  for (const int vessels : {1, 6}) {
    const Problem problem = problem_with(vessels);
    Plan plan;
    for (std::size_t lot = 0; lot < 10; ++lot) plan.held.push_back({0, 16 + 28 * lot, 0, 100});
    const std::clock_t start = std::clock();
    const Seasons simulated(problem, plan, {{100'000, {700'000, 150'000, 100'000, 50'000}}});
    const Tally tally = simulated.run(1, 0, seasons);
    const double ms = 1000.0 * static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    std::printf(
        "%d vessels: %lld seasons %7.1f ms, lots failed %.2f brewed again %.2f a season, "
        "on time %.4f, all %.4f, worst twentieth %.4f\n",
        vessels, static_cast<long long>(seasons), ms,
        static_cast<double>(tally.products[0].failed) / seasons,
        static_cast<double>(tally.products[0].rebrewed) / seasons, share_on_time(tally, 0),
        share_all_on_time(tally), share_on_time_worst(tally, 0));
  }
}
