// A dose line for each farm: its own cap, its own can or sprayer.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "dosing/dilution.h"
#include "season/plan.h"

namespace wheyfield::season {

struct DoseLine {
  std::size_t farm = 0;
  std::size_t field = 0;
  std::string method;
  std::vector<std::string> uses;  // ids of the uses that take this dose
  std::string container;          // can or sprayer
  Volume container_size;
  Volume mix;  // for one use of the whole field
  std::int64_t serum_ml = 0;
  std::int64_t usual_ml = 0;
  long long plants = 0;  // round the stem only
  bool measured = false;
  dosing::Loads loads;
  // Caps for a full load (for the only load when the field takes less than one); empty when the
  // cap was never measured: measure it first.
  std::optional<dosing::CapCount> caps;
  std::optional<dosing::CapCount> caps_last;  // for the part load
  // What all loads bring together: by caps where they fit, else by syringe. May differ from
  // `serum_ml`, which is handed out.
  Volume given;
  // A crop that is eaten raw: when to pick after the last of these uses on its leaves.
  std::optional<calendar::Date> pick_from;
};

// One line for each field and method, in the order of farms and fields. Soaks have none (their
// amount follows the seed, not the field).
std::vector<DoseLine> dose_lines(const Season& season, const SeasonPlan& plan,
                                 const reference_data::ReferenceData& data);

}  // namespace wheyfield::season
