#include "group/questions.h"

#include <algorithm>

#include "group/hand_outs.h"
#include "group/persons.h"
#include "group/spoiled.h"

namespace wheyfield::group {
namespace {

void sort_by_name(std::vector<journal::Question>& questions) {
  std::sort(questions.begin(), questions.end(),
            [](const auto& a, const auto& b) { return a.name() < b.name(); });
}

}  // namespace

std::vector<journal::Question> questions(const journal::Facts& facts,
                                         const quantity::UnitTable& units) {
  auto all = same_person_questions(facts);
  for (journal::Question& question : hand_out_questions(facts, units))
    all.push_back(std::move(question));
  for (journal::Question& question : spoiled_questions(facts)) all.push_back(std::move(question));
  sort_by_name(all);
  return all;
}

journal::Facts with_questions(journal::Facts facts, const quantity::UnitTable& units) {
  for (journal::Question& question : questions(facts, units))
    facts.questions.push_back(std::move(question));
  sort_by_name(facts.questions);
  return facts;
}

}  // namespace wheyfield::group
