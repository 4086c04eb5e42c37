#include "group/forget.h"

#include <algorithm>

#include "group/persons.h"
#include "journal/standing.h"

namespace wheyfield::group {
namespace {

bool agreed_to_nameless_results(const journal::Facts& facts,
                                const std::vector<std::string>& codes) {
  bool yes = false;
  for (const std::string& code : codes) {
    const journal::Item* said = facts.find("agreed", code + "/result-nameless");
    if (said == nullptr) continue;
    if (journal::text_in(said->body, "answer") != "yes") return false;
    yes = true;
  }
  return yes;
}

}  // namespace

Forgetting forgetting(const journal::Facts& facts, const std::string& member) {
  const Persons persons(facts);
  const auto all = members(facts, persons);
  const auto she = std::find_if(all.begin(), all.end(),
                                [&](const Member& one) { return one.code == persons.of(member); });
  if (she == all.end()) return {};
  Forgetting forgetting{she->also, {}};
  forgetting.codes.push_back(she->code);
  forgetting.codes = in_code_order(std::move(forgetting.codes));
  const bool shared = std::any_of(all.begin(), all.end(), [&](const Member& one) {
    return one.code != she->code && one.farm == she->farm;
  });
  if (!she->farm.empty() && !shared && !agreed_to_nameless_results(facts, forgetting.codes))
    forgetting.farms.push_back(she->farm);
  return forgetting;
}

}  // namespace wheyfield::group
