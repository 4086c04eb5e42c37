// Which plural form a number takes, by rule family (Unicode CLDR cardinal rules, the families that
// our languages use). Whole numbers and decimals with visible fraction digits.
//   one-other    en sw ha so om: one is exactly 1 (no decimals)
//   french       fr pt: one is 0 <= n < 2
//   zero-one     am hi bn zu: one is 0 <= n <= 1
//   zero-and-one ti ln mg: one is exactly 0 or 1
//   arabic       ar: zero one two few many other
//   none         yo ig id vi wo: other
// An unknown family counts as `none`.
#pragma once

#include <string_view>

namespace wheyfield::words {

std::string_view plural_category(std::string_view family, double n);

}  // namespace wheyfield::words
