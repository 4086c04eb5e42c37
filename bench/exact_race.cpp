// The planner against general solvers on the same strong model, and that model against the stock
// model a textbook would write. CPU seconds, one run; docs/models/lot-sizing.md has the table.
//
//   bench_exact_race [GROUPS]   how many random groups beside the 18 named ones; 30 without it
#include <sys/resource.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "lot_sizing/strong_model.h"
#include "solvers/cbc/cbc_solver.h"
#include "support/lp_file.h"
#include "support/random_lots.h"

namespace {

using namespace wheyfield;
using lot_sizing::Mip;
using lot_sizing::Problem;

constexpr double gap = 1e-3;
constexpr int most_nodes = 2000;

double cpu_seconds(int who) {
  rusage used{};
  getrusage(who, &used);
  return static_cast<double>(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
         static_cast<double>(used.ru_utime.tv_usec + used.ru_stime.tv_usec) * 1e-6;
}

std::string scratch() {
  return (std::filesystem::temp_directory_path() / "wheyfield_race").string();
}

template <class Work>
double spent(int who, Work work) {
  const double before = cpu_seconds(who);
  work();
  return cpu_seconds(who) - before;
}

struct Times {
  std::vector<double> seconds;
  int proven = 0;
  void add(double one, bool is_proven) {
    seconds.push_back(one);
    proven += is_proven ? 1 : 0;
  }
  double sum() const {
    double all = 0.0;
    for (const double one : seconds) all += one;
    return all;
  }
  double at(double part) {
    std::sort(seconds.begin(), seconds.end());
    return seconds[static_cast<std::size_t>(part * static_cast<double>(seconds.size() - 1))];
  }
};

void print(const char* what, Times& t) {
  std::printf(
      "  %-22s median %8.4f s, 95 %% %8.4f s, most %8.4f s, all %8.2f s; within %.1f %%: %d of "
      "%zu\n",
      what, t.at(0.5), t.at(0.95), t.at(1.0), t.sum(), gap * 100, t.proven, t.seconds.size());
}

void race(const char* title, const std::vector<testing::NamedLots>& groups) {
  Times ours, cbc, glpsol;
  double worst = 0.0;
  int over = 0;
  for (const auto& [name, problem] : groups) {
    lot_sizing::Planned planned;
    const double own = spent(RUSAGE_SELF, [&, &problem = problem] { planned = plan(problem); });
    ours.add(own, planned.gap() <= gap);
    worst = std::max(worst, planned.gap());
    over += planned.gap() > 0.005 ? 1 : 0;
    const lot_sizing::StrongModel model(problem);
    lot_sizing::MipResult found;
    const double by_cbc = spent(RUSAGE_SELF, [&] {
      found = solvers::CbcSolver().solve(model.mip(), {gap, most_nodes});
    });
    cbc.add(by_cbc, found.status == lot_sizing::MipResult::Status::optimal);
    testing::GlpsolResult other;
    const double by_glpsol = spent(
        RUSAGE_CHILDREN, [&] { other = testing::run_glpsol(model.mip(), gap, scratch(), 30); });
    glpsol.add(by_glpsol, other.within_gap);
  }
  std::printf("%s: %zu groups; planner's worst gap %.4f %%, above 0.5 %%: %d\n", title,
              groups.size(), worst * 100, over);
  print("planner", ours);
  print("CBC, strong model", cbc);
  print("glpsol, strong model", glpsol);
  std::printf("  planner faster than CBC %.0f times, than glpsol %.0f times, by the sums\n",
              cbc.sum() / ours.sum(), glpsol.sum() / ours.sum());
}

// Stock balance by day, setups, packs; no allowance for waiting and no shelf life, which it cannot
// tell. Resources and supplies as in the strong model.
Mip naive_model(const Problem& p) {
  Mip mip;
  const auto column = [&](double upper, double cost, bool whole) {
    mip.columns.push_back({0.0, upper, cost, whole});
    return mip.columns.size() - 1;
  };
  std::vector<std::vector<std::pair<std::size_t, double>>> made(p.products.size());
  std::vector<std::pair<lot_sizing::Take, std::size_t>> takes;
  std::map<int, std::vector<std::pair<std::size_t, double>>> drawn;
  for (std::size_t r = 0; r < p.products.size(); ++r) {
    const auto& product = p.products[r];
    std::map<int, std::vector<std::pair<std::size_t, double>>> ready;
    for (const auto& session : product.sessions) {
      std::vector<std::pair<std::size_t, double>> held, largest, smallest;
      for (const auto& setup : session.setups) {
        const std::size_t y = column(1.0, static_cast<double>(setup.cost), true);
        held.emplace_back(y, 1.0);
        largest.emplace_back(y, -static_cast<double>(setup.most));
        smallest.emplace_back(y, -static_cast<double>(setup.least));
        for (const auto& take : setup.takes) takes.emplace_back(take, y);
      }
      const std::size_t q =
          column(product.total_due(), static_cast<double>(session.per_unit), true);
      largest.emplace_back(q, 1.0);
      smallest.emplace_back(q, 1.0);
      mip.rows.push_back({-lot_sizing::unbounded, 1.0, held});
      mip.rows.push_back({-lot_sizing::unbounded, 0.0, largest});
      mip.rows.push_back({0.0, lot_sizing::unbounded, smallest});
      ready[session.ready].emplace_back(q, 1.0);
      made[r].emplace_back(q, 1.0);
      if (session.supply >= 0)
        drawn[session.supply].emplace_back(q, static_cast<double>(session.supply_per_unit));
    }
    std::map<int, std::vector<std::pair<std::size_t, double>>> due;
    std::map<int, double> amount;
    for (const auto& of : product.due) {
      due[of.collect].emplace_back(column(of.units, static_cast<double>(of.miss), false), 1.0);
      amount[of.collect] += of.units;
    }
    std::size_t before = mip.columns.size();
    for (int day = 0; day < p.days; ++day) {
      std::vector<std::pair<std::size_t, double>> row = ready[day];
      row.insert(row.end(), due[day].begin(), due[day].end());
      if (day > 0) row.emplace_back(before, 1.0);
      before = column(lot_sizing::unbounded, 0.0, false);
      row.emplace_back(before, -1.0);
      mip.rows.push_back({amount[day], amount[day], row});
    }
  }
  for (std::size_t k = 0; k < p.resources.size(); ++k)
    for (int day = 0; day < p.days; ++day) {
      std::map<std::size_t, double> used;
      for (const auto& [take, y] : takes)
        if (take.resource == static_cast<int>(k) && take.from <= day && day < take.to)
          used[y] += take.amount;
      mip.rows.push_back(
          {-lot_sizing::unbounded,
           static_cast<double>(p.resources[k].capacity[static_cast<std::size_t>(day)]),
           {used.begin(), used.end()}});
    }
  for (auto& [supply, row] : drawn)
    mip.rows.push_back({-lot_sizing::unbounded,
                        static_cast<double>(p.supplies[static_cast<std::size_t>(supply)]), row});
  for (const auto& material : p.materials) {
    std::vector<std::pair<std::size_t, double>> row;
    for (std::size_t r = 0; r < p.products.size(); ++r)
      for (const auto& [q, one] : made[r])
        if (material.per_unit[r] > 0)
          row.emplace_back(q, -static_cast<double>(material.per_unit[r]));
    for (const auto& pack : material.packs)
      row.emplace_back(column(lot_sizing::unbounded, static_cast<double>(pack.price), true),
                       static_cast<double>(pack.size));
    mip.rows.push_back({-static_cast<double>(material.in_hand), lot_sizing::unbounded, row});
  }
  return mip;
}

// What both models can tell: nothing spoils and waiting is free.
Problem without_keeping(Problem p) {
  for (auto& product : p.products) {
    product.wait.clear();
    for (auto& session : product.sessions) session.use_by = 10 * p.days;
  }
  return p;
}

double linear_bound(const Mip& mip) {
  Mip relaxed = mip;
  for (auto& column : relaxed.columns) column.whole = false;
  return solvers::CbcSolver().solve(relaxed, {0.0, 1}).objective;
}

void compare_models(const std::vector<testing::NamedLots>& groups) {
  std::printf("models, nothing spoiling and no allowance, CBC to %.1f %% or %d nodes:\n", gap * 100,
              most_nodes);
  for (const auto& [name, kept] : groups) {
    const Problem problem = without_keeping(kept);
    const auto best = static_cast<double>(plan(problem).bill.total());
    const Mip naive = naive_model(problem);
    const lot_sizing::StrongModel strong(problem);
    std::printf("  %-16s", name.c_str());
    for (const Mip* mip : {&naive, &strong.mip()}) {
      const double linear = linear_bound(*mip);
      lot_sizing::MipResult found;
      const double seconds = spent(RUSAGE_SELF, [&] {
        found = solvers::CbcSolver().solve(*mip, {gap, most_nodes});
      });
      std::printf(" %s: %5zu columns, linear gap %6.2f %%, %7.2f s, %s;",
                  mip == &naive ? "stock" : "strong", mip->columns.size(),
                  (best - linear) / best * 100, seconds,
                  found.status == lot_sizing::MipResult::Status::optimal ? "within" : "open");
    }
    std::printf("\n");
  }
}

}  // namespace

int main(int argc, char** argv) {
  const int more = argc > 1 ? std::atoi(argv[1]) : 30;
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  std::printf("%s, one run, CPU seconds\n", solvers::CbcSolver().name().c_str());
  const auto named = testing::named_lots();
  std::vector<testing::NamedLots> random;
  for (int seed = 1; seed <= more; ++seed)
    random.push_back({"random " + std::to_string(seed),
                      testing::random_group(static_cast<std::uint64_t>(seed))});
  race("named", named);
  if (more > 0) race("random", random);
  compare_models({named.begin(), named.begin() + 6});
}
