// What a batch shows, what that comes from, and what to do with it: rows of data/quality.toml.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "outcome/result.h"
#include "reference_data/reference_data.h"

namespace wheyfield::fermentation {

enum class Verdict { use, extend, discard };
std::string_view verdict_word(Verdict verdict);  // "use", "extend", "discard"

struct QualityRow {
  std::string stage;  // liquid: "milk", "rinse-water"
  std::string sign;
  Verdict verdict = Verdict::discard;
  std::vector<std::string> causes;  // likeliest first; words quality.cause.<cause>
  std::string action;               // words quality.action.<action>
  bool overrides = false;           // goes before all hours and strips: the model does not know it
  reference_data::Origin origin;
};

class QualityTable {
 public:
  // Errors: data-missing (a member), data-range (an unknown verdict, no cause, a sign twice).
  static outcome::Result<QualityTable> parse(const reference_data::ReferenceData& data);

  const std::vector<QualityRow>& rows() const { return rows_; }
  // Null where the table says nothing of that sign: "clear" asks for nothing.
  const QualityRow* find(std::string_view stage, std::string_view sign) const;

 private:
  std::vector<QualityRow> rows_;
};

}  // namespace wheyfield::fermentation
