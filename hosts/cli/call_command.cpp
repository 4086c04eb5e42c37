#include "cli/commands.h"
#include "cli/text_file.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;

InputProblem not_a_request(const std::string& file, const std::string& text, std::size_t offset) {
  return {"request-unreadable", place_of(text, offset, file), "", ""};
}

Reading<json> read_request(const std::string& file) {
  const Reading<std::string> text = read_text_file(file);
  if (!text) return tl::make_unexpected(text.error());
  try {
    json request = json::parse(*text);
    const bool asks = request.is_object() && request.contains("calls") &&
                      request["calls"].is_array() &&
                      request.value("open", json::object()).is_object();
    if (asks) return request;
    return input_failure(not_a_request(file, *text, 0));
  } catch (const json::parse_error& error) {
    return input_failure(not_a_request(file, *text, error.byte == 0 ? 0 : error.byte - 1));
  }
}

std::string one_line(std::string answer) {
  if (answer.find('\n') == std::string::npos) return answer;
  return nlohmann::ordered_json::parse(answer).dump();
}

}  // namespace

// Answers that hold problems are answers: the exit code speaks of the file and of `open` only.
int call_file(Host& host) {
  Reading<json> request = read_request(host.arguments.file);
  if (!request) return host.refuse(request.error());
  api::Core core;
  const json extra = request->value("open", json::object());
  const std::string opened = core.call("open", open_request(extra, host.arguments.language));
  const int code = exit_code_of(nlohmann::ordered_json::parse(opened));
  if (code == exit_codes::problems) {
    host.streams.out << one_line(opened) << "\n";
    return code;
  }
  for (const json& call : (*request)["calls"])
    host.streams.out << one_line(core.call("call", call.dump())) << "\n";
  return exit_codes::fine;
}

}  // namespace wheyfield::cli
