// The first day to pick after a use, and where on the crop a use may still go.
#include "api/dose_answer.h"
#include "api/dose_fields.h"
#include "api/field_reader.h"
#include "dosing/harvest.h"

namespace wheyfield::api {
namespace {

using dosing::GrowthStage;
using dosing::Placement;
using outcome::Problems;
using outcome::Result;

const Fields harvest_fields{
    "DoseHarvest",
    {{"crop", Holds::text, true},
     {"last_use", Holds::date, true},
     {"stage", Holds::choice, true, "before-flowering|from-flowering|after-first-picking"},
     {"method", Holds::choice, true, "knapsack|leafy-branch|can|round-stem"},
     {"on", Holds::choice, true, "leaves|soil"},
     {"strength", Holds::strength, true},
     {"eaten", Holds::choice, false, "raw|cooked"},
     {"farm", Holds::text, false},
     {"nth", Holds::text, false},
     {"pages", Holds::flag, false}}};

GrowthStage stage_of(const std::string& word) {
  if (word == "before-flowering") return GrowthStage::before_flowering;
  return word == "from-flowering" ? GrowthStage::from_flowering : GrowthStage::after_first_picking;
}

// Why this place is closed to this method, or nothing.
Problems judge_place(const dosing::Placements& places, Placement placement,
                     const std::string& method) {
  if (places.allows(placement)) return {};
  const bool leaves = placement == Placement::leaves;
  if (leaves && !places.closed.empty()) return {{places.closed, "/on", "leaves", {}}};
  return {{"place-out-of-reach", "/on", leaves ? "leaves" : "soil", {{"method", method}}}};
}

struct AskedHarvest {
  const crop::Crop* crop = nullptr;
  calendar::Date last_use;
  Placement placement = Placement::leaves;
  bool raw = false;
  double parts = 0.0;
};

sheet::Page page_of(const Session& session, const AskedHarvest& a, const dosing::Placements& places,
                    std::optional<calendar::Date> first, int manure_days) {
  const words::Catalogue& w = session.words;
  const bool leaves = a.placement == Placement::leaves;
  const int days = first ? *first - a.last_use : manure_days;
  const words::Values values{{"crop", w.text("crop." + a.crop->id)},
                             {"last", a.last_use},
                             {"first", w.long_date(a.last_use + days)},
                             {"n", days}};
  sheet::Page page("harvest", w.text("dose.harvest-title"));
  page.text(w.text(!first   ? "dose.harvest-ground"
                   : leaves ? "dose.harvest-leaves"
                            : "dose.harvest-soil",
                   values));
  page.text(w.text(a.raw ? "dose.eaten-raw" : "dose.eaten-cooked", values));
  if (!places.closed.empty()) page.text(w.text("problem." + places.closed));
  page.caution(w.text("dose.harvest-judgement"));
  if (a.raw) page.caution(w.text(leaves ? "dose.raw-rinse" : "dose.raw-on-soil"));
  caution_leaves(session, a.parts, page);
  return page;
}

void refuse_crop(const Session& session, const FieldReader& r) {
  std::vector<std::string> known = session.crops.ids();
  for (const crop::Crop& crop : session.crops.rowless()) known.push_back(crop.id);
  r.add("crop-unknown", "crop", *r.text("crop"), {{"suggestion", nearest(*r.text("crop"), known)}});
}

}  // namespace

const Fields& dose_harvest_fields() { return harvest_fields; }

Result<Answer> dose_harvest(const Session& session, const nlohmann::json& body) {
  Answer answer;
  Problems problems = check_shape(body, harvest_fields, "");
  const FieldReader r(body, "", session.data.units(), problems);
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  AskedHarvest a;
  a.crop = session.crops.find_any(*r.text("crop"));
  if (!a.crop) refuse_crop(session, r);
  a.last_use = r.date("last_use").value_or(session.today);
  a.placement = *r.text("on") == "leaves" ? Placement::leaves : Placement::soil_at_stem;
  a.raw = r.given("eaten") ? *r.text("eaten") == "raw" : a.crop && a.crop->eaten_raw;
  a.parts = r.strength("strength").value_or(0.0);
  const std::string method = *r.text("method");
  const auto places = dosing::placements(stage_of(*r.text("stage")), a.raw, method);
  if (!places) return outcome::failure(places.error());
  outcome::append(problems, judge_place(*places, a.placement, method));
  const double strongest = noted(session, "leaf-strength-limit-parts", "strength", answer).value;
  if (a.parts > 0.0) {
    auto strength = dosing::leaf_strength(a.parts, a.placement, strongest);
    if (!strength) {
      strength.error()[0].value = *r.text("strength");
      outcome::append(problems, strength.error());
    }
  }
  if (outcome::has_errors(problems)) return outcome::failure(problems);
  const bool leaves = a.placement == Placement::leaves;
  const auto first = dosing::earliest_harvest(a.last_use, a.placement, a.raw,
                                              dosing::touches_soil(a.crop->harvested),
                                              dosing::harvest_rule(session.data));
  noted(session,
        !first   ? "raw-manure-soil-days"
        : leaves ? (a.raw ? "raw-eaten-gap-days" : "cooked-gap-days")
                 : "soil-gap-days",
        first ? "harvest" : "rule for raw manure", answer);
  const int manure_days = static_cast<int>(session.data.constant("raw-manure-soil-days").value);
  if (!first)
    answer.problems.push_back({"ground-eaten-raw",
                               "/on",
                               "soil",
                               {{"days", std::to_string(manure_days)}},
                               outcome::Severity::notice});
  if (!leaves) judge_strength(session, a.parts, *r.text("strength"), answer);
  if (places->judgement)
    answer.used.note(session.data.cautions().at("leaves-eaten-raw").origin, "placement");
  answer.fields = {{"crop", a.crop->id},
                   {"eaten", a.raw ? "raw" : "cooked"},
                   {"on", leaves ? "leaves" : "soil"},
                   {"strength", {{"parts", a.parts}}},
                   {"last_use", a.last_use.iso()},
                   {"wait_days", first ? Json(*first - a.last_use) : Json(nullptr)},
                   {"earliest_harvest", first ? Json(first->iso()) : Json(nullptr)},
                   {"raw_manure_days", first ? Json(nullptr) : Json(manure_days)},
                   {"leaves_closed", places->closed.empty() ? Json(nullptr) : Json(places->closed)},
                   {"judgement", true}};
  if (a.raw)
    add_cautions(session, {"leaves-eaten-raw", "fresh-same-day", "wear", "local-rules"}, answer);
  else
    add_cautions(session, {"fresh-same-day", "wear", "local-rules"}, answer);
  if (r.flag("pages")) add_page(session, page_of(session, a, *places, first, manure_days), answer);
  return answer;
}

}  // namespace wheyfield::api
