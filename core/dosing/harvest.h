// From the can to the plate: where serum may still go, how strong on leaves, when to pick.
//
// These are precautions for a home-made input with milk and molasses in it, a judgement of this
// project and not a rule of any authority: see docs/models/harvest-interval.md.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "calendar/date.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::dosing {

enum class Placement { leaves, soil_at_stem };

// before_flowering holds for leaf, head, root and bulb crops until the first picking.
enum class GrowthStage { before_flowering, from_flowering, after_first_picking };

struct Placements {
  bool leaves = false;
  bool soil_at_stem = false;
  // Why leaves are closed: "" (open, or out of this method's reach), "raw-flowering", "raw-picked".
  std::string closed;
  bool judgement = false;  // the stage decided, by our judgement: say so
  bool allows(Placement p) const { return p == Placement::leaves ? leaves : soil_at_stem; }
};
// What a method can reach (knapsack: leaves, or soil with the lance held low; leafy-branch: leaves
// only; can: leaves, or soil without the rose; round-stem: soil only), less what the stage closes:
// on crops eaten raw only soil at the stem from flowering on, and never leaves after the first
// picking. Error: method-unknown (/method).
outcome::Result<Placements> placements(GrowthStage stage, bool eaten_raw, std::string_view method);

// Stronger than 1:`strongest` on leaves is refused: sugar and acid can burn leaves, and molasses
// can feed what should not grow on food. On soil it passes. From the data:
// leaf-strength-limit-parts. Error: too-strong-for-leaves (/strength).
outcome::Result<double> leaf_strength(double parts, Placement placement, double strongest);

// Is what is eaten in or on the ground: leaf, head, bulb, root, tuber. A judgement: fruit that lies
// on the ground is not known here.
bool touches_soil(std::string_view harvested);

struct HarvestRule {  // from the data:
  int raw_days;       // raw-eaten-gap-days
  int cooked_days;    // cooked-gap-days
  int soil_days;      // soil-gap-days
};
HarvestRule harvest_rule(const reference_data::ReferenceData& data);

// The first day on which to pick after the last use on `last_use`: leaves wait the days of the
// rule, soil at the stem its own. Nothing for soil under what is eaten raw and touches it: no rule
// of this project covers that.
std::optional<calendar::Date> earliest_harvest(calendar::Date last_use, Placement placement,
                                               bool eaten_raw, bool on_the_ground,
                                               HarvestRule rule);

}  // namespace wheyfield::dosing
