// When two names may be one person's, written down twice. A judgement of ours for Latin letters, of
// no one language; letter by letter in docs/models/group.md. It only asks, it never joins.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace wheyfield::group {

// The words of a name (UTF-8) as they sound: lower case, without marks above and below the letters,
// without marks between them; "ph" = "f", "c" = "ck" = "q" = "k", "y" = "i", "z" = "s", no "h"
// after a consonant; a letter that is doubled is written once. Other scripts stay as they are.
std::vector<std::u32string> sounded(std::string_view name);

// The same words in any order; or, with 4 letters or more on both sides, one letter more, less,
// another, or two neighbours changed over. Blank names sound like nothing.
bool sound_alike(std::string_view a, std::string_view b);

// The digits by which two phone numbers are compared: the last 8, so that "0700 111 222" and
// "+254 700 111 222" are one; "" with fewer than 6 digits.
std::string phone_key(std::string_view phone);

}  // namespace wheyfield::group
