#include "programme/lorry.h"

#include <gtest/gtest.h>
#include <support/draw.h>

#include <algorithm>
#include <limits>
#include <tuple>

namespace wheyfield::programme {
namespace {

using calendar::Date;
using quantity::Money;

Date day(int n) { return Date::from_civil(2027, 3, 1) + n; }

// What an answer costs: cans not brought, money in sevenths, days that cans stand early.
using Price = std::tuple<std::int64_t, std::int64_t, std::int64_t>;

Price price_of(const std::vector<Can>& cans, const Lorry& lorry, const Deliveries& answer) {
  std::int64_t early = 0;
  for (const Trip& trip : answer.trips)
    for (const std::size_t i : trip.cans) early += cans[i].needed - trip.on;
  return {static_cast<std::int64_t>(answer.not_brought.size()),
          static_cast<std::int64_t>(answer.trips.size()) * lorry.trip.thousandths() * 7 +
              early * lorry.keeping_week.thousandths(),
          early};
}

// Each can on any day up to its need, or not at all; on a day as few trips as hold its cans.
class TryingAll {
 public:
  TryingAll(const std::vector<Can>& cans, const Lorry& lorry) : cans_(cans), lorry_(lorry) {
    on_.assign(lorry.may_come.size(), 0);
    go(0, 0, 0);
  }
  Price best() const { return best_; }

 private:
  void go(std::size_t can, std::int64_t missed, std::int64_t early) {
    if (can == cans_.size()) return judge(missed, early);
    go(can + 1, missed + 1, early);
    for (std::size_t d = 0; d < on_.size(); ++d) {
      if (cans_[can].needed < lorry_.may_come[d]) continue;
      ++on_[d];
      go(can + 1, missed, early + (cans_[can].needed - lorry_.may_come[d]));
      --on_[d];
    }
  }
  void judge(std::int64_t missed, std::int64_t early) {
    std::size_t trips = 0;
    for (const std::size_t n : on_) {
      const std::size_t calls = (n + lorry_.holds - 1) / lorry_.holds;
      if (calls > lorry_.trips_a_day) return;
      trips += calls;
    }
    const Price price{missed,
                      static_cast<std::int64_t>(trips) * lorry_.trip.thousandths() * 7 +
                          early * lorry_.keeping_week.thousandths(),
                      early};
    if (!any_ || price < best_) best_ = price;
    any_ = true;
  }

  const std::vector<Can>& cans_;
  const Lorry& lorry_;
  std::vector<std::size_t> on_;
  Price best_;
  bool any_ = false;
};

Lorry drawn_lorry(testing::Draw& draw, int most_days) {
  Lorry lorry;
  lorry.trip = Money::from_thousandths(draw.between(1, 40));
  lorry.holds = static_cast<std::size_t>(draw.between(1, 4));
  lorry.trips_a_day = static_cast<std::size_t>(draw.between(1, 2));
  lorry.keeping_week = Money::from_thousandths(draw.below(3) == 0 ? 0 : draw.between(1, 27));
  for (int d = draw.between(0, 4), n = draw.between(0, most_days); n > 0; --n) {
    lorry.may_come.push_back(day(d));
    d += draw.between(1, 9);
  }
  return lorry;
}

std::vector<Can> drawn_cans(testing::Draw& draw, int most, int last) {
  std::vector<Can> cans;
  for (int n = draw.between(0, most); n > 0; --n)
    cans.push_back({day(draw.between(0, last)), static_cast<std::size_t>(draw.below(3))});
  return cans;
}

TEST(Lorry, AgreesWithTryingAllOfSmallCases) {
  testing::Draw draw(21);
  int missed = 0, several = 0;
  for (int i = 0; i < testing::cases(1500); ++i) {
    const Lorry lorry = drawn_lorry(draw, 4);
    const std::vector<Can> cans = drawn_cans(draw, 6, 25);
    const Deliveries answer = plan_deliveries(cans, lorry);
    ASSERT_EQ(price_of(cans, lorry, answer), TryingAll(cans, lorry).best()) << i;
    missed += answer.not_brought.empty() ? 0 : 1;
    several += answer.trips.size() > 1 ? 1 : 0;
  }
  EXPECT_GT(missed, testing::cases(100));
  EXPECT_GT(several, testing::cases(100));
}

TEST(Lorry, KeepsItsLimitsAndBringsEachCanOnceInTime) {
  testing::Draw draw(22);
  for (int i = 0; i < testing::cases(200); ++i) {
    const Lorry lorry = drawn_lorry(draw, 20);
    const std::vector<Can> cans = drawn_cans(draw, 120, 120);
    const Deliveries answer = plan_deliveries(cans, lorry);
    std::vector<int> seen(cans.size(), 0);
    for (const std::size_t can : answer.not_brought) ++seen[can];
    Date before = day(-1);
    std::size_t same_day = 0;
    for (const Trip& trip : answer.trips) {
      EXPECT_TRUE(std::count(lorry.may_come.begin(), lorry.may_come.end(), trip.on) == 1);
      EXPECT_FALSE(trip.cans.empty());
      EXPECT_LE(trip.cans.size(), lorry.holds);
      EXPECT_TRUE(before <= trip.on);
      same_day = before == trip.on ? same_day + 1 : 1;
      EXPECT_LE(same_day, lorry.trips_a_day);
      before = trip.on;
      for (const std::size_t can : trip.cans) {
        ++seen[can];
        EXPECT_TRUE(trip.on <= cans[can].needed);
      }
    }
    for (const int n : seen) EXPECT_EQ(n, 1);
  }
}

// Wagner and Whitin's own recursion, for a lorry that holds everything: the last trip before a need
// brings all from some can on.
TEST(Lorry, ThatHoldsEverythingIsWagnerAndWhitins) {
  testing::Draw draw(23);
  for (int i = 0; i < testing::cases(300); ++i) {
    Lorry lorry = drawn_lorry(draw, 12);
    lorry.holds = 1000;
    lorry.trips_a_day = 1;
    lorry.may_come.insert(lorry.may_come.begin(), day(-3));
    lorry.trip = Money::from_thousandths(draw.between(50, 900));
    lorry.keeping_week = Money::from_thousandths(draw.between(1, 30));
    std::vector<Can> cans = drawn_cans(draw, 30, 90);
    std::stable_sort(cans.begin(), cans.end(),
                     [](const Can& a, const Can& b) { return a.needed < b.needed; });
    std::vector<std::int64_t> least(cans.size() + 1, 0);
    for (std::size_t end = 1; end <= cans.size(); ++end) {
      least[end] = std::numeric_limits<std::int64_t>::max();
      for (std::size_t begin = 0; begin < end; ++begin) {
        const auto trip = std::find_if(lorry.may_come.rbegin(), lorry.may_come.rend(),
                                       [&](Date d) { return d <= cans[begin].needed; });
        std::int64_t cost = least[begin] + lorry.trip.thousandths() * 7;
        for (std::size_t p = begin; p < end; ++p)
          cost += (cans[p].needed - *trip) * lorry.keeping_week.thousandths();
        least[end] = std::min(least[end], cost);
      }
    }
    const Deliveries answer = plan_deliveries(cans, lorry);
    EXPECT_TRUE(answer.not_brought.empty());
    EXPECT_EQ(std::get<1>(price_of(cans, lorry, answer)), least.back()) << i;
  }
}

TEST(Lorry, WorkedOutByHand) {
  // Three cans by the 10th, two by the 20th; the lorry comes on the 1st, the 8th and the 15th with
  // three cans at most.
  const std::vector<Can> cans{{day(19), 1}, {day(9), 0}, {day(9), 1}, {day(19), 0}, {day(9), 0}};
  const Lorry lorry{Money::from_amount(100), 3, 1, {}, {day(0), day(7), day(14)}};
  const Deliveries answer = plan_deliveries(cans, lorry);
  ASSERT_EQ(answer.trips.size(), 2u);
  EXPECT_TRUE(answer.trips[0].on == day(7));
  EXPECT_EQ(answer.trips[0].cans, (std::vector<std::size_t>{1, 4, 2}));
  EXPECT_TRUE(answer.trips[1].on == day(14));
  EXPECT_EQ(answer.trips[1].cans, (std::vector<std::size_t>{3, 0}));
  EXPECT_EQ(answer.trips_cost.whole(), 200);
  EXPECT_EQ(answer.can_days, 3 * 2 + 2 * 5);
  EXPECT_TRUE(plan_deliveries({}, lorry).trips.empty());
}

}  // namespace
}  // namespace wheyfield::programme
