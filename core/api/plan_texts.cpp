#include <algorithm>
#include <cmath>
#include <set>

#include "api/dose_answer.h"
#include "api/plan_answer.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using quantity::in_millilitres;
using words::Decimal;
using words::Values;

// "maize, bean" -> the crops' names in the reader's language.
std::string named_crops(const words::Catalogue& words, const std::string& ids) {
  std::string out;
  for (std::size_t at = 0; at < ids.size();) {
    const std::size_t end = std::min(ids.find(", ", at), ids.size());
    out += (out.empty() ? "" : ", ") + words.text("crop." + ids.substr(at, end - at));
    at = end + 2;
  }
  return out;
}

// The value of this name and kind, or null.
template <class Kind>
const Kind* held_by(const Values& values, const char* name) {
  const auto found = values.find(name);
  return found == values.end() ? nullptr : std::get_if<Kind>(&found->second.held());
}

std::string text_of(const Values& values, const char* name) {
  const auto* text = held_by<std::string>(values, name);
  return text ? *text : "";
}

bool is_one_day(const Values& values) {
  const auto* early = held_by<calendar::Date>(values, "early");
  const auto* late = held_by<calendar::Date>(values, "late");
  return early && late && *early == *late;
}

double cups(const WorkedPlan& w, double litres) {
  return litres / w.session.data.constant("cup-volume").value;
}

Values dose_values(const WorkedPlan& w, const season::DoseLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  const words::Catalogue& words = w.words();
  return {{"farm", farm.code},
          {"crop", words.text("crop." + farm.fields[line.field].planting.crop->id)},
          {"method", words.text("method." + line.method)},
          {"container", words.text("container." + line.container)},
          {"size", Decimal{in_litres(line.container_size), 1}},
          {"cap", farm.cap ? Decimal{in_millilitres(*farm.cap), 1} : Decimal{0, 0}},
          {"serum", Decimal{in_millilitres(line.loads.serum_full), 1}},
          {"mix", Decimal{in_litres(line.mix), 1}},
          {"total", Decimal{static_cast<double>(line.serum_ml), 0}}};
}

// "8 caps of 5 mL (40 mL) in 20 L", or what to do when caps cannot say it.
std::string load_text(const WorkedPlan& w, const season::DoseLine& line, bool last) {
  const auto& caps = last ? line.caps_last : line.caps;
  const quantity::Volume size = last ? line.loads.last : line.container_size;
  const quantity::Volume serum = last ? line.loads.serum_last : line.loads.serum_full;
  Values values = dose_values(w, line);
  values.insert_or_assign("size", Decimal{in_litres(size), 1});
  values.insert_or_assign("serum", Decimal{in_millilitres(serum), 1});
  if (!w.farm(line.farm).cap) return w.words().text("dose.load-unmeasured", values);
  if (!caps || !caps->fits) return w.words().text("dose.load-syringe", values);
  values.insert_or_assign("n", Decimal{caps->caps, 1});
  values.insert_or_assign("given", Decimal{in_millilitres(caps->given), 1});
  const bool exact = std::fabs(caps->off) < 0.005;
  values.insert_or_assign("real_parts", Decimal{caps->parts, 0});
  return w.words().text(exact ? "dose.load-caps" : "dose.load-caps-about", values);
}

// What the caps of all loads bring, against what is handed out for them.
std::string rest_text(const WorkedPlan& w, const season::DoseLine& line) {
  const double more = in_millilitres(line.given) - static_cast<double>(line.serum_ml);
  if (more < 1.0) return "";
  return " " + w.words().text("dose.more-than-handed-out",
                              {{"given", Decimal{in_millilitres(line.given), 1}},
                               {"total", Decimal{static_cast<double>(line.serum_ml), 0}}});
}

// Why this line may not go on leaves all season, or nullptr: crops that are eaten raw, by any
// method that reaches leaves.
const char* leaves_closed(const crop::Crop& crop, const season::DoseLine& line) {
  if (!crop.eaten_raw || line.method == "round-stem") return nullptr;
  if (crop.fourth != "flowering") return "dose.leaves-closed-picking";
  const bool late = std::any_of(line.uses.begin(), line.uses.end(), [](const std::string& use) {
    return use == "flowering" || use == "first-fruit";
  });
  return late ? "dose.leaves-closed-flowering" : nullptr;
}

// What a farm with chlorinated tap water does the day before it mixes, or "".
std::string water_text(const WorkedPlan& w, const season::Farm& farm) {
  if (!w.season.places[farm.place].chlorinated()) return "";
  const double hours = w.session.data.constant("water-stand-hours").value;
  return " " + w.words().text("dose.water-stands", {{"hours", Decimal{hours, 0}}});
}

}  // namespace

std::string money_text(const WorkedPlan& w, quantity::Money money) {
  return w.words().text("money", {{"amount", Decimal{static_cast<double>(money.whole()), 0}},
                                  {"currency", w.season.currency}});
}

std::string who_text(const WorkedPlan& w, recipe::Who who) {
  switch (who) {
    case recipe::Who::trainer:
      return w.words().text("who.trainer");
    case recipe::Who::group:
      return w.words().text("who.group");
    case recipe::Who::helpers:
      return w.words().text("who.helpers");
    case recipe::Who::keeper:
      break;
  }
  return w.words().text("who.keeper");
}

std::string task_text(const WorkedPlan& w, const season::Task& task) {
  Values values = task.values;
  if (values.count("use"))
    values.insert_or_assign("use", w.words().text("use." + text_of(values, "use")));
  if (values.count("crops"))
    values.insert_or_assign("crops", named_crops(w.words(), text_of(values, "crops")));
  if (values.count("product"))
    values.insert_or_assign("product", w.words().text("material." + text_of(values, "product")));
  const std::string key = "task." + task.id;
  const std::string one_day = key + "-one-day";
  return w.words().text(is_one_day(values) && w.words().has(one_day) ? one_day : key, values);
}

Values caution_values(const WorkedPlan& w, const season::Task& task) {
  Values values = task.values;
  if (const auto* milk = held_by<Decimal>(values, "milk"))
    values.insert_or_assign("n", std::llround(cups(w, milk->value)));
  return values;
}

std::vector<std::string> shortage_events(const WorkedPlan& w, const season::Shortage& s) {
  std::vector<std::string> events;
  for (const season::PlannedUse& use : w.plan.uses) {
    const crop::Use& of = use.due.use;
    if (use.short_ml == 0 || of.id != s.use) continue;
    if (use.due.collect_on.value_or(of.window.likely) != s.collect) continue;
    if (std::find(events.begin(), events.end(), of.event) == events.end())
      events.push_back(of.event);
  }
  return events;
}

namespace {

// Only what is kept for seed that nobody weighed is short.
bool guessed(const WorkedPlan& w, const season::Shortage& s) {
  return std::none_of(w.plan.uses.begin(), w.plan.uses.end(), [&](const season::PlannedUse& use) {
    return use.short_ml > 0 && use.due.use.id == s.use &&
           use.due.collect_on.value_or(use.due.use.window.likely) == s.collect &&
           use.due.hand_out != season::HandOut::by_seed;
  });
}

}  // namespace

std::string shortage_text(const WorkedPlan& w, const season::Shortage& s) {
  const words::Catalogue& words = w.words();
  std::string events;
  for (const std::string& event : shortage_events(w, s))
    events += (events.empty() ? "" : ", ") + words.text("use." + event);
  std::string text =
      words.text("shortage", {{"use", events},
                              {"day", s.collect},
                              {"short", Decimal{static_cast<double>(s.short_ml) / 1000.0, 2}},
                              {"due", Decimal{static_cast<double>(s.due_ml) / 1000.0, 2}},
                              {"n", s.fields}});
  if (guessed(w, s)) text += " " + words.text("shortage.guessed");
  if (s.binds.empty()) return text + " " + words.text("binds.nothing-helps");
  for (const std::string& limit : s.binds) {
    const bool hands_too = limit == "together" && w.season.hands;
    text += " " + words.text("binds." + limit + (hands_too ? "-hands" : ""));
  }
  if (s.binds == std::vector<std::string>{"time"}) text += " " + words.text("binds.only-time");
  return text;
}

std::string dose_text(const WorkedPlan& w, const season::DoseLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  const words::Catalogue& words = w.words();
  Values values = dose_values(w, line);
  std::string loads;
  if (line.loads.full > 0) {
    values.insert_or_assign("n", line.loads.full);
    values.insert_or_assign("load", load_text(w, line, false));
    loads = words.text("dose.full-loads", values);
  }
  if (in_litres(line.loads.last) > 0.0) {
    values.insert_or_assign("load", load_text(w, line, true));
    loads += (loads.empty() ? "" : " ") +
             words.text(line.loads.full > 0 ? "dose.last-load" : "dose.only-load", values);
  }
  values.insert_or_assign("loads", loads);
  std::string text = words.text("dose.line", values) + rest_text(w, line);
  if (line.plants > 0) {
    values.insert_or_assign("n", line.plants);
    values.insert_or_assign("usual", Decimal{static_cast<double>(line.usual_ml), 0});
    text += " " + words.text("dose.round-stem", values);
  }
  if (!line.measured) text += " " + words.text("dose.rate-assumed");
  text += water_text(w, farm);
  if (line.method == "knapsack" && !farm.sprayer_last_held.empty())
    text += " " + words.text("dose.sprayer-held", {{"held", farm.sprayer_last_held}}) + " " +
            words.text("caution.sprayer-weedkiller");
  if (farm.trial_plot) text += " " + words.text("dose.not-without");
  if (const char* closed = leaves_closed(*farm.fields[line.field].planting.crop, line))
    text += " " + words.text(closed);
  if (line.pick_from)
    text +=
        " " + words.text("dose.pick-from", {{"day", *line.pick_from}, {"n", w.harvest.raw_days}});
  return text;
}

std::string soak_text(const WorkedPlan& w, const season::SoakLine& line) {
  const season::Farm& farm = w.farm(line.farm);
  const season::Field& field = farm.fields[line.field];
  const words::Catalogue& words = w.words();
  Values values{{"farm", farm.code}, {"crop", words.text("crop." + field.planting.crop->id)}};
  values.insert_or_assign("hours", Decimal{line.soak.hours, 1});
  values.insert_or_assign("water", Decimal{in_litres(line.soak.water), 2});
  values.insert_or_assign("serum", Decimal{in_millilitres(line.soak.serum), 1});
  if (field.seed_mass)
    values.insert_or_assign("mass", Decimal{quantity::in_kilograms(*field.seed_mass), 2});
  std::string text = words.text(line.weighed ? "soak.weighed" : "soak.per-kg", values) + " " +
                     soak_times_text(w.session, line.soak.hours) + water_text(w, farm);
  if (line.soak.or_none) text += " " + words.text("soak.or-dry");
  return text;
}

std::string recipe_name(const words::Catalogue& words, const recipe::Recipe& recipe) {
  const std::string key = "recipe." + recipe.id;
  return words.has(key) ? words.text(key) : recipe.id;
}

std::vector<std::string> candid_lines(const WorkedPlan& w) {
  const words::Catalogue& words = w.words();
  const double share = season::milk_per_product(w.recipe);
  const double milk = w.cost.litres_made * share;
  std::vector<std::string> lines;
  if (milk > 0.0) {
    lines.push_back(words.text("candid.milk", {{"litres", Decimal{milk, 1}},
                                               {"cups", Decimal{cups(w, milk), 0}},
                                               {"money", money_text(w, w.cost.milk)}}));
    lines.push_back(
        words.text("candid.heated",
                   {{"factor", Decimal{w.session.data.constant("heated-milk-slower").value, 1}}}));
  }
  for (const season::Making& making : w.makings())
    for (const std::string& id : making.recipe->cautions)
      if (id != "local-rules") lines.push_back(words.text("caution." + id));
  return lines;
}

std::vector<std::string> plan_cautions(const WorkedPlan& w) {
  std::set<std::string> needed{"fresh-same-day", "wear",         "local-rules",
                               "label-not-food", "gas-pressure", "failed-batch-fate"};
  for (const season::Making& making : w.makings()) {
    for (const recipe::Step& step : making.recipe->steps)
      needed.insert(step.cautions.begin(), step.cautions.end());
    needed.insert(making.recipe->cautions.begin(), making.recipe->cautions.end());
    for (const recipe::Material& material : making.recipe->materials)
      if (!material.fate.empty()) needed.insert(material.fate);
  }
  for (const season::Task& task : w.plan.tasks)
    needed.insert(task.cautions.begin(), task.cautions.end());
  for (const season::Farm& farm : w.season.farms) {
    if (!farm.sprayer_last_held.empty()) needed.insert("sprayer-weedkiller");
    if (farm.trial_plot) needed.insert("trial-plot-without");
    if (farm.method.id == "can") needed.insert("strong-can");
    for (const season::Field& field : farm.fields)
      if (field.planting.seed == crop::Seed::dressed) needed.insert("dressed-seed-never");
  }
  for (const season::DoseLine& line : w.doses)
    if (leaves_closed(*w.farm(line.farm).fields[line.field].planting.crop, line))
      needed.insert("leaves-eaten-raw");
  needed.erase("ask-worth-it");
  std::vector<std::string> ordered;
  for (const char* first : {"milk-heated-cooled", "milk-raw"})
    if (needed.erase(first)) ordered.emplace_back(first);
  ordered.insert(ordered.end(), needed.begin(), needed.end());
  return ordered;
}

}  // namespace wheyfield::api
