// A season of notes by several phones that meet now and then, with all that can go wrong.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "support/draw.h"
#include "support/journal.h"

namespace wheyfield::testing {

class RandomJournal {
 public:
  RandomJournal(std::uint64_t seed, int devices) : draw_(seed) {
    for (int i = 0; i < devices; ++i) {
      phones_.emplace_back("P" + std::to_string(i + 1));
      // One phone's year is wrong, one lags by a day.
      phones_.back().at(morning_s + (i == 1 ? 4LL * 365 * 86400 : i == 2 ? -86400 : 0));
    }
  }

  // All events, of `count` notes.
  std::vector<journal::Event> events(int count) {
    for (int i = 0; i < count; ++i) {
      Device& phone = phones_[draw_.below(phones_.size())];
      phone.later(draw_.between(0, 90));
      if (draw_.below(40) == 0) phone.take(phones_[draw_.below(phones_.size())]);
      write(phone);
    }
    for (Device& phone : phones_) phones_.front().take(phone);
    std::vector<journal::Event> all;
    for (const journal::Event* event : phones_.front().set().in_order()) all.push_back(*event);
    return all;
  }

 private:
  std::string number(int most) { return std::to_string(draw_.between(1, most)); }
  std::string day() { return "2027-03-0" + number(9); }

  std::vector<journal::EventId> known(Device& phone, int most) {
    const auto& all = phone.set().in_order();
    std::vector<journal::EventId> ids;
    for (int i = draw_.between(1, most); i > 0 && !all.empty(); --i)
      ids.push_back(all[draw_.below(all.size())]->id);
    return ids;
  }
  // An earlier note of the same kind, to be corrected.
  std::vector<journal::EventId> earlier(Device& phone, const std::string& kind) {
    if (draw_.below(6) != 0) return {};
    for (const journal::EventId& id : known(phone, 5))
      if (phone.set().find(id).front()->kind == kind) return {id};
    return {};
  }
  void note(Device& phone, const std::string& kind, nlohmann::json body) {
    phone.note(kind, std::move(body), day(), earlier(phone, kind));
  }

  void write(Device& phone) {
    switch (draw_.between(0, 11)) {
      case 0:
        return note(phone, "farm", {{"code", number(24)}, {"cap", number(40) + " mL"}});
      case 1:
        return note(phone, "farm", {{"code", number(24)}, {"can", nullptr}});
      case 2:
        return note(phone, "reading",
                    {{"batch", "B" + number(5)}, {"half", "morning"}, {"ph", "4." + number(9)}});
      case 3:
        return note(phone, "weight",
                    {{"plot", number(12)}, {"farm", number(24)}, {"mass", number(9) + " kg"}});
      case 4:
        return note(phone, "draw", {{"trial", "bean"}, {"farm", number(12)}, {"with", number(2)}});
      case 5:
        return note(phone, "paid-in",
                    {{"member", number(24)}, {"what", "milk"}, {"amount", number(4) + " L"}});
      case 6:
        return note(phone, "name", {{"member", number(24)}, {"name", "name " + number(99)}});
      case 7:
        return note(phone, "member", {{"member", number(24)}, {"farm", number(24)}});
      case 8:
        return acts(phone);
      case 9:
        return note(phone, "agreed",
                    {{"member", number(24)}, {"purpose", "result-nameless"}, {"answer", "yes"}});
      case 10:
        return note(phone, "moon-phase", {{"day", draw_.between(1, 28)}});
      default:
        return note(phone, "batch", {{"label", "B" + number(30)}, {"vessel", number(3)}});
    }
  }

  void acts(Device& phone) {
    const auto ids = known(phone, 3);
    if (ids.empty()) return note(phone, "visit", {{"farm", "1"}, {"by", "2"}});
    switch (draw_.between(0, 9)) {
      case 0:
        phone.note("forget", {{"member", number(24)}});
        break;
      case 1:
        if (draw_.below(4) == 0)
          phone.note("device-lost", {{"device", "P5"}, {"last", draw_.between(100, 300)}});
        break;
      case 2:
      case 3:
        answer(phone);
        break;
      default:
        phone.strike(ids);
    }
  }

  void answer(Device& phone) {
    const journal::Facts facts = phone.facts();
    if (facts.questions.empty()) return;
    const journal::Question& question = facts.questions[draw_.below(facts.questions.size())];
    std::vector<journal::EventId> takes;
    std::vector<journal::EventId> leaves;
    for (const journal::Event* event : question.events)
      (takes.empty() ? takes : leaves).push_back(event->id);
    phone.choose(question.name(), takes, leaves);
  }

  Draw draw_;
  std::vector<Device> phones_;
};

}  // namespace wheyfield::testing
