// Lot-sizing problems as groups have them, for the solvers' tests and benches: three products that
// share vessels, milk and labour. Synthetic: sizes and prices are drawn around those of the
// practice season. The same seed is the same problem with every compiler.
//
// serum    0.1 L; 5 days of rinse-water in household jars, then milk in a vessel to a meeting day
// juice    0.1 L; a week in a vessel
// compost  10 L; a bay, three weeks, turned
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "lot_sizing/problem.h"
#include "lot_sizing/waiting.h"
#include "numerics/stream.h"

namespace wheyfield::testing {

// `tiny`: one bucket and one jar, too little for most groups.
enum class VesselSet { small, medium, large, tiny };

class RandomLots {
 public:
  RandomLots(std::uint64_t seed, VesselSet vessels, bool tight)
      : draw_(seed, 7), vessels_(vessels), tight_(tight) {}

  lot_sizing::Problem make() {
    p_.days = days;
    resources();
    const int milk_a_day = tight_ ? between(14, 22) : between(30, 50);
    for (int day = 0; day < days; ++day) p_.supplies.push_back(milk_a_day * 1000);
    farms_ = between(20, 30);
    start_ = tight_ ? 20 : 30;
    serum();
    juice();
    compost();
    materials();
    return std::move(p_);
  }

 private:
  static constexpr int days = 182;
  static constexpr int week = 7;  // the group meets on days 0, 7, ...
  static constexpr lot_sizing::Cost hour = 44000;
  static constexpr lot_sizing::Cost dominant = 50000000;  // a unit missed costs more than a season
  enum { bucket = 0, jar = 1, drum = 2, bay = 3, labour = 4 };

  int between(int low, int high) {
    return low + static_cast<int>(draw_.below(static_cast<std::uint32_t>(high - low + 1)));
  }
  static int next_meeting(int day) { return (day + week - 1) / week * week; }

  void resources() {
    struct Set {
      int buckets, jars, drums;
    };
    const Set set = vessels_ == VesselSet::small    ? Set{2, 2, 0}
                    : vessels_ == VesselSet::medium ? Set{4, 3, 1}
                    : vessels_ == VesselSet::tiny   ? Set{1, 1, 0}
                                                    : Set{8, 6, 3};
    const auto add = [&](const char* name, int count) {
      p_.resources.push_back({name, std::vector<int>(days, count)});
    };
    add("bucket", set.buckets);
    add("jar", set.jars);
    add("drum", set.drums);
    add("bay", 1);
    std::vector<int> hours(days, 60);  // tenths of an hour; more helpers at a meeting
    for (int day = 0; day < days; day += week) hours[static_cast<std::size_t>(day)] = 240;
    p_.resources.push_back({"labour", hours});
  }

  // Each field's five uses, served at the meeting before its day.
  void fields(lot_sizing::Product& product, int fields, int units_a_use, int uses,
              lot_sizing::Cost miss) {
    std::vector<int> by_meeting(days, 0);
    for (int f = 0; f < fields; ++f) {
      const int planted = start_ + between(0, 40);
      const int area = between(1, 8);
      for (int use = 0; use < uses; ++use) {
        const int due = planted + use * between(14, 24);
        if (due >= days) continue;
        by_meeting[static_cast<std::size_t>(due / week * week)] += area * units_a_use;
      }
    }
    for (int day = 0; day < days; ++day)
      if (const int units = by_meeting[static_cast<std::size_t>(day)]; units > 0)
        product.due.push_back({day, std::min(day + 10, days - 1), (units + 3) / 4, miss});
  }

  static lot_sizing::Setup setup(std::vector<lot_sizing::Take> takes, int most, int hours_tenths,
                                 int least) {
    lot_sizing::Setup one;
    one.takes = std::move(takes);
    one.least = std::min(least, most);
    one.most = most;
    one.cost = hour * hours_tenths / 10;
    return one;
  }

  // Vessels of one or two kinds, filled on `from` and emptied on `to`.
  void vessels(lot_sizing::Session& session, int from, int to, int units_a_litre_tenth, int hours,
               int most) {
    const int holds[] = {121 * units_a_litre_tenth / 10, 60 * units_a_litre_tenth / 10,
                         606 * units_a_litre_tenth / 10};
    const std::vector<std::vector<int>> choices{{bucket},         {jar},         {drum},
                                                {bucket, bucket}, {bucket, jar}, {jar, jar}};
    for (const auto& choice : choices) {
      std::vector<lot_sizing::Take> takes;
      int all = 0;
      bool there = true;
      for (const int kind : choice) {
        all += holds[kind];
        const bool again = !takes.empty() && takes.back().resource == kind;
        if (again)
          ++takes.back().amount;
        else
          takes.push_back({kind, from, to, 1});
        there = there &&
                p_.resources[static_cast<std::size_t>(kind)].capacity.front() >= (again ? 2 : 1);
      }
      if (!there) continue;
      const int work = hours * static_cast<int>(choice.size());
      takes.push_back({labour, from, from + 1, work / 2});
      takes.push_back({labour, to, to + 1, work - work / 2});
      session.setups.push_back(setup(takes, std::min(all, most), work, 10));
    }
  }

  void serum() {
    lot_sizing::Product product;
    product.name = "serum";
    constexpr lot_sizing::Cost miss = dominant;
    fields(product, farms_ * between(1, 3), tight_ ? 8 : 3, 5, miss);
    const int most = std::max(1, product.total_due());
    for (int fill = 6; fill + 14 < days; ++fill) {
      if (fill % week != 0 && fill % week != 2) continue;  // two milk days a week
      lot_sizing::Session session;
      session.start = fill - 6;
      session.ready = next_meeting(fill + 5);
      session.use_by = session.ready + 60;
      session.per_unit = 5000;
      session.supply = fill;
      session.supply_per_unit = 100;
      const int milk = static_cast<int>(p_.supplies[static_cast<std::size_t>(fill)] / 100);
      vessels(session, fill, session.ready, 10, 48, std::min(most, milk));
      product.sessions.push_back(session);
    }
    product.wait =
        lot_sizing::waiting_allowance({100000, {700000, 150000, 100000, 50000}}, 14, 28, 12000);
    p_.products.push_back(std::move(product));
  }

  void juice() {
    lot_sizing::Product product;
    product.name = "juice";
    fields(product, farms_ / 3, 1, 3, dominant);
    const int most = std::max(1, product.total_due());
    for (int fill = 0; fill + 10 < days; ++fill) {
      if (fill % week != 0 && fill % week != 3) continue;
      lot_sizing::Session session;
      session.start = fill;
      session.ready = fill + week;
      session.use_by = session.ready + 90;
      session.per_unit = 300;
      vessels(session, fill, session.ready, 10, 26, most);
      product.sessions.push_back(session);
    }
    product.wait = lot_sizing::waiting_allowance({50000, {900000, 100000, 0, 0}}, 8, 16, 6000);
    p_.products.push_back(std::move(product));
  }

  void compost() {
    lot_sizing::Product product;
    product.name = "compost";
    for (int i = 0; i < 2; ++i) {
      const int collect = next_meeting(50 + 60 * i + between(0, 20));
      product.due.push_back({collect, collect + 20, between(60, 140), dominant});
    }
    for (int from = 0; from + 25 < days; from += week) {
      lot_sizing::Session session;
      session.start = from;
      session.ready = from + 21;
      session.use_by = session.ready + 120;
      session.per_unit = 500;
      std::vector<lot_sizing::Take> takes{{bay, from, from + 21, 1}, {labour, from, from + 1, 40}};
      for (int turned = 4; turned <= 16; turned += 2)
        takes.push_back({labour, from + turned, from + turned + 1, 10});
      session.setups.push_back(setup(takes, 150, 110, 50));
      product.sessions.push_back(session);
    }
    p_.products.push_back(std::move(product));
  }

  void materials() {
    p_.materials.push_back({"molasses", {50, 0, 0}, 0, {{2000, 200000}, {20000, 1600000}}});
    p_.materials.push_back({"sugar", {0, 60, 0}, 0, {{1000, 150000}, {5000, 600000}}});
  }

  numerics::Stream draw_;
  VesselSet vessels_;
  bool tight_;
  int farms_ = 0;
  int start_ = 0;
  lot_sizing::Problem p_;
};

// "tight-small-1" and so on: 18 of them.
struct NamedLots {
  std::string name;
  lot_sizing::Problem problem;
};

inline std::vector<NamedLots> named_lots() {
  std::vector<NamedLots> all;
  for (const bool tight : {false, true})
    for (const VesselSet set : {VesselSet::small, VesselSet::medium, VesselSet::large})
      for (std::uint64_t seed = 1; seed <= 3; ++seed) {
        const char* size = set == VesselSet::small    ? "small"
                           : set == VesselSet::medium ? "medium"
                                                      : "large";
        all.push_back({std::string(tight ? "tight-" : "loose-") + size + "-" + std::to_string(seed),
                       RandomLots(seed, set, tight).make()});
      }
  return all;
}

// Of the programme's population: any vessels, tight or loose.
inline lot_sizing::Problem random_group(std::uint64_t seed) {
  numerics::Stream kind(seed, 11);
  const auto set = static_cast<VesselSet>(kind.below(4));
  const bool tight = kind.below(2) == 1;
  return RandomLots(1000 + seed, set, tight).make();
}

}  // namespace wheyfield::testing
