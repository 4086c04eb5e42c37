// A batch drawn from the table: which numbers differ from batch to batch, each by an independent
// standard normal deviate.
#pragma once

#include <array>
#include <cstddef>

#include "fermentation/batch.h"
#include "fermentation/brew.h"
#include "fermentation/parameters.h"

namespace wheyfield::fermentation {

// Names of the places in Deviates.
enum class Differs : std::size_t {
  speed,
  acid_speed,
  fast_min,
  fast_start,
  tolerant_start,
  lag_work,
  ph_start,
  milk_strength,
  tolerant_beta,
  tolerant_acid_limit,
  vessel_pace,
  air_offset,
  reading_bias,  // not of the batch but of how it is read
  failing,       // how slow a failing batch is
  count
};
using Deviates = std::array<double, static_cast<std::size_t>(Differs::count)>;

inline double& of(Deviates& z, Differs which) { return z[static_cast<std::size_t>(which)]; }
inline double of(const Deviates& z, Differs which) { return z[static_cast<std::size_t>(which)]; }

// All deviates 0: the batch of the medians.
BatchModel batch_of(const ParameterTable& table, const Deviates& z = {}, const Brew& brew = {});

// The same, failing: growth and acid at the same speed between 0 and failure-speed-most of what
// they would be, each equally likely.
BatchModel failing_batch_of(const ParameterTable& table, const Deviates& z, const Brew& brew = {});

}  // namespace wheyfield::fermentation
