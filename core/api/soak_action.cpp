// Seed soaked in thin serum: water, serum and hours for one crop and seed mass.
#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/soak.h"

namespace wheyfield::api {
namespace {

using outcome::Problems;
using outcome::Result;
using quantity::in_litres;
using quantity::in_millilitres;
using quantity::rounded;
using words::Decimal;

const Fields soak_fields{"DoseSoak",
                         {{"crop", Holds::text, true},
                          {"mass", Holds::mass, true},
                          {"seed_is", Holds::choice, true, "own|bought|dressed"},
                          {"strength", Holds::strength, true},
                          {"sowing", Holds::choice, false, "direct|nursery|tuber|cutting"},
                          {"farm", Holds::text, false},
                          {"nth", Holds::text, false},
                          {"pages", Holds::flag, false}}};

sheet::Page page_of(const Session& session, const dosing::Soak& soak, double mass, double parts,
                    double taught, bool bought) {
  const words::Catalogue& w = session.words;
  const words::Values values{{"crop", w.text("crop." + soak.row.crop)},
                             {"mass", Decimal{mass, 2}},
                             {"water", Decimal{in_litres(soak.water), 2}},
                             {"serum", Decimal{in_millilitres(soak.serum), 2}},
                             {"parts", Decimal{parts, 1}},
                             {"hours", Decimal{soak.hours, 0}},
                             {"taught", Decimal{taught, 0}},
                             {"own", Decimal{soak.row.hours.value, 0}}};
  sheet::Page page("soak", w.text("dose.soak-title"));
  if (bought) page.caution(w.text("dose.soak-bought"));
  page.text(w.text("dose.soak", values));
  page.text(soak_times_text(session, soak.hours));
  page.text(w.text(soak.crop_is_limit ? "dose.soak-crop-limit" : "dose.soak-taught-limit", values));
  if (soak.or_none) page.text(w.text("dose.soak-or-none", values));
  if (soak.splits) page.caution(w.text("dose.soak-splits"));
  page.text(w.text("dose.soak-then"));
  if (too_strong_for_leaves(session, parts))
    page.text(w.text("dose.soak-strong",
                     {{"limit", session.data.constant("leaf-strength-limit-parts").value}}));
  return page;
}

// As she says, or as the crop is usually started; a crop without a row is refused by its name.
crop::Start start_of(const Session& session, const FieldReader& r) {
  if (const auto said = r.text("sowing")) return *crop::parse_start(*said);
  const crop::Crop* crop = session.crops.find_any(*r.text("crop"));
  if (!crop || crop->starts.empty()) return crop::Start::direct;
  return crop::parse_start(crop->starts.front()).value_or(crop::Start::direct);
}

// What is wrong with crop and seed is told together with what could not be read.
Problems known_crop(const dosing::SoakTable& table, const dosing::SoakRequest& request,
                    const char* start_field) {
  std::vector<std::string> crops;
  for (const dosing::SoakRow& row : table.rows()) crops.push_back(row.crop);
  auto soak = table.soak(request, 1.0);
  if (soak) return {};
  for (outcome::Problem& problem : soak.error())
    if (problem.code == "soak-crop-unknown")
      problem.details["suggestion"] = nearest(request.crop, crops);
    else if (problem.code == "soak-not-seed" && start_field == std::string_view("/crop"))
      problem.value = request.crop;
  return renamed(soak.error(), {{"/seed", "/seed_is"}, {"/start", start_field}});
}

}  // namespace

const Fields& dose_soak_fields() { return soak_fields; }

Result<Answer> dose_soak(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, soak_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const auto table = dosing::SoakTable::parse(session.data);
  if (!table) return outcome::failure(table.error());
  const auto mass = r.mass("mass");
  if (mass)
    r.refuse_outside(session.data.constant("seed-mass-limits"), "seed-mass-out-of-range", "mass",
                     quantity::in_kilograms(*mass));
  const auto parts = r.strength("strength");
  const dosing::SoakRequest request{*r.text("crop"), start_of(session, r),
                                    *crop::parse_seed(*r.text("seed_is")),
                                    mass.value_or(quantity::kilograms(1)), parts.value_or(2.0)};
  outcome::append(problems, known_crop(*table, request, r.given("sowing") ? "/sowing" : "/crop"));
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const double taught = noted(session, "soak-most-hours", "longest soak", answer).value;
  const auto soak = table->soak(request, taught);
  if (!soak) return outcome::failure(soak.error());
  answer.used.note(soak->row.hours.origin, "longest soak");
  answer.used.note(soak->row.water.origin, "soaking water");
  for (const char* id : {"soak-morning-up-to", "soak-morning-in", "soak-evening-out"})
    noted(session, id, "hours of the day", answer);
  question_strength(session, *parts, *r.text("strength"), answer);
  const dosing::SoakTimes times = soak_times(session, soak->hours);
  answer.fields = {{"crop", request.crop},
                   {"mass_kg", rounded(quantity::in_kilograms(request.mass), 6)},
                   {"strength", {{"parts", *parts}}},
                   {"hours_at_most", soak->hours},
                   {"put_in", times.morning ? "morning-of-sowing" : "evening-before"},
                   {"in_hour", times.in},
                   {"out_hour", times.out},
                   {"taught_hours", taught},
                   {"crop_hours", soak->row.hours.value},
                   {"or_none", soak->or_none},
                   {"seed_splits", soak->splits},
                   {"water_l", rounded(in_litres(soak->water), 6)},
                   {"serum_ml", rounded(in_millilitres(soak->serum), 6)}};
  add_cautions(session, {"dressed-seed-never", "soaked-seed-not-food", "fresh-same-day"}, answer);
  if (r.flag("pages"))
    add_page(session,
             page_of(session, *soak, quantity::in_kilograms(request.mass), *parts, taught,
                     request.seed == crop::Seed::bought),
             answer);
  return answer;
}

}  // namespace wheyfield::api
