#include "group/spoiled.h"

#include <algorithm>
#include <map>
#include <set>

#include "journal/standing.h"
#include "quantity/quantity.h"

namespace wheyfield::group {
namespace {

using journal::Event;
using journal::Facts;
using journal::text_in;

bool is_sign(const Event& event) {
  return event.kind == "lost" || text_in(event.body, "smell") == "putrid" ||
         text_in(event.body, "surface") == "coloured-mould";
}

// The notes of a kind that name a batch, by its label and in order.
std::map<std::string, std::vector<const Event*>> by_batch(const Facts& facts, const char* kind,
                                                          std::optional<calendar::Date> up_to) {
  std::map<std::string, std::vector<const Event*>> all;
  for (const journal::Item& item : facts.of(kind))
    for (const Event* event : item.said)
      if (const std::string batch = text_in(event->body, "batch");
          !batch.empty() && (!up_to || event->on <= *up_to))
        all[batch].push_back(event);
  for (auto& [batch, events] : all)
    std::sort(events.begin(), events.end(),
              [](const Event* a, const Event* b) { return journal::comes_before(*a, *b); });
  return all;
}

std::int64_t sum_ml(const std::vector<const Event*>& events, const std::string& product,
                    const quantity::UnitTable& units) {
  std::int64_t sum = 0;
  for (const Event* event : events)
    if (text_in(event->body, "product") == product)
      if (const auto amount = units.volume(text_in(event->body, "amount")))
        sum += quantity::whole_millilitres(*amount);
  return sum;
}

}  // namespace

std::int64_t Spoiled::left_ml(const std::string& product, const quantity::UnitTable& units) const {
  return std::max<std::int64_t>(0,
                                sum_ml(made, product, units) - sum_ml(handed_out, product, units));
}

std::vector<Spoiled> spoiled_batches(const Facts& facts, std::optional<calendar::Date> up_to) {
  std::map<std::string, Spoiled> found;
  for (const char* kind : {"lost", "reading"})
    for (const auto& [batch, events] : by_batch(facts, kind, up_to))
      for (const Event* event : events)
        if (is_sign(*event)) found[batch].signs.push_back(event);
  if (found.empty()) return {};
  const auto made = by_batch(facts, "made", up_to);
  const auto handed_out = by_batch(facts, "handed-out", up_to);
  std::vector<Spoiled> all;
  for (auto& [batch, spoiled] : found) {
    spoiled.batch = batch;
    std::sort(spoiled.signs.begin(), spoiled.signs.end(),
              [](const Event* a, const Event* b) { return journal::comes_before(*a, *b); });
    if (const auto of = made.find(batch); of != made.end()) spoiled.made = of->second;
    if (const auto of = handed_out.find(batch); of != handed_out.end())
      spoiled.handed_out = of->second;
    all.push_back(std::move(spoiled));
  }
  return all;
}

OwnBatches own_batches(const Facts& facts, const std::string& recipe) {
  const auto of_another = [&](const std::string& batch) {
    const journal::Item* noted = facts.find("batch", batch);
    const std::string of = noted == nullptr ? "" : text_in(noted->body, "recipe");
    return !of.empty() && of != recipe;
  };
  std::set<std::string> finished;
  for (const auto& [batch, events] : by_batch(facts, "made", std::nullopt))
    if (!of_another(batch)) finished.insert(batch);
  int failed = 0;
  for (const Spoiled& spoiled : spoiled_batches(facts))
    if (!of_another(spoiled.batch)) {
      finished.insert(spoiled.batch);
      ++failed;
    }
  return {static_cast<int>(finished.size()), failed};
}

std::vector<journal::Question> spoiled_questions(const Facts& facts) {
  std::vector<journal::Question> questions;
  for (const Spoiled& spoiled : spoiled_batches(facts)) {
    if (spoiled.made.empty() && spoiled.handed_out.empty()) continue;
    journal::Question question{"batch-lost-and-used", spoiled.batch, spoiled.signs};
    for (const auto* used : {&spoiled.made, &spoiled.handed_out})
      question.events.insert(question.events.end(), used->begin(), used->end());
    std::sort(question.events.begin(), question.events.end(),
              [](const Event* a, const Event* b) { return journal::comes_before(*a, *b); });
    if (!journal::answered(facts.choices, question.name(), question.events))
      questions.push_back(std::move(question));
  }
  return questions;
}

}  // namespace wheyfield::group
