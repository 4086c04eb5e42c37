// Folding a journal to facts against parsing its JSON, in one run: the fold of 1,000,000 events
// must take no longer than parsing the lines they came from. Ends with 1 when it does. Also how
// both grow for ten times the events, and what taking the events into the set costs.
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "journal/fold.h"
#include "stopwatch.h"

namespace {

using wheyfield::journal::Event;
using wheyfield::journal::EventSet;

// Notes of many groups over the years: four in ten readings, the rest of farms, payments, uses.
std::vector<std::string> lines_of(int count) {
  std::vector<std::string> lines;
  lines.reserve(static_cast<std::size_t>(count));
  for (int i = 0; i < count; ++i) {
    Event event;
    event.id = {"D" + std::to_string(i % 40), i / 40 + 1};
    event.at = {1804413600 + i * 7, 0};
    event.on = wheyfield::calendar::Date::from_days(20884 + i / 500);
    event.utc_offset_min = 180;
    const std::string farm = std::to_string(i % 1000);
    switch (i % 10) {
      case 0:
        event.kind = "farm";
        event.body = {
            {"code", farm}, {"cap", std::to_string(5 + i % 7) + " mL"}, {"place", "lower"}};
        break;
      case 1:
      case 2:
        event.kind = "paid-in";
        event.body = {
            {"member", farm}, {"what", "milk"}, {"amount", std::to_string(i % 4) + ".5 L"}};
        break;
      case 3:
      case 4:
      case 5:
        event.kind = "use";
        event.body = {{"farm", farm},     {"crop", "bean"},     {"use", "seedling"},
                      {"serum", "0.1 L"}, {"put_on", "leaves"}, {"method", "knapsack"}};
        break;
      default:
        event.kind = "reading";
        event.body = {{"batch", "B" + std::to_string(i / 40)},
                      {"half", i % 2 == 0 ? "morning" : "afternoon"},
                      {"ph", "4." + std::to_string(i % 10)},
                      {"smell", "clean-sour"},
                      {"surface", "clear"}};
    }
    lines.push_back(line_of(event));
  }
  return lines;
}

struct Times {
  double parse;
  double take;
  double fold;
};

Times measure(int count) {
  const std::vector<std::string> lines = lines_of(count);
  Times times{};
  std::size_t members = 0;
  times.parse = milliseconds([&] {
    for (const std::string& line : lines) members += nlohmann::json::parse(line).size();
  });
  EventSet events;
  for (const std::string& line : lines) {
    auto event = wheyfield::journal::parse_event(line);
    if (!event) std::abort();
    times.take += milliseconds([&] { events.add(std::move(*event)); });
  }
  times.take += milliseconds([&] { members += events.in_order().size(); });
  std::size_t items = 0;
  times.fold = milliseconds([&] {
    const auto facts = fold(events, {0.3});
    for (const auto& [kind, all] : facts.items) items += all.size();
  });
  if (members == 0 || items == 0) std::abort();
  return times;
}

}  // namespace

int main() {
  std::printf("%10s %12s %12s %12s %12s\n", "events", "parse ms", "take in ms", "fold ms",
              "fold/parse");
  double ratio = 0.0;
  for (const int count : {10000, 100000, 1000000}) {
    const Times times = measure(count);
    ratio = times.fold / times.parse;
    std::printf("%10d %12.0f %12.0f %12.0f %12.2f\n", count, times.parse, times.take, times.fold,
                ratio);
  }
  return ratio <= 1.0 ? 0 : 1;
}
