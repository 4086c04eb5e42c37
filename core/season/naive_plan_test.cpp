// A second road to a small season's plan: days counted in loops, no room of the core called for
// the answer. Numbers are the common-practice ones, written out: overnight soak, 6 days stand, 7
// days milk (9 at most), 1 L milk to 1 L stored serum, 1.1 L in the vessel; 100 L an acre at 1:500.
#include <gtest/gtest.h>
#include <support/small_season.h>

#include <algorithm>

namespace wheyfield::season {
namespace {

using calendar::Date;
using wheyfield::testing::farm;
using wheyfield::testing::field;

struct Due {
  std::string use;
  int collect, last, ml;
};
struct Made {
  int fill, ready, ml, left;
};

// 1 January 1970 was a Thursday.
bool thursday(int day) { return day % 7 == 0; }

class Naive {
 public:
  Naive(int first_start, int holiday) : first_start_(first_start), holiday_(holiday) {}

  bool meets(int day) const { return thursday(day) && day != holiday_; }

  int collecting(int day) const {
    while (!meets(day)) --day;
    return day;
  }

  // FAO-56 Table 11: initial + development and sum of the row nearest to the variety's own length.
  void sow(double acres, int sown, int emerges[3], double initial_and_development, double sum,
           int days, bool soaked, bool fruits) {
    const int ml = static_cast<int>(acres * 100.0 * 1000.0 / 500.0 + 0.5);
    add("land-preparation", sown - 11, sown - 7, ml);
    if (soaked) add("seed-soak", sown - 1, sown - 1, ml);
    add("seedling", sown + emerges[1] + 10, sown + emerges[2] + 14, ml);
    const double open = initial_and_development / sum * days;
    const int likely = sown + static_cast<int>(open + 0.5);
    const int late = sown + static_cast<int>(open * 1.1 + 0.5);
    add("flowering", likely, late, ml);
    if (fruits) add("first-fruit", likely + 11, late + 15, ml);
  }

  void plan() {
    std::stable_sort(due.begin(), due.end(), [](const Due& a, const Due& b) {
      return a.collect != b.collect ? a.collect < b.collect : a.last < b.last;
    });
    for (const Due& d : due) {
      const bool same = !together.empty() && together.back().collect == d.collect &&
                        together.back().last == d.last;
      if (same)
        together.back().ml += d.ml;
      else
        together.push_back(d);
    }
    for (std::size_t i = 0; i < together.size(); ++i) serve(i);
  }

  std::vector<Due> due;
  std::vector<Due> together;  // uses of one collecting day and one last day
  std::vector<Made> made;
  int short_ml = 0;

 private:
  void add(const std::string& use, int likely, int last, int ml) {
    due.push_back({use, collecting(likely), last, ml});
  }

  int taken_from_stock(const Due& d, int need) {
    for (Made& m : made) {
      if (m.ready > d.collect || m.ready + 60 < d.last) continue;
      const int ml = std::min(need, m.left);
      m.left -= ml;
      need -= ml;
    }
    return need;
  }

  // The seventh day after milk is poured, or the next Thursday meeting if it comes by the ninth.
  int ready_after(int fill) const {
    for (int day = fill + 7; day <= fill + 9; ++day)
      if (meets(day)) return day;
    return fill + 7;
  }

  bool possible(int fill, const Due& d) const {
    const int ready = ready_after(fill);
    if (!meets(fill) || ready > d.collect || ready + 60 < d.last) return false;
    for (const Made& m : made)
      if (fill < m.ready && m.fill < ready) return false;
    return true;
  }

  // More milk into a batch that is made anyway, oldest first.
  int added_to_stock(const Due& d, int need) {
    for (Made& m : made) {
      if (m.ready > d.collect || m.ready + 60 < d.last) continue;
      while (need > 0 && m.ml + 500 <= 4000) {
        m.ml += 500;
        m.left += 500;
        need = taken_from_stock(d, need);
      }
    }
    return need;
  }

  void serve(std::size_t i) {
    int need = added_to_stock(together[i], taken_from_stock(together[i], together[i].ml));
    for (int fill = together[i].collect; need > 0 && fill - 7 >= first_start_; --fill) {
      if (!possible(fill, together[i])) continue;
      const int ml = std::min(4000, (need + 499) / 500 * 500);
      made.push_back({fill, ready_after(fill), ml, ml});
      need = taken_from_stock(together[i], need);
    }
    short_ml += need;
  }

  int first_start_;
  int holiday_;
};

struct Roads {
  Season season;
  Naive naive;
};

// Two farms, three fields: maize 1.5 and bean .5 acres on farm 1, potato 4 acres on farm 2.
Roads both(int start_day, double scale) {
  const Date first = Date::from_civil(2027, 2, 1) + start_day;
  const Date sown = Date::from_civil(2027, 3, 22), later = Date::from_civil(2027, 4, 9);
  Roads roads{wheyfield::testing::small_season(),
              Naive(first.days(), Date::from_civil(2027, 3, 25).days())};
  roads.season.first_start = first;
  roads.season.farms = {farm("1", 100,
                             {field("maize", 1.5 * scale, sown, 125, crop::Seed::dressed),
                              field("bean", 0.5 * scale, later, 95)}),
                        farm("2", 100, {field("potato", 4 * scale, sown, 130)})};
  roads.season.farms[1].fields[0].planting.start = crop::Start::tuber;
  int maize[] = {5, 7, 9}, bean[] = {5, 7, 10}, potato[] = {12, 12, 15};
  roads.naive.sow(1.5 * scale, sown.days(), maize, 20 + 35, 125, 125, false, true);
  roads.naive.sow(0.5 * scale, later.days(), bean, 15 + 25, 95, 95, true, true);
  roads.naive.sow(4 * scale, sown.days(), potato, 25 + 30, 130, 130, false, false);
  roads.naive.plan();
  return roads;
}

void expect_same(const Roads& roads, const std::string& where) {
  const SeasonPlan plan = wheyfield::testing::planned(roads.season);
  ASSERT_EQ(plan.uses.size(), roads.naive.due.size()) << where;
  std::vector<std::string> theirs, ours;
  for (const PlannedUse& use : plan.uses)
    theirs.push_back(use.due.collect_on.value().iso() + " " + use.due.use.window.late.iso() + " " +
                     use.due.use.id + " " + std::to_string(use.due.serum_ml));
  for (const Due& d : roads.naive.due)
    ours.push_back(Date::from_days(d.collect).iso() + " " + Date::from_days(d.last).iso() + " " +
                   d.use + " " + std::to_string(d.ml));
  std::sort(theirs.begin(), theirs.end());
  std::sort(ours.begin(), ours.end());
  EXPECT_EQ(theirs, ours) << where;

  std::vector<std::string> brewed, counted;
  for (const Batch& b : plan.batches.batches)
    brewed.push_back(b.start().iso() + " " + b.steps.at(2).from.iso() + " " + b.ready.iso() + " " +
                     std::to_string(b.stored_ml));
  for (const Made& m : roads.naive.made)
    counted.push_back(Date::from_days(m.fill - 7).iso() + " " + Date::from_days(m.fill).iso() +
                      " " + Date::from_days(m.ready).iso() + " " + std::to_string(m.ml));
  std::sort(counted.begin(), counted.end());
  EXPECT_EQ(brewed, counted) << where;
  EXPECT_EQ(plan.batches.total_short(), roads.naive.short_ml) << where;
}

TEST(SeasonNaivePlan, LoopsOverDaysGiveThePlannersWindowsBatchesAndLitres) {
  const Roads roads = both(3, 1.0);
  EXPECT_EQ(roads.naive.due.size(), 12u);
  EXPECT_GE(roads.naive.made.size(), 2u);
  expect_same(roads, "from 4 February");
}

TEST(SeasonNaivePlan, BothRoadsAgreeForEveryFirstStartAndForLargerFields) {
  bool some_short = false, some_met = false;
  for (int start = 0; start <= 90; start += 3)
    for (const double scale : {0.5, 1.0, 3.0}) {
      const Roads roads = both(start, scale);
      (roads.naive.short_ml > 0 ? some_short : some_met) = true;
      expect_same(roads, "start " + std::to_string(start) + " scale " + std::to_string(scale));
    }
  EXPECT_TRUE(some_short);
  EXPECT_TRUE(some_met);
}

TEST(SeasonNaivePlan, LandPreparationIsCollectedOnTheThursdayByHand) {
  // Sown Monday 22 March: 11 days before is Thursday 11 March; 1.5 acres take 300 mL.
  const Roads roads = both(3, 1.0);
  EXPECT_EQ(Date::from_days(roads.naive.due.front().collect).iso(), "2027-03-11");
  const SeasonPlan plan = wheyfield::testing::planned(roads.season);
  EXPECT_EQ(plan.uses.front().due.collect_on.value().iso(), "2027-03-11");
  EXPECT_EQ(plan.uses.front().due.serum_ml, 300);
}

}  // namespace
}  // namespace wheyfield::season
