// The answer to a question, as it stands.
#pragma once

#include <string>
#include <vector>

#include "journal/event.h"

namespace wheyfield::journal {

struct Choice {
  std::string question;  // the name of the question
  std::vector<EventId> takes;
  std::vector<EventId> leaves;
};

// Is there one choice on this question that takes or leaves every one of these events, and none
// that takes what another leaves?
bool answered(const std::vector<Choice>& choices, const std::string& question,
              const std::vector<const Event*>& events);

}  // namespace wheyfield::journal
