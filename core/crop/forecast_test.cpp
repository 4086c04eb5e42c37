#include "crop/forecast.h"

#include <set>
#include <string>

#include <gtest/gtest.h>

#include <support/bundle.h>
#include <support/day.h>
#include <support/draw.h>
#include <nlohmann/json.hpp>

#include "weather/station.h"

namespace wheyfield::crop {
namespace {

using calendar::Date;
using calendar::Window;
using outcome::Severity;
using wheyfield::testing::on;

weather::DailySeries steady(double celsius, double spread = 1.0, int days = 500) {
  const auto n = static_cast<std::size_t>(days);
  return {on(1, 1), std::vector<double>(n, celsius - 6), std::vector<double>(n, celsius + 6),
          weather::Origin::monthly_means, spread};
}

FieldAsk ask(const char* crop, Start start, Date set_out, int days) {
  FieldAsk a;
  a.planting.crop = testing::crops().find_any(crop);
  a.planting.start = start;
  a.planting.set_out = set_out;
  a.planting.harvest_after = days;
  return a;
}

outcome::Result<Forecast> tried(const FieldAsk& a, const weather::DailySeries* series = nullptr) {
  reference_data::UsedSources used;
  return Forecaster(testing::crops(), testing::bundle(), series).forecast(a, used);
}

Forecast forecast(const FieldAsk& a, const weather::DailySeries* series = nullptr) {
  return testing::value_or_abort(tried(a, series));
}

std::string refusal(const FieldAsk& a, const weather::DailySeries* series = nullptr) {
  const auto result = tried(a, series);
  return result ? "" : result.error()[0].code + " " + result.error()[0].field;
}

const Window* find(const Forecast& f, const std::string& id) {
  for (const Use& use : f.uses)
    if (use.id == id) return &use.window;
  return nullptr;
}
Window window(const Forecast& f, const std::string& id) {
  const Window* w = find(f, id);
  return w ? *w : Window{};
}

bool noted(const Forecast& f, const std::string& code, Severity how = Severity::notice) {
  for (const auto& note : f.notes)
    if (note.code == code) return note.severity == how;
  return false;
}

std::string text(const Window& w) {
  return w.early.iso().substr(5) + " " + w.likely.iso().substr(5) + " " + w.late.iso().substr(5);
}

TEST(CropForecast, ThereAreWindowsForAtLeastThirtyCropsByTheCalendar) {
  int crops = 0;
  for (const Crop& crop : testing::crops().crops()) {
    const Forecast f =
        forecast(ask(crop.id.c_str(), Start::direct, on(3, 22), crop.stages[0].sum()));
    EXPECT_EQ(f.road, Road::calendar) << crop.id;
    EXPECT_NE(find(f, "flowering"), nullptr) << crop.id;
    ++crops;
  }
  EXPECT_GE(crops, 30);
}

// By hand at 20 C, no spread: maize emerges on day 7 (edges 63 and 77 of 10 a day: 7, 8), flowers
// 63 days later (0.9: 675/12 = 57 days, 1.1: 825/12 = 69), seedling 70/100/140 at 12 a day: 6, 9,
// 12; fruit 110/150/210 at 12 a day: 10, 13, 18; ripe 859/12 = 72 days later.
TEST(CropForecast, MaizeAtTwentyDegreesByDegreeDays) {
  const auto series = steady(20, 0.0);
  const Forecast f = forecast(ask("maize", Start::direct, on(4, 1), 0), &series);
  EXPECT_EQ(f.road, Road::degree_days);
  EXPECT_EQ(f.why, "thermal-row");
  EXPECT_EQ(f.temperatures, weather::Origin::monthly_means);
  EXPECT_EQ(text(window(f, "seedling")), text({on(4, 14), on(4, 17), on(4, 21)}));
  EXPECT_EQ(text(window(f, "flowering")),
            text({on(4, 1) + 7 + 57, on(4, 1) + 7 + 63, on(4, 1) + 8 + 69}));
  EXPECT_EQ(text(window(f, "first-fruit")),
            text({on(4, 1) + 64 + 10, on(4, 1) + 70 + 13, on(4, 1) + 77 + 18}));
  EXPECT_EQ(f.harvest->likely - on(4, 1), 70 + 72);
}

TEST(CropForecast, ADoubtfulThermometerMakesAWiderWindow) {
  const auto sure = steady(19, 0.5), unsure = steady(19, 2.0);
  const Window a = window(forecast(ask("maize", Start::direct, on(4, 1), 0), &sure), "flowering");
  const Window b = window(forecast(ask("maize", Start::direct, on(4, 1), 0), &unsure), "flowering");
  EXPECT_EQ(a.likely, b.likely);
  EXPECT_LT(b.early, a.early);
  EXPECT_LT(a.late, b.late);
}

TEST(CropForecast, TheRoadIsNamedAndSoIsTheReason) {
  const auto series = steady(20), brief = steady(20, 1.0, 120);
  const auto why = [](const FieldAsk& a, const weather::DailySeries* s) {
    const Forecast f = forecast(a, s);
    return std::string(road_word(f.road)) + " " + f.why;
  };
  EXPECT_EQ(why(ask("tomato", Start::nursery, on(4, 1), 135), &series), "calendar no-thermal-row");
  EXPECT_EQ(why(ask("maize", Start::direct, on(4, 1), 125), nullptr), "calendar no-temperatures");
  EXPECT_EQ(why(ask("maize", Start::direct, on(4, 1), 125), &brief), "calendar temperatures-end");
  EXPECT_EQ(why(ask("maize", Start::nursery, on(4, 1), 125), &series), "calendar other-start");
  EXPECT_EQ(why(ask("rice", Start::direct, on(4, 1), 150), &series), "calendar other-start");
  EXPECT_EQ(why(ask("rice", Start::nursery, on(4, 1), 150), &series), "degree-days thermal-row");
  FieldAsk own = ask("okra", Start::direct, on(4, 1), 0);
  own.own_days_to_fourth = 50;
  EXPECT_EQ(why(own, &series), "own-count own-count");
}

// Her readings end: more of them, or months, would help. 0 degree-days a day: nothing would.
TEST(CropForecast, TemperaturesThatEndAndAPlaceThatIsTooCoolAreToldApart) {
  const FieldAsk a = ask("maize", Start::direct, on(4, 1), 125);
  const auto brief = steady(20, 1.0, 120), cold = steady(4, 0.5, 300),
             high = steady(-2.3, 2.0, 730);
  const auto begins_late = steady(20, 1.0, 400);
  const Forecast ends = forecast(a, &brief);
  EXPECT_EQ(ends.why, "temperatures-end");
  EXPECT_TRUE(noted(ends, "temperatures-end"));
  for (const auto* series : {&cold, &high}) {
    const Forecast cool = forecast(a, series);
    EXPECT_EQ(cool.why, "too-cool");
    EXPECT_EQ(cool.road, Road::calendar);
    EXPECT_TRUE(noted(cool, "too-cool", Severity::question));
  }
  EXPECT_EQ(forecast(ask("maize", Start::direct, on(1, 1) - 20, 125), &begins_late).why,
            "temperatures-end");
  const auto refused = tried(ask("maize", Start::direct, on(4, 1), 0), &cold);
  ASSERT_FALSE(refused);
  ASSERT_EQ(refused.error().size(), 2u);
  EXPECT_EQ(refused.error()[0].code, "harvest-length-missing");
  EXPECT_EQ(refused.error()[1].code, "too-cool");
}

// By hand at 11 C: 70 / 1 + 750 / 3 = 320 days to flowering; half a degree colder 70 / 0.5 +
// 750 / 2.5 = 440, more than a year.
TEST(CropForecast, TooCoolIsJudgedByTheColderYear) {
  const FieldAsk a = ask("maize", Start::direct, on(1, 1), 125);
  const auto sure = steady(11, 0.0, 300), unsure = steady(11, 0.5, 300);
  EXPECT_EQ(forecast(a, &sure).why, "temperatures-end");
  EXPECT_EQ(forecast(a, &unsure).why, "too-cool");
}

TEST(CropForecast, TheRowsAForecastRestsOnAreNamed) {
  const auto series = steady(20);
  reference_data::UsedSources used;
  Forecaster(testing::crops(), testing::bundle(), &series)
      .forecast(ask("maize", Start::direct, on(4, 1), 0), used);
  std::string rows;
  for (const auto& [source, kind, page, used_for] : used.rows())
    rows += source + " for " + used_for + "; ";
  EXPECT_NE(rows.find("van-diepen-1988 for crop.maize"), std::string::npos) << rows;
  EXPECT_NE(rows.find("assumed-here for temperatures"), std::string::npos) << rows;
  EXPECT_EQ(rows.find("fao-56 for crop.maize"), std::string::npos) << rows;
}

TEST(CropForecast, ASightingNamesTheLimitsItWasHeldAgainstAndKeepsWhatWasNotedBefore) {
  FieldAsk a = ask("bean", Start::direct, on(3, 1), 95);
  a.seen.fourth = on(5, 3);
  reference_data::UsedSources used;
  used.note(reference_data::Origin{}, "before");
  const Forecaster forecaster(testing::crops(), testing::bundle(), nullptr);
  ASSERT_TRUE(forecaster.forecast(a, used).has_value());
  std::set<std::string> used_for;
  for (const auto& row : used.rows()) used_for.insert(std::get<3>(row));
  for (const char* one : {"before", "pace-question", "pace-limit", "crop.bean"})
    EXPECT_EQ(used_for.count(one), 1u) << one;
}

// "First flower on 3 May": sown 1 March for 95 days, forecast day 40 (10 April) as 15 + 25 of 95;
// emergence on day 7, so pace = (63 - 7) / (40 - 7) = 1.697; fruit 8, 11, 15 days x pace later.
TEST(CropForecast, FirstFlowerOnTheThirdOfMayShiftsAndNarrowsWhatFollows) {
  FieldAsk a = ask("bean", Start::direct, on(3, 1), 95);
  const Forecast before = forecast(a);
  a.seen.fourth = on(5, 3);
  const Forecast after = forecast(a);
  EXPECT_EQ(window(before, "flowering").likely, on(4, 10));
  EXPECT_EQ(text(window(after, "flowering")), "05-03 05-03 05-07");
  EXPECT_NEAR(after.pace, 56.0 / 33.0, 1e-9);
  EXPECT_EQ(text(window(after, "first-fruit")),
            text({on(5, 3) + 14, on(5, 3) + 19, on(5, 3) + 25}));
  EXPECT_TRUE(noted(after, "observation-far-off", Severity::question));
  EXPECT_EQ(text(window(after, "seed-soak")), text(window(before, "seed-soak")));
}

// Maize of 125 days sown on 22 March flowers on day 55, its rows are seen on day 7: no flower can
// come on day 6; on day 14 the pace would be (14 - 7) / (55 - 7) = 0.15, on day 172 (172 - 7) / 48
// = 3.4: another crop, or another field. Fruit is due on day 55 + 11, harvest on day 125.
TEST(CropForecast, AFlowerThatIsNotBelievedIsAskedAboutAndNotCounted) {
  const FieldAsk unseen = ask("maize", Start::direct, on(3, 22), 125);
  FieldAsk a = unseen;
  const auto warm = steady(20, 1.0);
  for (const Date day : {on(3, 28), on(4, 5), on(9, 10)}) {
    a.seen.fourth = day;
    for (const weather::DailySeries* series : {static_cast<decltype(&warm)>(nullptr), &warm}) {
      const Forecast f = forecast(a, series), before = forecast(unseen, series);
      EXPECT_TRUE(noted(f, "observation-unbelievable", Severity::question));
      EXPECT_EQ(f.pace, 1.0);
      EXPECT_EQ(f.road, before.road);
      ASSERT_EQ(f.uses.size(), before.uses.size());
      for (std::size_t i = 0; i < f.uses.size(); ++i) {
        EXPECT_EQ(f.uses[i].id, before.uses[i].id);
        EXPECT_EQ(text(f.uses[i].window), text(before.uses[i].window)) << f.uses[i].id;
      }
      EXPECT_EQ(text(*f.harvest), text(*before.harvest));
    }
    const Forecast f = forecast(a);
    EXPECT_EQ(window(f, "first-fruit").likely, on(3, 22) + 66);
    EXPECT_EQ(f.harvest->likely, on(3, 22) + 125);
  }
}

// By warmth the days of a series that ends before the sighting are still counted without it.
TEST(CropForecast, ASightingBeyondTheTemperaturesDoesNotTakeTheRoadOfWarmthAway) {
  FieldAsk a = ask("maize", Start::direct, on(3, 22), 125);
  const auto warm = steady(20, 1.0, 300);
  ASSERT_EQ(forecast(a, &warm).road, Road::degree_days);
  a.seen.fourth = on(12, 30);
  const Forecast f = forecast(a, &warm);
  EXPECT_TRUE(noted(f, "observation-unbelievable", Severity::question));
  EXPECT_EQ(f.road, Road::degree_days);
  EXPECT_FALSE(noted(f, "temperatures-end"));
}

// The tool asks for groundnut's first flower because it comes early. Day 30 instead of 60 (or, at
// 25 C by warmth, 48: 8 + 600 / 15): a 130-day variety is still lifted on day 130; by warmth 64
// days, 952 / 15, are still to come.
TEST(CropForecast, TheEarlyFlowerOfGroundnutHalvesNothingAndIsNotDoubted) {
  FieldAsk a = ask("groundnut", Start::direct, on(3, 22), 130);
  a.seen.fourth = on(3, 22) + 30;
  const auto warm = steady(25, 0.5);
  const Forecast days = forecast(a), warmth = forecast(a, &warm);
  EXPECT_EQ(warmth.road, Road::degree_days);
  for (const Forecast* f : {&days, &warmth}) {
    EXPECT_EQ(f->pace, 1.0);
    EXPECT_EQ(window(*f, "flowering").likely, on(3, 22) + 30);
    EXPECT_TRUE(noted(*f, "sighting-only-shifts"));
    for (const auto& note : f->notes) EXPECT_EQ(note.severity, Severity::notice) << note.code;
    EXPECT_FALSE(noted(*f, "groundnut-flowers-early")) << "it was given";
  }
  EXPECT_EQ(window(days, "first-fruit").likely, on(3, 22) + 30 + 11);
  EXPECT_EQ(days.harvest->likely, on(3, 22) + 130);
  EXPECT_EQ(warmth.harvest->likely, on(3, 22) + 30 + 64);
  a.seen.fourth = on(3, 24);
  EXPECT_TRUE(noted(forecast(a), "observation-unbelievable", Severity::question));
}

TEST(CropForecast, EachSightingIsDoubtedForItself) {
  FieldAsk a = ask("maize", Start::direct, on(3, 22), 125);
  a.seen.fourth = on(3, 28);
  a.seen.fifth = on(3, 22) + 66;  // the forecast day
  const Forecast f = forecast(a);
  ASSERT_EQ(f.notes.size(), 1u);
  EXPECT_EQ(f.notes[0].field, "/seen/fourth");
  EXPECT_EQ(window(f, "first-fruit").early, on(3, 22) + 66) << "the other one is counted";
}

// Forecast day 80 +/- 8: seen, the use stays open for 7 days, not for 8.
TEST(CropForecast, AUseStaysOpenForAWeekAfterItsEventWasSeenAtMost) {
  FieldAsk a = ask("maize", Start::direct, on(3, 1), 180);
  EXPECT_EQ(window(forecast(a), "flowering").late - window(forecast(a), "flowering").likely, 8);
  a.seen.fourth = on(5, 18);
  EXPECT_EQ(text(window(forecast(a), "flowering")), "05-18 05-18 05-25");
}

TEST(CropForecast, WhereFruitIsSeenFloweringIsNotStillExpected) {
  FieldAsk a = ask("bean", Start::direct, on(3, 1), 95);
  a.seen.fifth = on(4, 7);
  EXPECT_EQ(text(window(forecast(a), "flowering")), "04-06 04-07 04-07");
}

// By hand at 25 C: 200 / 15 a day is day 14 (edges 180 and 220: days 12 and 15); after that cassava
// counts days: 7, 10, 14 to the seedling use, 50 (45, 55) to storage roots.
TEST(CropForecast, CassavaCountsDaysAfterItsShoots) {
  const auto series = steady(25, 0.0);
  const Forecast f = forecast(ask("cassava", Start::cutting, on(3, 1), 0), &series);
  EXPECT_EQ(text(window(f, "seedling")), text({on(3, 1) + 19, on(3, 1) + 24, on(3, 1) + 29}));
  EXPECT_EQ(text(window(f, "flowering")), text({on(3, 1) + 57, on(3, 1) + 64, on(3, 1) + 70}));
}

TEST(CropForecast, ALaterSowingThanPlannedMovesAll) {
  FieldAsk a = ask("maize", Start::direct, on(3, 22), 125);
  const Forecast planned = forecast(a);
  a.seen.planted = on(4, 2);
  const Forecast sown = forecast(a);
  for (std::size_t i = 0; i < planned.uses.size(); ++i)
    EXPECT_EQ(sown.uses[i].window.late - planned.uses[i].window.late, 11) << planned.uses[i].id;
}

TEST(CropForecast, RowsSeenThreeDaysLateMoveFloweringByThreeDays) {
  FieldAsk a = ask("maize", Start::direct, on(3, 22), 125);
  const Window before = window(forecast(a), "flowering");
  a.seen.emerged = on(3, 22) + 7 + 3;
  const Window after = window(forecast(a), "flowering");
  EXPECT_EQ(after.likely - before.likely, 3);
  EXPECT_LT(after.late - after.early, before.late - before.early);
}

// Every crop and road: what is seen on the forecast day leaves the likely days where they were and
// makes no window wider.
TEST(CropForecast, ASightingOnTheForecastDayChangesNothingButNarrows) {
  const auto series = steady(21.3, 1.0, 900);
  for (const Crop& crop : testing::crops().crops())
    for (const weather::DailySeries* s :
         {static_cast<const weather::DailySeries*>(nullptr), &series})
      for (const char* event : {"emerged", "fourth", "fifth"}) {
        FieldAsk a = ask(crop.id.c_str(), Start::direct, on(3, 1), crop.stages.back().sum());
        const Forecast before = forecast(a, s);
        const std::string name = crop.id + " " + event + " " + std::string(road_word(before.road));
        if (event == std::string("emerged")) {
          if (crop.established) continue;
          const bool warm = before.road == Road::degree_days && crop.id != "bean";
          int likely = crop.emergence.likely;
          if (warm)
            for (const ThermalRow& row : testing::crops().thermal())
              if (row.crop == crop.id)
                likely = static_cast<int>(std::ceil(days_at(row, 21.3).emergence - 1e-9));
          a.seen.emerged = on(3, 1) + likely;
        } else if (event == std::string("fourth")) {
          a.seen.fourth = window(before, "flowering").likely;
        } else if (const Window* fruit = find(before, "first-fruit")) {
          a.seen.fifth = fruit->likely;
        }
        const Forecast after = forecast(a, s);
        EXPECT_DOUBLE_EQ(after.pace, 1.0) << name;
        ASSERT_EQ(after.uses.size(), before.uses.size()) << name;
        for (std::size_t i = 0; i < before.uses.size(); ++i) {
          const Window &x = before.uses[i].window, &y = after.uses[i].window;
          EXPECT_EQ(y.likely, x.likely) << name << " " << before.uses[i].id;
          EXPECT_LE(y.late - y.early, x.late - x.early) << name << " " << before.uses[i].id;
        }
        ASSERT_EQ(after.harvest.has_value(), before.harvest.has_value()) << name;
        if (!before.harvest) continue;
        EXPECT_EQ(after.harvest->likely, before.harvest->likely) << name;
        EXPECT_LE(after.harvest->late - after.harvest->early,
                  before.harvest->late - before.harvest->early)
            << name;
      }
}

TEST(CropForecast, WarmerIsNeverLaterWhileTheRateRises) {
  const struct {
    const char* crop;
    Start start;
    double best;  // end of the rising part [C]
  } rows[] = {{"maize", Start::direct, 30},      {"millet", Start::direct, 27},
              {"sorghum", Start::direct, 30},    {"rice", Start::nursery, 35},
              {"pigeon-pea", Start::direct, 25}, {"potato", Start::tuber, 30},
              {"bean", Start::direct, 23},       {"cassava", Start::cutting, 30}};
  for (const auto& r : rows) {
    Date before = on(12, 31) + 2000;
    for (double celsius = 15; celsius <= r.best; celsius += 0.5) {
      const auto series = steady(celsius, 0.0, 1200);
      const Forecast f = forecast(ask(r.crop, r.start, on(3, 1), 0), &series);
      ASSERT_EQ(f.road, Road::degree_days) << r.crop << celsius;
      ASSERT_LE(window(f, "flowering").likely, before) << r.crop << celsius;
      before = window(f, "flowering").likely;
    }
  }
}

TEST(CropForecast, UnderASteadyTemperatureAShiftOfSowingShiftsEveryWindow) {
  const auto series = steady(20.7, 1.5, 900);
  testing::Draw draw(11);
  for (const ThermalRow& row : testing::crops().thermal()) {
    const Start start = row.from_transplanting ? Start::nursery : Start::direct;
    const int shift = draw.between(1, 90);
    const Forecast a = forecast(ask(row.crop.c_str(), start, on(2, 1), 0), &series);
    const Forecast b = forecast(ask(row.crop.c_str(), start, on(2, 1) + shift, 0), &series);
    ASSERT_EQ(a.uses.size(), b.uses.size());
    for (std::size_t i = 0; i < a.uses.size(); ++i) {
      EXPECT_EQ(b.uses[i].window.early - a.uses[i].window.early, shift) << row.crop;
      EXPECT_EQ(b.uses[i].window.likely - a.uses[i].window.likely, shift) << row.crop;
      EXPECT_EQ(b.uses[i].window.late - a.uses[i].window.late, shift) << row.crop;
    }
  }
}

// Random fields with random sightings in their right order, warm and by the calendar.
TEST(CropForecast, EveryWindowIsInOrderAndMoreThanADay) {
  testing::Draw draw(20270503);
  const auto& all = testing::crops().crops();
  for (int i = 0; i < testing::cases(2000); ++i) {
    const auto series = steady(draw.real(14, 30), draw.real(0, 2.5), draw.between(100, 900));
    const Crop& crop = all[draw.below(all.size())];
    FieldAsk a = ask(crop.id.c_str(), static_cast<Start>(draw.below(4)),
                     on(2, 1) + draw.between(0, 90), draw.between(30, 300));
    Date day = a.planting.set_out + draw.between(3, 40);
    if (draw.below(2) == 0) a.seen.emerged = day;
    day = day + draw.between(15, 90);
    if (draw.below(3) == 0) a.seen.fourth = day;
    day = day + draw.between(5, 40);
    if (draw.below(4) == 0) a.seen.fifth = day;
    const Forecast f = forecast(a, draw.below(2) ? &series : nullptr);
    for (std::size_t u = 0; u < f.uses.size(); ++u) {
      const Window& w = f.uses[u].window;
      const std::string name = crop.id + " " + f.uses[u].id + " " + text(w);
      ASSERT_TRUE(w.early <= w.likely && w.likely <= w.late) << name;
      if (f.uses[u].id == "seed-soak" && a.planting.start == Start::direct) continue;
      ASSERT_LT(w.early, w.late) << name;
    }
    if (f.harvest) {
      ASSERT_TRUE(f.harvest->early < f.harvest->late) << crop.id;
    }
  }
}

TEST(CropForecast, NurserySeedIsSownAboutFourWeeksBeforePlantingOut) {
  const Forecast f = forecast(ask("tomato", Start::nursery, on(4, 30), 135));
  EXPECT_EQ(text(window(f, "seed-soak")), text({on(4, 30) - 43, on(4, 30) - 29, on(4, 30) - 22}));
  EXPECT_TRUE(noted(f, "nursery-day-assumed"));
  FieldAsk dressed = ask("tomato", Start::nursery, on(4, 30), 135);
  dressed.planting.seed = Seed::dressed;
  EXPECT_EQ(find(forecast(dressed), "seed-soak"), nullptr);
  EXPECT_EQ(find(forecast(ask("potato", Start::tuber, on(4, 30), 130)), "seed-soak"), nullptr);
  EXPECT_EQ(find(forecast(ask("cassava", Start::cutting, on(4, 30), 210)), "seed-soak"), nullptr);
}

TEST(CropForecast, ACropWithNoRowSaysHowToGoOnByHand) {
  const auto series = steady(22);
  EXPECT_EQ(refusal(ask("okra", Start::direct, on(4, 1), 90), &series),
            "crop-without-row /planting/crop");
  EXPECT_EQ(refusal(ask("pigeon-pea", Start::direct, on(4, 1), 150)),
            "crop-without-row /planting/crop");
  EXPECT_EQ(forecast(ask("pigeon-pea", Start::direct, on(4, 1), 0), &series).road,
            Road::degree_days);
  const auto amaranth = tried(ask("amaranth", Start::direct, on(4, 1), 40));
  ASSERT_FALSE(amaranth);
  EXPECT_EQ(amaranth.error()[0].code, "crop-has-like-row");
  EXPECT_EQ(amaranth.error()[0].details.at("like"), "spinach");
  EXPECT_EQ(amaranth.error()[0].details.at("part"), "40");
  EXPECT_EQ(amaranth.error()[0].details.at("sum"), "65");
  FieldAsk by_hand = ask("amaranth", Start::direct, on(4, 1), 40);
  by_hand.own_days_to_fourth = 40 * 40 / 65;
  EXPECT_EQ(window(forecast(by_hand), "flowering").likely, on(4, 25));
}

// Source: pinhead fruit six to eight weeks after the blossom, memory; ripe after seven to nine
// months, common practice.
TEST(CropForecast, CoffeeWaitsForItsBlossomAndThenCountsFromIt) {
  FieldAsk coffee = ask("coffee", Start::cutting, on(1, 1), 0);
  EXPECT_EQ(refusal(coffee), "crop-waits-for-event /seen/fourth");
  coffee.seen.fourth = on(3, 20);
  const Forecast f = forecast(coffee);
  EXPECT_EQ(f.road, Road::event);
  ASSERT_EQ(f.uses.size(), 2u) << "a standing tree is not sown";
  EXPECT_EQ(text(window(f, "flowering")), "03-20 03-20 03-27");
  EXPECT_EQ(text(window(f, "first-fruit")), text({on(3, 20) + 42, on(3, 20) + 49, on(3, 20) + 56}));
  EXPECT_EQ(f.harvest->early.month(), 10);
  EXPECT_EQ(f.harvest->late.month(), 12);
}

TEST(CropForecast, WhatMustBeSaidOfACropIsSaid) {
  const auto series = steady(22);
  EXPECT_TRUE(noted(forecast(ask("sorghum", Start::direct, on(4, 1), 125), &series),
                    "waits-for-short-days"));
  EXPECT_TRUE(noted(forecast(ask("groundnut", Start::direct, on(4, 1), 130), &series),
                    "groundnut-flowers-early"));
  EXPECT_FALSE(noted(forecast(ask("maize", Start::direct, on(4, 1), 125), &series),
                     "thermal-other-variety"));
  EXPECT_TRUE(
      noted(forecast(ask("maize", Start::direct, on(4, 1), 85), &series), "thermal-other-variety"));
  FieldAsk nursery = ask("tomato", Start::nursery, on(4, 30), 135);
  nursery.seen.emerged = on(4, 8);
  EXPECT_TRUE(noted(forecast(nursery), "emergence-not-used"));
}

TEST(CropForecast, TheOriginOfARowOfWarmthIsSaidWhereItIsUsed) {
  const auto series = steady(18);
  const FieldAsk potato = ask("potato", Start::tuber, on(4, 1), 130);
  EXPECT_TRUE(noted(forecast(potato, &series), "european-row"));
  EXPECT_FALSE(noted(forecast(potato), "european-row"));
  EXPECT_FALSE(
      noted(forecast(ask("maize", Start::direct, on(4, 1), 125), &series), "european-row"));
}

TEST(CropForecast, SightingsOutOfOrderAndCountsOutOfRangeAreRefused) {
  FieldAsk a = ask("maize", Start::direct, on(4, 1), 125);
  a.seen.emerged = on(3, 30);
  EXPECT_EQ(refusal(a), "observation-before-planting /seen/emerged");
  a.seen.emerged = on(4, 8);
  a.seen.fourth = on(4, 7);
  EXPECT_EQ(refusal(a), "observation-out-of-order /seen/fourth");
  a.seen.fourth = on(6, 7);
  a.seen.fifth = on(6, 1);
  EXPECT_EQ(refusal(a), "observation-out-of-order /seen/fifth");
  FieldAsk count = ask("okra", Start::direct, on(4, 1), 0);
  count.own_days_to_fourth = 0;
  EXPECT_EQ(refusal(count), "own-count-out-of-range /own_days_to_fourth");
  EXPECT_EQ(refusal(ask("tomato", Start::direct, on(4, 1), 0)),
            "harvest-length-missing /planting/harvest_after");
}

}  // namespace
}  // namespace wheyfield::crop
