// Events of every sort that parse_event accepts, however odd: for tests of how they are carried,
// not of what they mean.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "journal/event.h"
#include "support/draw.h"

namespace wheyfield::testing {

class RandomNotes {
 public:
  explicit RandomNotes(std::uint64_t seed) : draw_(seed) {}

  std::vector<journal::Event> events(int count) {
    std::vector<journal::Event> all;
    for (int i = 0; i < count; ++i) all.push_back(event());
    return all;
  }

  journal::Event event() {
    journal::Event event;
    event.id = id();
    event.at = {whole(40), static_cast<std::int32_t>(whole(20))};
    event.on = calendar::Date::from_civil(1900, 1, 1) + draw_.between(0, 109571);
    event.utc_offset_min = one_in(2) ? 180 : draw_.between(-720, 840);
    event.kind = one_in(3) ? letters("abcxyz-", 32) : pick({"farm", "reading", "strike"});
    event.version = one_in(4) ? draw_.between(1, 999) : 1;
    if (one_in(6))
      for (int i = draw_.between(1, 3); i > 0; --i) event.replaces.push_back(id());
    if (!one_in(8)) event.body = object(0);
    return event;
  }

 private:
  bool one_in(std::uint64_t n) { return draw_.below(n) == 0; }
  std::string pick(const std::vector<std::string>& of) { return of[draw_.below(of.size())]; }
  std::string letters(std::string_view of, int most) {
    std::string text;
    for (int i = draw_.between(1, most); i > 0; --i) text += draw_.letter(of);
    return text;
  }

  // Small ones, the largest and what lies between: 0 to 2^bits.
  std::int64_t whole(int bits) {
    const std::uint64_t most = std::uint64_t{1} << bits;
    if (one_in(12)) return static_cast<std::int64_t>(most);
    return static_cast<std::int64_t>(draw_.below(one_in(3) ? most : 100));
  }

  journal::EventId id() {
    const std::string device = one_in(6) ? letters("ABZ059", 8) : pick({"KOBO", "TANO", "K", "0"});
    return {device, std::max<std::int64_t>(1, whole(53))};
  }

  std::string text() {
    static const std::vector<std::string> pieces{
        "",     "12,5 kg", " ",  "\"", "\\", "/",   "\n", std::string(1, '\0'),
        "\x7f", "é",       "名", "😀",  "a",  "yes", "0"};
    std::string text;
    for (int i = draw_.between(0, one_in(20) ? 60 : 3); i > 0; --i) text += pick(pieces);
    return text;
  }

  nlohmann::json value(int depth) {
    switch (draw_.between(0, depth < 16 ? 8 : 5)) {
      case 0:
        return nullptr;
      case 1:
        return one_in(2);
      case 2:
        return one_in(2) ? whole(53) : -whole(53);
      case 6:
        return object(depth);
      case 7: {
        nlohmann::json list = nlohmann::json::array();
        for (int i = draw_.between(0, 3); i > 0; --i) list.push_back(value(depth + 1));
        return list;
      }
      case 8:
        return shaft(depth);
      default:
        return text();
    }
  }

  // Lists in lists, down to the deepest level that is allowed.
  nlohmann::json shaft(int depth) {
    nlohmann::json shaft = nlohmann::json::array();
    if (depth < 16) shaft.push_back(this->shaft(depth + 1));
    return shaft;
  }

  nlohmann::json object(int depth) {
    nlohmann::json object = nlohmann::json::object();
    const int most = depth == 0 && one_in(10) ? 40 : 4;
    for (int i = draw_.between(0, most); i > 0; --i)
      object[one_in(2) ? pick({"ph", "batch", "amount"}) : text()] = value(depth + 1);
    return object;
  }

  Draw draw_;
};

// Their lines, sorted: what two sets of events have in common, however they are ordered.
inline std::vector<std::string> lines_of(const std::vector<journal::Event>& events) {
  std::vector<std::string> lines;
  for (const journal::Event& event : events) lines.push_back(journal::line_of(event));
  std::sort(lines.begin(), lines.end());
  return lines;
}

inline std::vector<const journal::Event*> pointers_to(const std::vector<journal::Event>& events) {
  std::vector<const journal::Event*> pointers;
  for (const journal::Event& event : events) pointers.push_back(&event);
  return pointers;
}

}  // namespace wheyfield::testing
