// Serum and the like: made against handed out, per product, from the notes.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "journal/fold.h"
#include "quantity/units.h"

namespace wheyfield::group {

struct HandOut {
  std::string product;
  std::int64_t had_ml = 0;         // in hand when the season began (kind `stock`)
  std::int64_t made_ml = 0;        // kind `made`
  std::int64_t handed_out_ml = 0;  // kind `handed-out`
  std::int64_t spoiled_ml = 0;     // of batches noted lost, made and not handed out by their name
  std::vector<const journal::Event*> events;  // that were counted, by order
  std::vector<const journal::Event*> unread;  // whose amount is no volume

  // To hand out. Below 0 when more was handed out than there was.
  std::int64_t left_ml() const { return had_ml + made_ml - handed_out_ml - spoiled_ml; }
  // Handed out above what was there, spoiled or not; 0 or more.
  std::int64_t above_ml() const {
    return handed_out_ml > had_ml + made_ml ? handed_out_ml - had_ml - made_ml : 0;
  }
};

// By product; each note is rounded to a whole mL. With `up_to` only notes of days up to it.
std::vector<HandOut> hand_outs(const journal::Facts& facts, const quantity::UnitTable& units,
                               std::optional<calendar::Date> up_to = std::nullopt);

// The same sums from the notes of one question: [mL] handed out above what was there.
std::int64_t above_made_ml(const std::vector<const journal::Event*>& events,
                           const quantity::UnitTable& units);

// The questions `handed-out-above-made/PRODUCT` that no choice has closed. They block nothing.
std::vector<journal::Question> hand_out_questions(const journal::Facts& facts,
                                                  const quantity::UnitTable& units);

}  // namespace wheyfield::group
