// The uses of all fields in the order of their fetching, and how their windows were found.
#include <algorithm>
#include <map>

#include "api/plan_page_parts.h"

namespace wheyfield::api {
namespace {

using quantity::in_litres;
using words::Decimal;

// One line for all that is sown without serum: no trip is made for it.
void nothing_to_fetch(const PageWords& w, sheet::Page& page) {
  std::map<std::string, std::string> farms;
  for (const season::PlannedUse& use : w.worked.plan.uses) {
    if (use.planned) continue;
    std::string& codes = farms[w.crop_name(use.due.farm, use.due.field)];
    codes += (codes.empty() ? "" : ", ") + w.worked.farm(use.due.farm).code;
  }
  std::set<std::string> crops;
  for (const auto& [crop, codes] : farms)
    crops.insert(w.say("uses.without-crop", {{"crop", crop}, {"farms", codes}}));
  if (!crops.empty()) page.text(w.say("uses.without", {{"crops", comma_list(crops)}}));
}

std::string serum_cell(const PageWords& w, const season::PlannedUse& use) {
  std::string serum = w.millilitres(use.due.serum_ml);
  if (!use.due.measured) serum += w.say("uses.assumed-mark");
  if (use.due.hand_out == season::HandOut::by_seed)
    serum = w.say("uses.by-seed",
                  {{"ml", Decimal{quantity::in_millilitres(use.due.per_kg), 2}}, {"kept", serum}});
  if (use.short_ml > 0)
    serum += w.say("uses.short", {{"ml", Decimal{static_cast<double>(use.short_ml), 0}}});
  return serum;
}

std::string warmth_used_for(const PageWords& w, std::size_t place) {
  const auto& uses = w.worked.plan.uses;
  const auto& vessels = w.worked.season.vessels;
  std::set<std::string> list;
  if (std::any_of(uses.begin(), uses.end(), [&](const season::PlannedUse& use) {
        return use.due.road == crop::Road::degree_days &&
               w.worked.farm(use.due.farm).place == place;
      }))
    list.insert(w.say("uses.warmth-windows"));
  if (std::any_of(vessels.begin(), vessels.end(),
                  [&](const season::Vessel& vessel) { return vessel.place == place; }))
    list.insert(w.say("uses.warmth-batches"));
  return list.empty() ? w.say("uses.warmth-nothing") : comma_list(list);
}

// How the windows were found, and how warm the places are taken to be.
void roads(const PageWords& w, sheet::Page& page) {
  std::map<crop::Road, std::set<std::string>> crops;
  for (const season::PlannedUse& use : w.worked.plan.uses)
    crops[use.due.road].insert(w.crop_name(use.due.farm, use.due.field));
  page.heading(w.say("uses.roads"));
  std::vector<std::string> lines;
  for (const auto& [road, names] : crops)
    lines.push_back(w.say(
        "uses.road", {{"road", w.words.text("forecast.road." + std::string(crop::road_word(road)))},
                      {"crops", comma_list(names)}}));
  for (std::size_t i = 0; i < w.worked.season.places.size(); ++i) {
    const season::Place& place = w.worked.season.places[i];
    lines.push_back(w.say(
        "uses.temperature",
        {{"place", place.name},
         {"origin", w.words.text("temperatures." +
                                 std::string(weather::origin_word(place.temperature.origin)))},
         {"spread", Decimal{place.temperature.spread, 1}},
         {"uses", warmth_used_for(w, i)}}));
  }
  page.list(std::move(lines));
  if (!w.worked.season.by_degree_days)
    page.text(w.say("uses.by-warmth", {{"setting", "windows = \"degree-days\""}}));
  page.text(w.say("uses.seen"));
}

// Fields that take far more than the usual plan: shown with cans and trips before it is chosen.
void stronger(const PageWords& w, sheet::Page& page) {
  std::vector<std::string> lines;
  for (const season::DoseLine& line : w.worked.doses) {
    if (line.serum_ml < 2 * line.usual_ml) continue;
    const season::Farm& farm = w.worked.farm(line.farm);
    lines.push_back(w.say(
        "uses.strong-line",
        {{"farm", farm.code},
         {"crop", w.words.text("crop." + farm.fields[line.field].planting.crop->id)},
         {"method", w.words.text("method." + line.method)},
         {"serum", w.millilitres(line.serum_ml)},
         {"usual", w.millilitres(line.usual_ml)},
         {"times",
          Decimal{static_cast<double>(line.serum_ml) / static_cast<double>(line.usual_ml), 1}},
         {"mix", Decimal{in_litres(line.mix), 0}},
         {"cans", dosing::trips(line.mix, farm.can,
                                w.worked.session.data.constant("negligible-load").value)}}));
  }
  if (lines.empty()) return;
  page.heading(w.say("uses.strong"));
  page.list(std::move(lines));
}

}  // namespace

sheet::Page uses_page(const PageWords& w) {
  sheet::Page page("uses", w.say("page.uses"));
  page.text(w.say("uses.how", {{"parts", Decimal{w.worked.season.strength_parts, 0}}}));
  Rows rows;
  for (const season::PlannedUse& use : w.worked.plan.uses) {
    if (!use.planned) continue;
    const bool by_area = use.due.hand_out == season::HandOut::volume;
    rows.push_back({use.due.collect_on ? w.words.date(*use.due.collect_on) : "-",
                    w.worked.farm(use.due.farm).code, w.crop_name(use.due.farm, use.due.field),
                    w.words.text("use." + use.due.use.event), w.span(use.due.use.window),
                    by_area ? w.number(in_litres(use.due.mix), 1) : "", serum_cell(w, use)});
  }
  page.table({w.left("col.fetch"), w.right("col.farm"), w.left("col.crop"), w.left("col.use"),
              w.left("col.window"), w.right("col.mix"), w.right("col.serum")},
             rows);
  nothing_to_fetch(w, page);
  const auto& uses = w.worked.plan.uses;
  if (std::any_of(uses.begin(), uses.end(),
                  [](const auto& use) { return use.planned && !use.due.measured; }))
    page.text(
        w.say("uses.assumed",
              {{"rate", w.number(w.worked.session.data.constant("usual-mix-per-acre").value, 0)}}));
  roads(w, page);
  stronger(w, page);
  return page;
}

}  // namespace wheyfield::api
