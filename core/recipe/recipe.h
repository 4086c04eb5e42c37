// A preparation as a process graph, read from data: no code knows the name of a recipe.
//
// Materials flow through steps. Each step has a basis (its first `takes`); every other flow is a
// ratio to one unit of the basis. Amounts are in the unit of the material (L or kg). Yields are
// ranges, and a yield marked `measured` is replaced by what she measures at that step (molasses
// follows the raw serum in the jug, not the plan). Dwell times are windows in whole days, one set
// for warm and one for cool places; `keeps` is the last day on which the output still stands well.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "outcome/result.h"
#include "recipe/use.h"
#include "reference_data/sourced.h"

namespace wheyfield::recipe {

// `loss`: what goes off as vapour and gas.
enum class Role { input, intermediate, product, by_product, loss };

struct Material {
  std::string id;
  std::string unit;                // "L" or "kg"
  std::optional<Sourced> density;  // [kg/L], required when unit is "L"
  Role role = Role::input;
  std::string fate;     // caution id saying what becomes of a by-product; required for by-products
  bool bought = false;  // an input that stands on the shopping list
};

// Days from the start of a step until its output is ready, and the last day it stands well.
// Holds 0 <= early <= likely <= late <= keeps.
struct Dwell {
  int early = 0;
  int likely = 0;
  int late = 0;
  int keeps = 0;
  Origin origin;
};

struct Flow {
  std::string material;
  Sourced ratio;  // amount per unit of the step's basis
  bool measured = false;
  bool remainder = false;  // takes what mass is left of the step [kg]
};

// `helpers`: the keeper with some of the group, on a day without a meeting; no recipe asks for it.
enum class Who { trainer, keeper, group, helpers };

// A dated piece of work; sentences `task.<id>`.
struct TaskTemplate {
  std::string id;
  int day = 0;          // offset from the step's first (or last) day
  bool at_end = false;  // counted from the step's last day
  Who who = Who::keeper;
  std::string only_if;           // "", or a condition on the batch: "chlorinated", "heated", "raw"
  std::optional<Sourced> hours;  // labour of its own [h], beside that of the step
  std::vector<std::string> cautions;
};

enum class VesselNeed { none, household, season, storage };

// A step whose days are forecast from the warmth of its place; the taught windows say how long its
// output stands well.
struct Forecast {
  Sourced ready_ph;             // its output is ready at this pH or below
  Sourced published_least;      // [days] nothing shorter is planned before the group has recorded
  Sourced least_until_batches;  // so many batches of its own

  void note(const std::string& used_for, reference_data::UsedSources& used) const;
};

// What a step of the season needs to stand in: a bucket or drum, the place of a heap, or a vessel
// kept apart for manure, teas or fish, in which never milk or juice stands.
enum class VesselKind { bucket, heap, apart };

struct Step {
  std::string id;
  VesselNeed vessel = VesselNeed::none;
  VesselKind kind = VesselKind::bucket;  // of a season vessel
  std::optional<Sourced> fill_fraction;  // of a vessel without measured fill line
  std::optional<Sourced> least_fill;     // that works: a heap that is smaller does not heat [L]
  std::optional<Sourced> most_fill;      // for which the hours of work are meant [L]
  Dwell warm;
  Dwell cool;
  std::string sours;  // "milk", "rinse-water": what the room fermentation reckons it as; "" nothing
  std::optional<Forecast> forecast;
  Who handling = Who::keeper;
  Sourced labour_hours;
  std::vector<Flow> takes;
  std::vector<Flow> gives;
  std::vector<TaskTemplate> tasks;
  std::vector<std::string> cautions;
};

struct Recipe {
  std::string id;
  std::string product;
  std::string letter;                             // its batches are named by it: B1, B2
  double shown_for = 1.0;                         // product that its page is shown for
  std::optional<Sourced> season_litres_per_acre;  // usual dose of an acre-season [L/acre]
  std::vector<Material> materials;
  std::vector<Step> steps;
  std::vector<std::string> cautions;  // of the whole: what it is and is not
  Use use;                            // of the finished product

  const Material* material(const std::string& id) const;
  // The step that stands in one of the season's vessels; -1 when there is none.
  int vessel_step() const;
  // The product stands in the season's storage cans.
  bool stored() const;
  bool has_forecast() const;  // of a step
};

// Work of one batch [h]: its steps, and the tasks that count for themselves.
double labour_hours(const Recipe& recipe);

// Notes where all numbers of its steps come from: windows, fills, hours of work, what goes in and
// comes out.
void note_sources(const Recipe& recipe, reference_data::UsedSources& used);

// Reads one recipe object. Errors: data-missing, data-range, recipe-word-unknown, with the pointer
// of the field. `check` says whether what was read makes sense.
outcome::Result<Recipe> parse(const nlohmann::json& json, const std::string& field);

}  // namespace wheyfield::recipe
