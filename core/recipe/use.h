// A finished input in use: how strong each source teaches it, how long sources let it keep, what
// its signs say, how long to wait before a harvest, what was measured in it. Read from the recipe.
//
// Sources disagree thirty-fold and more, so every source keeps its own row with its own grade, and
// nothing is averaged. What a source says is shown; what the recipe itself goes by is `strength`.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "calendar/date.h"
#include "outcome/result.h"
#include "reference_data/sourced.h"

namespace wheyfield::recipe {

using reference_data::Origin;
using reference_data::Sourced;

// Where a dilution goes; `not_said` where the source leaves it open.
enum class Place { leaves, soil, seed, drinking_water, not_said };
const char* place_word(Place place);  // "leaves", "soil", "seed", "drinking-water", "not-said"

struct Dilution {
  Sourced parts;  // [parts of water to 1 part]: low is the strongest, high the weakest taught
  Place on = Place::not_said;
  std::string note;     // "" or a word `dilution.<note>`: of a stage, of which product
  std::size_t row = 0;  // its place in the file, before they were sorted
};

// The strength that the recipe itself goes by.
struct Strength {
  double parts = 0.0;  // [parts of water to 1 part]
  Place on = Place::leaves;
};

enum class Store { room, cool, refrigerated, not_said };
const char* store_word(Store store);  // "room", "cool", "refrigerated", "not-said"

// How long one source lets it stand. Never a shelf life of this project.
struct Keeping {
  Sourced days;
  Store store = Store::cool;
  std::string note;  // "" or a word `keeping.<note>`
};

enum class Advice { use, extend, fix, discard };
const char* advice_word(Advice advice);  // "use", "extend", "fix", "discard"

// Words quality.sign.<sign>, quality.cause.<cause>, quality.action.<action>.
struct Sign {
  std::string sign;
  std::vector<std::string> causes;  // likeliest first
  std::string action;
  Advice verdict = Advice::discard;
  Origin origin;
};

// Whole days from the last use to the first harvest, `where` (words harvest.where.<where>)
// and whose rule it is (harvest.rule.<rule>).
struct HarvestGap {
  int days = 0;
  std::string where;
  std::string rule;
  Origin origin;
};

// What somebody measured in it.
struct Content {
  std::string nutrient;  // nitrogen, calcium
  Sourced percent;       // of the weight of the input as used
  std::string note;      // "" or a word `content.<note>`
};

struct Use {
  std::optional<Strength> strength;
  std::vector<Dilution> dilutions;  // weakest first; equally weak ones by their strong end
  std::vector<Keeping> keeping;
  std::vector<Sign> signs;
  std::vector<HarvestGap> harvest;
  std::vector<Content> contents;
  std::optional<Sourced> ph;  // of the finished input

  void note(reference_data::UsedSources& used) const;
  // The weakest taught over the strongest; 1 where fewer than two are taught.
  double spread() const;
};

// The first day on which all the gaps, and `own_days` of a local rule, are over. Nothing when
// neither a gap nor a rule of her own is known: then nobody here can say.
std::optional<calendar::Date> earliest_harvest(const Use& use, calendar::Date last_used,
                                               std::optional<int> own_days);

// Reads what the object of a recipe says of its use; a table that is not there is left empty.
// Errors: data-missing, data-range, not-a-count, recipe-word-unknown, with the pointer of the
// field.
Use read_use(const nlohmann::json& recipe, const std::string& field, outcome::Problems& problems);

}  // namespace wheyfield::recipe
