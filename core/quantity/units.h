// Units by name, so that "0.5 acre", "500 mL" and "2 timad" can be read.
//
// The table is filled from the sourced data bundle (room reference_data) and extended by the
// group's own measures (a `timad` that she weighed or paced once). No unit is built in: a name that
// is not in the table is an error that lists what is known, never a guess.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "outcome/result.h"
#include "quantity/money.h"
#include "quantity/quantity.h"

namespace wheyfield::quantity {

enum class Dimension { length, area, volume, mass };

struct Unit {
  std::string name;
  std::vector<std::string> aliases;
  Dimension dimension;
  double factor;  // one unit in SI [m, m2, m3, kg], > 0
};

class UnitTable {
 public:
  void add(Unit unit);
  // Whoever reads with this table has no place to write a unit of her own.
  void close() { closed_ = true; }
  void open() { closed_ = false; }
  // Exact name or alias first, then without regard to ASCII case; nullptr when unknown.
  const Unit* find(std::string_view name) const;
  std::vector<std::string> names(Dimension dimension) const;

  // Readers of "number unit" texts. Errors (field empty, value = the text): number-unreadable,
  // number-ambiguous, unit-missing, unit-unknown (unit-unknown-here of a closed table), unit-which
  // ("gallon" where a US and an imperial one are known), unit-other-kind. Sign is not checked here.
  outcome::Result<Length> length(std::string_view text) const;
  outcome::Result<Area> area(std::string_view text) const;
  outcome::Result<Volume> volume(std::string_view text) const;
  outcome::Result<Mass> mass(std::string_view text) const;
  // "405 L/acre", "1 L/10 m2": volume of mix per area [m3/m2]. Error also: rate-unreadable.
  outcome::Result<Length> mix_per_area(std::string_view text) const;
  // The number in front and which unit it had, for texts whose dimension is not known before.
  struct Amount {
    double number;
    const Unit* unit;
  };
  outcome::Result<Amount> amount(std::string_view text) const;

 private:
  outcome::Result<double> in_si(std::string_view text, Dimension dimension) const;
  std::vector<Unit> units_;
  bool closed_ = false;
};

// "1:500" -> 500. Errors: strength-unreadable; parts must be above 1.
outcome::Result<double> parse_strength(std::string_view text);

// A price or wage in the season's currency: a number >= 0, no unit. Errors as parse_number, and
// below-zero, too-large (above 1e12).
outcome::Result<Money> parse_money(std::string_view text);

}  // namespace wheyfield::quantity
