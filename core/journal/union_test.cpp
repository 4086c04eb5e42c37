// Any order, repetition and split of the same events gives byte-equal facts.
#include <algorithm>

#include <gtest/gtest.h>

#include <support/draw.h>
#include <support/random_journal.h>

#include "journal/fold.h"

namespace wheyfield::journal {
namespace {

using testing::Draw;

// Fisher-Yates with the tests' own draw.
void shuffle(std::vector<Event>& events, Draw& draw) {
  for (std::size_t i = events.size(); i > 1; --i) std::swap(events[i - 1], events[draw.below(i)]);
}

// The events dealt out to several sets, some to more than one, then brought together; a set may
// have obeyed a `forget` before.
std::string dealt_out(std::vector<Event> events, Draw& draw) {
  shuffle(events, draw);
  std::vector<EventSet> parts(1 + draw.below(4));
  for (const Event& event : events)
    for (std::uint64_t copies = 1 + draw.below(2); copies > 0; --copies)
      parts[draw.below(parts.size())].add(event);
  EventSet all;
  for (EventSet& part : parts) {
    if (draw.below(2) == 0)
      for (const Event& head : fold(part, {0.3}).to_blank) part.add(head);
    for (const Event* event : part.in_order()) all.add(*event);
  }
  return text_of(fold(all, {0.3}));
}

std::string first_difference(const std::string& a, const std::string& b) {
  const auto at = std::mismatch(a.begin(), a.end(), b.begin(), b.end()).first - a.begin();
  const auto from = static_cast<std::size_t>(std::max<std::ptrdiff_t>(0, at - 80));
  return "\n" + a.substr(from, 160) + "\n" + b.substr(from, 160);
}

TEST(Union, FivePhonesAndTwoThousandNotesFoldAlikeHoweverTheyArrive) {
  const std::vector<Event> events = testing::RandomJournal(20270304, 5).events(2000);
  ASSERT_GE(events.size(), 1950U);
  EventSet straight;
  for (const Event& event : events) straight.add(event);
  const Facts facts = fold(straight, {0.3});
  const std::string expected = text_of(facts);
  std::size_t said = facts.not_counting.size();
  EXPECT_GT(facts.questions.size(), 5U);
  EXPECT_GT(facts.to_blank.size(), 5U);
  EXPECT_GT(said, 50U);
  Draw draw(7);
  for (int i = 0; i < testing::cases(200); ++i) {
    const std::string facts_then = dealt_out(events, draw);
    ASSERT_TRUE(facts_then == expected)
        << "shuffle " << i << first_difference(facts_then, expected);
  }
}

// No event is lost: each is in one place of the facts.
TEST(Union, EveryNoteIsAccountedFor) {
  const std::vector<Event> events = testing::RandomJournal(5, 4).events(600);
  EventSet set;
  std::size_t acts = 0;
  for (const Event& event : events) {
    set.add(event);
    const Kind* kind = kinds().find(event.kind);
    acts += kind != nullptr && kind->rule == Rule::act ? 1U : 0U;
  }
  const Facts facts = fold(set, {0.3});
  std::size_t found = facts.not_counting.size() + facts.newer.size() + facts.unreadable.size() +
                      facts.to_blank.size();
  for (const auto& [kind, items] : facts.items)
    for (const Item& item : items) found += item.said.size();
  std::size_t acts_gone = 0;
  for (const Event* event : facts.not_counting) {
    const Kind* kind = kinds().find(event->kind);
    acts_gone += kind != nullptr && kind->rule == Rule::act ? 1U : 0U;
  }
  EXPECT_EQ(found + acts - acts_gone, events.size());
}

}  // namespace
}  // namespace wheyfield::journal
