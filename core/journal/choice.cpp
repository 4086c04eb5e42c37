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
  return std::any_of(choices.begin(), choices.end(), [&](const Choice& choice) {
    return choice.question == question &&
           std::all_of(events.begin(), events.end(), [&](const Event* event) {
             return named(choice.takes, event->id) || named(choice.leaves, event->id);
           });
  });
}

}  // namespace wheyfield::journal
