// What goes into a heap: nitrogen, carbon and water of each ingredient, from data/compost.toml or
// as the trainer enters it.
//
//   carbon = nitrogen x C:N, at most compost-carbon-most
// The printed nitrogen and the printed C:N of a row are averages of different samples: sawdust's
// 0.24 % x 442 would be 106 % carbon. No plant matter holds more than about 58 %, so the table's
// rows are cut there and what somebody enters is refused above compost-carbon-refused.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::compost {

struct Contents {
  double nitrogen = 0.0;          // [% of dry weight], 0..100
  double carbon = 0.0;            // [% of dry weight], 0..100
  double moisture = 0.0;          // [% of wet weight], 0 <= moisture < 100
  std::optional<double> density;  // loose [kg/m3], > 0
};

// A row of data/compost.toml.
struct Ingredient {
  std::string id;
  reference_data::Sourced nitrogen;                // [% of dry weight]
  std::optional<reference_data::Sourced> ratio;    // C:N; ash has none
  reference_data::Sourced moisture;                // [% of wet weight]
  std::optional<reference_data::Sourced> density;  // [kg/m3]
  bool manure = false;                             // handled with the cautions of raw manure

  // Which end of the row's C:N.
  enum class End { low, usual, high };
  // carbon_most: compost-carbon-most [% of dry weight].
  Contents contents(double carbon_most, End end = End::usual) const;
  // True where nitrogen x C:N is above carbon_most.
  bool is_cut(double carbon_most) const;
};

class IngredientTable {
 public:
  // Reads the section "compost". Errors: data-missing, data-range.
  static outcome::Result<IngredientTable> parse(const reference_data::ReferenceData& data);
  const Ingredient* find(const std::string& id) const;  // nullptr when unknown
  const std::vector<Ingredient>& rows() const { return rows_; }

 private:
  std::vector<Ingredient> rows_;
};

// Moisture of a sample dried until it loses no more weight [% of wet weight]. Precondition:
// 0 <= dry <= wet, wet > 0, both in one unit.
double moisture_of_sample(double wet, double dry);

}  // namespace wheyfield::compost
