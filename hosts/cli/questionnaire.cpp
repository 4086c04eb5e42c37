#include "cli/questionnaire.h"

namespace wheyfield::cli {
namespace {

using nlohmann::ordered_json;

std::string trimmed(const std::string& text) {
  const std::size_t start = text.find_first_not_of(" \t\r");
  if (start == std::string::npos) return "";
  return text.substr(start, text.find_last_not_of(" \t\r") - start + 1);
}

}  // namespace

std::vector<Question> questions_of(const ordered_json& answer) {
  std::vector<Question> questions;
  const auto list = answer.find("questions");
  if (list == answer.end()) return questions;
  for (const ordered_json& q : *list)
    questions.push_back({q.value("field", ""), q.value("text", ""), q.value("example", ""),
                         q.value("repeat", ""), q.value("required", false)});
  return questions;
}

void Questionnaire::run(const Ask& ask) {
  for (std::size_t at = 0; at < questions_.size();) {
    if (questions_[at].repeat.empty()) {
      put(questions_[at].field, at, 0, asked(at, 0, ask));
      ++at;
      continue;
    }
    run_group(at, "/" + questions_[at].repeat, ask);
    at = group_end(at);
  }
}

// Of a list and of the lists inside it.
std::size_t Questionnaire::group_end(std::size_t first) const {
  const std::string& list = questions_[first].repeat;
  std::size_t end = first;
  while (end < questions_.size() &&
         (questions_[end].repeat == list || questions_[end].repeat.rfind(list + "/", 0) == 0))
    ++end;
  return end;
}

std::size_t Questionnaire::members(const std::string& list) const {
  const ordered_json::json_pointer pointer(list);
  return season_.contains(pointer) ? season_[pointer].size() : 0;
}

void Questionnaire::run_group(std::size_t first, const std::string& list, const Ask& ask) {
  const std::string& repeat = questions_[first].repeat;
  const std::size_t end = group_end(first);
  behind_[list] = {first, 1, true};
  for (int number = static_cast<int>(members(list)) + 1;; ++number) {
    const std::string member = list + "/" + std::to_string(number - 1);
    const std::string answer = asked(first, number, ask);
    if (answer.empty()) return;
    put(member + questions_[first].field, first, number, answer);
    for (std::size_t at = first + 1; at < end;) {
      if (questions_[at].repeat == repeat) {
        put(member + questions_[at].field, at, number, asked(at, number, ask));
        ++at;
      } else {
        run_group(at, member + questions_[at].repeat.substr(repeat.size()), ask);
        at = group_end(at);
      }
    }
  }
}

std::string Questionnaire::asked(std::size_t question, int number, const Ask& ask) {
  if (ended_) return "";
  const std::optional<std::string> line = ask(questions_[question], number);
  ended_ = !line.has_value();
  std::string answer = line ? trimmed(*line) : "";
  answered_ = answered_ || !answer.empty();
  return answer;
}

void Questionnaire::put(const std::string& pointer, std::size_t question, int number,
                        const std::string& answer) {
  behind_[pointer] = {question, number, false};
  if (!answer.empty()) season_[ordered_json::json_pointer(pointer)] = answer;
}

const Question* Questionnaire::behind(const std::string& pointer) const {
  const auto found = behind_.find(pointer);
  return found == behind_.end() ? nullptr : &questions_[found->second.question];
}

bool Questionnaire::ask_again(const std::string& pointer, const Ask& ask) {
  const auto found = behind_.find(pointer);
  if (found == behind_.end() || ended_) return false;
  const auto [question, number, list] = found->second;
  if (list) {
    const std::size_t before = members(pointer);
    run_group(question, pointer, ask);
    return members(pointer) > before;
  }
  const std::string answer = asked(question, number, ask);
  if (answer.empty()) return false;
  put(pointer, question, number, answer);
  return true;
}

}  // namespace wheyfield::cli
