// The batches of the journal as the room `fermentation` wants them: where they stand, since when,
// and what was seen of them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "api/session.h"
#include "fermentation/batch.h"
#include "fermentation/brew.h"
#include "fermentation/look.h"
#include "fermentation/parameters.h"
#include "fermentation/place_speed.h"

namespace wheyfield::api {

// One visit. Several notes may tell of it (two people); `look` is what counts of them together.
struct NotedLook {
  calendar::Date on;
  std::string half;                          // "morning", "afternoon"
  std::vector<const journal::Event*> notes;  // by order; none for a look that is only tried
  fermentation::Look look;
};

struct NotedBatch {
  std::string label;
  const recipe::Recipe* recipe = nullptr;  // not null
  const recipe::Step* step = nullptr;      // not null: what it is going through
  std::string vessel;                      // "" not noted
  std::string place;
  fermentation::Brew brew;
  calendar::Date began;     // the day this step began
  double began_hour = 0.0;  // of the day; an assumption unless noted
  bool hour_noted = false;
  double litres = 0.0;  // in the vessel
  bool litres_noted = false;
  std::vector<NotedLook> looks;             // by time
  std::vector<const journal::Event*> lost;  // notes that it is lost, by order

  double hours_at(calendar::Date day, double hour) const {
    return 24.0 * (day - began) + hour - began_hour;
  }
  std::vector<fermentation::Look> only_looks() const;
};

// "half-strip", "third-strip", "meter"; anything else counts as a half-unit strip, the coarsest.
fermentation::Scale scale_of(const std::string& word);
const char* scale_word(fermentation::Scale scale);

// The hour of the day that a half of it stands for: rows morning-hour and afternoon-hour.
double hour_of_half(const Session& session, const std::string& half);

// Labels of the batches in the order in which they were first noted.
std::vector<std::string> batch_labels(const Session& session);

// Looks noted before the batch began or on a day to come are left out and told in `problems`
// (notices look-before-batch, look-to-come; details: note).
// Errors: batch-unknown (details: known, suggestion), batch-contradicted (two notes of it differ),
// batch-recipe-unknown, batch-not-forecast (no step of its recipe turns sour by the model).
outcome::Result<NotedBatch> noted_batch(const Session& session, const std::string& label,
                                        outcome::Problems& problems);

// Puts a look among those of the batch. `body` as a note of kind `reading`; `note` is null for a
// look that is not in the journal yet.
void add_look(const Session& session, const nlohmann::json& body, calendar::Date on,
              const journal::Event* note, NotedBatch& batch);

// Where it stands, how warm it is there, and in what: for the model. `horizon` [h].
// Errors: batch-place-unknown; those of read_temperatures at the notes of the place.
outcome::Result<fermentation::Setting> setting_of(const Session& session, const NotedBatch& batch,
                                                  const fermentation::ParameterTable& table,
                                                  double horizon, Answer& answer);

// What a recipe puts together in a step that the model speaks of: its liquid, raw milk, and the
// recipe's own starter in its likely share.
fermentation::Brew usual_brew(const recipe::Step& step);

// Of all forecasts: the same batch, the same draws.
constexpr std::uint64_t forecast_seed = 2027;

// What the other batches of its place tell, those with looks up to today; at most the latest
// most_of_a_place of them.
constexpr std::size_t most_of_a_place = 12;
fermentation::PlaceSpeed place_speed(const Session& session, const std::string& place,
                                     const std::string& without,
                                     const fermentation::ParameterTable& table, Answer& answer);

// How many batches of the recipe came to an end in the journal.
int recorded_batches(const Session& session, const recipe::Recipe& recipe);

}  // namespace wheyfield::api
