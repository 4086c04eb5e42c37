// Nitrogen, phosphate and potash of a field in a season: what the harvest takes off it, what
// compost, manure and serum bring. The tables span what their sources say, so every answer is a
// range.
//
//   taken off      harvest x kg a tonne of the crop's row, of fresh produce
//   in manure      mass x (1 - moisture) x share of dry matter
//   in serum       volume x grams a litre
//   P2O5 = 2.2913 P, K2O = 1.2046 K (constants phosphate-per-phosphorus, potash-per-potassium)
// What rain, soil and air bring, what water carries down, and stalks that leave the field are not
// counted.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "outcome/result.h"
#include "quantity/quantity.h"
#include "reference_data/reference_data.h"

namespace wheyfield::nutrients {

using quantity::Mass;
using quantity::Volume;
using reference_data::Sourced;

struct Range {
  double low = 0.0;
  double high = 0.0;
};
// Balances: [a.low - b.high, a.high - b.low].
Range operator-(const Range& a, const Range& b);
Range operator+(const Range& a, const Range& b);

// [kg]; nothing where no figure is known.
struct Nutrients {
  std::optional<Range> n;
  std::optional<Range> p2o5;
  std::optional<Range> k2o;
};
// Of each that both know.
Nutrients operator-(const Nutrients& a, const Nutrients& b);
Nutrients operator+(const Nutrients& a, const Nutrients& b);

// A row of data/removal.toml: kg in a tonne of fresh produce. A crop may have several, by several
// tables; the first is the one that was looked up best.
struct Removal {
  std::string crop;
  std::string part;                 // grain, tuber, root ...
  std::optional<Sourced> n;         // [kg/t]
  Sourced p2o5;                     // [kg/t]
  Sourced k2o;                      // [kg/t]
  std::optional<Sourced> from_air;  // share of a legume's nitrogen [1]

  // Of `harvest` > 0 [kg]. Of a legume's nitrogen only what came out of the soil.
  Nutrients taken_by(Mass harvest) const;
  // The same by the likely figure [kg]; nothing where the row has none.
  std::optional<double> likely_nitrogen(Mass harvest) const;
};

// A row of data/manures.toml: of the dry matter, and how much of the whole is water; where a heap
// may take it too, its water and nitrogen are those of data/compost.toml.
struct Content {
  std::string id;
  Sourced moisture;                // [% of the fresh weight]
  Sourced n;                       // [% of the dry matter]
  Sourced p;                       // [% of the dry matter], the element
  Sourced k;                       // [% of the dry matter], the element
  std::optional<Sourced> release;  // share of the nitrogen in the first year [1]
};

// P2O5 for one P, K2O for one K.
struct Oxides {
  double phosphate = 0.0;
  double potash = 0.0;
};

// kg in `mass` > 0 of fresh stuff. Low is the wettest and poorest of the row, high the driest and
// richest.
Nutrients contained(const Content& content, Mass mass, const Oxides& oxides);
// The nitrogen of it that a crop finds in the first year [kg]; nothing where that is not known.
std::optional<Range> first_year(const Content& content, const Nutrients& contained);

// Of stored serum. Its phosphorus was never measured; said is well under 1 g/L (memory).
struct SerumContent {
  Sourced n;  // serum-nitrogen [g/L]
  Sourced p;  // serum-phosphorus [g/L]
  Sourced k;  // serum-potassium [g/L]
};
Nutrients contained(const SerumContent& content, Volume serum, const Oxides& oxides);

// Fresh mass of `content`, at its likely moisture and nitrogen, that holds `nitrogen` [kg], and
// that sets it free in the first year at the likely share (nothing where no share is known).
struct Match {
  Mass holds;
  std::optional<Mass> frees;
};
Match to_match(const Content& content, double nitrogen);

class NutrientTables {
 public:
  // Errors: data-missing, data-range, with the field of the row.
  static outcome::Result<NutrientTables> parse(const reference_data::ReferenceData& data);

  std::vector<const Removal*> removals(const std::string& crop) const;
  const Content* content(const std::string& id) const;
  std::vector<std::string> crops() const;  // with a row, in the order of the table
  std::vector<std::string> contents() const;
  const Oxides& oxides() const { return oxides_; }

 private:
  std::vector<Removal> removals_;
  std::vector<Content> contents_;
  Oxides oxides_;
};

// The widest that the rows of one crop span together. Precondition: at least one row.
Nutrients taken_by_all(const std::vector<const Removal*>& rows, Mass harvest);

}  // namespace wheyfield::nutrients
