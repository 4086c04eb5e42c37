#include "journal/forget.h"

#include <algorithm>

#include "journal/standing.h"

namespace wheyfield::journal {

std::vector<std::string> farms_to_forget(const Facts& facts, const std::string& member) {
  const Item* agreed = facts.find("agreed", member + "/result-nameless");
  if (agreed != nullptr && text_in(agreed->body, "answer") == "yes") return {};
  const Item* she = facts.find("member", member);
  const std::string farm = she == nullptr ? "" : text_in(she->body, "farm");
  const auto& members = facts.of("member");
  const auto holders = std::count_if(members.begin(), members.end(), [&](const Item& item) {
    return text_in(item.body, "farm") == farm;
  });
  if (farm.empty() || holders > 1) return {};
  return {farm};
}

}  // namespace wheyfield::journal
