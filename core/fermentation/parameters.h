// The rows of data/fermentation.toml: what the model takes as known, how far each number differs
// from batch to batch, and who says so.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "fermentation/vessel.h"
#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::fermentation {

enum class Law {
  none,    // one value for all batches
  normal,  // value + spread z
  log      // value e^(spread z)
};

struct Parameter {
  double value = 0.0;
  double spread = 0.0;  // one standard deviation: in the row's unit, or of the natural logarithm
  Law law = Law::none;
  std::string unit;
  reference_data::Origin origin;

  // In a batch that lies z standard deviations off; at(0) is the median.
  double at(double z) const;
};

class ParameterTable {
 public:
  // Errors: data-missing (a row or one of its members), data-range (an unknown law).
  static outcome::Result<ParameterTable> parse(const reference_data::ReferenceData& data);
  // Precondition: `id` is one of `required`.
  const Parameter& row(std::string_view id) const { return rows_.find(id)->second; }
  // The rows with litres, smallest first.
  const std::vector<VesselRow>& vessels() const { return vessels_; }
  static const std::vector<std::string>& required();

  // Notes every row: an answer of the model rests on all of them.
  void note(reference_data::UsedSources& used) const;

 private:
  std::map<std::string, Parameter, std::less<>> rows_;
  std::vector<VesselRow> vessels_;
};

}  // namespace wheyfield::fermentation
