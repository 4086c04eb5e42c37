#include "group/hand_outs.h"

#include <algorithm>
#include <map>

#include "group/spoiled.h"
#include "journal/standing.h"
#include "quantity/quantity.h"

namespace wheyfield::group {
namespace {

using journal::Event;
using journal::Facts;
using journal::text_in;

struct CameBefore {
  bool operator()(const Event* a, const Event* b) const { return journal::comes_before(*a, *b); }
};

const char* product_member(const Event& event) {
  return event.kind == "stock" ? "item" : "product";
}

void count(HandOut& sum, const Event& event, const quantity::UnitTable& units) {
  const auto amount = units.volume(text_in(event.body, "amount"));
  // What is in hand may be something else: molasses, strips.
  if (!amount && event.kind == "stock") return;
  if (!amount) return void(sum.unread.push_back(&event));
  const std::int64_t ml = quantity::whole_millilitres(*amount);
  (event.kind == "stock"  ? sum.had_ml
   : event.kind == "made" ? sum.made_ml
                          : sum.handed_out_ml) += ml;
  sum.events.push_back(&event);
}

// The notes that count: of what is in hand only the last of each lot that says how much.
std::vector<const Event*> counted(const Facts& facts, std::optional<calendar::Date> up_to) {
  std::vector<const Event*> events;
  const auto in_time = [&](const Event* event) { return !up_to || event->on <= *up_to; };
  for (const char* kind : {"made", "handed-out"})
    for (const journal::Item& item : facts.of(kind))
      std::copy_if(item.said.begin(), item.said.end(), std::back_inserter(events), in_time);
  for (const journal::Item& item : facts.of("stock")) {
    const auto last = std::find_if(item.said.rbegin(), item.said.rend(), [](const Event* event) {
      return event->body.contains("amount");
    });
    if (last != item.said.rend() && in_time(*last)) events.push_back(*last);
  }
  std::sort(events.begin(), events.end(), CameBefore());
  return events;
}

std::vector<HandOut> sums(const std::vector<const Event*>& events,
                          const quantity::UnitTable& units) {
  std::map<std::string, HandOut> by_product;
  for (const Event* event : events) {
    const std::string product = text_in(event->body, product_member(*event));
    HandOut& sum = by_product[product];
    sum.product = product;
    count(sum, *event, units);
  }
  std::vector<HandOut> all;
  for (auto& [product, sum] : by_product)
    if (!sum.events.empty() || !sum.unread.empty()) all.push_back(std::move(sum));
  return all;
}

}  // namespace

std::vector<HandOut> hand_outs(const Facts& facts, const quantity::UnitTable& units,
                               std::optional<calendar::Date> up_to) {
  std::vector<HandOut> all = sums(counted(facts, up_to), units);
  // Molasses that is only in hand is handed out to nobody.
  all.erase(std::remove_if(all.begin(), all.end(),
                           [](const HandOut& one) {
                             return one.made_ml == 0 && one.handed_out_ml == 0 &&
                                    one.unread.empty() && one.product != "serum";
                           }),
            all.end());
  for (const Spoiled& spoiled : spoiled_batches(facts, up_to))
    for (HandOut& one : all) one.spoiled_ml += spoiled.left_ml(one.product, units);
  return all;
}

std::int64_t above_made_ml(const std::vector<const Event*>& events,
                           const quantity::UnitTable& units) {
  std::int64_t above = 0;
  for (const HandOut& one : sums(events, units)) above += one.above_ml();
  return above;
}

std::vector<journal::Question> hand_out_questions(const Facts& facts,
                                                  const quantity::UnitTable& units) {
  std::vector<journal::Question> questions;
  for (const HandOut& one : hand_outs(facts, units)) {
    if (one.above_ml() == 0) continue;
    journal::Question question{"handed-out-above-made", one.product, one.events};
    if (!journal::answered(facts.choices, question.name(), question.events))
      questions.push_back(std::move(question));
  }
  return questions;
}

}  // namespace wheyfield::group
