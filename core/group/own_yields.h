// The yields of a group's own batches, from its notes: `batch` with the amount that was filled in,
// `made` with what came of it.
#pragma once

#include <string>
#include <vector>

#include "journal/fold.h"
#include "quantity/units.h"
#include "recipe/own_yields.h"

namespace wheyfield::group {

struct OwnYield {
  recipe::MeasuredYield yield;
  std::vector<double> ratios;  // per unit of the step's basis, by the label of the batch
};

// More came out than went in: left out, and to be asked about.
struct ImpossibleYield {
  std::string batch;
  std::string material;
  double litres;  // noted
  std::string of;
  double of_litres;            // noted
  const journal::Event* note;  // the last that says how much was made
};

struct OwnYields {
  std::vector<OwnYield> yields;  // one for each measured yield of the recipe, in its order
  std::vector<ImpossibleYield> impossible;
};

// Of the batches that name this recipe, or none. What was made of one material on several days is
// added up. Left out are batches that were lost or show signs of it, that are started twice, and
// those of which an open question asks whether a note was written twice.
OwnYields own_yields(const journal::Facts& facts, const recipe::Recipe& recipe,
                     const quantity::UnitTable& units);

}  // namespace wheyfield::group
