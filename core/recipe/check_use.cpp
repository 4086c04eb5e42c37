#include "recipe/check_use.h"

#include <cmath>

namespace wheyfield::recipe {
namespace {

constexpr double most_days = 3650.0;

std::string trimmed(double number) {
  std::string text = std::to_string(number);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string one_to(double parts) { return "1:" + trimmed(parts); }

struct UseChecker {
  const Recipe& recipe;
  const UseLimits& limits;
  outcome::Problems problems{};

  void add(const char* code, const std::string& field, const std::string& value,
           const std::string& limit) {
    problems.push_back({code, field, value, {{"limit", limit}}});
  }

  static std::string row(const char* table, std::size_t i) {
    return std::string("/") + table + "/" + std::to_string(i);
  }

  void strength() {
    if (!recipe.use.strength) return;
    const Strength& own = *recipe.use.strength;
    if (!(own.parts >= 1.0))
      add("recipe-impossible", "/strength_parts", trimmed(own.parts), ">= 1");
    else if (own.on == Place::leaves && own.parts < limits.own_leaves.value)
      add("recipe-too-strong", "/strength_parts", one_to(own.parts),
          one_to(limits.own_leaves.value));
  }

  void dilutions() {
    for (const Dilution& one : recipe.use.dilutions) {
      const double strongest = one.on == Place::leaves ? limits.taught_leaves.value : 1.0;
      if (!(one.parts.low >= strongest) || !std::isfinite(one.parts.high))
        add("recipe-dilution-impossible", row("dilutions", one.row) + "/parts",
            one_to(one.parts.low), one_to(strongest));
    }
  }

  void contents() {
    for (std::size_t i = 0; i < recipe.use.contents.size(); ++i) {
      const Content& one = recipe.use.contents[i];
      const std::string field = row("contents", i) + "/percent";
      if (one.nutrient == "nitrogen" && one.percent.high > limits.nitrogen.value)
        add("recipe-nitrogen-impossible", field, trimmed(one.percent.high),
            trimmed(limits.nitrogen.value));
      else if (!(one.percent.low >= 0.0 && one.percent.high <= 100.0))
        add("recipe-impossible", field, trimmed(one.percent.value), "0 .. 100");
    }
  }

  void reachable(const Sourced& ph, const std::string& field) {
    if (ph.low >= limits.ph.low && ph.high <= limits.ph.high) return;
    add("recipe-ph-impossible", field, trimmed(ph.low < limits.ph.low ? ph.low : ph.high),
        trimmed(limits.ph.low) + " .. " + trimmed(limits.ph.high));
  }

  void acidity() {
    if (recipe.use.ph) reachable(*recipe.use.ph, "/ph");
    for (std::size_t i = 0; i < recipe.steps.size(); ++i)
      if (recipe.steps[i].forecast)
        reachable(recipe.steps[i].forecast->ready_ph, row("steps", i) + "/forecast/ready_ph");
  }

  void days() {
    for (std::size_t i = 0; i < recipe.use.keeping.size(); ++i) {
      const Sourced& kept = recipe.use.keeping[i].days;
      const std::string field = row("keeping", i) + "/days";
      if (kept.origin.kind == "assumption" || kept.origin.kind == "computed")
        add("recipe-keeping-own", field, kept.origin.kind, "");
      if (!(kept.low >= 0.0 && kept.high <= most_days))
        add("recipe-impossible", field, trimmed(kept.value), "0 .. 3650");
    }
    for (std::size_t i = 0; i < recipe.use.harvest.size(); ++i)
      if (const int gap = recipe.use.harvest[i].days; gap < 0 || gap > most_days)
        add("recipe-impossible", row("harvest", i) + "/days", std::to_string(gap), "0 .. 3650");
  }
};

}  // namespace

UseLimits UseLimits::of(const reference_data::ReferenceData& data) {
  return {data.constant("leaf-strength-limit-parts"), data.constant("leaf-dilution-limit-parts"),
          data.constant("nitrogen-limit-percent"), data.constant("ferment-ph-limits")};
}

outcome::Problems check_use(const Recipe& recipe, const UseLimits& limits) {
  UseChecker checker{recipe, limits};
  checker.strength();
  checker.dilutions();
  checker.contents();
  checker.acidity();
  checker.days();
  return checker.problems;
}

}  // namespace wheyfield::recipe
