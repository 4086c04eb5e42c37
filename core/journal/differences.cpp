#include "journal/differences.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <optional>
#include <string>

#include "quantity/number_text.h"

namespace wheyfield::journal {
namespace {

using nlohmann::json;

bool same_value(const json& a, const json& b) {
  if (a.is_string() && b.is_string())
    return same_amount(a.get_ref<const std::string&>(), b.get_ref<const std::string&>());
  return a == b;
}

bool same_body(const json& a, const json& b) {
  return a.size() == b.size() &&
         std::all_of(a.items().begin(), a.items().end(), [&](const auto& m) {
           const auto other = b.find(m.key());
           return other != b.end() && same_value(m.value(), *other);
         });
}

// In hundredths; nothing when none was read.
std::optional<long> ph_of(const Event& event) {
  const auto ph = event.body.find("ph");
  if (ph == event.body.end() || !ph->is_string()) return std::nullopt;
  const auto number = quantity::parse_number(ph->get_ref<const std::string&>());
  return number ? std::optional<long>(std::lround(*number * 100)) : std::nullopt;
}

bool readings_apart(const std::vector<const Event*>& said, double apart) {
  std::vector<long> all;
  for (const Event* event : said)
    if (const auto ph = ph_of(*event)) all.push_back(*ph);
  if (all.empty()) return false;
  const auto [low, high] = std::minmax_element(all.begin(), all.end());
  return *high - *low > std::lround(apart * 100);
}

// Yes or no: what a person said, or whether she came.
std::string answer_of(const Event& event) {
  for (const char* member : {"answer", "came"})
    if (const auto said = event.body.find(member); said != event.body.end() && said->is_string())
      return said->get<std::string>();
  return "";
}

// A later day, or the same device saying it anew, is a change of mind.
bool answers_apart(const std::vector<const Event*>& said) {
  const auto latest = *std::max_element(
      said.begin(), said.end(), [](const Event* a, const Event* b) { return a->on < b->on; });
  std::map<std::string, std::string> of_device;
  for (const Event* event : said)
    if (event->on == latest->on) of_device[event->id.device] = answer_of(*event);
  return std::any_of(of_device.begin(), of_device.end(),
                     [&](const auto& one) { return one.second != of_device.begin()->second; });
}

}  // namespace

bool same_amount(const std::string& a, const std::string& b) {
  if (a == b) return true;
  const auto one = quantity::split_unit(a);
  const auto two = quantity::split_unit(b);
  const auto first = quantity::parse_number(one.number);
  const auto second = quantity::parse_number(two.number);
  return first && second && *first == *second && one.unit == two.unit;
}

bool say_different_things(const Kind& kind, const std::vector<const Event*>& said,
                          const Limits& limits) {
  if (kind.question.empty() || said.size() < 2) return false;
  if (kind.question == "readings-differ") return readings_apart(said, limits.ph_apart);
  if (kind.question == "answers-differ") return answers_apart(said);
  const Event& first = *said.front();
  return std::any_of(said.begin() + 1, said.end(), [&](const Event* event) {
    if (kind.question == "noted-twice") return event->id.device != first.id.device;
    const bool other_day = kind.question == "batch-twice" && event->on != first.on;
    return other_day || !same_body(first.body, event->body);
  });
}

}  // namespace wheyfield::journal
