// What the windows of the five uses of one planting rest on; crop/forecast.h makes them.
//
// Calendar rule: the stage row whose sum lies nearest to the variety's own length N is scaled,
// stage_i * N / sum. The fourth use comes at the end of initial + development, counted from sowing
// (or planting out), in a window of +/-10 %: flowering, or for leaf, root, bulb, head and tuber
// crops the swelling of what is harvested; only crops with flowers as their aim have a fifth.
// Windows are whole days, rounded half up.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "crop/crop_table.h"
#include "reference_data/sourced.h"

namespace wheyfield::crop {

enum class Start { direct, nursery, tuber, cutting };
enum class Seed { own, bought, dressed };

// "direct" ... and back; empty when the word is none of them.
std::optional<Start> parse_start(const std::string& word);
std::optional<Seed> parse_seed(const std::string& word);
std::string_view start_word(Start start);

struct Planting {
  const Crop* crop = nullptr;  // not null
  Start start = Start::direct;
  Seed seed = Seed::own;
  calendar::Date set_out;                 // sown in the field, or planted out from the nursery
  std::optional<calendar::Date> nursery;  // sown in the nursery; required when start is nursery
  int harvest_after = 0;                  // N, days from set_out to the last harvest, > 0
};

struct Use {
  std::string id;     // land-preparation ... first-fruit
  std::string event;  // what she looks for: the id, or the crop's own fourth event
  calendar::Window window;
  // False for the soak of nursery seed: it comes before any first batch can be ready, so it is
  // served only from stock in hand.
  bool required = true;
};

// Is the crop usually started so? A standing plant is not started at all, so any word passes.
bool is_usual_start(const Crop& crop, Start start);

// The stage row used for a length of `days`: nearest sum, the first row when equal.
const StageRow& nearest_row(const Crop& crop, int days);

// Days to harvest that are believed without asking: the shortest published length times
// `limits.low`, and the longest times `limits.high`, rounded. Precondition: the crop has stage
// rows.
struct Lengths {
  int least;
  int most;
};
Lengths usual_lengths(const Crop& crop, const reference_data::Sourced& limits);

// Days from set_out to the end of initial + development, scaled to `harvest_after`.
double days_to_fourth(const Crop& crop, int harvest_after);

// How to scale a listed crop's stages by hand, worked for a variety of `days`, or of half the row's
// length when 0: {like}, {initial}, {development}, {mid}, {late}, {sum}, {part}, {days}, {answer}.
std::map<std::string, std::string> worked_scaling(const Crop& like, int days);

// Does the rule hold for this planting? Seed is soaked only when it is sown as seed and is not
// dressed; only crops with a fifth use have first fruit; a standing plant is not sown.
bool applies(const UseRule& rule, const Planting& planting);

}  // namespace wheyfield::crop
