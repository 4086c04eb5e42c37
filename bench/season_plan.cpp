// How planning and reading grow with the number of fields, and where a cold plan's time goes.
// Prints milliseconds of one run and the growth of each when the fields grow tenfold: 10 is linear.
#include <cstdio>
#include <string>

#include <nlohmann/json.hpp>

#include "api/core.h"
#include "embedded.h"
#include "stopwatch.h"

using Json = nlohmann::ordered_json;

namespace {

Json season_of(int fields) {
  Json season = Json::parse(R"({
    "season": {"name": "bench", "from": "2027-02-01", "to": "2027-08-31",
      "first_start": "2027-02-01", "currency": "c", "recipe": "lactic-serum",
      "strength": "1:500", "serum_life": "60 days", "spare": "1 in 6"},
    "meetings": {"day": "Thursday"}, "market": {"day": "Tuesday"},
    "places": [{"name": "lower", "altitude": "1250 m"}],
    "milk": [{"day": "any", "most": "40 L", "price": "50"}],
    "vessels": [{"name": "A", "at": "1", "size": "100 L", "fill_line": "66 L", "milk": "heated"}],
    "water": [{"place": "lower", "kind": "river", "price_per_can": "5"}],
    "labour": {"day": "350", "hours": "8"},
    "prices": [], "farms": []})");
  for (const auto& [item, pack] : {std::pair{"molasses", "20 L"},
                                   {"rice", "1 kg"},
                                   {"ph-strips", "100 pieces"},
                                   {"net", "1 piece"},
                                   {"string", "1 piece"},
                                   {"syringe", "1 piece"},
                                   {"lid", "1 piece"},
                                   {"marker", "1 piece"}})
    season["prices"].push_back({{"item", item}, {"pack", pack}, {"price", "100"}});
  for (int i = 0; i < fields; ++i) {
    const char* day = i % 2 ? "2027-03-22" : "2027-03-30";
    season["farms"].push_back({{"code", std::to_string(i + 1)},
                               {"place", "lower"},
                               {"method", "knapsack"},
                               {"mix_rate", "100 L/acre"},
                               {"cap", "5 mL"},
                               {"can", "20 L"},
                               {"fields",
                                {{{"crop", i % 3 ? "maize" : "bean"},
                                  {"area", "0.5 acre"},
                                  {"sowing", "direct"},
                                  {"sown_on", day},
                                  {"seed", "own"},
                                  {"harvest_after", "125 days"}}}}});
  }
  return season;
}

}  // namespace

int main() {
  wheyfield::api::Core core;
  const std::string session = "{\"data\":" + std::string(wheyfield::embedded::data_json()) +
                              ",\"words\":" + std::string(wheyfield::embedded::words_json("en")) +
                              ",\"date\":\"2027-02-01\"}";
  std::printf("open (data and words)            %8.2f ms\n",
              milliseconds([&] { core.call("open", session); }));
  std::printf("%9s %12s %8s %12s %8s %12s\n", "fields", "check ms", "growth", "plan ms", "growth",
              "with pages");
  double check_before = 0.0, plan_before = 0.0;
  for (int fields : {100, 1000, 10000, 100000}) {
    const Json season = season_of(fields);
    const std::string check =
        Json{{"action", "season.check"}, {"body", {{"season", season}}}}.dump();
    const std::string plan = Json{{"action", "season.plan"}, {"body", {{"season", season}}}}.dump();
    const std::string pages =
        Json{{"action", "season.plan"}, {"body", {{"season", season}, {"pages", true}}}}.dump();
    const double check_ms = milliseconds([&] { core.call("call", check); });
    const double plan_ms = milliseconds([&] { core.call("call", plan); });
    const double pages_ms = milliseconds([&] { core.call("call", pages); });
    std::printf("%9d %12.1f %8.1f %12.1f %8.1f %12.1f\n", fields, check_ms,
                check_before > 0 ? check_ms / check_before : 0.0, plan_ms,
                plan_before > 0 ? plan_ms / plan_before : 0.0, pages_ms);
    check_before = check_ms;
    plan_before = plan_ms;
  }
}
