// The standard normal distribution: draws that are the same on every machine, and its integral.
#pragma once

#include "numerics/stream.h"

namespace wheyfield::fermentation {

// Evenly over 0..1, never 0 or 1 [multiples of 2^-53, moved by half of one].
double even(numerics::Stream& stream);

// By the polar method (Marsaglia and Bray 1964); the second of its pair is not used, so that a draw
// depends on the stream alone.
double standard_normal(numerics::Stream& stream);

// Share below z.
double normal_below(double z);

}  // namespace wheyfield::fermentation
