#include "recipe/check.h"

#include <cmath>
#include <set>

namespace wheyfield::recipe {
namespace {

using outcome::Problems;

struct Checker {
  const Recipe& recipe;
  Problems problems{};

  void add(const char* code, const std::string& field, const std::string& value,
           std::map<std::string, std::string> details = {}) {
    problems.push_back({code, field, value, std::move(details)});
  }

  std::string step_field(std::size_t i) const { return "/steps/" + std::to_string(i); }

  void letter() {
    const bool capital =
        recipe.letter.size() == 1 && recipe.letter[0] >= 'A' && recipe.letter[0] <= 'Z';
    if (!capital) add("recipe-impossible", "/letter", recipe.letter, {{"limit", "A .. Z"}});
  }

  void shown_for() {
    if (!(recipe.shown_for > 0.0))
      add("recipe-impossible", "/shown_for", std::to_string(recipe.shown_for), {{"limit", "> 0"}});
  }

  void materials() {
    for (std::size_t i = 0; i < recipe.materials.size(); ++i) {
      const Material& m = recipe.materials[i];
      const std::string field = "/materials/" + std::to_string(i);
      if (m.role == Role::by_product && m.fate.empty())
        add("recipe-fate-missing", field + "/fate", m.id);
      if (m.unit == "L" && !m.density) add("recipe-density-missing", field + "/density", m.id);
      if (m.density && !(m.density->low >= 0.2 && m.density->high <= 3.0))
        add("recipe-impossible", field + "/density", std::to_string(m.density->value),
            {{"limit", "0.2 .. 3 kg/L"}});
    }
  }

  void dwell(const Dwell& d, const std::string& field) {
    const bool ordered =
        0 <= d.early && d.early <= d.likely && d.likely <= d.late && d.late <= d.keeps;
    if (!ordered || d.keeps > 400)
      add("recipe-impossible", field, std::to_string(d.late),
          {{"limit", "0 <= early <= likely <= late <= keeps <= 400"}});
  }

  void flows(const std::vector<Flow>& flows, const std::string& field) {
    for (std::size_t i = 0; i < flows.size(); ++i) {
      const Flow& flow = flows[i];
      const std::string at = field + "/" + std::to_string(i);
      if (!recipe.material(flow.material))
        add("recipe-material-unknown", at + "/material", flow.material);
      if (flow.remainder) continue;
      if (!(flow.ratio.low > 0.0) || !std::isfinite(flow.ratio.high))
        add("recipe-impossible", at + "/ratio", std::to_string(flow.ratio.value),
            {{"limit", "> 0"}});
      if (flow.measured && !(flow.ratio.low < flow.ratio.high))
        add("recipe-range-missing", at + "/ratio", flow.material);
    }
  }

  double mass_per_unit(const std::string& id) const {
    const Material* m = recipe.material(id);
    return m && m->unit == "L" && m->density ? m->density->value : 1.0;
  }

  void mass_balance(const Step& step, const std::string& field) {
    double in = 0.0, out = 0.0;
    bool remainder = false;
    for (const Flow& flow : step.takes) in += flow.ratio.value * mass_per_unit(flow.material);
    for (const Flow& flow : step.gives) {
      remainder = remainder || flow.remainder;
      if (!flow.remainder) out += flow.ratio.value * mass_per_unit(flow.material);
    }
    const bool too_much = out > in * (1.0 + mass_tolerance);
    const bool lost = !remainder && out < in * (1.0 - mass_tolerance);
    if (too_much || lost)
      add("recipe-mass-balance", field, step.id,
          {{"in", std::to_string(in)}, {"out", std::to_string(out)}});
  }

  // A measured yield whose high end is more mass than the most that goes in is a misprint.
  void yields(const Step& step, const std::string& field) {
    double most_in = 0.0;
    for (const Flow& flow : step.takes) most_in += flow.ratio.high * mass_per_unit(flow.material);
    for (std::size_t i = 0; i < step.gives.size(); ++i) {
      const Flow& flow = step.gives[i];
      const double most_out = flow.ratio.high * mass_per_unit(flow.material);
      if (flow.measured && !flow.remainder && most_out > most_in * (1.0 + mass_tolerance))
        add("recipe-yield-above-inputs", field + "/" + std::to_string(i) + "/ratio", flow.material,
            {{"in", std::to_string(most_in)}, {"out", std::to_string(most_out)}});
    }
  }

  // Litres that stand for days stand in something.
  void vessel(const Step& step, const std::string& field) {
    if (step.vessel != VesselNeed::none || step.warm.late == 0) return;
    for (const Flow& flow : step.takes)
      if (const Material* m = recipe.material(flow.material); m && m->unit == "L")
        return add("recipe-vessel-missing", field + "/vessel", step.id);
  }

  // Whole days and batches, and only of what stands in one of the season's vessels.
  void forecast(const Step& step, const std::string& field) {
    if (!step.forecast) return;
    const auto whole = [&](const Sourced& number, const char* member, double most) {
      if (number.value != std::floor(number.value) ||
          !(number.value >= 0.0 && number.value <= most))
        add("recipe-impossible", field + "/" + member, std::to_string(number.value),
            {{"limit", "0 .. " + std::to_string(static_cast<int>(most))}});
    };
    whole(step.forecast->published_least, "published_least", step.warm.late);
    whole(step.forecast->least_until_batches, "least_until_batches", 1000);
    if (step.vessel != VesselNeed::season)
      add("recipe-impossible", field, step.id, {{"limit", "vessel season"}});
  }

  void most_fill(const Step& step, const std::string& field) {
    if (!step.most_fill) return;
    const double least = step.least_fill ? step.least_fill->value : 0.0;
    if (!(step.most_fill->low > 0.0) || step.most_fill->value < least)
      add("recipe-impossible", field, std::to_string(step.most_fill->value),
          {{"limit", "> 0, >= least_fill"}});
  }

  void steps() {
    for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
      const Step& step = recipe.steps[i];
      const std::string field = step_field(i);
      dwell(step.warm, field + "/windows/warm");
      dwell(step.cool, field + "/windows/cool");
      flows(step.takes, field + "/takes");
      flows(step.gives, field + "/gives");
      mass_balance(step, field);
      yields(step, field + "/gives");
      vessel(step, field);
      if (step.labour_hours.low < 0.0)
        add("recipe-impossible", field + "/labour_hours", std::to_string(step.labour_hours.low),
            {{"limit", ">= 0"}});
      const bool fits =
          step.fill_fraction && step.fill_fraction->low > 0.0 && step.fill_fraction->high <= 1.0;
      if (step.least_fill && !(step.least_fill->low > 0.0))
        add("recipe-impossible", field + "/least_fill", std::to_string(step.least_fill->low),
            {{"limit", "> 0"}});
      most_fill(step, field + "/most_fill");
      forecast(step, field + "/forecast");
      for (std::size_t t = 0; t < step.tasks.size(); ++t)
        if (step.tasks[t].hours && step.tasks[t].hours->low < 0.0)
          add("recipe-impossible", field + "/tasks/" + std::to_string(t) + "/hours",
              std::to_string(step.tasks[t].hours->low), {{"limit", ">= 0"}});
      if (step.vessel == VesselNeed::season && !fits)
        add("recipe-fill-limit", field + "/fill_fraction",
            step.fill_fraction ? std::to_string(step.fill_fraction->value) : "");
    }
  }

  // Steps stand in working order, so a step may only take inputs and what earlier steps gave.
  void graph() {
    std::set<std::string> made, used;
    for (std::size_t i = 0; i < recipe.steps.size(); ++i) {
      const Step& step = recipe.steps[i];
      for (const Flow& flow : step.takes) {
        const Material* m = recipe.material(flow.material);
        used.insert(flow.material);
        if (m && m->role != Role::input && made.count(flow.material) == 0)
          add("recipe-cycle", step_field(i) + "/takes", flow.material);
      }
      for (const Flow& flow : step.gives)
        if (!made.insert(flow.material).second)
          add("recipe-made-twice", step_field(i) + "/gives", flow.material);
    }
    if (made.count(recipe.product) == 0) add("recipe-never-made", "/product", recipe.product);
    for (std::size_t i = 0; i < recipe.materials.size(); ++i) {
      const Material& m = recipe.materials[i];
      const std::string field = "/materials/" + std::to_string(i);
      const bool must_use = m.role == Role::input || m.role == Role::intermediate;
      if (must_use && used.count(m.id) == 0) add("recipe-never-used", field, m.id);
      if (m.role != Role::input && m.id != recipe.product && made.count(m.id) == 0)
        add("recipe-never-made", field, m.id);
    }
  }
};

}  // namespace

Problems check(const Recipe& recipe) {
  Checker checker{recipe};
  checker.letter();
  checker.shown_for();
  checker.materials();
  checker.steps();
  checker.graph();
  return checker.problems;
}

}  // namespace wheyfield::recipe
