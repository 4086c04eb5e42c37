#include "api/compost_mix.h"

#include <algorithm>

namespace wheyfield::api {

const char* way_word(MixWay way) {
  static constexpr const char* names[] = {"as-put", "for-ratio", "for-moisture", "cheapest",
                                          "nearest"};
  return names[static_cast<std::size_t>(way)];
}

bool is_free(const HeapPart& part) { return !part.kg; }

std::size_t free_parts(const AskedMix& asked) {
  return static_cast<std::size_t>(std::count_if(asked.parts.begin(), asked.parts.end(), is_free));
}

double goal(const Session& session, const AskedMix& asked) {
  return asked.ratio_given ? asked.ratio_high : session.data.constant("compost-ratio").value;
}

double price_of(const AskedMix& asked, const WorkedMix& worked) {
  double cost = 0.0;
  for (std::size_t i = 0; i < worked.kg.size(); ++i)
    cost += asked.parts[i].price.value_or(0.0) * worked.kg[i];
  return cost;
}

std::optional<double> loose_litres_of(const HeapPart& part, double kg) {
  return compost::loose_litres({{part.what, kg}});
}

}  // namespace wheyfield::api
