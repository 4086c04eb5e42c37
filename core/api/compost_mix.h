// A mix as it was asked for and as it was worked out; what a page says of it.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "api/compost_reader.h"
#include "api/session.h"
#include "compost/mix.h"
#include "sheet/page.h"

namespace wheyfield::api {

enum class MixWay { as_put, for_ratio, for_moisture, cheapest, nearest };

const char* way_word(MixWay way);  // "as-put", "for-ratio", "for-moisture", "cheapest", "nearest"

struct AskedMix {
  std::vector<HeapPart> parts;
  double ratio_low = 0.0, ratio_high = 0.0;
  bool ratio_given = false;
  std::optional<double> moisture;
  double litres = 0.0;  // of the heap; 0 = any
};

struct WorkedMix {
  MixWay way = MixWay::as_put;
  std::vector<double> kg;  // of each part
  compost::Blend mix, at_low, at_high;
  std::optional<double> litres;
};

bool is_free(const HeapPart& part);  // its amount is to be worked out
std::size_t free_parts(const AskedMix& asked);
// The goal of a formula or of the nearest mix: the C:N asked for, else the usual one.
double goal(const Session& session, const AskedMix& asked);
double price_of(const AskedMix& asked, const WorkedMix& worked);
// Nothing where its loose weight is not known.
std::optional<double> loose_litres_of(const HeapPart& part, double kg);

sheet::Page mix_page(const Session& session, const AskedMix& asked, const WorkedMix& worked);

}  // namespace wheyfield::api
