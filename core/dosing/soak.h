// Soaking seed in thin serum right before sowing: water, serum, how long at most, and when.
//
//   hours = the smaller of the taught limit for all crops (soak-most-hours) and the crop's own row
//   water = seed mass x the crop's litres a kg;  serum = water / parts
// A crop without a row gets no hours and no water: no guess. Afterwards the seed is dried at the
// surface and sown the same day.
#pragma once

#include <string>
#include <vector>

#include "crop/use_windows.h"
#include "outcome/result.h"
#include "quantity/quantity.h"
#include "reference_data/reference_data.h"

namespace wheyfield::dosing {

using quantity::Volume;

// A row of data/soak.toml.
struct SoakRow {
  std::string crop;
  std::string group;              // cereal, small-legume, large-legume
  reference_data::Sourced hours;  // longest soak [h]; low 0: dry sowing is taught as well
  reference_data::Sourced water;  // [L/kg]
};

struct SoakRequest {
  std::string crop;
  crop::Start start = crop::Start::direct;
  crop::Seed seed = crop::Seed::own;
  quantity::Mass mass;
  double parts = 0.0;  // 1:parts, > 1
};

struct Soak {
  double hours = 0.0;          // at most
  bool crop_is_limit = false;  // the crop's own limit is the shorter one
  bool or_none = false;        // sowing dry is taught as well
  bool splits = false;         // large legume: the seed coat splits in deep or long water
  Volume water;
  Volume serum;
  SoakRow row;
};

struct SoakClock {       // from the data:
  double morning_up_to;  // soak-morning-up-to [h]
  double morning_in;     // soak-morning-in [hour of the day]
  double evening_out;    // soak-evening-out [hour of the day]
};
struct SoakTimes {
  bool morning;  // in and out on the morning of sowing; else in on the evening before
  double in;     // hour of the day
  double out;
};
// A short soak begins on the morning of sowing, a longer one ends on it.
SoakTimes soak_times(double hours, SoakClock clock);

class SoakTable {
 public:
  // Reads the section "soak". Errors: data-missing, data-range.
  static outcome::Result<SoakTable> parse(const reference_data::ReferenceData& data);
  const SoakRow* find(const std::string& crop) const;  // nullptr when unknown
  const std::vector<SoakRow>& rows() const { return rows_; }

  // Errors, all at once: seed-dressed (/seed), soak-not-seed (/start: tubers and cuttings),
  // soak-crop-unknown (/crop), not-above-zero (/mass [kg]). From the data: soak-most-hours.
  outcome::Result<Soak> soak(const SoakRequest& request, double most_hours) const;

 private:
  std::vector<SoakRow> rows_;
};

}  // namespace wheyfield::dosing
