// libFuzzer: any bytes at the one door of the core. The first line is an action, the rest its body;
// "!name" in the first line calls the door by that name with the rest. Every answer must be JSON
// with the three members that each answer has.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <string>

#include <nlohmann/json.hpp>

#include "api/core.h"
#include "embedded.h"

namespace {

using nlohmann::json;
using wheyfield::api::Core;

Core opened_core() {
  Core core;
  core.call("open", "{\"data\":" + std::string(wheyfield::embedded::data_json()) +
                        ",\"words\":" + std::string(wheyfield::embedded::words_json("en")) +
                        ",\"date\":\"2027-02-20\",\"offset_min\":180,\"seed\":1}");
  return core;
}

void must_answer(const std::string& answer) {
  const json object = json::parse(answer, nullptr, false);
  if (object.is_object() && object.contains("schema") && object.contains("problems") &&
      object.contains("sources"))
    return;
  std::cerr << "fuzz_json_door: no answer: " << answer.substr(0, 200) << "\n";
  std::abort();
}

// Takes notes in, asks what they tell, and forgets them: no input sees those of another.
std::string append(Core& core, std::string_view request) {
  std::string answer = core.call("append", request);
  if (json::parse(answer, nullptr, false).value("added", 0) == 0) return answer;
  for (const char* action :
       {"journal.questions", "journal.season", "journal.verify", "season.plan"})
    must_answer(
        core.call("call", std::string(R"({"action":")") + action + R"(","body":{"pages":true}})"));
  core = opened_core();
  return answer;
}

std::string answer_to(std::string_view first_line, std::string_view rest) {
  static Core core = opened_core();
  if (first_line == "!open") return Core().call("open", rest);
  if (first_line == "!append") return append(core, rest);
  if (first_line.substr(0, 1) == "!") return core.call(first_line.substr(1), rest);
  const std::string action = json(first_line).dump(-1, ' ', false, json::error_handler_t::replace);
  return core.call("call", "{\"action\":" + action + ",\"body\":" + std::string(rest) + "}");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  const std::size_t line_end = std::min(bytes.find('\n'), bytes.size());
  const std::string_view rest = bytes.substr(std::min(line_end + 1, bytes.size()));
  must_answer(answer_to(bytes.substr(0, line_end), rest));
  return 0;
}
