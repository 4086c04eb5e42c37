// Batches that a note says are lost, though serum of them was made or handed out.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "journal/fold.h"
#include "quantity/units.h"

namespace wheyfield::group {

struct Spoiled {
  std::string batch;
  // Notes of kind `lost`, and readings with a putrid smell or coloured mould; by order.
  std::vector<const journal::Event*> signs;
  std::vector<const journal::Event*> made;        // of the batch, by order
  std::vector<const journal::Event*> handed_out;  // that name the batch, by order

  // What was made of the product and not handed out by the batch's name [mL], 0 or more.
  std::int64_t left_ml(const std::string& product, const quantity::UnitTable& units) const;
};

// Batches with signs, by label; with `up_to` only notes of days up to it.
std::vector<Spoiled> spoiled_batches(const journal::Facts& facts,
                                     std::optional<calendar::Date> up_to = std::nullopt);

// The questions `batch-lost-and-used/BATCH` that no choice has closed.
std::vector<journal::Question> spoiled_questions(const journal::Facts& facts);

// How the group's own batches of a recipe came out, by label: those of which something was made or
// that have signs, and of these those with signs. A batch whose recipe nobody noted counts.
struct OwnBatches {
  int finished = 0;
  int failed = 0;
};
OwnBatches own_batches(const journal::Facts& facts, const std::string& recipe);

}  // namespace wheyfield::group
