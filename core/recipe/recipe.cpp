#include "recipe/recipe.h"

#include <algorithm>

#include "recipe/reading.h"

namespace wheyfield::recipe {
namespace {

using nlohmann::json;
using outcome::Problems;
using reference_data::read_origin;
using reference_data::read_sourced;
using reference_data::read_string;

const Names<Role> roles{{"input", Role::input},
                        {"intermediate", Role::intermediate},
                        {"product", Role::product},
                        {"by-product", Role::by_product},
                        {"loss", Role::loss}};
const Names<Who> people{{"trainer", Who::trainer}, {"keeper", Who::keeper}, {"group", Who::group}};
const Names<VesselNeed> vessels{{"none", VesselNeed::none},
                                {"storage", VesselNeed::storage},
                                {"household", VesselNeed::household},
                                {"season", VesselNeed::season}};

const Names<VesselKind> vessel_kinds{
    {"bucket", VesselKind::bucket}, {"heap", VesselKind::heap}, {"apart", VesselKind::apart}};

Material read_material(const json& row, const std::string& field, Problems& problems) {
  Material material;
  material.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  material.unit = take_or<std::string>(read_string(row, "unit", field), "", problems);
  material.role = read_word(row, "role", roles, field, problems);
  if (row.is_object() && row.contains("density"))
    material.density =
        take_or(read_sourced(row["density"], field + "/density"), Sourced{}, problems);
  if (row.is_object()) {
    material.fate = row.value("fate", std::string());
    material.bought = row.value("bought", false);
  }
  return material;
}

Flow read_flow(const json& row, const std::string& field, Problems& problems) {
  Flow flow;
  flow.material = take_or<std::string>(read_string(row, "material", field), "", problems);
  if (!row.is_object()) return flow;
  flow.remainder = row.value("remainder", false);
  flow.measured = row.value("measured", false);
  if (!flow.remainder || row.contains("ratio"))
    flow.ratio =
        take_or(read_sourced(row.value("ratio", json()), field + "/ratio"), Sourced{}, problems);
  return flow;
}

Dwell read_dwell(const json& row, const std::string& field, Problems& problems) {
  const auto days = [&](const char* member) { return read_days(row, member, field, problems); };
  Dwell dwell{days("early"), days("likely"), days("late"), days("keeps"), {}};
  dwell.origin = take_or(read_origin(row, field), Origin{}, problems);
  return dwell;
}

Forecast read_forecast(const json& row, const std::string& field, Problems& problems) {
  const auto number = [&](const char* member) {
    const json value = row.is_object() ? row.value(member, json()) : json();
    return take_or(read_sourced(value, field + "/" + member), Sourced{}, problems);
  };
  Forecast forecast;
  forecast.ready_ph = number("ready_ph");
  forecast.published_least = number("published_least");
  forecast.least_until_batches = number("least_until_batches");
  return forecast;
}

TaskTemplate read_task(const json& row, const std::string& field, Problems& problems) {
  TaskTemplate task;
  task.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  task.who = read_word(row, "who", people, field, problems);
  task.day = read_days(row, "day", field, problems);
  if (row.is_object()) {
    task.at_end = row.value("at", std::string("start")) == "end";
    task.only_if = row.value("only_if", std::string());
  }
  if (row.is_object() && row.contains("hours"))
    task.hours = take_or(read_sourced(row["hours"], field + "/hours"), Sourced{}, problems);
  task.cautions = read_strings(row, "cautions");
  return task;
}

Step read_step(const json& row, const std::string& field, Problems& problems) {
  Step step;
  step.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  step.vessel = read_word(row, "vessel", vessels, field, problems);
  step.handling = read_word(row, "handling", people, field, problems);
  const json windows = row.is_object() ? row.value("windows", json::object()) : json::object();
  step.warm = read_dwell(windows.value("warm", json()), field + "/windows/warm", problems);
  step.cool = read_dwell(windows.value("cool", json()), field + "/windows/cool", problems);
  if (row.is_object() && row.contains("sours"))
    step.sours = take_or<std::string>(read_string(row, "sours", field), "", problems);
  if (row.is_object() && row.contains("forecast"))
    step.forecast = read_forecast(row["forecast"], field + "/forecast", problems);
  const json hours = row.is_object() ? row.value("labour_hours", json()) : json();
  step.labour_hours = take_or(read_sourced(hours, field + "/labour_hours"), Sourced{}, problems);
  if (row.is_object() && row.contains("vessel_kind"))
    step.kind = read_word(row, "vessel_kind", vessel_kinds, field, problems);
  if (row.is_object() && row.contains("least_fill"))
    step.least_fill =
        take_or(read_sourced(row["least_fill"], field + "/least_fill"), Sourced{}, problems);
  if (row.is_object() && row.contains("most_fill"))
    step.most_fill =
        take_or(read_sourced(row["most_fill"], field + "/most_fill"), Sourced{}, problems);
  if (row.is_object() && row.contains("fill_fraction"))
    step.fill_fraction =
        take_or(read_sourced(row["fill_fraction"], field + "/fill_fraction"), Sourced{}, problems);
  each(row, "takes", field, [&](const json& item, const std::string& at) {
    step.takes.push_back(read_flow(item, at, problems));
  });
  each(row, "gives", field, [&](const json& item, const std::string& at) {
    step.gives.push_back(read_flow(item, at, problems));
  });
  each(row, "tasks", field, [&](const json& item, const std::string& at) {
    step.tasks.push_back(read_task(item, at, problems));
  });
  step.cautions = read_strings(row, "cautions");
  return step;
}

}  // namespace

void Forecast::note(const std::string& used_for, reference_data::UsedSources& used) const {
  for (const Sourced* number : {&ready_ph, &published_least, &least_until_batches})
    used.note(number->origin, used_for);
}

const Material* Recipe::material(const std::string& wanted) const {
  for (const Material& material : materials)
    if (material.id == wanted) return &material;
  return nullptr;
}

int Recipe::vessel_step() const {
  for (std::size_t i = 0; i < steps.size(); ++i)
    if (steps[i].vessel == VesselNeed::season) return static_cast<int>(i);
  return -1;
}

bool Recipe::stored() const {
  return std::any_of(steps.begin(), steps.end(),
                     [](const Step& step) { return step.vessel == VesselNeed::storage; });
}

bool Recipe::has_forecast() const {
  return std::any_of(steps.begin(), steps.end(),
                     [](const Step& step) { return step.forecast.has_value(); });
}

double labour_hours(const Recipe& recipe) {
  double hours = 0.0;
  for (const Step& step : recipe.steps) {
    hours += step.labour_hours.value;
    for (const TaskTemplate& task : step.tasks)
      if (task.hours) hours += task.hours->value;
  }
  return hours;
}

void note_sources(const Recipe& recipe, reference_data::UsedSources& used) {
  for (const Step& step : recipe.steps) {
    used.note(step.warm.origin, "step." + step.id);
    used.note(step.cool.origin, "step." + step.id);
    if (step.forecast) step.forecast->note("step." + step.id, used);
    for (const auto* fill : {&step.least_fill, &step.most_fill})
      if (*fill) used.note((*fill)->origin, "step." + step.id);
    used.note(step.labour_hours.origin, "labour." + step.id);
    for (const TaskTemplate& task : step.tasks)
      if (task.hours) used.note(task.hours->origin, "labour." + task.id);
    for (const auto* flows : {&step.takes, &step.gives})
      for (const Flow& flow : *flows)
        if (!flow.remainder) used.note(flow.ratio.origin, "material." + flow.material);
  }
}

outcome::Result<Recipe> parse(const json& row, const std::string& field) {
  Problems problems;
  Recipe recipe;
  recipe.id = take_or<std::string>(read_string(row, "id", field), "", problems);
  recipe.product = take_or<std::string>(read_string(row, "product", field), "", problems);
  recipe.letter = take_or<std::string>(read_string(row, "letter", field), "", problems);
  if (row.is_object() && row.contains("shown_for"))
    recipe.shown_for = take_or(reference_data::read_number(row, "shown_for", field), 1.0, problems);
  if (row.is_object() && row.contains("season_litres_per_acre"))
    recipe.season_litres_per_acre =
        take_or(read_sourced(row["season_litres_per_acre"], field + "/season_litres_per_acre"),
                Sourced{}, problems);
  each(row, "materials", field, [&](const json& item, const std::string& at) {
    recipe.materials.push_back(read_material(item, at, problems));
  });
  each(row, "steps", field, [&](const json& item, const std::string& at) {
    recipe.steps.push_back(read_step(item, at, problems));
  });
  recipe.cautions = read_strings(row, "cautions");
  recipe.use = read_use(row, field, problems);
  if (!problems.empty()) return outcome::failure(problems);
  return recipe;
}

}  // namespace wheyfield::recipe
