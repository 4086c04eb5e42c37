// By when is a bucket sour that is kept at one temperature? The ensemble's answer, worked out
// beforehand into data/readiness.toml by bench/readiness_table.cpp, so that a plan need not run it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fermentation/ensemble.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::fermentation {

// One liquid in one state, to one pH.
struct ReadinessCurve {
  struct Row {
    double celsius;
    HourWindow hours;
  };
  std::string liquid;     // "milk"
  std::string state;      // "raw", "heated"
  double ph = 0.0;        // ready at or below
  std::vector<Row> rows;  // by rising temperature
  reference_data::Origin origin;

  // Hours by which 10, 50 and 90 % of usual batches are ready in a bucket of `celsius` [C]: between
  // rows on a straight line between the logarithms of their hours, never where one of the two is
  // never; below the coldest row never, above the warmest as there.
  HourWindow at(double celsius) const;
  // One mark of it.
  std::optional<double> at(double celsius, std::optional<double> HourWindow::*mark) const;
};

class ReadinessTable {
 public:
  // Errors: data-missing (a row's member), data-range (temperatures of a curve not rising, hours
  // not positive, not in order, or with a gap before one that is there).
  static outcome::Result<ReadinessTable> parse(const reference_data::ReferenceData& data);

  const std::vector<ReadinessCurve>& curves() const { return curves_; }
  // Null when nobody worked it out.
  const ReadinessCurve* curve(const std::string& liquid, const std::string& state, double ph) const;
  // Notes the rows of a liquid as "readiness.<liquid>".
  void note(const std::string& liquid, reference_data::UsedSources& used) const;

 private:
  std::vector<ReadinessCurve> curves_;
};

}  // namespace wheyfield::fermentation
