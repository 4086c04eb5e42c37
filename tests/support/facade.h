// An opened core for scenario tests: asks through the one door, as a host does.
#pragma once

#include <map>
#include <string>
#include <string_view>

#include <nlohmann/json.hpp>

#include "api/core.h"
#include "embedded.h"
#include "seasons.h"

namespace wheyfield::testing {

using Json = nlohmann::ordered_json;

class Facade {
 public:
  explicit Facade(const std::string& today = "2027-02-20") : today_(today) {
    const std::string session = "{\"data\":" + std::string(embedded::data_json()) +
                                ",\"words\":" + std::string(embedded::words_json("en")) +
                                ",\"date\":\"" + today + "\",\"offset_min\":180,\"seed\":1}";
    opened_ = Json::parse(core_.call("open", session));
  }
  const Json& opened() const { return opened_; }
  // A question that was asked before in this run, on the same day, is answered from memory.
  Json ask(std::string_view action, const Json& body) {
    static std::map<std::string, std::string> answers;
    const std::string request = Json{{"action", action}, {"body", body}}.dump();
    if (recorded_) return Json::parse(core_.call("call", request));
    const auto [known, asked_first] = answers.try_emplace(today_ + request);
    if (asked_first) known->second = core_.call("call", request);
    return Json::parse(known->second);
  }
  Json append(const Json& events) {
    recorded_ = true;
    return Json::parse(core_.call("append", Json{{"events", events}}.dump()));
  }
  // Says something to the journal as the device does that has this code, and takes it in.
  Json say(std::string_view action, Json body, const std::string& device = "KOBO") {
    recorded_ = true;
    body["device"] = device;
    body["clock"] = clock_ += 60;
    Json answer = ask(action, body);
    if (answer.contains("events")) appended_ = append(answer["events"]);
    return answer;
  }
  Json note(const std::string& kind, const Json& body, const std::string& day = "") {
    Json request = {{"kind", kind}, {"body", body}};
    if (!day.empty()) request["on"] = day;
    return say("journal.add", request);
  }
  // The answer of the last `append`.
  const Json& appended() const { return appended_; }

  Json plan(const Json& season, bool pages = false) {
    return ask("season.plan", {{"season", season}, {"pages", pages}});
  }
  // By counting back: plans whose amounts were worked out by hand.
  Json baseline(const Json& season, bool pages = false) {
    return ask("season.plan", {{"season", season}, {"pages", pages}, {"method", "baseline"}});
  }
  api::Core& core() { return core_; }

 private:
  std::string today_;
  api::Core core_;
  bool recorded_ = false;
  long long clock_ = 1804399200;  // 7 March 2027, 6:00 UTC
  Json appended_;
  Json opened_;
};

inline Json practice(std::string_view name = "practice") {
  return Json::parse(seasons::season_json(name));
}

// The problem with this code, or null.
inline Json problem(const Json& answer, std::string_view code) {
  for (const Json& one : answer.at("problems"))
    if (one.at("code") == code) return one;
  return nullptr;
}

}  // namespace wheyfield::testing
