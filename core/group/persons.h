// Members, and who of them are one person: the notes of kind `same-person` join member codes.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "calendar/date.h"
#include "journal/fold.h"

namespace wheyfield::group {

// Codes as people count them: "2" before "10", numbers before words.
bool code_before(const std::string& a, const std::string& b);

// Sorted by code_before.
std::vector<std::string> in_code_order(std::vector<std::string> codes);

class Persons {
 public:
  explicit Persons(const journal::Facts& facts);
  // The code by which a person is known: the first in code order of those that were joined.
  std::string of(const std::string& member) const;
  bool joined(const std::string& a, const std::string& b) const { return of(a) == of(b); }

 private:
  std::map<std::string, std::string> known_as_;  // only members that were joined
};

struct Move {
  calendar::Date on;
  bool in = false;  // joined, else left
};

struct Member {
  std::string code;
  std::vector<std::string> also;  // further codes of the same person
  std::string farm;               // "" = none is known
  std::string name;               // "" = not noted, or forgotten
  std::vector<Move> moves;        // joined and left, by day
  std::vector<std::string> agreed;

  // Members are there before they joined when nothing was said of it.
  bool here(calendar::Date day) const;
  std::optional<calendar::Date> joined_on() const;  // last
  std::optional<calendar::Date> left_on() const;    // when that is the last that was said
};

// Everybody of whom a note of the group speaks, by code.
std::vector<Member> members(const journal::Facts& facts, const Persons& persons);

// The questions `same-person/A/B` that no join and no choice has closed: two members whose names
// sound alike and who share a village, or who share a phone. Its notes: those of kind `name`.
std::vector<journal::Question> same_person_questions(const journal::Facts& facts);

}  // namespace wheyfield::group
