// The questions of a new season: asks them in order and puts the answers where they belong.
#pragma once

#include <functional>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace wheyfield::cli {

struct Question {
  std::string field;  // JSON pointer; inside a repeated group, within one member
  std::string text;
  std::string example;
  std::string repeat;  // the list it belongs to, "" for none; "a/b": the list b of each a, or of
                       // the table a where a is no list
  bool required = false;
};

std::vector<Question> questions_of(const nlohmann::ordered_json& answer);

class Questionnaire {
 public:
  // Gives one line of the reader's, nothing at the end of input. `number` counts the members of a
  // repeated group from 1, 0 outside of one.
  using Ask = std::function<std::optional<std::string>(const Question&, int number)>;

  explicit Questionnaire(std::vector<Question> questions) : questions_(std::move(questions)) {}

  // Asks all. A repeated group is asked again until its first answer is empty, a list inside it for
  // each member; an empty answer leaves its field out; after the end of input all answers are
  // empty.
  void run(const Ask& ask);
  // Asks once more for the field at `pointer`, or for further members of the list at `pointer`;
  // false when no question fits or no answer came.
  bool ask_again(const std::string& pointer, const Ask& ask);
  // The question that filled, or should have filled, `pointer`; null when none did.
  const Question* behind(const std::string& pointer) const;

  bool answered_any() const { return answered_; }
  const nlohmann::ordered_json& season() const { return season_; }
  nlohmann::ordered_json& season() { return season_; }

 private:
  struct Asked {
    std::size_t question;
    int number;
    bool list;  // the pointer is that of the whole list
  };

  std::string asked(std::size_t question, int number, const Ask& ask);
  // Asks for members of the list at `list`, behind those it has, from question `first` on.
  void run_group(std::size_t first, const std::string& list, const Ask& ask);
  void put(const std::string& pointer, std::size_t question, int number, const std::string& answer);
  std::size_t group_end(std::size_t first) const;
  std::size_t members(const std::string& list) const;

  std::vector<Question> questions_;
  std::map<std::string, Asked> behind_;  // by pointer
  nlohmann::ordered_json season_ = nlohmann::ordered_json::object();
  bool answered_ = false;
  bool ended_ = false;
};

}  // namespace wheyfield::cli
