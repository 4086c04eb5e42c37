#include "group/sounds_alike.h"

#include <algorithm>

namespace wheyfield::group {
namespace {

// U+00C0..U+017F without their marks; '*' is no letter.
constexpr std::string_view plain_letters =
    "aaaaaaaceeeeiiiidnooooo*ouuuuytsaaaaaaaceeeeiiiidnooooo*ouuuuyty"
    "aaaaaaccccccccddddeeeeeeeeeegggggggghhhhiiiiiiiiiiiijjkkklllllll"
    "lllnnnnnnnnnoooooooorrrrrrssssssssttttttuuuuuuuuuuuuwwyyyzzzzzzs";

// Bytes that are no UTF-8 are passed over.
std::u32string code_points(std::string_view text) {
  std::u32string all;
  for (const char byte : text) {
    const auto c = static_cast<unsigned char>(byte);
    if (c < 0x80)
      all += static_cast<char32_t>(c);
    else if (c >= 0xC0)
      all += static_cast<char32_t>(c >= 0xF0 ? c & 0x07U : c >= 0xE0 ? c & 0x0FU : c & 0x1FU);
    else if (!all.empty())
      all.back() = (all.back() << 6U) | (c & 0x3FU);
  }
  return all;
}

char32_t plain(char32_t c) {
  if (c >= U'A' && c <= U'Z') return c - U'A' + U'a';
  if (c >= 0xC0 && c < 0xC0 + plain_letters.size())
    return static_cast<char32_t>(plain_letters[c - 0xC0]);
  return c;
}

bool is_letter(char32_t c) { return (c >= U'a' && c <= U'z') || c >= 0x180; }
bool is_mark(char32_t c) { return c >= 0x300 && c <= 0x36F; }
bool is_vowel(char32_t c) {
  return c == U'a' || c == U'e' || c == U'i' || c == U'o' || c == U'u' || c == U'y';
}

char32_t sound_of(char32_t c) {
  switch (c) {
    case U'c':
    case U'q':
      return U'k';
    case U'y':
      return U'i';
    case U'z':
      return U's';
    default:
      return c;
  }
}

// Appends a letter as it sounds after those that are there.
void say(std::u32string& word, char32_t before, char32_t letter) {
  if (letter == U'h' && before == U'p') {
    word.pop_back();
    letter = U'f';
  }
  const bool after_consonant = before >= U'a' && before <= U'z' && !is_vowel(before);
  if (letter == U'h' && after_consonant) return;
  const char32_t sound = sound_of(letter);
  if (word.empty() || word.back() != sound) word += sound;
}

std::u32string joined(const std::vector<std::u32string>& words) {
  std::u32string all;
  for (const std::u32string& word : words) all += word;
  return all;
}

std::vector<std::u32string> sorted(std::vector<std::u32string> words) {
  std::sort(words.begin(), words.end());
  return words;
}

bool one_edit_apart(std::u32string_view a, std::u32string_view b) {
  if (a.size() > b.size()) std::swap(a, b);
  if (b.size() - a.size() > 1) return false;
  const auto start = static_cast<std::size_t>(
      std::mismatch(a.begin(), a.end(), b.begin(), b.begin() + static_cast<long>(a.size())).first -
      a.begin());
  const std::u32string_view rest_a = a.substr(start);
  const std::u32string_view rest_b = b.substr(start);
  if (rest_a.size() < rest_b.size()) return rest_a == rest_b.substr(1);
  if (rest_a.empty() || rest_a.substr(1) == rest_b.substr(1)) return true;
  return rest_a.size() > 1 && rest_a[0] == rest_b[1] && rest_a[1] == rest_b[0] &&
         rest_a.substr(2) == rest_b.substr(2);
}

bool near(const std::vector<std::u32string>& a, const std::vector<std::u32string>& b) {
  constexpr std::size_t letters = 4;  // judgement: shorter names are too often one edit apart
  const std::u32string one = joined(a);
  const std::u32string two = joined(b);
  return one.size() >= letters && two.size() >= letters && one_edit_apart(one, two);
}

}  // namespace

std::vector<std::u32string> sounded(std::string_view name) {
  std::vector<std::u32string> words;
  bool inside = false;
  char32_t before = 0;
  for (const char32_t c : code_points(name)) {
    const char32_t letter = plain(c);
    if (is_mark(letter) || letter == U'\'' || letter == 0x2019 || letter == U'`') continue;
    if (is_letter(letter)) {
      if (!inside) words.emplace_back();
      say(words.back(), inside ? before : 0, letter);
    }
    inside = is_letter(letter);
    before = letter;
  }
  return words;
}

bool sound_alike(std::string_view a, std::string_view b) {
  const auto one = sounded(a);
  const auto two = sounded(b);
  if (one.empty() || two.empty()) return false;
  const auto one_sorted = sorted(one);
  const auto two_sorted = sorted(two);
  return one_sorted == two_sorted || near(one, two) || near(one_sorted, two_sorted);
}

std::string phone_key(std::string_view phone) {
  constexpr std::size_t fewest = 6;
  constexpr std::size_t compared = 8;
  std::string digits;
  for (const char c : phone)
    if (c >= '0' && c <= '9') digits += c;
  if (digits.size() < fewest) return "";
  return digits.size() > compared ? digits.substr(digits.size() - compared) : digits;
}

}  // namespace wheyfield::group
