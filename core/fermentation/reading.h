// How likely is a cheap reading, if the batch is so sour and so warm? For re-weighting members.
//
//   strip, meter with steps d:  w d/scale + (1 - w) [F((r + d/2 - pH - bias)/s)
//                                                    - F((r - d/2 - pH - bias)/s)]
//   set or not yet:             w/2 + (1 - w) F(+/- (set_ph - pH)/set_error)
//   thermometer:                exp(-((r - T)/s)^2 / 2), relative to a reading that fits
// F is the normal distribution. A share w of readings says nothing: any step of the scale, yes or
// no alike. `bias` is one number for all strips of a batch. Rows strip-error-*, meter-error,
// reading-bias, misread, scale-width, set-ph and thermometer-error of data/fermentation.toml, all
// assumptions.
#pragma once

#include "fermentation/parameters.h"

namespace wheyfield::fermentation {

struct Reading {
  enum class Kind { strip, meter, set, thermometer };
  Kind kind;
  double hours;       // since the milk was mixed
  double value;       // pH; set: 1 yes, 0 no; [C]
  double step = 0.0;  // of the scale, > 0 for strip and meter; a strip of up to 0.3 counts as fine
};

struct ReadingErrors {
  explicit ReadingErrors(const ParameterTable& table);
  double strip_coarse, strip_fine, meter;  // standard deviations
  Parameter bias;                          // of a batch
  double misread;                          // w
  double scale;                            // [pH] that a strip or meter can show
  double set_ph, set_error;
  double thermometer;  // [C]
};

// Natural logarithm of the likelihood.
double log_likelihood(const Reading& reading, double ph, double celsius, double bias,
                      const ReadingErrors& errors);

}  // namespace wheyfield::fermentation
