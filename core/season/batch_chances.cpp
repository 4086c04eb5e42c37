#include "season/batch_chances.h"

#include <cmath>
#include <string_view>

namespace wheyfield::season {
namespace {

using lot_sizing::million;

std::int32_t parts_of_a_million(const reference_data::ReferenceData& data, std::string_view id) {
  return static_cast<std::int32_t>(std::lround(data.constant(id).value * million));
}

}  // namespace

lot_sizing::Chances guessed_chances(const reference_data::ReferenceData& data) {
  const std::int32_t one = parts_of_a_million(data, "batch-late-1");
  const std::int32_t two = parts_of_a_million(data, "batch-late-2");
  const std::int32_t three = parts_of_a_million(data, "batch-late-3");
  return {parts_of_a_million(data, "batch-failure-share"),
          {million - one - two - three, one, two, three}};
}

FailureShare failure_share(const reference_data::ReferenceData& data, int failed, int recorded) {
  const int least = static_cast<int>(data.constant("own-batches-least").value);
  if (recorded < least)
    return {parts_of_a_million(data, "batch-failure-share"), false, least - recorded, recorded};
  const std::int64_t halves = 2 * std::int64_t{failed} + 1;
  const std::int64_t of = 2 * std::int64_t{recorded} + 2;
  return {static_cast<std::int32_t>((halves * million + of / 2) / of), true, 0, recorded};
}

}  // namespace wheyfield::season
