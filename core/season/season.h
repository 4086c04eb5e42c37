// One season as the trainer knows it: what the plan is worked out from.
//
// Plain values, already read and checked against their fields (room api reads them from text).
// Volumes of serum are planned on a grid of whole millilitres.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "calendar/meeting_days.h"
#include "crop/course.h"
#include "crop/use_windows.h"
#include "quantity/money.h"
#include "quantity/quantity.h"
#include "recipe/recipe.h"
#include "weather/daily_series.h"

namespace wheyfield::season {

using quantity::Area;
using quantity::Length;
using quantity::Money;
using quantity::Volume;

struct Place {
  std::string name;
  Length altitude;
  weather::DailySeries temperature;
  std::string water;  // tap-chlorinated, river, tank
  Money can_carried;  // cost of carrying one can of water
  double pace = 1.0;  // of souring there, 1 usual, > 0: hours of a forecast are divided by it
  bool chlorinated() const { return water == "tap-chlorinated"; }
};

// How a farm puts the mix on. A rate that nobody measured counts as the usual 100 L an acre and is
// marked as an assumption wherever it is used.
struct Method {
  std::string id;                      // knapsack, leafy-branch, can, round-stem
  std::optional<Length> mix_per_area;  // measured [m3/m2]
};

// Round the stem: so much mix a plant, plants at `row` x `along`. Only for uses with plants
// standing (from the seedling on); earlier uses go on by the farm's own method.
struct RoundStem {
  Volume per_plant;
  Length row;
  Length along;
};

struct Field {
  crop::Planting planting;
  Area area;
  std::optional<RoundStem> round_stem;
  crop::Seen seen;                          // shifts and narrows the windows
  std::optional<int> own_count;             // her own count, days from set_out to the fourth event
  std::optional<quantity::Mass> seed_mass;  // of the seed to be soaked, weighed
};

struct Farm {
  std::string code;
  std::size_t place = 0;  // index into Season::places
  Method method;
  std::optional<Volume> cap;  // measured
  Volume can;
  std::optional<Volume> sprayer;   // own or borrowed
  std::string borrows_sprayer_of;  // farm code, "" when own
  std::string sprayer_last_held;   // e.g. weedkiller; "" when clean
  bool trial_plot = false;         // one plot is marked without
  std::vector<Field> fields;
};

enum class Milk { heated_cooled, raw };

struct Vessel {
  std::string name;
  std::string farm;       // where it stands
  std::size_t place = 0;  // index into Season::places
  Volume size;
  Volume fill_line;  // measured, <= size
  Milk milk = Milk::heated_cooled;
  recipe::VesselKind kind = recipe::VesselKind::bucket;
};

// Milk that can be had: the first rule that holds on a day counts.
struct MilkRule {
  std::optional<calendar::Date> from;
  std::optional<calendar::Date> until;  // inclusive
  bool meeting_days_only = false;
  std::optional<calendar::Weekday> weekday;
  Volume most;  // a day
  Money price;  // a litre, own milk priced the same
};

struct Price {
  std::string item;
  double pack = 0.0;  // [unit of the item: L, kg, m or pieces], > 0
  std::string unit;
  Money price;  // a pack
};

struct StockItem {
  std::string item;  // "serum" or an item that the plan would buy
  double amount = 0.0;
  std::string unit;
  std::optional<calendar::Date> made_on;  // required for serum
};

struct Absence {
  std::string farm;
  calendar::Date on;
};

// Hours of work that the group can give to what it makes, in all, on one day.
struct Hands {
  double meeting_day = 0.0;  // [h]
  double other_day = 0.0;    // [h]
};

// So much of a product is wanted from one day to another.
struct Wanted {
  calendar::Date by;
  calendar::Date until;  // last day of use, >= by
  std::int64_t ml = 0;
};

// What the season makes beside what its fields are given.
struct Preparation {
  const recipe::Recipe* recipe = nullptr;  // not null; passed `recipe::check`
  int keeps_days = 0;                      // of its product, entered by the group
  std::vector<Wanted> wanted;
};

struct Containers {
  Volume size;
  int count = 0;
  int without_lid = 0;
};

struct Season {
  std::string name;
  std::string currency;
  std::string recipe;
  calendar::Date from;
  calendar::Date to;
  calendar::Date first_start;  // no batch may be started before
  double strength_parts = 500.0;
  bool by_degree_days = false;  // windows by warmth where a crop has a row, else by the calendar
  int serum_life_days = 0;      // entered by the group, kind assumption
  int batches_per_spare = 0;    // one spare batch for each so many; 0 = none
  calendar::MeetingDays meetings;
  calendar::Weekday market = calendar::Weekday::tuesday;
  Money labour_day;
  double labour_hours = 8.0;
  std::optional<Hands> hands;  // none: no limit
  std::vector<Place> places;
  std::vector<MilkRule> milk;
  std::vector<Vessel> vessels;
  std::vector<Containers> containers;
  std::vector<Price> prices;
  std::vector<StockItem> stock;
  std::vector<Absence> absences;
  std::vector<Farm> farms;
  std::vector<Preparation> preparations;  // each of another recipe

  Area area() const;
  std::size_t fields() const;
  // The rule for `day`, or nullptr when no milk can be had on it.
  const MilkRule* milk_on(calendar::Date day) const;
};

}  // namespace wheyfield::season
