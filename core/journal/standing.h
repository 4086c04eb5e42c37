// Which events count: what was struck, corrected, left by a choice, held aside after a loss or
// forgotten does not.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "journal/choice.h"
#include "journal/event_set.h"
#include "journal/kinds.h"

namespace wheyfield::journal {

// An event in its kind's newest version.
struct ReadEvent {
  const Event* event = nullptr;
  const Kind* kind = nullptr;
  const Event* written = nullptr;  // as it is in the set
};

// All events with a body, sorted out; each list in order.
struct ReadEvents {
  std::vector<ReadEvent> known;
  std::vector<ReadEvent> newer;           // in a version not known here
  std::vector<ReadEvent> acts;            // those of `known` that act on others
  std::vector<const Event*> corrections;  // all that replace others, blanked ones too
};

class Standing {
 public:
  // `read` are the events of `events`.
  Standing(const EventSet& events, const ReadEvents& read);

  bool counts(const Event& event) const {
    return gone_.count(event.id) == 0 && replaced_.count(event.id) == 0;
  }
  // Is `forget` to take its body?
  bool is_forgotten(const Event& written) const { return forgotten_.count(&written) != 0; }
  // By a choice that was made on this question, all of them.
  bool answered(const std::string& question, const std::vector<const Event*>& events) const {
    return journal::answered(choices_, question, events);
  }
  // Those that stand.
  const std::vector<Choice>& choices() const { return choices_; }

  // Held aside: written by a device after its loss. By device, in order.
  const std::map<std::string, std::vector<const Event*>>& after_loss() const { return after_loss_; }
  // Acts whose bodies do not say what they act on.
  const std::vector<const Event*>& unreadable() const { return unreadable_; }

 private:
  void strikes_and_choices();
  std::vector<EventId> earlier_than(const Event& act, const std::vector<EventId>& ids) const;
  void lost_devices();
  void hold_aside();
  bool is_late(const EventId& id) const;
  void corrections();
  void forget();

  const EventSet& events_;
  const ReadEvents& read_;
  std::set<EventId> held_;
  std::set<EventId> gone_;
  std::set<EventId> replaced_;
  std::vector<Choice> choices_;
  std::map<std::string, std::int64_t> last_of_lost_;
  std::map<std::string, std::vector<const Event*>> after_loss_;
  std::set<const Event*> forgotten_;
  std::vector<const Event*> unreadable_;
};

// The text in a member of a body, "" when there is none.
std::string text_in(const nlohmann::json& body, const std::string& member);

}  // namespace wheyfield::journal
