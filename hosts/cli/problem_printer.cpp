#include "cli/problem_printer.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "cli/utf8.h"

namespace wheyfield::cli {
namespace {

using nlohmann::json;
using nlohmann::ordered_json;

constexpr std::size_t longest_value = 60;

bool is_index(const std::string& segment) {
  return !segment.empty() && std::all_of(segment.begin(), segment.end(),
                                         [](unsigned char c) { return std::isdigit(c) != 0; });
}

// What people call an element of a list, quoted; its number when it has no name of its own.
std::string identity(const json* element, const std::string& index) {
  for (const char* name : {"code", "name", "item"}) {
    if (element == nullptr || !element->is_object()) break;
    const auto found = element->find(name);
    if (found != element->end() && found->is_string() && !found->get<std::string>().empty())
      return fmt::format("\"{}\"", shortened(printable(found->get<std::string>()), 30));
  }
  return index;
}

std::string counted_from_one(const std::string& index) {
  return index.size() > 9 ? index : std::to_string(std::stol(index) + 1);
}

const json* child(const json* parent, const std::string& segment) {
  if (parent == nullptr) return nullptr;
  if (parent->is_object()) {
    const auto found = parent->find(segment);
    return found == parent->end() ? nullptr : &*found;
  }
  if (!parent->is_array() || !is_index(segment) || segment.size() > 9) return nullptr;
  const auto index = static_cast<std::size_t>(std::stol(segment));
  return index < parent->size() ? &(*parent)[index] : nullptr;
}

std::string element_label(const std::string& list, const std::string& id, const std::string& number,
                          const words::Catalogue& words) {
  const std::string key = "cli.element." + list;
  if (words.has(key)) return words.text(key, {{"id", id}});
  return fmt::format("{}[{}]", printable(list), number);
}

std::string text_at(const ordered_json& object, const char* name) {
  const auto found = object.find(name);
  if (found == object.end() || !found->is_string()) return "";
  return found->get<std::string>();
}

std::string place_text(const Place& place) {
  if (place.file.empty()) return "";
  if (place.line == 0) return place.file + ": ";
  if (place.column == 0) return fmt::format("{}:{}: ", place.file, place.line);
  return fmt::format("{}:{}:{}: ", place.file, place.line, place.column);
}

std::string subject(const std::string& label, const std::string& value) {
  std::string out = label;
  if (!value.empty())
    out +=
        fmt::format("{}\"{}\"", out.empty() ? "" : " ", shortened(printable(value), longest_value));
  return out.empty() ? "" : out + ": ";
}

std::string both(const std::string& expected, const std::string& cure) {
  return expected + (expected.empty() || cure.empty() ? "" : " ") + cure;
}

// "error" needs no word of its own.
std::string severity_word(const std::string& severity, const words::Catalogue& words) {
  const std::string key = "cli.severity." + severity;
  return words.has(key) ? words.text(key) + " " : "";
}

// "/notes/KOBO-12/area": of a note, what it says.
std::string note_label(const std::vector<std::string>& segments, const words::Catalogue& words) {
  std::string label = words.text("cli.element.notes", {{"id", printable(segments[1])}});
  for (std::size_t i = 2; i < segments.size(); ++i) label += ", " + printable(segments[i]);
  return label;
}

std::string flag_label(std::string_view pointer, const words::Catalogue& words) {
  const std::vector<std::string> segments = pointer_segments(pointer);
  if (segments.empty()) return "";
  if (segments.size() > 1 && segments.front() == "notes") return note_label(segments, words);
  const std::string key = "cli.argument." + segments.front();
  if (words.has(key)) return words.text(key);
  std::string flag = "--" + segments.front();
  std::replace(flag.begin(), flag.end(), '_', '-');
  const bool listed = segments.size() > 1 && is_index(segments[1]);
  return listed ? flag + " " + counted_from_one(segments[1]) : flag;
}

std::string expected_of(const InputProblem& problem, const words::Catalogue& words) {
  return words.text("cli.problem." + problem.code, problem.details);
}

std::string cure_of(const InputProblem& problem, const words::Catalogue& words) {
  return words.text("cli.cure." + problem.code, problem.details);
}

ordered_json to_json(const InputProblem& problem, const words::Catalogue& words) {
  const std::string expected = expected_of(problem, words);
  const std::string cure = cure_of(problem, words);
  return {
      {"code", problem.code},         {"severity", "error"},        {"field", problem.field},
      {"value", problem.value},       {"expected", expected},       {"cure", cure},
      {"text", both(expected, cure)}, {"file", problem.place.file}, {"line", problem.place.line}};
}

}  // namespace

std::string field_label(const json& document, std::string_view pointer,
                        const words::Catalogue& words) {
  const std::vector<std::string> segments = pointer_segments(pointer);
  if (segments.size() > 1 && segments.front() == "notes") return note_label(segments, words);
  const json* at = &document;
  std::string label;
  for (std::size_t i = 0; i < segments.size(); ++i) {
    at = child(at, segments[i]);
    const bool list = i + 1 < segments.size() && is_index(segments[i + 1]);
    std::string part = printable(segments[i]);
    if (list) {
      const std::string& index = segments[++i];
      at = child(at, index);
      const std::string number = counted_from_one(index);
      part = element_label(segments[i - 1], identity(at, number), number, words);
    }
    label += (label.empty() ? "" : ", ") + part;
  }
  return label;
}

std::string problem_line(const ordered_json& problem, const Document& asked,
                         const words::Catalogue& words) {
  std::string pointer = text_at(problem, "field");
  if (pointer.compare(0, asked.prefix.size(), asked.prefix) == 0)
    pointer.erase(0, asked.prefix.size());
  std::string says = both(text_at(problem, "expected"), text_at(problem, "cure"));
  if (says.empty()) says = text_at(problem, "text");
  if (says.empty()) says = text_at(problem, "code");
  Place place = asked.places.find(pointer);
  place.column = 0;
  const bool in_file = asked.from_file || place.line > 0;
  if (!in_file) place = {};  // a flag of the command line
  return place_text(place) + severity_word(text_at(problem, "severity"), words) +
         subject(in_file ? field_label(asked.json, pointer, words) : flag_label(pointer, words),
                 text_at(problem, "value")) +
         printable(says);
}

std::string problem_line(const InputProblem& problem, const words::Catalogue& words) {
  return place_text(problem.place) + subject(printable(problem.field), problem.value) +
         printable(both(expected_of(problem, words), cure_of(problem, words)));
}

ordered_json answer_of(const InputProblems& problems, const words::Catalogue& words) {
  ordered_json list = ordered_json::array();
  for (const InputProblem& problem : problems) list.push_back(to_json(problem, words));
  return {{"schema", 1}, {"problems", std::move(list)}, {"sources", ordered_json::array()}};
}

}  // namespace wheyfield::cli
