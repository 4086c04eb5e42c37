#include "journal/choice.h"

#include <algorithm>

namespace wheyfield::journal {
namespace {

bool named(const std::vector<EventId>& ids, const EventId& id) {
  return std::find(ids.begin(), ids.end(), id) != ids.end();
}

}  // namespace

bool answered(const std::vector<Choice>& choices, const std::string& question,
              const std::vector<const Event*>& events) {
  const auto some_choice = [&](const auto& holds) {
    return std::any_of(choices.begin(), choices.end(), [&](const Choice& choice) {
      return choice.question == question && holds(choice);
    });
  };
  const bool settled = some_choice([&](const Choice& choice) {
    return std::all_of(events.begin(), events.end(), [&](const Event* event) {
      return named(choice.takes, event->id) || named(choice.leaves, event->id);
    });
  });
  return settled && std::none_of(events.begin(), events.end(), [&](const Event* event) {
           return some_choice([&](const Choice& c) { return named(c.takes, event->id); }) &&
                  some_choice([&](const Choice& c) { return named(c.leaves, event->id); });
         });
}

}  // namespace wheyfield::journal
