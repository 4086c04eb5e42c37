#include "group/own_yields.h"

#include <algorithm>
#include <map>
#include <set>
#include <utility>

#include "group/spoiled.h"
#include "journal/standing.h"
#include "quantity/quantity.h"

namespace wheyfield::group {
namespace {

using journal::Event;
using journal::text_in;

struct MadeOf {
  double litres = 0.0;
  const Event* last = nullptr;
};
// By batch and product.
using AllMade = std::map<std::pair<std::string, std::string>, MadeOf>;

AllMade all_made(const journal::Facts& facts, const quantity::UnitTable& units) {
  AllMade all;
  for (const journal::Item& item : facts.of("made"))
    for (const Event* event : item.said)
      if (const auto amount = units.volume(text_in(event->body, "amount"))) {
        MadeOf& made = all[{text_in(event->body, "batch"), text_in(event->body, "product")}];
        made.litres += quantity::in_litres(*amount);
        if (made.last == nullptr || journal::comes_before(*made.last, *event)) made.last = event;
      }
  return all;
}

// Batches whose yield does not count, or not yet.
std::set<std::string> passed_over(const journal::Facts& facts) {
  std::set<std::string> labels;
  for (const Spoiled& spoiled : spoiled_batches(facts)) labels.insert(spoiled.batch);
  for (const journal::Question& question : facts.questions)
    if (question.code == "noted-twice")
      for (const Event* event : question.events)
        if (event->kind == "made") labels.insert(text_in(event->body, "batch"));
  return labels;
}

// What is noted of one batch.
class NotedBatch {
 public:
  NotedBatch(const recipe::Recipe& recipe, const journal::Item& item, const AllMade& made,
             const quantity::UnitTable& units)
      : label_(text_in(item.body, "label")), made_(made) {
    const auto stands = static_cast<std::size_t>(std::max(0, recipe.vessel_step()));
    filled_ = recipe.steps[stands].takes.front().material;
    if (const auto amount = units.volume(text_in(item.body, "amount")))
      filled_litres_ = quantity::in_litres(*amount);
  }
  const std::string& label() const { return label_; }
  // Of a material: what was filled in, or what was made; 0 when nobody noted it.
  MadeOf of(const std::string& material) const {
    if (material == filled_) return {filled_litres_, nullptr};
    const auto found = made_.find({label_, material});
    return found == made_.end() ? MadeOf{} : found->second;
  }

 private:
  std::string label_;
  const AllMade& made_;
  std::string filled_;
  double filled_litres_ = 0.0;
};

void add_yields(const recipe::Recipe& recipe, const NotedBatch& batch, OwnYields& own) {
  for (OwnYield& one : own.yields) {
    const std::string& material = recipe::flow_of(recipe, one.yield).material;
    const MadeOf out = batch.of(material), in = batch.of(one.yield.of);
    if (out.litres <= 0.0 || in.litres <= 0.0) continue;
    const double ratio = out.litres / (in.litres * one.yield.per_of);
    if (ratio <= recipe::most_ratio(recipe, one.yield))
      one.ratios.push_back(ratio);
    else
      own.impossible.push_back(
          {batch.label(), material, out.litres, one.yield.of, in.litres, out.last});
  }
}

}  // namespace

OwnYields own_yields(const journal::Facts& facts, const recipe::Recipe& recipe,
                     const quantity::UnitTable& units) {
  OwnYields own;
  for (const recipe::MeasuredYield& yield : recipe::measured_yields(recipe))
    own.yields.push_back({yield, {}});
  const AllMade made = all_made(facts, units);
  const std::set<std::string> without = passed_over(facts);
  std::map<std::string, const journal::Item*> batches;
  for (const journal::Item& item : facts.of("batch")) {
    const std::string of = text_in(item.body, "recipe");
    if (!item.body.is_null() && (of.empty() || of == recipe.id)) batches[item.identity] = &item;
  }
  for (const auto& [identity, item] : batches) {
    const NotedBatch batch(recipe, *item, made, units);
    if (without.count(batch.label()) == 0) add_yields(recipe, batch, own);
  }
  return own;
}

}  // namespace wheyfield::group
